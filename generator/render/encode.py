"""Expressions, sentences and guards in, plain lists out for a JSON block: exact numbers are strings of `p/q`."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

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


def exact_text(value: Fraction) -> str:
    """`3/8`, or `12` for a whole number: of any size, and read without loss."""
    return str(value)


def encode_value(value: Value) -> list[Any]:
    """A kind, then what it is made of."""
    match value:
        case Form():
            return ["form", *_short(value)]
        case Figure():
            return ["over", exact_text(value.factor), _short(value.over), _short(value.under)]
        case Sum():
            return ["sum", *([exact_text(factor), encode_value(term)] for factor, term in value.terms)]
        case Least():
            return ["least", *(encode_value(one) for one in value.of)]
        case Stepped():
            return ["step", encode_value(value.value), exact_text(value.step), value.direction]
        case Rounded():
            return ["round", encode_value(value.value), value.use]


def _short(form: Form) -> list[str]:
    """Coefficients of one, batches, meat and water; noughts at the end are left out."""
    found = [exact_text(one) for one in (form.c0, form.cb, form.cm, form.cw)]
    while found and found[-1] == "0":
        found.pop()
    return found


def encode_text(text: Text) -> list[Any]:
    """Words are strings; numbers are lists."""
    return [_part(part) for part in text]


def _part(part: Part) -> Any:
    match part:
        case str():
            return part
        case Decimal():
            return ["places", encode_value(part.value), part.places]
        case Weight():
            return ["weight", encode_value(part.value), part.use, part.system]
        case Either():
            return [
                "if",
                encode_value(part.value),
                encode_value(part.above),
                encode_text(part.then),
                encode_text(part.otherwise),
            ]


def encode_guard(guard: Guard) -> dict[str, Any]:
    """What is compared, and what is said where it is above."""
    return {
        "group": guard.group,
        "value": encode_value(guard.value),
        "limit": encode_value(guard.limit),
        "says": [encode_text(guard.message), encode_text(guard.hint)],
        "stops": guard.stops,
    }
