"""A cured making in, what its cure puts on the scale out: salt, sugar, curing salts, in the grams that its page shows."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from generator.compute.gathering.amounts import Amount, weighed
from generator.compute.gathering.food_names import food_of
from generator.compute.recipe import Kitchen
from generator.model.contract import Text, Weight
from generator.model.plan import Making
from generator.model.quantity import Span
from generator.model.reader import Reader
from generator.model.recipe import Cure, CureLine
from generator.model.results import CureResult
from generator.tables import Tables

CURING = "curing"
"Begins the key of what is listed to the gram: curing salts, nitrate, accelerators."
FOR_CURE = "cure "
"Begins the key of the salt and the sugar of a cure."
NO_WEIGHTS = "weight not known"


@dataclass(frozen=True, slots=True, kw_only=True)
class OnShelf:
    """One thing that a cure takes."""

    food: str
    "What it is merged by."
    name: str
    amount: Amount
    note: str = ""


def of_cure(making: Making, kitchen: Kitchen) -> Iterator[OnShelf]:
    """What the cover or the rub takes, then what a brine mixed apart for the needle takes. Water is not listed."""
    cure, result = making.recipe.recipe.cure, making.recipe.cure
    if cure is None or result is None:
        return
    cover, needle = _cover_grams(result, kitchen), _needle_grams(result, kitchen)
    parts = (*_of_cover(cure, result, kitchen.tables), *_of_needle(cure, result, kitchen.tables))
    for key, food, name in parts:
        if result.weigh is None:
            note = f"{making.recipe.recipe.name} has no cure weights: see its problems."
            yield OnShelf(food=food, name=name, amount=Amount(vague=(NO_WEIGHTS,)), note=note)
            continue
        grams = {**cover, **needle}.get(key, Fraction(0))
        if grams:
            yield OnShelf(food=food, name=name, amount=weighed(Span.of(grams)))


def _of_cover(cure: Cure, result: CureResult, tables: Tables) -> Iterator[tuple[str, str, str]]:
    """Key of the weight, key of the food, name."""
    if cure.salt is not None:
        yield "salt", *_named(cure.salt, "salt", tables)
    if cure.sugar is not None:
        yield "sugar", *_named(cure.sugar, "sugar", tables)
    if cure.curing_salt is not None:
        yield "curing_salt", f"{CURING} {result.kind.key}", result.kind.title
    if cure.nitrate is not None:
        yield "nitrate", f"{CURING} {cure.nitrate_kind}", cure.nitrate_kind
    if cure.accelerator is not None:
        name = cure.accelerator.name or "accelerator"
        yield "accelerator", f"{CURING} {name.lower()}", name


def _of_needle(cure: Cure, result: CureResult, tables: Tables) -> Iterator[tuple[str, str, str]]:
    brine, mixed = cure.pump_brine, result.pump_brine
    if brine is None:
        return
    if brine.salt is not None:
        yield "needle salt", *_named(brine.salt, "salt", tables)
    if brine.sugar is not None:
        yield "needle sugar", *_named(brine.sugar, "sugar", tables)
    if brine.curing_salt is not None:
        kind = result.kind if mixed is None else mixed.kind
        yield "needle curing_salt", f"{CURING} {kind.key}", kind.title


def _named(line: CureLine, plain: str, tables: Tables) -> tuple[str, str]:
    """Salt of a cure is listed apart from that of the kitchen: by weight any pure one will do."""
    name = line.name or plain
    return f"{FOR_CURE}{food_of(name, tables)}", name


def _cover_grams(result: CureResult, kitchen: Kitchen) -> dict[str, Fraction]:
    """The strings of the page as numbers: each weight rounded by its own row, once."""
    if result.contract is None or result.setting is None:
        return {}
    reader = Reader(setting=result.setting, shower=kitchen.shower)
    return {key: _read(text, reader) for key, text in result.contract.shown.items() if text}


def _read(text: Text, reader: Reader) -> Fraction:
    weights = (part for part in text if isinstance(part, Weight))
    return sum(
        (reader.shower.rounded(reader.value(one.value), use=one.use, system="metric") for one in weights),
        Fraction(0),
    )


def _needle_grams(result: CureResult, kitchen: Kitchen) -> dict[str, Fraction]:
    mixed = result.pump_brine
    if mixed is None:
        return {}
    parts = (
        ("needle salt", mixed.salt_g, "cure weight"),
        ("needle sugar", mixed.sugar_g, "cure weight"),
        ("needle curing_salt", mixed.curing_salt_g, "curing salt"),
    )
    return {
        key: kitchen.shower.rounded(grams, use=use, system="metric") for key, grams, use in parts if grams
    }
