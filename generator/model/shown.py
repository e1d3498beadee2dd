"""Exact amounts in, strings for a reader out: each rounded once, by one row of the rounding table, estimates outward."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from generator.model.quantity import COUNT, TO_MAKE, Dimension, Measure, Quantity, Span, Temperature, Unit
from generator.model.results import Shown
from generator.model.rounding import (
    PINCH,
    ROUND,
    TRACE,
    RoundingRow,
    find_row,
    round_by_row,
    round_down,
    round_nearest,
    round_up,
)

SYSTEMS = ("us", "metric", "imperial")
"Systems of units a book can be written or shown in."
GLYPHS = {
    Fraction(1, 8): "⅛",
    Fraction(1, 4): "¼",
    Fraction(1, 3): "⅓",
    Fraction(3, 8): "⅜",
    Fraction(1, 2): "½",
    Fraction(5, 8): "⅝",
    Fraction(2, 3): "⅔",
    Fraction(3, 4): "¾",
    Fraction(7, 8): "⅞",
}
"Vulgar fractions that kitchens use; others are shown as decimals."
CUP_PARTS = frozenset(Fraction(*pair) for pair in ((0, 1), (1, 4), (1, 3), (1, 2), (2, 3), (3, 4)))
SPOON_PARTS = frozenset((Fraction(0), Fraction(1, 2)))
"Parts of a cup, and of a tablespoon, that a kitchen has measures for."
SMALLEST_CUP_ML = Fraction(100)
"Below this a unit is a spoon."
SMALLEST_SPOON = Fraction(1, 8)
"[tsp] The smallest spoon that a kitchen has; an amount below it is shown as a part of it. Source: common practice."
MOST_CUPS = 8
"Beyond so many of the measure nobody counts thirds of it."
USES = {
    Dimension.WEIGHT: "ingredient weight",
    Dimension.VOLUME: "ingredient volume",
    Dimension.LENGTH: "length",
}
"The row of the rounding table for an ordinary amount."
WEIGHED_OUT = "cure weight"
"The row for what is put on a scale to be a share of something: its per cent holds in what is shown."
UNDER = "under "
"Before the step of a row, where so little is left that rounding down would leave nothing."
Part = tuple[Fraction, Unit, str]
"A number, its unit, and the style of its row, perhaps with UNDER before it."
SALT_STEP_G = Fraction(1, 10)
"Source: house choice; no estimate here is finer."
COARSE_FROM_G, COARSE_STEP_G = Fraction(10), Fraction(1)
"From here whole grams. Source: house choice."
SODIUM_STEPS_MG = ((Fraction(140), Fraction(5)), (Fraction(10_000), Fraction(10)))
"Up to each, in steps of. Source: 21 CFR 101.9(c)(4), 5 to 140 mg by 5, above by 10 (second-hand)."
COARSE_SODIUM_MG = Fraction(100)
"Above all steps. Source: house choice."


class Shower:
    """Turns exact amounts into strings, holding the rounding table and the units it names."""

    def __init__(self, rows: tuple[RoundingRow, ...], units: Mapping[str, Unit]) -> None:
        self._units = units
        self._rows: dict[tuple[str, str], tuple[RoundingRow, ...]] = {}
        for row in rows:
            key = (row.use, row.system)
            self._rows[key] = (*self._rows.get(key, ()), row)

    def _row(self, use: str, system: str, value: Fraction) -> RoundingRow:
        return find_row(self._rows.get((use, system), ()), use=use, system=system, value=value)

    def base(self, span: Span, *, use: str, system: str) -> str:
        """An amount in base units (g, mL, mm) as a string in a system of units."""
        low = self._parts(span.low, use=use, system=system)
        if not span.is_range:
            return _join(low)
        high = self._parts(span.high, use=use, system=system)
        if low == high:
            return _join(low)
        if _is_one_step(low, high):
            number, unit, style = high[0]
            return f"{show_number(low[0][0], style)}–{show_number(number, style)} {_word(unit, number)}"
        return f"{_join(low)} – {_join(high)}"

    def rounded(self, value: Fraction, *, use: str, system: str) -> Fraction:
        """An amount in base units after the rounding that `base` shows."""
        row = self._row(use, system, value)
        factor = self._units[row.units[-1]].factor
        return round_by_row(row, value / factor) * factor

    def _parts(self, value: Fraction, *, use: str, system: str) -> list[Part]:
        row = self._row(use, system, value)
        units = [self._units[key] for key in row.units]
        if row.style in (PINCH, TRACE):
            return [_trace(value / units[-1].factor, units[-1], row)]
        # A measure that kitchens own is no fraction to round; only what is none is rounded, and may become one by that.
        exact = _one_measure(value, units, row.style)
        if exact is not None:
            return [(*exact, row.style)]
        rest = round_by_row(row, value / units[-1].factor) * units[-1].factor
        simple = _one_unit(rest, units, row.style)
        if simple is not None:
            return [(*simple, row.style)]
        parts: list[Part] = []
        for unit in units[:-1]:
            whole = Fraction((rest / unit.factor).__floor__())
            if whole:
                parts.append((whole, unit, row.style))
                rest -= whole * unit.factor
        if rest or not parts:
            parts.append((rest / units[-1].factor, units[-1], row.style))
        return parts

    def quantity(self, quantity: Quantity, system: str) -> str:
        """An amount of an ingredient as a string; unscaled amounts keep their author's units."""
        if quantity.is_vague:
            return quantity.vague
        about = "about " if quantity.about else ""
        if quantity.in_jars:
            return about + self._as_written(quantity.measures[0])
        for measures in (quantity.measures, quantity.alternative):
            dry = measures is quantity.measures and is_dry(measures)
            kept = quantity.written or dry or _is_count(measures)
            if kept and measures and all(fits(measure.unit, system) for measure in measures):
                return about + _plus(measures).join(self._as_written(measure) for measure in measures)
        measures = quantity.measures
        kinds = {measure.unit.dimension for measure in measures}
        if len(kinds) == 1 and (kind := kinds.pop()) in USES:
            total = quantity.total(kind)
            assert total is not None
            return about + self.base(total, use=USES[kind], system=system)
        return about + " + ".join(self._measure(measure, system) for measure in measures)

    def line(self, quantity: Quantity, system: str) -> str:
        """An amount of an ingredient with what stands in its brackets: 6 (6 oz each, 2 lb 4 oz in all)."""
        shown = self.quantity(quantity, system)
        parts = self._inside(quantity, system)
        return f"{shown} ({', '.join(parts)})" if parts else shown

    def _inside(self, quantity: Quantity, system: str) -> list[str]:
        is_one = _is_one(quantity)
        size = [self.size_of_one(quantity, system) + ("" if is_one else " each")] if quantity.each else []
        if not shows_behind(quantity) or (is_one and size) or self._takes_place(quantity, system):
            return size
        behind = replace(quantity, measures=quantity.alternative, alternative=(), each=(), about=False)
        in_all = " in all" if says_in_all(quantity) and not is_one else ""
        return [*size, self.quantity(behind, system) + in_all]

    def _takes_place(self, quantity: Quantity, system: str) -> bool:
        """True where what was typed in brackets is shown instead, in the units of its system."""
        return self.quantity(quantity, system) != self.quantity(replace(quantity, alternative=()), system)

    def size_of_one(self, quantity: Quantity, system: str) -> str:
        """The size of one of what is counted, which no scale changes."""
        size = Quantity(measures=quantity.each, about=quantity.each_about, written="as typed")
        return self.quantity(size, system)

    def weighed_out(self, quantity: Quantity, system: str) -> str:
        """The weight of a share as a string."""
        total = quantity.total(Dimension.WEIGHT)
        assert total is not None
        return ("about " if quantity.about else "") + self.base(total, use=WEIGHED_OUT, system=system)

    def _measure(self, measure: Measure, system: str) -> str:
        if measure.unit.dimension in USES:
            return self.base(measure.base, use=USES[measure.unit.dimension], system=system)
        return self._as_written(measure)

    def _as_written(self, measure: Measure) -> str:
        span = measure.span
        if measure.state == "ice" and span.high == 0:
            return "ice"
        if measure.state == TO_MAKE:
            return f"{TO_MAKE} {self._as_written(replace(measure, state=''))}"
        is_count = measure.unit.dimension is Dimension.COUNT
        style = "decimal" if measure.unit.system == "metric" else "fraction"
        ends = [self._count(end) if is_count else show_number(end, style) for end in (span.low, span.high)]
        number = "–".join(dict.fromkeys(ends))
        state = f" {measure.state}" if measure.state else ""
        return f"{number} {_word(measure.unit, span.high)}".strip() + state

    def _count(self, value: Fraction) -> str:
        """A count to the step of the table, unless it is a kitchen fraction already."""
        if value - value.__floor__() in GLYPHS and value < 10:
            return show_number(value)
        row = self._row("count", "us", value)
        if row.style == TRACE:
            number, _, style = _trace(value, COUNT, row)
            return _number(number, style)
        return show_number(round_by_row(row, value))

    def bought_count(self, value: Fraction) -> str:
        """A count rounded up to whole things, the same in every system."""
        return show_number(round_by_row(self._row("bought count", "us", value), value))

    def everywhere(self, quantity: Quantity) -> Shown:
        """The strings of an amount in every system of units."""
        return Shown(**{system: self.quantity(quantity, system) for system in SYSTEMS})

    def base_everywhere(self, span: Span, *, use: str) -> Shown:
        """The strings of an amount in base units in every system of units."""
        return Shown(**{system: self.base(span, use=use, system=system) for system in SYSTEMS})

    def temperature(self, point: Temperature, scale: str, *, use: str = "temperature") -> str:
        """A temperature as a point in F or C, by the row for a plain, a minimum or a maximum one."""
        if point.scale == scale:
            return f"{show_number(point.value, 'decimal')} °{scale}"
        value = point.celsius if scale == "C" else point.fahrenheit
        row = self._row(use, "metric" if scale == "C" else "us", value)
        rounded = ROUND[row.direction](value, row.step)
        return f"{show_number(rounded, 'decimal')} °{scale}"

    def change(self, span: Span, scale: str) -> str:
        """A change of temperature, written in F or C, in degrees of the other scale: `5.6 °C`. No 32 is in it."""
        other, factor = ("C", Fraction(5, 9)) if scale == "F" else ("F", Fraction(9, 5))
        ends = []
        for end in (span.low * factor, span.high * factor):
            row = self._row("temperature change", "metric" if other == "C" else "us", end)
            ends.append(show_number(round_by_row(row, end), "decimal"))
        return f"{'–'.join(dict.fromkeys(ends))} °{other}"


