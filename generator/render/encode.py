"""Expressions, sentences and guards in, plain lists out for a JSON block: an exact number is its own `str`: `3/8`, `12`."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from typing import Any

from markupsafe import Markup

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
from generator.model.form import Figure, Form


@dataclass(slots=True)
class Encoder:
    """Writes expressions into one list, each once; elsewhere they are named by their place in it."""

    values: list[list[Any]] = field(default_factory=list)
    _places: dict[str, int] = field(default_factory=dict)

    def value(self, value: Value) -> int:
        """The place of an expression."""
        found = self._value(value)
        name = json.dumps(found)
        if name not in self._places:
            self._places[name] = len(self.values)
            self.values.append(found)
        return self._places[name]

    def _value(self, value: Value) -> list[Any]:
        """A kind, then what it is made of."""
        match value:
            case Form():
                return ["form", *_short(value)]
            case Figure():
                return ["over", str(value.factor), self.value(value.over), self.value(value.under)]
            case Sum():
                return ["sum", *([str(factor), self.value(term)] for factor, term in value.terms)]
            case Least():
                return ["least", *(self.value(one) for one in value.of)]
            case Stepped():
                return ["step", self.value(value.value), str(value.step), value.direction]
            case Rounded():
                return ["round", self.value(value.value), value.use]

    def text(self, text: Text) -> list[Any]:
        """Words are strings; numbers are lists."""
        return [self._part(part) for part in text]

    def _part(self, part: Part) -> Any:
        match part:
            case str():
                return part
            case Decimal():
                return ["places", self.value(part.value), part.places]
            case Weight():
                ends = [] if part.high is None else [self.value(part.high)]
                return ["weight", self.value(part.value), part.use, part.system, *ends]
            case Either():
                above = [self.value(part.value), self.value(part.above)]
                return ["if", *above, self.text(part.then), self.text(part.otherwise)]

    def guard(self, guard: Guard) -> dict[str, Any]:
        """What is compared, and what is said where it is above."""
        return {
            "group": guard.group,
            "value": self.value(guard.value),
            "limit": self.value(guard.limit),
            "says": [self.text(guard.message), self.text(guard.hint)],
            "stops": guard.stops,
        }


def _short(form: Form) -> list[str]:
    """Coefficients of one, batches, meat and water; noughts at the end are left out."""
    found = [str(one) for one in (form.c0, form.cb, form.cm, form.cw)]
    while found and found[-1] == "0":
        found.pop()
    return found


def script_text(data: dict[str, Any], **how: Any) -> Markup:
    """JSON that can stand in a script element: no `<`, so that no title can end the element early."""
    text = json.dumps(data, ensure_ascii=False, **how)
    for sign in "<>&":
        text = text.replace(sign, f"\\u{ord(sign):04x}")
    return Markup(text)
