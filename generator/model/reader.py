"""Expressions and sentences of a contract and a setting in, numbers and words out."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from generator.model.contract import (
    Decimal,
    Either,
    Guard,
    Least,
    Part,
    Rounded,
    Stepped,
    Sum,
    Text,
    Value,
    Weight,
)
from generator.model.form import Figure, Form, Setting
from generator.model.quantity import Span
from generator.model.rounding import ROUND
from generator.model.shown import Shower, show_decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class Reader:
    """Reads expressions and sentences at one setting."""

    setting: Setting
    shower: Shower
    _known: dict[int, tuple[Value, Fraction]] = field(default_factory=dict)
    "By identity, with the expression itself, so that it lives as long as its place here."

    def value(self, value: Value) -> Fraction:
        """The number behind an expression. A figure with nothing below its line raises ZeroDivisionError."""
        if id(value) not in self._known:
            self._known[id(value)] = (value, self._value(value))
        return self._known[id(value)][1]

    def _value(self, value: Value) -> Fraction:
        match value:
            case Form():
                return value.at(self.setting)
            case Figure():
                found = value.at(self.setting)
                if found is None:
                    raise ZeroDivisionError("a figure over nothing")
                return found
            case Sum():
                return sum((factor * self.value(term) for factor, term in value.terms), Fraction(0))
            case Least():
                return min(self.value(one) for one in value.of)
            case Stepped():
                return ROUND[value.direction](self.value(value.value), value.step)
            case Rounded():
                return self.shower.rounded(self.value(value.value), use=value.use, system="metric")

    def text(self, text: Text) -> str:
        """A sentence as it reads."""
        return "".join(self._part(part) for part in text)

    def _part(self, part: Part) -> str:
        match part:
            case str():
                return part
            case Decimal():
                return show_decimal(self.value(part.value), places=part.places)
            case Weight():
                low = self.value(part.value)
                span = Span.of(low) if part.high is None else Span(low, self.value(part.high))
                return self.shower.base(span, use=part.use, system=part.system)
            case Either():
                holds = self.value(part.value) > self.value(part.above)
                return self.text(part.then if holds else part.otherwise)

    def breaks(self, guard: Guard) -> bool:
        """True where a guard's value is above its limit."""
        return self.value(guard.value) > self.value(guard.limit)

    def broken(self, guards: tuple[Guard, ...]) -> tuple[Guard, ...]:
        """The guards that speak, in their order."""
        found: dict[str, Guard] = {}
        for guard in guards:
            if guard.group not in found and self.breaks(guard):
                found[guard.group] = guard
                if guard.stops:
                    break
        return tuple(found.values())
