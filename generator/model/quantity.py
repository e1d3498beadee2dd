"""Amounts as an author writes them: exact fractions, ranges, sums, alternatives and vague measures.

Base units: weight g, volume mL, length mm, time min, count 1.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum
from fractions import Fraction
from functools import reduce


class Dimension(StrEnum):
    """What an amount is an amount of."""

    WEIGHT = "weight"
    VOLUME = "volume"
    LENGTH = "length"
    TIME = "time"
    COUNT = "count"


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """One unit with its exact size in the base unit of its dimension."""

    key: str
    dimension: Dimension
    factor: Fraction
    "Base units in one of this unit."
    system: str
    "us, metric, imperial, or any."
    singular: str
    plural: str


COUNT = Unit(key="count", dimension=Dimension.COUNT, factor=Fraction(1), system="any", singular="", plural="")
"A bare number of things."


@dataclass(frozen=True, slots=True)
class Span:
    """A number or a range, exact. A single number has low equal to high."""

    low: Fraction
    high: Fraction

    @classmethod
    def of(cls, value: Fraction | int) -> Span:
        """A range of no width."""
        return cls(Fraction(value), Fraction(value))

    @property
    def is_range(self) -> bool:
        """True where low and high differ."""
        return self.low != self.high

    def times(self, factor: Fraction | int) -> Span:
        """Both ends multiplied by a factor that is not negative."""
        return Span(self.low * factor, self.high * factor)

    def plus(self, other: Span) -> Span:
        """End by end sum."""
        return Span(self.low + other.low, self.high + other.high)

    def by(self, other: Span) -> Span:
        """End by end product: of what is not negative, from the least to the most."""
        return Span(self.low * other.low, self.high * other.high)

    @classmethod
    def total(cls, spans: Iterable[Span]) -> Span:
        """End by end sum of all; nothing of none."""
        return reduce(cls.plus, spans, cls.of(0))


TO_MAKE = "to make"
"State of a measure that is the volume of a finished brine."


@dataclass(frozen=True, slots=True)
class Measure:
    """One number with one unit."""

    span: Span
    unit: Unit
    state: str = ""
    "Of water: hot, cold, ice, or to make (the volume of the finished brine). Else empty."

    @property
    def base(self) -> Span:
        """The size in the base unit of the dimension (g, mL, mm, min, 1)."""
        return self.span.times(self.unit.factor)

    def times(self, factor: Fraction | int) -> Measure:
        """Scaled, exact."""
        return replace(self, span=self.span.times(factor))

    def by(self, number: Span) -> Measure:
        """That many times over, range by range."""
        return replace(self, span=self.span.by(number))


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """An amount as written: a sum of measures, perhaps with an alternative in brackets, or a vague word."""

    measures: tuple[Measure, ...] = ()
    "Added together: `2 lb 3 oz` and `1 cup + 2 tbsp` are two."
    alternative: tuple[Measure, ...] = ()
    "The same amount in another unit, from brackets."
    each: tuple[Measure, ...] = ()
    "The size of one of what is counted: it does not scale, and `alternative` is the size of all of them."
    each_about: bool = False
    "The size of one is written with about."
    manner: str = ""
    "How a spoon or cup is filled where it is not level: heaping, scant. It is counted as level."
    vague: str = ""
    "pinch, splash, to taste ...: has no size and does not scale. With it, measures is empty."
    about: bool = False
    "Written with ~ or about."
    written: str = ""
    "What the author typed."
    in_jars: bool = False
    "Quarts or pints that are jars: they stay what they are, at every scale and in every system."

    @property
    def is_vague(self) -> bool:
        """True for an amount without a size."""
        return bool(self.vague)

    def times(self, factor: Fraction | int) -> Quantity:
        """Scaled, exact; a vague amount stays. What was typed holds no longer unless the factor is 1."""
        if factor == 1 or self.vague:
            return self
        return replace(
            self,
            measures=tuple(measure.times(factor) for measure in self.measures),
            alternative=tuple(measure.times(factor) for measure in self.alternative),
            written="",
        )

    def total(self, dimension: Dimension) -> Span | None:
        """The amount in the base unit of a dimension, from either writing, or None where neither has it.

        Counts of different things (2 cloves + 1 head) have no total.
        """
        for measures in (self.measures, self.alternative):
            if measures and all(measure.unit.dimension is dimension for measure in measures):
                if dimension is Dimension.COUNT and len({m.unit.key for m in measures}) > 1:
                    return None
                return Span.total(measure.base for measure in measures)
        return None

    @property
    def dimension(self) -> Dimension | None:
        """The dimension of what was written first, or None for vague and mixed sums."""
        kinds = {measure.unit.dimension for measure in self.measures}
        return kinds.pop() if len(kinds) == 1 else None


@dataclass(frozen=True, slots=True)
class Temperature:
    """A temperature as a point on a scale, exact. A difference of temperatures is not one of these."""

    value: Fraction
    scale: str
    "F or C"

    @property
    def celsius(self) -> Fraction:
        """[degC] (F - 32) x 5/9, exact."""
        return self.value if self.scale == "C" else (self.value - 32) * Fraction(5, 9)

    @property
    def fahrenheit(self) -> Fraction:
        """[degF] C x 9/5 + 32, exact."""
        return self.value if self.scale == "F" else self.value * Fraction(9, 5) + 32


@dataclass(frozen=True, slots=True)
class TemperatureRange:
    """From low to high; one point has both equal."""

    low: Temperature
    high: Temperature
