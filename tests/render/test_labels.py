"""Labels for bags: where they stand on the sheet, what they say, and what is refused before anything is cut."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from bs4 import BeautifulSoup
from PIL import ImageFont

from generator.model.quantity import Span
from generator.model.recipe import Keep
from generator.model.results import ComputedRecipe
from generator.render import LabelError, Theme, label_grid, render_labels
from generator.render.label_grid import LabelGrid
from generator.render.views.labels import width_of
from tests.render import sample
from tests.render.helpers import one, words

WIDE = "/usr/share/fonts/truetype/dejavu/DejaVuSans-Bold.ttf"


def pair(across: str, down: str) -> tuple[Fraction, Fraction]:
    return Fraction(across), Fraction(down)


def grid(
    size: tuple[str, str] = ("63.5", "38.1"),
    gap: tuple[str, str] = ("0", "0"),
    offset: tuple[str, str] = ("0", "0"),
    paper: str = "a4",
) -> LabelGrid:
    return label_grid(size=pair(*size), gap=pair(*gap), offset=pair(*offset), paper=paper)


def labels(
    theme: Theme, recipe: ComputedRecipe, count: int = 2, on: LabelGrid | None = None
) -> BeautifulSoup:
    html = render_labels(sample.sheet(theme, sample.book(recipe)), recipe, on or grid(), count)
    return BeautifulSoup(html, "html.parser")


def test_grid_stands_in_the_middle_of_the_paper() -> None:
    """210 - 3 x 63.5 - 2 x 2.5 = 14.5, half of it 7.25; 297 - 7 x 38.1 = 30.3, half of it 15.15."""
    found = grid(gap=("2.5", "0"))
    assert found.columns == tuple(map(Fraction, ("7.25", "73.25", "139.25")))
    assert found.rows[0] == Fraction("15.15")
    assert found.rows[-1] == Fraction("243.75")
    assert found.a_sheet == 21


def test_offset_moves_all_of_it() -> None:
    still, moved = grid(), grid(offset=("1.5", "-2"))
    assert [at - 1.5 for at in moved.columns] == list(still.columns)
    assert [at + 2 for at in moved.rows] == list(still.rows)


def test_letter_is_wider_and_shorter_than_a4() -> None:
    """215.9 / 66.7 = 3.2 and 279.4 / 25.4 = 11: eleven rows to the very edge."""
    found = grid(("66.7", "25.4"), paper="letter")
    assert (len(found.columns), len(found.rows)) == (3, 11)


def test_words_keep_off_the_edge_that_a_printer_leaves_white() -> None:
    """At the very edge 5 mm; 9.75 mm inside it the label's own 2 mm."""
    assert grid(("66.7", "25.4"), paper="letter").padding[1] == 5
    assert grid().padding == (2, 2)


@pytest.mark.parametrize(
    ("asked", "said"),
    [
        ({"size": ("300", "38.1")}, "--label-size: a label of 300 mm does not fit on 210 mm of a4 paper."),
        ({"size": ("63.5", "298")}, "--label-size: a label of 298 mm does not fit on 297 mm of a4 paper."),
        ({"offset": ("10", "0")}, "--label-offset: 10 mm push labels off the paper; 9.75 mm are free"),
        ({"offset": ("0", "-16")}, "--label-offset: -16 mm push labels off the paper; 15.15 mm are free"),
    ],
)
def test_labels_off_the_paper_are_refused(asked: dict[str, tuple[str, str]], said: str) -> None:
    with pytest.raises(LabelError) as caught:
        grid(**asked)  # type: ignore[arg-type]  # any option
    assert said in str(caught.value)


def test_a_label_says_what_the_next_one_must_know(theme: Theme) -> None:
    keep = tuple(
        Keep(place=place, days=Span.of(4), written=written, position=sample.AT)
        for place, written in (("fridge", "4 days"), ("freezer", "2 months"))
    )
    recipe = sample.shank(recipe=replace(sample.shank().recipe, keep=keep))
    tree = labels(theme, recipe, count=3)
    assert len(tree.select(".label")) == 3
    assert [words(line) for line in tree.select(".label")[0].select("p")] == [
        "Smoked elk shank",
        "COOK TO 165 °F / 74 °C BEFORE EATING",
        "Date",
        "Weight",
        "Best by",
        "Keeps: freezer 2 months, fridge 4 days",
    ]


def test_the_heat_on_the_bag_is_that_of_the_box() -> None:
    """The box of `eat: after cooking` names the same two numbers; no kind of meat asks for more."""
    text = sample.TABLES.cautions["eat-after-cooking"].text
    assert "165 °F (74 °C)" in text
    assert max(one.minimum_f for one in sample.TABLES.heat.minimums.values()) == 165


def test_what_is_ready_to_eat_says_nothing_of_cooking(theme: Theme) -> None:
    ready = sample.shank(recipe=replace(sample.shank().recipe, eat_after_cooking=False), cautions=())
    assert not labels(theme, ready).select(".cook")


def test_where_it_cannot_be_told_the_bag_says_to_cook_it(theme: Theme) -> None:
    shank = sample.shank()
    untold = replace(shank.cautions[0], missing=("course", "eat"))
    recipe = replace(shank, recipe=replace(shank.recipe, eat_after_cooking=False), cautions=(untold,))
    assert len(labels(theme, recipe, count=1).select(".cook")) == 1


def test_sheets_are_filled_row_by_row(theme: Theme) -> None:
    tree = labels(theme, sample.shank(), count=22)
    first, last = tree.select(".sheet")
    assert len(first.select(".label")) == 21
    assert [tag["class"] for tag in last.select(".label")] == [["label", "column-0", "row-0"]]
    assert first.select(".label")[4]["class"] == ["label", "column-1", "row-1"]


@pytest.mark.parametrize("count", [0, -1, 501])
def test_a_number_that_cannot_be_meant_is_refused(theme: Theme, count: int) -> None:
    with pytest.raises(LabelError, match=rf"--labels: takes a number from 1 to 500, not {count}\."):
        labels(theme, sample.shank(), count=count)


@pytest.mark.parametrize(
    ("name", "size"),
    [
        ("Smoked elk shank", ("45", "25")),
        ("A name that goes on and on " * 6, ("63.5", "38.1")),
        ("Donau" + "dampf" * 20, ("63.5", "38.1")),
    ],
)
def test_words_that_do_not_fit_are_refused_and_not_cut(
    theme: Theme, name: str, size: tuple[str, str]
) -> None:
    recipe = sample.shank(recipe=replace(sample.shank().recipe, name=name.strip()))
    with pytest.raises(LabelError, match="do not fit whole on a label of"):
        labels(theme, recipe, on=grid(size))


def test_larger_labels_have_larger_type(theme: Theme) -> None:
    def size(on: LabelGrid) -> int:
        style = one(labels(theme, sample.shank(), on=on), "style").get_text()
        return int(style.split("font-size: ")[1].split("pt")[0])

    assert size(grid()) < size(grid(("101.6", "67.7")))


def test_no_letter_is_wider_than_it_is_taken_for() -> None:
    """Advance widths of DejaVu Sans Bold, read from its file."""
    font = ImageFont.truetype(WIDE, 1000)
    letters = [chr(code) for code in range(0x20, 0x250) if chr(code).isprintable()]
    assert len(letters) > 500
    wider = [letter for letter in letters if font.getlength(letter) / 1000 > width_of(letter)]
    assert wider == []
