"""Refuse of produce: as printed, one refusal for each kind of wrong row, and one opinion with the table of pieces."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.tables import TableError, load_tables, read_tables
from generator.tables.csvfile import normal
from tests.tables.conftest import spoil

TABLES = load_tables()

SPOILT = [
    # text that is there, text put in its place, words of the refusal
    ("collard leaves,43,", "collard leaves,0,", "refuse of nothing, or of 100 % or more"),
    ("collard leaves,43,", "collard leaves,100,", "refuse of nothing, or of 100 % or more"),
    ("collard leaves,43,", "collard leaves,-1,", "refuse_percent is negative"),
    ("collard leaves,43,stems", "collard leaves,43,", "part is empty"),
    ("sr28,NDB 11161", "sr82,NDB 11161", "unknown source 'sr82'"),
    ("sr28,NDB 11161", "sr28,", "locator is empty"),
    ("scotch kale,scotch kale,", "scotch kale,kale,", "kale stands twice"),
    ("scotch kale,scotch kale,", "scotch kale,Scotch kale,", "not written as names are compared"),
]


@pytest.mark.parametrize(("old", "new", "words"), SPOILT)
def test_wrong_row_is_refused(folder: Path, old: str, new: str, words: str) -> None:
    spoil(folder, "produce_refuse.csv", old, new)
    with pytest.raises(TableError, match=words):
        read_tables(folder)


@pytest.mark.parametrize(
    ("name", "percent", "part"),
    [
        # USDA SR28, refuse as printed.
        ("collards", 43, "stems"),
        ("Collard greens", 43, "stems"),
        ("kale", 28, "stem ends and midribs"),
        ("turnip greens", 30, "crown, stems and leaves"),
        ("mustard greens", 7, "bases"),
        ("cabbage", 20, "outer leaves and core"),
        ("leeks", 56, "tops, root and skin"),
        ("sweet potatoes", 28, "parings"),
    ],
)
def test_refuse_as_printed(name: str, percent: int, part: str) -> None:
    refuse = TABLES.refuse_of(name)
    assert refuse is not None
    assert (refuse.percent, refuse.part) == (percent, part)


@pytest.mark.parametrize("name", ["dandelion", "dried thyme", "chopped kale", "onion powder", "wild onion"])
def test_no_near_name_finds_refuse(name: str) -> None:
    """SR28 prints none for dandelion; the others are other foods."""
    assert TABLES.refuse_of(name) is None


def test_pieces_and_produce_agree() -> None:
    """The same row of SR28 stands behind both."""
    compared = 0
    for (name, _), piece in TABLES.piece_names.items():
        refuse = TABLES.produce.get(normal(name))
        if refuse is not None and piece.refuse_percent is not None:
            compared += 1
            assert refuse.percent == piece.refuse_percent, name
    assert compared >= 10


def test_what_a_garden_grows_by_whole_words() -> None:
    says = TABLES.garden.says
    assert says("red cabbage", "vegetable") == "cabbage"
    assert says("thyme", "herb") == "thyme"
    assert says("crabapples", "fruit") == "crabapples"
    assert says("pineapple", "fruit") == ""
    assert says("dried thyme", "kept") == "dried"
    assert says("stems stripped, leaves in ribbons", "taken off") == "stripped"
    assert says("core left on", "taken off") == ""
