"""A recipe and its cure in, the cure with its reach out; where something was not told, a line that names it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from fractions import Fraction

from generator.compute.meat.cured import days_in_cure, was_frozen
from generator.compute.meat.cut import is_mixed_through
from generator.compute.reach.estimate import PieceInCure, work_out_reach
from generator.model.recipe import Meat, Recipe
from generator.model.results import CureResult
from generator.model.shown import Shower
from generator.problems import OutOfRange
from generator.tables import Tables

SKINNED = frozenset({"deer family", "other game", "small game", "bear"})
"Animal groups whose skin comes off with the hide. Source: common practice, no source."
FIRST_EIGENVALUES = {"slab": Fraction("2.467"), "round": Fraction("5.783"), "lump": Fraction("9.870")}
"""The first eigenvalue squared of a slab, a cylinder and a sphere, by half the thickness.
Source: Crank 1975, The Mathematics of Diffusion, chapters 4 to 6: (pi/2)^2, 2.4048^2, pi^2."""
MEASURED_OTHERWISE = frozenset({"fish", "shellfish"})
"""Groups without an estimate. Source: J. Cookery Science Japan 25(4):283, 1992: salt in fillets of fish moves at 1e-11
to 1e-10 m2/s, no faster than the slow case of transfer.csv, which is of meat."""


def add_recipe_reach(
    cure: CureResult, recipe: Recipe, tables: Tables, shower: Shower, system: str
) -> tuple[CureResult, str]:
    """The cure of a recipe with its reach, and a fact line that says why there is none."""
    if cure.weigh is None or is_mixed_through(recipe):
        return cure, ""  # refused, which its problems say; or mixed through
    if is_measured_otherwise(recipe, tables):
        return (
            cure,
            "How far the salt has reached is not estimated: the measurements behind it are of meat, not of fish.",
        )
    piece = piece_of(recipe, tables)
    if piece is None:
        return cure, f"How far the salt has reached cannot be told without {_missing(recipe)}."
    try:
        return replace(cure, reach=work_out_reach(cure, piece, tables, shower, system)), ""
    except OutOfRange as error:
        return cure, f"How far the salt has reached is not estimated: {error}."


def is_measured_otherwise(recipe: Recipe, tables: Tables) -> bool:
    """True where one of its meats is a fish."""
    animals = (tables.animal(meat.animal) for meat in recipe.meats)
    return any(animal is not None and animal.group in MEASURED_OTHERWISE for animal in animals)


def slowest_meat(recipe: Recipe) -> Meat | None:
    """Of several meats the one whose middle is reached last; None where of one it cannot be told.

    Of one shape that is the thickest. A slab is slower than a shank as thick: the square of the thickness counts,
    over the shape's first eigenvalue.
    """
    whole = [meat for meat in recipe.meats if meat.form != "ground"]
    if not whole or any(meat.thickest_mm is None or meat.shape is None for meat in whole):
        return None
    return max(whole, key=lambda meat: (meat.thickest_mm or 0) ** 2 / FIRST_EIGENVALUES[meat.shape or "slab"])


def piece_of(recipe: Recipe, tables: Tables) -> PieceInCure | None:
    """What a recipe says of its slowest piece and its days; None where thickness, shape or days are not told.

    Of a range of days the shorter end is taken, of a thickness the thicker, of a temperature the colder: what is said
    of the middle must hold for the slowest piece that follows the recipe. What closes one of several meats off is
    taken of all.
    """
    meat, days = slowest_meat(recipe), days_in_cure(recipe)
    if meat is None or meat.shape is None or meat.thickest_mm is None or days is None:
        return None
    colds = [stage.at.low for stage in recipe.stages if stage.name == "cure" and stage.at is not None]
    return PieceInCure(
        thickness_mm=meat.thickest_mm,
        shape=meat.shape,
        days=days.low,
        temperature=min(colds, key=lambda cold: cold.celsius) if colds else None,
        bone_in=_any(_is(one.bone, "in") for one in recipe.meats),
        skin_on=_any(_skin_on(one, tables) for one in recipe.meats),
        silverskin_on=_any(_is(one.silverskin, "on") for one in recipe.meats),
        frozen_before=was_frozen(recipe),
    )


def _skin_on(meat: Meat, tables: Tables) -> bool | None:
    animal, skin = tables.animal(meat.animal), _is(meat.skin, "on")
    skinned = animal is not None and animal.group in SKINNED and "belly" not in meat.cut.lower()
    return False if skin is None and skinned else skin


def _any(told: Iterable[bool | None]) -> bool | None:
    """True where it is so of one; None where it may be."""
    found = set(told)
    return True if True in found else None if None in found else False


def _is(word: str | None, yes: str) -> bool | None:
    return None if word is None else word == yes


def _missing(recipe: Recipe) -> str:
    """The keys of the front matter that an estimate needs and that are not there."""
    whole = [meat for meat in recipe.meats if meat.form != "ground"]
    needs = [
        (
            f"'thickness' of {_of(whole, lambda meat: meat.thickest_mm)}",
            _all(whole, lambda meat: meat.thickest_mm),
        ),
        (f"'shape' of {_of(whole, lambda meat: meat.shape)}", _all(whole, lambda meat: meat.shape)),
        ("the length of the cure in 'course'", days_in_cure(recipe) is not None),
    ]
    return " and ".join(name for name, found in needs if not found)


def _all(meats: list[Meat], told: Callable[[Meat], object]) -> bool:
    return bool(meats) and all(told(meat) is not None for meat in meats)


def _of(meats: list[Meat], told: Callable[[Meat], object]) -> str:
    """Of several meats those of which it is not told."""
    return " and ".join(meat.name for meat in meats if told(meat) is None) if len(meats) > 1 else "the meat"
