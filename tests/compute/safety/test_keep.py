"""Cooling, hours out of the cold and keeping; each rule met, not met and not to be told, with its source."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from generator.tables import Tables
from tests.compute.safety.course import NITRITE, check, recipe

SIMMER = "simmer: 3 h to 165 °F inside in the pot"
ROAST = "roast: 2 h at 325 °F to 165 °F inside"
FISH = "animal: trout; cut: fillet; weight: 2 lb"
SMOKED_FISH = "hot smoke: 3 h at 225 °F to 160 °F inside until it has held there for half an hour"
BELLY = "animal: wild boar; cut: belly; weight: 5 lb; thickness: 1 in; shape: slab; skin: off"
GROUND = "animal: pork; cut: sausage; weight: 5 lb; form: ground"
DRY = "method: dry; salt: 2.5 %; curing salt: 150 ppm"
CURED = (
    "cure: 10 days in the fridge",
    "hot smoke: 4 h at 225 °F to 165 °F inside",
    "cool: 2 h in the fridge",
)

# kind, fridge days, freezer months: FoodSafety.gov and FSIS cold storage chart unless a row says otherwise
PUBLISHED = (
    ("bacon", 7, 1),
    ("raw sausage", 2, 2),
    ("hard sausage", 21, 2),
    ("smoked sausage", 7, 2),
    ("whole ham", 7, 2),
    ("ground meat", 2, 3),  # MSU 01600806, venison 2 to 3 months
    ("offal", 2, 4),
    ("cuts", 5, 12),
    ("poultry", 2, 9),
    ("game birds", 2, 6),  # University of New Hampshire Extension
    ("small game", 2, 12),  # FSIS rabbit sheet
    ("fatty fish", 2, 3),
    ("lean fish", 2, 6),
    ("smoked fish", 5, 3),  # University of Alaska FNH-00221; MSU 01600816
    ("smoked fish below 36", 14, 3),  # MSU 01600816
    ("soup or stew", 4, 3),
    ("stock", 4, 3),
    ("cooked meat", 4, 6),
    ("cooked fish", 4, 3),
)


@pytest.mark.parametrize(("kind", "days", "months"), PUBLISHED)
def test_table_has_the_published_days(tables: Tables, kind: str, days: int, months: int) -> None:
    row = tables.keeping[kind]
    assert (row.fridge_days, row.freezer_months) == (Fraction(days), Fraction(months))


# what it is, course, meat, cure, eat after cooking, days allowed
KEPT = (
    ("stew", (SIMMER,), "animal: elk; cut: shoulder", "", False, 4),
    ("roast", (ROAST,), "animal: elk; cut: roast", "", False, 4),
    ("bacon", CURED, BELLY, DRY, False, 7),
    ("cured and cooked", CURED, BELLY.replace("belly", "loin"), DRY, False, 4),
    ("raw cured, after cooking", ("cure: 10 days in the fridge",), BELLY.replace("belly", "loin"), DRY, True, 5),
    ("smoked sausage", ("grind", *CURED), GROUND, DRY, False, 7),
    ("raw cured sausage", ("grind", CURED[0]), GROUND, DRY, True, 2),
    ("hard sausage", ("grind", *CURED, "dry: 10 days at 38 °F in the fridge"), GROUND, DRY, False, 21),
    ("raw ground", ("grind", "pack: in bags"), "animal: elk; cut: shoulder", "", False, 2),
    ("raw venison", ("trim: 20 min", "pack: in bags"), "animal: deer; cut: loin", "", False, 5),
    ("raw liver", ("trim: 20 min", "pack: in bags"), "animal: deer; cut: liver", "", False, 2),
    ("raw goose", ("trim: 20 min", "pack: in bags"), "animal: goose; cut: breast", "", False, 2),
    ("raw trout", ("trim: 20 min", "pack: in bags"), FISH, "", False, 2),
    ("baked trout", ("bake: 20 min at 400 °F to 145 °F inside",), FISH, "", False, 4),
    ("smoked trout", (SMOKED_FISH,), FISH, "", False, 5),
)  # fmt: skip


@pytest.mark.parametrize(
    ("what", "course", "meat", "cure", "eat", "days"), KEPT, ids=[row[0] for row in KEPT]
)
def test_fridge_days_are_hard(
    tmp_path: Path, what: str, course: tuple[str, ...], meat: str, cure: str, eat: bool, days: int
) -> None:
    def kept(days: int) -> str:
        return recipe(*course, meat=meat, cure=cure, eat=eat, keep=f"fridge: {days} days")

    assert check(tmp_path / "a", kept(days)).is_quiet("keep-fridge")
    words = check(tmp_path / "b", kept(days + 1)).words("keep-fridge")
    assert f"{days} days at most" in words
    assert f"Write fridge: {days} days" in words


def test_drying_of_cured_meat_over_days_is_its_own_process(tmp_path: Path) -> None:
    course = ("cure: 14 days in the fridge", "dry: 30 days at 55 °F in the cellar")
    said = check(tmp_path, recipe(*course, meat=BELLY, cure=DRY, eat=True))
    assert said.is_quiet("danger-hours")
    assert NITRITE.startswith("method: brine")
