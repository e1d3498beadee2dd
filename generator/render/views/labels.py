"""A recipe and a grid of labels in, what stands on each bag out. The bag, not the page, is what the next one reads.

Widths of words are those of a wide, heavy face, so that a label that fits here fits in whatever sans serif a machine has.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.model.quantity import Temperature
from generator.model.results import ComputedRecipe
from generator.render.amounts import MINIMUM
from generator.render.context import Context
from generator.render.label_grid import MOST_LABELS, LabelError, LabelGrid, Pair

TO_WRITE = ("Date", "Weight", "Best by")
"Lines that the one with the bag in hand fills in."
SMALL = Fraction(4, 5)
"Size of the keeping times, of the size of the name. Kept by labels.css."
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
PLACES = ("freezer", "fridge", "shelf")
"Where it keeps, in this order: most bags go into the freezer."


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelsView:
    """All sheets of labels of one recipe."""

    title: str
    description: str
    name: str
    cook: str
    "Empty where the recipe is ready to eat."
    to_write: tuple[str, ...]
    keeps: str
    sheets: tuple[tuple[tuple[int, int], ...], ...]
    "Column and row of each label of a sheet, counted from 0."
    css: str
    "Sizes and places, which the style sheet cannot know."


def labels_view(context: Context, recipe: ComputedRecipe, grid: LabelGrid, count: int) -> LabelsView:
    """Raises LabelError for a number of labels that cannot be meant, and for words that do not fit."""
    if not 1 <= count <= MOST_LABELS:
        raise LabelError("--labels", f"takes a number from 1 to {MOST_LABELS}, not {count}.")
    one = recipe.recipe
    cook = cook_words(context, recipe)
    keeps = ", ".join(
        f"{place} {keep.written}" for place in PLACES for keep in one.keep if keep.place == place
    )
    keeps = f"Keeps: {keeps}" if keeps else ""
    size = _size(grid, name=one.name, cook=cook, keeps=keeps)
    columns = len(grid.columns)
    cells = tuple((number % columns, number % grid.a_sheet // columns) for number in range(count))
    return LabelsView(
        title=f"Labels for {one.name}",
        description=f"{count} labels for bags of {one.name}.",
        name=one.name,
        cook=cook,
        to_write=TO_WRITE,
        keeps=keeps,
        sheets=tuple(cells[start : start + grid.a_sheet] for start in range(0, count, grid.a_sheet)),
        css=_css(grid, size),
    )


def cook_words(context: Context, recipe: ComputedRecipe) -> str:
    """How hot it must get, where it is not ready to eat, and where that cannot be told.

    Whoever takes a bag may not know what animal it was: the most that any kind of meat asks for, as the box of
    `eat: after cooking` does.
    """
    untold = any("eat" in caution.missing for caution in recipe.cautions)
    if not (recipe.recipe.eat_after_cooking or untold):
        return ""
    tables = context.tables
    least = (minimum.minimum_f for minimum in tables.heat.minimums.values())
    hottest = Temperature(max(tables.constant("wild_game_minimum_f"), *least), "F")
    scales = (context.amounts.on_scale(hottest, scale, use=MINIMUM) for scale in ("F", "C"))
    words = " / ".join(text.replace(" ", "\N{NO-BREAK SPACE}") for text in scales)
    return f"COOK TO {words} BEFORE EATING"


def _size(grid: LabelGrid, *, name: str, cook: str, keeps: str) -> int:
    paragraphs = [Paragraph(text=name)]
    paragraphs += [Paragraph(text=cook, is_framed=True)] if cook else []
    paragraphs += [Paragraph(text=keeps, scale=SMALL)] if keeps else []
    size = type_size(paragraphs, written_lines=len(TO_WRITE), room=grid.inner)
    if size is None:
        label = " x ".join(f"{float(side):g}" for side in grid.size)
        raise LabelError(
            "--label-size",
            f"the words for '{name}' do not fit whole on a label of {label} mm, and nothing is cut.",
            "Take larger labels.",
        )
    return size


def _css(grid: LabelGrid, size: int) -> str:
    width, height = grid.paper_size
    rules = [
        f"@page {{ size: {_mm(width)} {_mm(height)}; margin: 0 }}",
        f".sheet {{ width: {_mm(width)}; height: {_mm(height)} }}",
        f".label {{ width: {_mm(grid.size[0])}; height: {_mm(grid.size[1])}; font-size: {size}pt;"
        f" padding: {_mm(grid.padding[1])} {_mm(grid.padding[0])} }}",
    ]
    rules += [f".column-{number} {{ left: {_mm(at)} }}" for number, at in enumerate(grid.columns)]
    rules += [f".row-{number} {{ top: {_mm(at)} }}" for number, at in enumerate(grid.rows)]
    return "\n".join(rules)


def _mm(length: Fraction) -> str:
    return f"{float(length):.3f}mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class Paragraph:
    """One paragraph of a label."""

    text: str
    scale: Fraction = FULL
    "Of the size of type."
    is_framed: bool = False


def type_size(paragraphs: Sequence[Paragraph], *, written_lines: int, room: Pair) -> int | None:
    """The largest size [pt] in which everything fits; None where not even the smallest does."""
    return next(
        (size for size in SIZES_PT if _height(paragraphs, written_lines, size, room[0]) <= room[1]), None
    )


def _height(paragraphs: Sequence[Paragraph], written_lines: int, size: int, width: Fraction) -> Fraction:
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
