"""What a stage `jar` says besides, in: `pints, raw pack, at 12 psi on the dial gauge`; size, pack, pounds, gauge out."""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Any

from generator.read.grammar import Grammar

NAME = "jar"
"The stage that has these words."
GRAMMAR = "Write it as: pints, raw pack, 75 min at 12 psi on the dial gauge in the pressure canner."
PACKS = {"raw": "raw", "cold": "raw", "hot": "hot"}
"Source: USDA AIB 539, raw (cold) pack and hot pack."

_PACK = re.compile(r"(raw|hot|cold)[ -]pack(?:ed)?(?![\w'’-])", re.IGNORECASE)
_GAUGE = re.compile(
    r"(?:(?:on|with|by) )?(?:(?:the|an?) )?(dial|weighted)(?:[ -]gauge)?(?![\w'’-])", re.IGNORECASE
)
_POUNDS = re.compile(
    r"(?:at )?([0-9]{1,3}(?:\.[0-9]{1,2})?) ?(?:psi|lbs?\.?|pounds?)(?: (?:of )?pressure)?(?![\w'’])",
    re.IGNORECASE,
)
ENDS_A_PLACE = re.compile(
    r",| (?=(?:(?:on|with|by) )?(?:(?:the|an?) )?(?:dial|weighted)|(?:raw|hot|cold)[ -]pack)", re.IGNORECASE
)
"Behind a place these words begin a part of their own."


def read_size(flat: str, offset: int, grammar: Grammar) -> tuple[str, int] | None:
    """The jar as the table calls it, and where its words end: the longest spelling that stands here."""
    for words, jar in grammar.tables.garden.jars.items():
        end = offset + len(words)
        if flat[offset:end].lower() == words and not flat[end : end + 1].isalnum():
            return jar.size, end
    return None


def read_pack(flat: str, offset: int, _: Grammar) -> tuple[str, int] | None:
    """`raw` or `hot`, and where the words end."""
    found = _PACK.match(flat, offset)
    return (PACKS[found[1].lower()], found.end()) if found else None


def read_pounds(flat: str, offset: int, _: Grammar) -> tuple[Fraction, int] | None:
    """Pounds of pressure [psi], and where the words end."""
    found = _POUNDS.match(flat, offset)
    return (Fraction(found[1]), found.end()) if found else None


def read_gauge(flat: str, offset: int, _: Grammar) -> tuple[str, int] | None:
    """The gauge as the table of pressures calls it, and where the words end."""
    found = _GAUGE.match(flat, offset)
    return (f"{found[1].lower()} gauge", found.end()) if found else None


PARTS: dict[str, tuple[str, Callable[[str, int, Grammar], tuple[Any, int] | None]]] = {
    "jar_size": ("size of the jar", read_size),
    "pack": ("pack", read_pack),
    "pounds": ("pressure", read_pounds),
    "gauge": ("gauge", read_gauge),
}
"By the field of a stage: what a message calls the part, and how it is read."
