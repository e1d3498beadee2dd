"""Vegetables in vinegar in; the acid that keeps them, or a refusal, out."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.acid import Sour, low_acid_lines
from generator.compute.safety.facts.jar import jar_of
from generator.compute.safety.facts.sour import is_kept, lines_with
from generator.model.quantity import Dimension, Span
from generator.model.recipe import Ingredient, Recipe
from generator.model.shown import show_decimal
from generator.tables.garden import spaced

ACID = "pickle-acid"

ACID_PERCENT = Fraction(5)
"Source: North Dakota State University Extension: vinegar of 5 % acidity; 4 % is not for preserving."
_RANGE = r"(?<![0-9])([0-9]+(?:[.,][0-9]+)?)(?: ?%?(?: ?[-–] ?| to )[0-9]+(?:[.,][0-9]+)?)?"
"A number, or the low end of a range of two."
_PERCENT = re.compile(_RANGE + r" ?(?:%|per ?cent)")
_GRAIN = re.compile(_RANGE + r"[ -]grain")
GRAIN_PER_PERCENT = Fraction(10)
"Source: 50 grain is 5 %, North Dakota State University Extension."

FRESH_PACK_WATER = Fraction(4, 3)
"Source: USDA Guide 6, quick fresh-pack dill pickles, from memory: 2 qt of water to 1 1/2 qt of vinegar."
FRESH_PACK_ML_G = Fraction(1419, 3629)
"[mL/g] Source: as above: 1 1/2 qt of vinegar to 8 lb of cucumbers."
CUCUMBERS = frozenset({"cucumber", "cucumbers"})


def pickle_acid(case: Case) -> None:
    """Met: vinegar of at least 5 %. Not met: weaker. Cannot be told: no strength, or no vinegar, is written."""
    index, is_named = _pickled(case)
    if index is None or not is_kept(case.stages[index], case.recipe):
        return
    vinegars = lines_with(case.recipe, ("vinegar",))
    told = [(line, found) for line in vinegars if (found := strength(line)) is not None]
    weak = next(((line, percent) for line, percent in told if percent < ACID_PERCENT), None)
    untold = _untold(case, vinegars)
    if weak is not None:
        _refuse_weak(case, index, *weak)
    elif untold:
        case.cannot_tell(ACID, untold, ("ingredients",), *vinegars, stage=index)
    elif is_named:
        case.box(ACID, f"{vinegars[0].name} of {ACID_PERCENT} % or more", *vinegars, stage=index)


def _pickled(case: Case) -> tuple[int | None, bool]:
    """The stage `pickle`; else the jar of vegetables that vinegar keeps, by its measures. Met, it needs no box."""
    index = case.facts.first_stage("pickle")
    if index is not None:
        return index, True
    jar = jar_of(case.facts, case.tables)
    if jar is None or jar.sour is Sour.NO or not lines_with(case.recipe, ("vinegar",)):
        return None, False
    return (jar.index if low_acid_lines(case.recipe, case.tables) else None), False


def _refuse_weak(case: Case, index: int, line: Ingredient, percent: Fraction) -> None:
    shown = f"{show_decimal(percent, places=1)} %"
    case.refuse(
        ACID,
        line,
        message=f"'{line.name}' has {shown} acid; pickles are kept by vinegar of {ACID_PERCENT} %.",
        hint=f"Use vinegar marked {ACID_PERCENT} % and write it: 3 cups cider vinegar, 5 %.",
        because=f"{line.name} has {shown} acid",
        stage=index,
    )


def _untold(case: Case, vinegars: Sequence[Ingredient]) -> str:
    """Why the acid cannot be told; empty where it can."""
    unknown = next((line for line in vinegars if strength(line) is None), None)
    if not vinegars:
        return "no vinegar is named, and what makes it sour is not told"
    if unknown is not None:
        return f"the strength of {unknown.name} is not told; {ACID_PERCENT} % is needed"
    if _is_thinned(vinegars, case.recipe) and not _is_fresh_pack(case, vinegars):
        return (
            f"there is more water than {vinegars[0].name}, and no tested proportion of so much is known here"
        )
    return ""


def _is_thinned(vinegars: Sequence[Ingredient], recipe: Recipe) -> bool:
    """More water than vinegar (house choice: beyond equal parts it is not called met); 1 g counts as 1 mL in both."""
    waters = [line for line in recipe.ingredients if spaced(line.name).split()[-1:] == ["water"]]
    # The most water against the least vinegar: of a range the end that thins.
    return _most_ml(waters) > _least_ml(vinegars)


def _is_fresh_pack(case: Case, vinegars: Sequence[Ingredient]) -> bool:
    """Cucumbers alone, with as much vinegar and as little water as the tested fresh pack has."""
    waters = [line for line in case.recipe.ingredients if spaced(line.name).split()[-1:] == ["water"]]
    low, vinegar_ml = low_acid_lines(case.recipe, case.tables), _least_ml(vinegars)
    weights = [line.quantity.total(Dimension.WEIGHT) if line.quantity is not None else None for line in low]
    if not low or any(CUCUMBERS.isdisjoint(spaced(line.name).split()) for line in low):
        return False
    cucumbers_g = sum((weight.high for weight in weights if weight is not None), Fraction(0))
    enough = vinegar_ml >= FRESH_PACK_ML_G * cucumbers_g and _most_ml(waters) <= FRESH_PACK_WATER * vinegar_ml
    return enough and None not in weights


def _most_ml(lines: Sequence[Ingredient]) -> Fraction:
    return sum(
        (max((one.high for one in _volumes(line)), default=Fraction(0)) for line in lines), Fraction(0)
    )


def _least_ml(lines: Sequence[Ingredient]) -> Fraction:
    return sum((min((one.low for one in _volumes(line)), default=Fraction(0)) for line in lines), Fraction(0))


def _volumes(line: Ingredient) -> list[Span]:
    """The amount of a line by volume or by weight; none where it is not told."""
    if line.quantity is None:
        return []
    found = (line.quantity.total(kind) for kind in (Dimension.VOLUME, Dimension.WEIGHT))
    return [one for one in found if one is not None]


def strength(line: Ingredient) -> Fraction | None:
    """Per cent of acid by what the line says: 5 %, 50 grain; of a range the low end."""
    words = f"{line.name}, {line.preparation}".lower()
    percent, grain = _PERCENT.search(words), _GRAIN.search(words)
    if percent:
        return Fraction(percent.group(1).replace(",", "."))
    return Fraction(grain.group(1).replace(",", ".")) / GRAIN_PER_PERCENT if grain else None


RULES = (Rule(slugs=(ACID,), look=pickle_acid),)
