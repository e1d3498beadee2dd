"""Makings in; what is bigger than the largest pot and goes in by rounds, as notes on a stage, out."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from generator.compute.gathering.kit import in_pot
from generator.compute.gathering.laid import Given
from generator.model.quantity import Dimension, Span
from generator.model.results import ComputedLine
from generator.tables import Tables


def round_notes(given: Given) -> dict[tuple[str, int], str]:
    """By slug and index of the first stage in a pot."""
    pots = given.book.config.capacity.pots_ml
    if not pots:
        return {}
    notes = {}
    for slug in given.order:
        stages = given.book.recipes[slug].stages
        first = next((index for index, stage in enumerate(stages) if in_pot(stage)), None)
        said = [*_greens(given, slug, max(pots)), *_liquid(given, slug, max(pots))]
        if first is not None and said:
            notes[slug, first] = "; ".join(said)
    return notes


def _greens(given: Given, slug: str, pot_ml: Fraction) -> list[str]:
    """Raw leaves by weight, as a mound."""
    tables, said = given.kitchen.tables, []
    for line in given.made[slug].recipe.lines:
        leaf = tables.garden.says(line.ingredient.name, "greens")
        if not leaf or line.grams is None or line.ingredient.link is not None:
            continue
        bulk = _grams_per_ml(line, leaf, tables)
        shown = _shown(given, line.grams.high, "ingredient weight")
        if bulk is None:
            said.append(f"{shown} of {leaf}: how much room they take is not known; add them as they wilt")
        elif line.grams.high > bulk * pot_ml:
            rounds = ceil(line.grams.high / bulk / pot_ml)
            said.append(
                f"{shown} of {leaf} are wilted in {rounds} rounds: raw they fill about "
                f"{_shown(given, line.grams.high / bulk, 'ingredient volume')}, and the largest pot holds "
                f"{_shown(given, pot_ml, 'ingredient volume')}"
            )
    return said


def _grams_per_ml(line: ComputedLine, leaf: str, tables: Tables) -> Fraction | None:
    """A published weight per measure of the raw leaves, chopped where there is one."""
    name = line.ingredient.name
    for called in (f"chopped {leaf}", f"raw {leaf}", f"chopped {name}", f"raw {name}"):
        for row in tables.food(called):
            if tables.units[row.unit].dimension is Dimension.VOLUME:
                return row.grams / tables.units[row.unit].factor
    return None


def _liquid(given: Given, slug: str, pot_ml: Fraction) -> list[str]:
    """What a recipe makes by volume."""
    makes = given.made[slug].recipe.makes
    made = makes.total(Dimension.VOLUME) if makes is not None else None
    if made is None or made.high <= pot_ml:
        return []
    return [
        f"{_shown(given, made.high, 'ingredient volume')} in {ceil(made.high / pot_ml)} rounds or pots: the largest "
        f"holds {_shown(given, pot_ml, 'ingredient volume')}"
    ]


def _shown(given: Given, amount: Fraction, use: str) -> str:
    return given.kitchen.shower.base(Span.of(amount), use=use, system=given.book.config.units)
