"""Vegetables that are blanched and frozen in; the published minutes of each, and their words, out."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.compute.safety.facts.altitude import feet
from generator.compute.safety.facts.gather import Facts
from generator.model.quantity import Span
from generator.model.recipe import Ingredient, Stage
from generator.model.shown import show_decimal
from generator.tables import Tables
from generator.tables.garden import Blanching, spaced

HIGH_FT = Fraction(5000)
MORE_MIN = Fraction(1)
"Source: above 5,000 ft blanch 1 minute longer, extension advice (second-hand)."
SURE = "seen"
SIZES = {
    "sliced": ("coins", "slices", "batons"),
    "diced": ("dice", "cubes"),
    "cubed": ("cubes", "diced", "chunks"),
}
"Words of a preparation that mean a size of the table. Source: house choice."


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """Published minutes of one vegetable of a recipe."""

    line: Ingredient
    rows: tuple[Blanching, ...]
    minutes: Span | None
    "None: not blanched but cooked. A range where one size is not told."


def minutes_told(one: Asked) -> str:
    """`collards 3 min`, softer where the figure was not seen at its source."""
    row = one.rows[0]
    if one.minutes is None:
        return f"{row.vegetable} is {row.says}"
    soft = "" if all(one.certainty == SURE for one in one.rows) else " by common advice"
    way = " in steam" if row.way == "steam" else ""
    says = f" ({row.says})" if row.says and row.says != "all other greens" else ""
    return f"{row.vegetable}{' ' + row.size if len(one.rows) == 1 and row.size else ''} " + (
        f"{length_words(one.minutes)}{way}{soft}{says}"
    )


def asked_of(facts: Facts, tables: Tables) -> list[Asked]:
    """Every vegetable of the table in the recipe's own lines."""
    found = []
    for line in facts.recipe.ingredients:
        rows = tables.garden.blanched(line.name) if line.link is None else ()
        if rows:
            found.append(_asked(line, rows, facts))
    return found


def _asked(line: Ingredient, rows: tuple[Blanching, ...], facts: Facts) -> Asked:
    """The rows of the sizes that the line tells; all of them where it tells none."""
    words = set(spaced(f"{line.name} {line.preparation}").split())
    sized = tuple(row for row in rows if words.intersection((row.size, *SIZES.get(row.size, ()))))
    rows = sized or rows
    if any(row.low_min is None for row in rows):
        return Asked(line=line, rows=rows, minutes=None)
    low = min(row.low_min for row in rows if row.low_min is not None)
    high = max(row.high_min for row in rows if row.high_min is not None)
    altitude_m = facts.config.altitude_m
    more = MORE_MIN if altitude_m is not None and feet(altitude_m) > HIGH_FT else Fraction(0)
    return Asked(line=line, rows=rows, minutes=Span(low + more, high + more))


def blanched(facts: Facts) -> tuple[int, Stage] | None:
    """The first blanching of a recipe that freezes what it blanches."""
    stages = facts.recipe.stages
    kept = any(keep.place == "freezer" for keep in facts.recipe.keep)
    for index, stage in enumerate(stages):
        if stage.name == "blanch" and (kept or any(later.name == "freeze" for later in stages[index:])):
            return index, stage
    return None


def length_words(minutes: Span) -> str:
    """`3 min`, `3 to 5 min`."""
    low = show_decimal(minutes.low, places=1)
    return f"{low} min" if not minutes.is_range else f"{low} to {show_decimal(minutes.high, places=1)} min"
