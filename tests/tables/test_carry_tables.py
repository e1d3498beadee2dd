"""Bone, losses, water, sodium and salty words: one refusal for each kind of wrong row, and ranges that hold."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.tables import TableError, load_tables, read_tables
from tests.tables.conftest import spoil

CARRY = load_tables().carry

SPOILT = [
    # file, text that is there, text put in its place, words of the refusal
    ("refuse.csv", "shank;shanks;shin,34,34", "shank;shanks;shin,35,34", "low_percent is above high_percent"),
    ("refuse.csv", "shank;shanks;shin,34,34", "shank;shanks;shin,34,100", "refuse of 100 % or more"),
    ("refuse.csv", "bone,beef;bison", "bone,beef;aurochs", "unknown kind 'aurochs'"),
    ("refuse.csv", "bone,beef;bison", "hide,beef;bison", "unknown part 'hide'"),
    ("refuse.csv", "bone,beef;bison,shank;", "bone,veal;bison,shank;", "stands twice"),
    ("losses.csv", "cure,dry,0.95,0.95,awi-108", "cure,dry,0.95,0.95,awi", "unknown source 'awi'"),
    ("losses.csv", "hot smoke,any,0.85", "hot smoke,any,0", "nothing is left"),
    ("losses.csv", "cure,brine", "cure,wet", "unknown after 'wet'"),
    ("losses.csv", "cure,brine", "cure,dry", "stands twice"),
    ("meat_water.csv", "any,any,0.70,0.76", "any,any,0.70,1.00", "meat is neither dry nor water alone"),
    ("meat_water.csv", "trout,any,0.71,0.76", "trout,any,0.77,0.76", "low is above high"),
    ("sodium.csv", "miso,miso;miso paste", "miso,miso paste", "miso is not among its own names"),
    ("sodium.csv", "miso,miso;miso paste", "miso,miso;capers", "capers stands twice"),
    ("sodium.csv", "miso,miso;miso paste,3728", "miso,miso;miso paste,-1", "low_mg is negative"),
    ("salty_words.csv", "corned,practice", "cured,practice", "cured stands twice"),
]


@pytest.mark.parametrize(("file", "old", "new", "words"), SPOILT)
def test_wrong_row_is_refused(folder: Path, file: str, old: str, new: str, words: str) -> None:
    spoil(folder, file, old, new)
    with pytest.raises(TableError, match=words):
        read_tables(folder)


def test_lean_game_has_seventy_to_seventy_six_per_cent_water() -> None:
    """SR28: wild boar 72.54, caribou 71.45, deer 73.57, elk 74.38, moose 75.55 (NDB 17158, 17162 to 17166, 17172)."""
    tables = load_tables()
    for animal, water in (
        ("boar", 72.54),
        ("caribou", 71.45),
        ("deer", 73.57),
        ("elk", 74.38),
        ("moose", 75.55),
    ):
        row = CARRY.water_of(tables.animal(animal), "loin")
        assert row.low * 100 <= water <= row.high * 100


def test_lean_water_is_that_of_the_transfer_estimate() -> None:
    row = next(row for row in load_tables().transfer if row.key == "meat_water")
    lean = CARRY.water_of(None, "")
    assert (row.low, row.high) == (lean.low, lean.high)


def test_fish_and_belly_have_their_own_water() -> None:
    """SR28: rainbow trout 71.87 and 73.80 (NDB 15115, 15240), cod 81.22 (15015), pork belly 36.74 (10005)."""
    tables = load_tables()
    for animal, cut, water in (
        ("trout", "fillet", 73.80),
        ("cod", "fillet", 81.22),
        ("wild boar", "belly", 36.74),
    ):
        row = CARRY.water_of(tables.animal(animal), cut)
        assert row.low * 100 <= water <= row.high * 100


def test_sodium_by_exact_name_and_salty_by_word() -> None:
    """SR28: Worcestershire 980 mg, fish sauce 7,851 mg per 100 g (NDB 06971, 06179)."""
    found = {name: CARRY.sodium_of(name) for name in ("Worcestershire sauce", "fish sauce", "fish")}
    assert [row and int(row.low) for row in found.values()] == [980, 7851, None]
    assert CARRY.is_salty("country ham")
    assert not CARRY.is_salty("graham flour")
