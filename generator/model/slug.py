"""A name or a title in, the part of an address that stands for it out: lower case letters, digits and hyphens."""

from __future__ import annotations

import unicodedata

DROPPED = "'’ʼ`"
"Apostrophes vanish instead of cutting a word in two: Ida's beans are idas-beans."


MOST_MARKS = 30
"On one letter. Source: Unicode Standard Annex 15, section 13, Stream-Safe Text Format: no language has so many."
JOINER = "\N{COMBINING GRAPHEME JOINER}"


def stream_safe(text: str) -> str:
    """The text with a joiner between every 30 marks of one letter: putting them in order takes the square of them.

    Source: Unicode Standard Annex 15, definition D4, Stream-Safe Text Process.
    """
    if text.isascii():
        return text
    safe: list[str] = []
    marks = 0
    for sign in text:
        marks = marks + 1 if unicodedata.combining(sign) else 0
        if marks > MOST_MARKS:
            safe.append(JOINER)
            marks = 1
        safe.append(sign)
    return "".join(safe)


def fold(text: str) -> str:
    """The spelling by which two names count as the same: NFC and case-folded."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", stream_safe(text)).casefold())


def is_slug_character(character: str) -> bool:
    """True for letters and digits of any script, and for marks that belong to a letter."""
    kind = unicodedata.category(character)
    return kind.startswith(("L", "M")) or kind == "Nd"


def slugify(name: str) -> str:
    """The slug of a name; empty where nothing of it can stand in an address.

    >>> slugify("Juniper berries")
    'juniper-berries'
    """
    kept = [
        character if is_slug_character(character) else " "
        for character in fold(name)
        if character not in DROPPED
    ]
    return "-".join("".join(kept).split())