def _one_measure(value: Fraction, units: list[Unit], style: str) -> tuple[Fraction, Unit] | None:
    """1⅔ cups is a measure that kitchens own: it is not rounded at all."""
    cups = [unit for unit in units if unit.factor >= SMALLEST_CUP_ML]
    return (
        _one_unit(value, [*cups, units[-1]], style) if cups and value < MOST_CUPS * cups[-1].factor else None
    )


def _one_unit(rest: Fraction, units: list[Unit], style: str) -> tuple[Fraction, Unit] | None:
    """1/3 cup rather than 5 tbsp 1 tsp, where one measure that kitchens own is enough."""
    if style != "fraction":
        return None
    for unit in units[:-1]:
        number = rest / unit.factor
        spoons = unit.factor < SMALLEST_CUP_ML
        part = number - number.__floor__()
        owned = SPOON_PARTS if spoons else CUP_PARTS
        if unit.dimension is Dimension.VOLUME and number > 0 and part in owned:
            return number, unit
    return None


def _is_one(quantity: Quantity) -> bool:
    return len(quantity.measures) == 1 and quantity.measures[0].span == Span.of(1)


def shows_behind(quantity: Quantity) -> bool:
    """True where the alternative says something that no system of units says in its place: pieces beside a weight.

    And a volume beside a weight of the same kitchen, 5 lb (1 gal): of two that each have one, each shows its own.
    """
    if not quantity.measures or not quantity.alternative:
        return False
    if quantity.dimension is Dimension.COUNT:
        return not _is_count(quantity.alternative)
    return any(_is_shown_in(system, quantity) for system in SYSTEMS) and _is_weight_and_volume(quantity)


