"""Amounts and temperatures in, pairs of strings out: the book's own units first, the other system behind."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from generator.model.quantity import Dimension, Quantity, Span, Temperature, TemperatureRange
from generator.model.results import ComputedLine, Shown
from generator.model.shown import Shower, show_number

PLAIN, MINIMUM, MAXIMUM = "temperature", "minimum temperature", "maximum temperature"
"Uses of the rounding table: a minimum is never rounded down, a maximum never up."
COLD_F = Fraction(41)
"""[°F] 5 °C. A range that ends at it or below keeps food cold: its upper end is a most.
Source: FDA Food Code 2022, 3-501.16(A)(2), 41 °F or less (from memory)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AmountView:
    """An amount as printed; `other` is empty where both systems say the same."""

    first: str
    other: str = ""
    key: str = ""
    "By which a page's script finds what it follows; empty for an amount that follows nothing."
    share: str = ""
    "Of the whole: 1/2; empty for all of it."

    @property
    def plain(self) -> str:
        """In one string, for machine readers."""
        return f"{self.first} ({self.other})" if self.other else self.first


@dataclass(frozen=True, slots=True)
class Amounts:
    """Shows amounts for a book written in one system of units."""

    shower: Shower
    system: str
    "us, metric or imperial"

    @property
    def other(self) -> str:
        """The system printed second."""
        return "us" if self.system == "metric" else "metric"

    def shown(self, shown: Shown | None, *, key: str = "") -> AmountView | None:
        """An amount that was worked out and rounded already."""
        if shown is None:
            return None
        return replace(pair(shown.in_units(self.system), shown.in_units(self.other)), key=key)

    def quantity(self, quantity: Quantity) -> AmountView:
        """An exact amount, rounded once in each system."""
        return pair(self.shower.quantity(quantity, self.system), self.shower.quantity(quantity, self.other))

    def weighed_out(self, quantity: Quantity) -> AmountView:
        """The weight of a share, by the steps of a scale."""
        return pair(*(self.shower.weighed_out(quantity, system) for system in (self.system, self.other)))

    def grams(self, grams: Fraction, *, use: str = "ingredient weight") -> AmountView:
        """A weight, rounded by the row of the table for its use."""
        return self.weight(Span.of(grams), use=use)

    def weight(self, span: Span, *, use: str = "ingredient weight") -> AmountView:
        """A weight that may be a range."""
        return pair(
            self.shower.base(span, use=use, system=self.system),
            self.shower.base(span, use=use, system=self.other),
        )

    def only_grams(self, grams: Span, *, use: str) -> AmountView:
        """A weight that nobody should measure otherwise."""
        return AmountView(first=self.shower.base(grams, use=use, system="metric"))

    def temperature(self, at: Temperature | TemperatureRange, *, use: str = PLAIN) -> AmountView:
        """A point or a range of temperature on both scales, as written first if the book's own scale."""
        first, other = ("C", "F") if self.system == "metric" else ("F", "C")
        return pair(self.on_scale(at, first, use=use), self.on_scale(at, other, use=use))

    def least(self, at: Temperature | TemperatureRange) -> AmountView:
        """A least temperature: never rounded down."""
        return self.temperature(at, use=MINIMUM)

    def on_scale(
        self, at: Temperature | TemperatureRange, scale: str, *, use: str = PLAIN, is_most: bool = False
    ) -> str:
        """`165 °F`, or `200–225 °F`, on one scale; `is_most`, and of a cold range ever: its upper end never up."""
        if isinstance(at, Temperature):
            return self.shower.temperature(at, scale, use=use)
        is_most = is_most or (is_cold(at) and at.low != at.high)
        high = self.shower.temperature(at.high, scale, use=MAXIMUM if is_most else use)
        low = self.shower.temperature(at.low, scale, use=use)
        if is_most and self.shower.temperature(at.high, scale, use=use) == low:
            return high  # rounded down, the upper end may have come under the lower
        return high if low == high else f"{low.removesuffix(f' °{scale}')}–{high}"

    def change(self, span: Span, scale: str) -> str:
        """So many degrees hotter or colder, written in a scale, in degrees of the other one."""
        return self.shower.change(span, scale)

    def minutes(self, span: Span) -> str:
        """A length of time: `20 min`, `5–6 h`, `2 days`."""
        size, word = next(
            (size, word)
            for size, word in ((1440, "days"), (60, "h"), (1, "min"))
            if size == 1 or all(end and end % size == 0 for end in (span.low, span.high))
        )
        low, high = show_number(span.low / size), show_number(span.high / size)
        return (
            f"{low if low == high else f'{low}–{high}'} {'day' if high == '1' and word == 'days' else word}"
        )

    def work(self, minutes: int) -> str:
        """Time of hand work; empty where there is none."""
        return self.minutes(Span.of(minutes)) if minutes else ""

    def made(self, quantity: Quantity, noun: str) -> AmountView:
        """What a recipe makes: `4 shanks`, with the weight from the brackets behind it."""
        count = quantity.total(Dimension.COUNT)
        if count is not None and count.high <= 1 and noun.endswith("s") and not noun.endswith("ss"):
            noun = noun[:-1]
        first = self.quantity(replace(quantity, alternative=()))
        named = f"{first.first} {noun}".strip()
        if first.other:
            return AmountView(first=named, other=f"{first.other} {noun}".strip())
        if not quantity.alternative:
            return AmountView(first=named)
        behind = self.quantity(replace(quantity, measures=quantity.alternative, alternative=()))
        return AmountView(first=named, other=" / ".join(filter(None, (behind.first, behind.other))))


def is_cold(at: TemperatureRange) -> bool:
    """True of what a brine, a cooler or a fridge is kept at, and of what is colder."""
    return at.high.fahrenheit <= COLD_F


def pair(first: str, other: str) -> AmountView:
    """Both strings, the second only where it says something else; of one count, only what its brackets hold."""
    count, bracket, _ = first.partition(" (")
    if bracket and other != first and other.startswith(count + bracket):
        other = other[len(count + bracket) : -1]
    return AmountView(first=first, other="" if other == first else other)


def keyed(view: AmountView | None, key: str, share: str = "") -> AmountView | None:
    """The same amount, to be found by a page's script."""
    return None if view is None else replace(view, key=key, share=share)


def second_key(id: str, number: int) -> str:
    """By which a page's script finds a second amount of a line."""
    return f"i-{id}-{number + 2}"


def preparation_parts(line: ComputedLine) -> tuple[str | int, ...]:
    """The preparation of a line cut at its second amounts: words, and the number of the amount that stands there."""
    words, end = line.ingredient.preparation, 0
    parts: list[str | int] = []
    for number, one in enumerate(line.ingredient.second if line.second else ()):
        parts += [words[end : one.start], number]
        end = one.end
    return tuple(part for part in (*parts, words[end:]) if part != "")


def preparation_in(line: ComputedLine, units: str) -> str:
    """The preparation in one string, its amounts scaled and in one system of units."""
    parts = preparation_parts(line)
    return "".join(part if isinstance(part, str) else line.second[part][1].in_units(units) for part in parts)


def amount_behind(line: ComputedLine) -> str:
    """An amount that is read behind the name: `salt, to taste`, but `a pinch of cayenne`. Empty for all others."""
    vague = line.scaled.vague if line.scaled else ""
    return vague if vague.lower().startswith(("to ", "as ", "for ")) else ""
