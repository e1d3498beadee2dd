"""What the command and the page weigh by: expressions over forms, sentences with numbers in them, and guards.

An expression is exact until a `Rounded`, a `Stepped` or a sentence rounds it, each time once and in a named direction.
The generator writes it into the page as it stands here, so that no script holds a second opinion.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import TypeAlias

from generator.model.form import Figure, Form
from generator.problems import Position


@dataclass(frozen=True, slots=True, kw_only=True)
class Sum:
    """factor x value, added up."""

    terms: tuple[tuple[Fraction, Value], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Least:
    """The least of some values."""

    of: tuple[Value, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stepped:
    """Rounded to a multiple of a step, in a direction."""

    value: Value
    step: Fraction
    direction: str
    "up, down or nearest"


@dataclass(frozen=True, slots=True, kw_only=True)
class Rounded:
    """A weight [g] rounded by the row of the rounding table for its use, in grams."""

    value: Value
    use: str


Value: TypeAlias = Form | Figure | Sum | Least | Stepped | Rounded


@dataclass(frozen=True, slots=True, kw_only=True)
class Decimal:
    """A number within a sentence, half up to a number of places."""

    value: Value
    places: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Weight:
    """A weight [g] within a sentence, by the row of the rounding table for its use."""

    value: Value
    use: str
    system: str = "metric"
    high: Value | None = None
    "The other end, of a weight that is a range."


@dataclass(frozen=True, slots=True, kw_only=True)
class Either:
    """One text where a value is above another, else the other text."""

    value: Value
    above: Value
    then: Text
    otherwise: Text = ()


Part: TypeAlias = str | Decimal | Weight | Either
Text: TypeAlias = tuple[Part, ...]
"A sentence with numbers in it that follow the setting."


@dataclass(frozen=True, slots=True, kw_only=True)
class Guard:
    """Where a value is above its limit, no weights are given and the sentence says why."""

    slug: str
    group: str
    "Of the broken guards of one group only the first speaks."
    value: Value
    limit: Value
    message: Text
    hint: Text
    position: Position | None = None
    stops: bool = False
    "Where it is broken, no later guard is looked at."


@dataclass(frozen=True, slots=True, kw_only=True)
class Blend:
    """Curing salt weighed as a blend with salt or sugar, where there is enough of that to take [g]."""

    carrier: str
    "salt or sugar"
    weigh: Value
    "Of the blend."
    taken: Value
    "Of the carrier, in the blend."
    there: Value
    "Of the carrier, in the cure."

    @property
    def left(self) -> Value:
        """Of the carrier, to weigh besides."""
        return Sum(terms=((Fraction(1), self.there), (Fraction(-1), self.taken)))


@dataclass(frozen=True, slots=True, kw_only=True)
class DoseContract:
    """What a gram on the scale does to the ingoing nitrite."""

    per_gram: Value
    "[ppm]"
    coarse_from: Value
    "[ppm] Where a gram does more, the scale is too coarse."
    blends: tuple[Blend, ...]
    "The first that has enough of its carrier."


@dataclass(frozen=True, slots=True, kw_only=True)
class CureContract:
    """All of a cure that follows batches, meat and water."""

    weigh: Mapping[str, Value]
    "salt, sugar, curing_salt [g], to 0.01 g."
    shown: Mapping[str, Text]
    "The page's strings in grams; empty where the cure has no such thing."
    guards: tuple[Guard, ...] = field(default=())
    heaviest: Mapping[str, Value] = field(default_factory=dict)
    "The other end [g] of what is measured by volume, by the same keys as `weigh`; what is weighed is not there."
    lightest: Figure | None = None
    "Where cups or spoons leave the nitrite [ppm] open: the least that it can be."
    dose: DoseContract | None = None
    "None without curing salt."


def constant(value: Fraction | int) -> Form:
    """A value that does not follow the setting."""
    return Form(c0=Fraction(value))


def total(*terms: tuple[Fraction | int, Value]) -> Value:
    """factor x value, added up: forms and sums within are taken together into one form and what is left."""
    form, rest = Form(), list[tuple[Fraction, Value]]()
    for factor, value in terms:
        inner = value.terms if isinstance(value, Sum) else ((Fraction(1), value),)
        for own, term in inner:
            if isinstance(term, Form):
                form = form.plus(term.times(own * factor))
            else:
                rest.append((own * factor, term))
    if not rest:
        return form
    return Sum(terms=((Fraction(1), form), *rest))


def down(value: Value, step: Fraction) -> Decimal:
    """A most, in a sentence: never more than it is."""
    return _stepped(Stepped(value=value, step=step, direction="down"))


def up(value: Value, step: Fraction) -> Decimal:
    """A least, in a sentence: never less than it is."""
    return _stepped(Stepped(value=value, step=step, direction="up"))


def _stepped(value: Stepped) -> Decimal:
    """A multiple of a step has the places of the step: none of 10, one of 1/10, two of 1/100."""
    return Decimal(value=value, places=len(str(value.step.denominator)) - 1)
