"""The beginning of an amount whose grams decide in; a question where a spoon is not level, or its size is one letter."""

from __future__ import annotations

import re

from generator.read.number import AmountError, unreadable

_FILLED = re.compile(
    r" *[^ ]{1,9} (?P<how>heap(?:ing|ed)|round(?:ed|ing)|scant|generous|brimming) (?P<unit>[a-z]{1,12})",
    re.IGNORECASE,
)
_ONE_LETTER = re.compile(r" *(?P<number>[0-9/¼-¾⅐-⅞ ]{1,9}?) ?(?P<unit>[Tt])\.?(?![\w'’-])")


def check_level(text: str, which: str, hint: str) -> None:
    """A spoon that is heaped or scant has no certain weight."""
    filled = _FILLED.match(text)
    if filled:
        raise unreadable(
            f"A {filled['how']} {filled['unit']} of {which} has no certain weight, and its grams decide here.",
            hint,
            filled.start("how"),
        )


def check_letter(text: str, which: str) -> None:
    """`T` and `t` of curing salt, which differ threefold by the case of a letter."""
    letter = _ONE_LETTER.match(text)
    if letter:
        number = letter["number"].strip()
        raise AmountError(
            "ambiguous-unit",
            f"'{number} {letter['unit']}' of {which}: T is a tablespoon and t a teaspoon, three times less.",
            f"Write {number} tbsp or {number} tsp, or better the grams of it.",
            letter.start("unit"),
        )
