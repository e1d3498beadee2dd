"""Amounts of a cure as written in, grams out: through the crystal of the salt, at the heaviest of a spoon."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from functools import cache

from generator.compute.transfer import Parameters, parameters_from
from generator.compute.weight.measures import OWN_WEIGHING, weigh_measures
from generator.model.book import HouseWeight
from generator.model.published import CuringSalt
from generator.model.quantity import TO_MAKE, Dimension, Measure, Quantity, Span
from generator.model.recipe import CureLine
from generator.model.rounding import round_down, round_up
from generator.model.shown import show_decimal
from generator.problems import Position, ProblemLog
from generator.tables import Tables

USUAL = {"sugar": "granulated sugar"}
"What a line is where its kind is not written behind the amount."
SOLID_NITRATE_G_ML = {
    "potassium nitrate": Fraction("2.11"),
    "sodium nitrate": Fraction("2.26"),
    "": Fraction("2.26"),
}
"[g/ml] Source: densities of the crystals, CRC Handbook, from memory. No spoon of it holds more; unnamed is the denser."
LOOSEST_SHARE = Fraction("0.26")
"[1] Source: judgement: as hollow-flake salt lies, the loosest published (134 g in 236.6 ml of crystals of 2.165 g/ml)."
FINE_BELOW_G = Fraction(100)
"Source: house choice: a weight below this is written to 0.1 g."


@dataclass(frozen=True, slots=True, kw_only=True)
class Scales:
    """What turns measures into grams: the published tables, and the weighings of the house before them."""

    tables: Tables
    house: tuple[HouseWeight, ...] = ()

    @property
    def transfer(self) -> Parameters:
        """How salt and nitrite move in meat."""
        return transfer_parameters(self.tables)

    def house_grams(self, name: str, unit_key: str) -> Fraction | None:
        """Grams of one measure of a food as the author weighed it."""
        for weight in self.house:
            if weight.name.lower() == name.lower() and weight.unit == unit_key:
                return weight.grams
        return None


@cache
def transfer_parameters(tables: Tables) -> Parameters:
    """The parameters of the transfer estimate, from the rows of its table."""
    return parameters_from(tables.transfer)


def water_g(water: Quantity, log: ProblemLog, position: Position | None = None) -> Fraction | None:
    """Water [g]: 1 g per mL; ice only by weight, because a cup of ice holds an unknown lot of air.

    None where the volume of the finished brine is told instead.
    """
    if to_make_ml(water) is not None:
        return None
    total = Fraction(0)
    for measure in water.measures:
        kind = measure.unit.dimension
        if kind is Dimension.WEIGHT or (kind is Dimension.VOLUME and measure.state != "ice"):
            total += measure.base.high
        else:
            log.add(
                "wrong-dimension",
                position,
                f"'{water.written}': {measure.state or 'this'} cannot be weighed from what is written.",
                "Weigh the ice and write its weight: 1 lb ice.",
            )
            return None
    return total


def to_make_ml(water: Quantity) -> Fraction | None:
    """The volume of the finished brine [mL], where that is told instead of its water."""
    if not any(measure.state == TO_MAKE for measure in water.measures):
        return None
    volume = water.total(Dimension.VOLUME)
    return None if volume is None else volume.high


def has_unmeasured_ice(water: Quantity) -> bool:
    """True where ice is thrown in without its weight."""
    return any(measure.state == "ice" and measure.span.high == 0 for measure in water.measures)


def plain_grams(line: CureLine, key: str, scales: Scales, log: ProblemLog) -> Span | None:
    """Salt, sugar or another part of a cure [g]: a weight as it is, a volume through all that it can weigh."""
    grams = line_grams(line, key, scales)
    if grams is None:
        log.add(
            "wrong-dimension", line.position, f"'{line.written}' cannot be turned into a weight.", "Weigh it."
        )
    elif grams.is_range:
        _tell_range(line, key, grams, log)
    return grams


def line_grams(line: CureLine, key: str, scales: Scales) -> Span | None:
    """The weight of an amount [g], a range where a cup of it has no one weight; None where it is not known.

    The author's own weighing goes before every published one.
    """
    assert line.amount is not None
    weight, tables = line.amount.total(Dimension.WEIGHT), scales.tables
    if weight is not None:
        return Span.of(weight.high)
    name = USUAL.get(key, key) if line.name.lower() in ("", key) else line.name
    found = weigh_measures(line.amount, name, tables, scales.house)
    if found is not None and found.source == OWN_WEIGHING:
        return Span.of(found.grams.high)
    if tables.is_bare_salt(name):
        return tables.salt_grams(line.amount, name)
    ends = [weigh_measures(line.amount, food, tables) for food in tables.loose_or_packed(name)]
    if ends:
        loose, packed = (end.grams for end in ends if end is not None)
        return Span(loose.low, packed.high)
    return None if found is None else Span.of(found.grams.high)


def nitrate_grams(line: CureLine, kind: CuringSalt | None, log: ProblemLog) -> Span | None:
    """Nitrate [g] from an amount; of a spoon no more than the solid crystal, no less than the loosest salt lies.

    Nobody has published what a spoon of it weighs. Solid crystal is the most that there can be in it.
    """
    assert line.amount is not None
    weight, volume = line.amount.total(Dimension.WEIGHT), line.amount.total(Dimension.VOLUME)
    if weight is not None:
        return Span.of(weight.high)
    if volume is None:
        log.add(
            "wrong-dimension", line.position, f"'{line.written}' cannot be turned into a weight.", "Weigh it."
        )
        return None
    solid = SOLID_NITRATE_G_ML[kind.key if kind else ""]
    grams = Span(volume.low * solid * LOOSEST_SHARE, volume.high * solid)
    _tell_range(line, "nitrate", grams, log)
    return grams


def _tell_range(line: CureLine, key: str, grams: Span, log: ProblemLog) -> None:
    """What it can weigh, and the lines to write once it stands on a scale."""
    low, high = written_grams(round_down, grams.low), written_grams(round_up, grams.high)
    kind = f" {line.name}" if key == "nitrate" else ""
    log.add(
        "cure-by-volume",
        line.position,
        f"'{line.written}'{'' if line.name else f' of {key}'} can weigh {low} to {high}: the figures are ranges, "
        "and each limit is judged at the end that matters.",
        "Weigh it once and write the grams that the scale shows, "
        f"between `{key}: {low}{kind}` and `{key}: {high}{kind}`.",
    )


def open_weight(line: CureLine, key: str, grams: Span) -> tuple[str, str]:
    """Sentence and hint for a cup where only a weight will do: a pump brine is in the meat at once."""
    low, high = written_grams(round_down, grams.low), written_grams(round_up, grams.high)
    message = f"'{line.written}' could weigh {low} to {high}, and what goes in by the needle must be known."
    return message, f"Weigh it and write the grams, between `{key}: {low}` and `{key}: {high}`."


def written_grams(towards: Callable[[Fraction, Fraction], Fraction], grams: Fraction) -> str:
    """A weight as one writes it into a cure, rounded in a direction: whole grams, below 100 g tenths."""
    places = 1 if grams < FINE_BELOW_G else 0
    return f"{show_decimal(towards(grams, Fraction(1, 10**places)), places=places)} g"


def curing_salt_grams(line: CureLine, kind: CuringSalt, scales: Scales, log: ProblemLog) -> Span | None:
    """Curing salt [g] from an amount. A spoon gives its published range; the high end is what is judged."""
    assert line.amount is not None
    weight = line.amount.total(Dimension.WEIGHT)
    if weight is not None:
        return weight
    total = Span.of(0)
    for measure in line.amount.measures:
        spoon = _spoon(measure, kind, scales)
        if spoon is None:
            log.add(
                "curing-salt-not-weighed",
                line.position,
                f"'{line.written}' of {kind.title} cannot be turned into a weight.",
                "Weigh it on a scale that reads 0.1 g and write the grams.",
            )
            return None
        total = total.plus(spoon)
    if not total.is_range:
        log.add(
            "curing-salt-by-spoon",
            line.position,
            f"'{line.written}' of curing salt is {float(total.high):.1f} g by your own weighing"
            f"{_published_words(line.amount, scales)}; a spoon differs from hand to hand.",
            "Weigh it each time and write the grams.",
        )
    else:
        log.add(
            "curing-salt-by-spoon",
            line.position,
            f"'{line.written}' of curing salt can weigh {float(total.low):.1f} to {float(total.high):.1f} g; "
            "it is judged at the heaviest.",
            "Weigh it once and write the grams, between "
            f"`curing salt: {written_grams(round_down, total.low)}` and "
            f"`curing salt: {written_grams(round_up, total.high)}`, or write your own weighing into book.yaml.",
        )
    return total


def _published_words(amount: Quantity, scales: Scales) -> str:
    spoons = [(measure, scales.tables.spoon(measure.unit.key)) for measure in amount.measures]
    if any(spoon is None for _, spoon in spoons):
        return ""
    low = sum(measure.span.low * spoon.low_g for measure, spoon in spoons if spoon)
    high = sum(measure.span.high * spoon.high_g for measure, spoon in spoons if spoon)
    return f" ({float(low):.1f} to {float(high):.1f} g by published spoons)"


def _spoon(measure: Measure, kind: CuringSalt, scales: Scales) -> Span | None:
    if kind.key not in SPOONED:
        return None
    house = scales.house_grams("curing salt", measure.unit.key)
    if house is not None:
        return measure.span.times(house)
    published = scales.tables.spoon(measure.unit.key)
    if published is None:
        return None
    return Span(measure.span.low * published.low_g, measure.span.high * published.high_g)


SPOONED = ("no. 1", "no. 2")
"The published spoon weights are of these; pure nitrite by the spoon is refused."