def _is_weight_and_volume(quantity: Quantity) -> bool:
    """True where the two writings are of two kinds, of which neither is a count."""
    kinds = {measure.unit.dimension for measure in (*quantity.measures, *quantity.alternative)}
    return kinds == {Dimension.WEIGHT, Dimension.VOLUME} and quantity.dimension is not None


def _is_shown_in(system: str, quantity: Quantity) -> bool:
    """True where both writings are of one system of units."""
    return all(fits(measure.unit, system) for measure in (*quantity.measures, *quantity.alternative))


def says_in_all(quantity: Quantity) -> bool:
    """True where the weight behind a count would else be read as that of one; behind bunches it is that of all."""
    bare = len(quantity.measures) == 1 and quantity.measures[0].unit.key == COUNT.key
    return bare or bool(quantity.each) or quantity.measures[0].unit.key.startswith("No. ")


def is_dry(measures: tuple[Measure, ...]) -> bool:
    """True for so many pecks or bushels, which hold what is dry, and are no gallons."""
    return len(measures) == 1 and measures[0].unit.key in ("peck", "bushel")


def fits(unit: Unit, system: str) -> bool:
    """US and imperial kitchens share pounds and ounces; the rest belongs to one system."""
    if unit.dimension is Dimension.WEIGHT and {unit.system, system} <= {"us", "imperial"}:
        return True
    return unit.system in (system, "any")


