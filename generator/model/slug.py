"""A name or a title in, the part of an address that stands for it out: lower case letters, digits and hyphens."""

from __future__ import annotations

import unicodedata

DROPPED = "'’ʼ`"
"Apostrophes vanish instead of cutting a word in two: Ida's beans are idas-beans."


def fold(text: str) -> str:
    """The spelling by which two names count as the same: NFC and case-folded."""
    return unicodedata.normalize("NFC", unicodedata.normalize("NFC", text).casefold())


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
