"""How a record declares a table: what each type takes, what may be empty, what finds a row, and every refusal."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Annotated

import pytest

from generator.model.published import Sourced
from generator.tables.csvfile import (
    Shelf,
    Signed,
    TableError,
    Words,
    after_each_other,
    is_range,
    percent,
)

SOURCES = ("ledger", "almanac")


@dataclass(frozen=True, slots=True, kw_only=True)
class Crop(Sourced):
    """One row of a made-up table."""

    names: tuple[str, ...]
    low: Fraction
    high: Fraction | None
    frost: Signed
    share: Annotated[Fraction, "share of field", percent]
    labels: Words = ()
    keeps: bool
    soil: str = ""


HEADER = "names,low,high,frost,share of field,labels,keeps,soil,source,locator"
LEEK = "leek;leeks,1/2,2,-3,25,Blue;Long,yes,loam,ledger,p. 4"


def shelf(folder: Path, *rows: str, header: str = HEADER) -> Shelf:
    (folder / "crops.csv").write_text("\n".join([header, *rows]), encoding="utf-8")
    return Shelf(folder, SOURCES)


def test_each_type_is_read_its_own_way(tmp_path: Path) -> None:
    (crop,) = shelf(tmp_path, LEEK).rows("crops.csv", Crop)
    assert crop == Crop(
        names=("leek", "leeks"),
        low=Fraction(1, 2),
        high=Fraction(2),
        frost=Fraction(-3),
        share=Fraction(1, 4),
        labels=("Blue", "Long"),
        keeps=True,
        soil="loam",
        source="ledger",
        locator="p. 4",
    )


def test_a_default_and_none_may_be_empty(tmp_path: Path) -> None:
    (crop,) = shelf(tmp_path, "leek,1,,0,25,,no,,ledger,p. 4").rows("crops.csv", Crop)
    assert (crop.high, crop.labels, crop.soil, crop.keeps) == (None, (), "", False)


def test_columns_may_stand_in_any_order(tmp_path: Path) -> None:
    turned = ",".join(reversed(HEADER.split(",")))
    one = shelf(tmp_path, ",".join(reversed(LEEK.split(","))), header=turned).rows("crops.csv", Crop)
    assert one == shelf(tmp_path, LEEK).rows("crops.csv", Crop)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("leek;leeks", "", "crops.csv:2: names is empty"),
        ("leek;leeks", "Leek", "'Leek' is not written as names are compared: 'leek'"),
        ("leek;leeks", "leek;leek", "names has an empty or a double word"),
        ("Blue;Long", "Blue;;Long", "labels has an empty or a double word"),
        ("1/2", "1/0", "low '1/0' is not a number"),
        ("1/2", "-1/2", "low is negative"),
        ("-3", "cold", "frost 'cold' is not a number"),
        (",25,", ",-25,", "share of field is negative"),
        ("yes", "sometimes", "unknown keeps 'sometimes'"),
        ("loam", "chalk", "unknown soil 'chalk'"),
        ("Blue;", "Green;", "unknown label 'Green'"),
        ("ledger", "", "source is empty"),
        ("ledger", "hearsay", "unknown source 'hearsay'"),
        ("p. 4", "", "locator is empty"),
        ("loam,", "", "9 cells, not 10"),
        ("1/2,2", "3,2", "low is above high"),
    ],
)
def test_a_wrong_cell_is_refused_with_its_line(tmp_path: Path, old: str, new: str, said: str) -> None:
    wrong = LEEK.replace(old, new, 1)
    with pytest.raises(TableError) as caught:
        shelf(tmp_path, wrong).rows("crops.csv", Crop, is_range, soil=("loam",), labels=("Blue", "Long"))
    assert said in str(caught.value)
    assert (caught.value.file, caught.value.line) == ("crops.csv", 2)


@pytest.mark.parametrize(
    "header", ["", "names,low", HEADER + ",note", HEADER.replace("low", "names"), HEADER + ",low"]
)
def test_other_columns_are_refused(tmp_path: Path, header: str) -> None:
    with pytest.raises(TableError, match=r"crops.csv:1: the columns are not source, locator, names, low"):
        shelf(tmp_path, LEEK, header=header).rows("crops.csv", Crop)


def test_each_name_finds_its_row_and_no_other(tmp_path: Path) -> None:
    onion = LEEK.replace("leek;leeks", "onion")
    found = shelf(tmp_path, LEEK, onion).by("names", "crops.csv", Crop)
    assert [*found] == ["leek", "leeks", "onion"]
    assert found["leek"] is found["leeks"] is not found["onion"]
    with pytest.raises(TableError, match=r"crops.csv:3: leeks stands twice"):
        shelf(tmp_path, LEEK, LEEK.replace("leek;leeks", "onion;leeks")).by("names", "crops.csv", Crop)


def test_several_fields_find_a_row_together(tmp_path: Path) -> None:
    clay = LEEK.replace("loam", "clay")
    found = shelf(tmp_path, LEEK, clay).by(("names", "soil"), "crops.csv", Crop)
    assert [*found] == [("leek", "loam"), ("leeks", "loam"), ("leek", "clay"), ("leeks", "clay")]
    with pytest.raises(TableError, match=r"crops.csv:3: \('leek', 'loam'\) stands twice"):
        shelf(tmp_path, LEEK, LEEK).by(("names", "soil"), "crops.csv", Crop)


def test_rows_are_checked_against_the_one_before(tmp_path: Path) -> None:
    seen: list[tuple[str, str]] = []
    rows = [LEEK.replace("leek;leeks", name) for name in ("leek", "onion", "kale")]
    after = after_each_other(lambda one, two: seen.append((one.names[0], two.names[0])))
    shelf(tmp_path, *rows).rows("crops.csv", Crop, after)
    assert seen == [("leek", "onion"), ("onion", "kale")]
