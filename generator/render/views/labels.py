"""A recipe and a grid of labels in, what stands on each bag out. The bag, not the page, is what the next one reads."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.model.quantity import Temperature
from generator.model.results import ComputedRecipe
from generator.render.amounts import MINIMUM
from generator.render.context import Context
from generator.render.label_grid import MOST_LABELS, LabelError, LabelGrid
from generator.render.label_text import Words, type_size

TO_WRITE = ("Date", "Weight", "Best by")
"Lines that the one with the bag in hand fills in."
SMALL = Fraction(4, 5)
"Size of the keeping times, of the size of the name. Kept by labels.css."
PLACES = ("freezer", "fridge", "shelf")
"Where it keeps, in this order: most bags go into the freezer."


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """One label: its column and row on the sheet, counted from 0."""

    column: int
    row: int


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
    sheets: tuple[tuple[Cell, ...], ...]
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
    cells = tuple(
        Cell(column=number % len(grid.columns), row=number % grid.a_sheet // len(grid.columns))
        for number in range(count)
    )
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
    paragraphs = [Words(text=name)]
    paragraphs += [Words(text=cook, is_framed=True)] if cook else []
    paragraphs += [Words(text=keeps, scale=SMALL)] if keeps else []
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
