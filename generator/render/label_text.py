"""The words of a label and the room on it in, the size of type in which all of it fits out; or that none does.

Widths are those of a wide, heavy face, so that a label that fits here fits in whatever sans serif a machine has.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.render.label_grid import Pair

POINT_MM = Fraction(254, 720)
"[mm] Source: CSS Values and Units 3, 1pt is 1/72 in."
SIZES_PT = (18, 16, 14, 12, 11, 10, 9, 8, 7)
"Tried in turn. Source: house choice: nobody reads less than 7 pt on a frosted bag."
LINE = Fraction(5, 4)
"Height of a line, of its size of type. Kept by labels.css."
WRITE_MM = Fraction(11, 2)
"Height of a line to write on. Source: house choice, a pen on plastic. Kept by labels.css."
FRAME_MM = Fraction(2)
"What the frame of the cooking line takes in height, and in width. Kept by labels.css."
FULL = Fraction(1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """One paragraph of a label."""

    text: str
    scale: Fraction = FULL
    "Of the size of type."
    is_framed: bool = False


def type_size(paragraphs: Sequence[Words], *, written_lines: int, room: Pair) -> int | None:
    """The largest size [pt] in which everything fits; None where not even the smallest does."""
    return next(
        (size for size in SIZES_PT if _height(paragraphs, written_lines, size, room[0]) <= room[1]), None
    )


def _height(paragraphs: Sequence[Words], written_lines: int, size: int, width: Fraction) -> Fraction:
    total = written_lines * WRITE_MM
    for one in paragraphs:
        frame = FRAME_MM if one.is_framed else Fraction(0)
        em = size * one.scale * POINT_MM
        total += _lines(one.text, em, width - frame) * em * LINE + frame
    return total


def _lines(text: str, em: Fraction, width: Fraction) -> int:
    """Lines that a text takes; more than any label has where a word is wider than the line."""
    lines, used = 1, Fraction(0)
    for word in text.split(" "):
        long = width_of(word) * em
        if long > width:
            return TOO_MANY
        used += long + (width_of(" ") * em if used else 0)
        if used > width:
            lines, used = lines + 1, long
    return lines


TOO_MANY = 1000
NARROW, SPACE, LOWER, CAPITAL, WIDE = (Fraction(percent, 100) for percent in (48, 35, 73, 88, 112))
"[em] Source: advance widths of DejaVu Sans Bold, the widest face that machines usually fall back on, rounded up."
UNKNOWN = Fraction(8, 5)
"[em] Of a letter that is none of the Latin alphabet. Source: the same face, its widest double letter."


def width_of(word: str) -> Fraction:
    """Of a word set bold [em], never less than it is."""
    return sum((_width(letter) for letter in word), Fraction(0))


def _width(letter: str) -> Fraction:
    """An accent stands over its letter and takes no room."""
    base = unicodedata.normalize("NFD", letter)[0]
    if base in " \N{NO-BREAK SPACE}":
        return SPACE
    if base in "ijlI.,:;'!|()[]/-":
        return NARROW
    if base in "mwMW%@":
        return WIDE
    if base in "°·–’" or (base.isascii() and (base.islower() or base.isdigit())):
        return LOWER
    return CAPITAL if base.isascii() else UNKNOWN