def _plus(measures: tuple[Measure, ...]) -> str:
    """`2 lb 4 oz` is one amount in two parts; hot and cold water, or lemons and limes, are added."""
    plain = all(not measure.state for measure in measures)
    one_kind = len({measure.unit.dimension for measure in measures}) == 1
    return " " if plain and one_kind and not _is_count(measures) else " + "


def _is_count(measures: tuple[Measure, ...]) -> bool:
    return all(measure.unit.dimension is Dimension.COUNT for measure in measures)


def _word(unit: Unit, number: Fraction) -> str:
    return unit.singular if number <= 1 else unit.plural


def _trace(number: Fraction, unit: Unit, row: RoundingRow) -> Part:
    """What lies below the finest measure: rounded down, and where nothing would be left, less than the step."""
    rounded = round_by_row(row, number)
    if rounded == 0 and number > 0:
        return row.step, unit, UNDER + row.style
    return rounded, unit, row.style if rounded else "decimal"


def _is_one_step(low: list[Part], high: list[Part]) -> bool:
    """True where a range can be written with one unit behind it: 1–2 tbsp."""
    plain = all(style in ("fraction", "decimal", TRACE) for _, _, style in (*low, *high))
    return plain and len(low) == 1 and [unit.key for _, unit, _ in low] == [unit.key for _, unit, _ in high]


def _join(parts: list[Part]) -> str:
    return " ".join(
        f"{_number(number, style)} {_word(unit, number)}".strip() for number, unit, style in parts
    )


def _number(number: Fraction, style: str) -> str:
    """The number of a part; of a pinch, how much of the smallest spoon."""
    under, style = (UNDER, style.removeprefix(UNDER)) if style.startswith(UNDER) else ("", style)
    if style == PINCH:
        return f"a pinch, {under}{show_number(number / SMALLEST_SPOON)} of {show_number(SMALLEST_SPOON)}"
    return under + show_number(number, style)


def show_number(value: Fraction, style: str = "fraction") -> str:
    """A number as kitchens print it: 1½ where the fraction has a sign, else a decimal without idle zeros."""
    whole = value.__floor__()
    part = value - whole
    if style == "fraction" and part in GLYPHS:
        return f"{whole if whole else ''}{GLYPHS[part]}"
    if part == 0:
        return str(whole)
    return show_decimal(value, places=3 if abs(value) < 10 else 2)


def show_decimal(value: Fraction, *, places: int) -> str:
    """A decimal rounded half up to a number of places, without idle zeros."""
    sign = "-" if value < 0 else ""
    shifted, under = abs(value.numerator) * 10**places, value.denominator
    scaled = (2 * shifted + under) // (2 * under)  # whole numbers all the way: one division, no lowest terms
    digits = str(scaled).rjust(places + 1, "0")
    text = f"{digits[:-places]}.{digits[-places:]}".rstrip("0").rstrip(".") if places else digits
    return f"{sign if text != '0' else ''}{text}"


def grams_shown(grams: Span) -> str:
    """`1.2 to 2.0`; one number where it is known; `up to 2.0` where the low end is nothing."""
    step = COARSE_STEP_G if grams.high >= COARSE_FROM_G else SALT_STEP_G
    return _outward(grams, step, places=1)


def sodium_shown(milligrams: Span) -> str:
    """`470 to 790`, in the steps of nutrition labels."""
    step = next((step for upto, step in SODIUM_STEPS_MG if milligrams.high <= upto), COARSE_SODIUM_MG)
    return _outward(milligrams, step, places=0)


def percent_shown(percent: Span) -> str:
    """`2.1 to 3.9`, to a tenth."""
    return _outward(percent, SALT_STEP_G, places=1)


def _outward(span: Span, step: Fraction, *, places: int) -> str:
    """The low end rounded down, the high end up: what is estimated is never shown narrower than it is."""
    if not span.is_range:
        return _stepped(max(round_nearest(span.low, step), step if span.low else Fraction(0)), step, places)
    low, high = round_down(span.low, step), round_up(span.high, step)
    if low == 0:
        return f"up to {_stepped(high, step, places)}"
    if low == high:
        return _stepped(low, step, places)
    return f"{_stepped(low, step, places)} to {_stepped(high, step, places)}"


def _stepped(value: Fraction, step: Fraction, places: int) -> str:
    """With its tenth, 2.0, where the step is a tenth; thousands apart."""
    return f"{float(value):.1f}" if places and step < 1 else f"{int(value):,}"


def listed(words: Sequence[str]) -> str:
    """`salt, sugar and water`"""
    return " and ".join(filter(None, (", ".join(words[:-1]), words[-1])))
