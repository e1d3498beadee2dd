"""The gathering that the README works by hand: its arithmetic, the program and its text say the same.

The expected numbers come from the equations printed in the README, worked here with fractions and nothing of the
program; the recipes are those printed there.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path

import pytest

from generator.compute import Kitchen
from generator.compute.gathering.demand import make_demand
from generator.compute.gathering.shopping import make_list
from generator.model.gathering import OnHand
from generator.model.plan import Item, Making
from tests.compute.gathering.invite import book_of, invite, on_hand_line, recipe

ROOT = Path(__file__).parent.parent
SECTION = re.search(
    r"^## A gathering worked by hand\n(.*?)^## ",
    (ROOT / "README.md").read_text(encoding="utf-8"),
    re.S | re.M,
)
TEXT = SECTION[1] if SECTION else ""
NAMES = {"shank": "Smoked shank", "stock": "Smoked stock", "greens": "Greens", "beans": "Beans"}
COURSES = {
    "shank": "course:\n  - cure: 6 days in the fridge\n  - hot smoke: 6 h at 200 °F to 150 °F inside\n"
    "eat: after cooking\nkeep:\n  fridge: 4 days",
    **dict.fromkeys(("stock", "greens", "beans"), "course:\n  - simmer: 4 h to 165 °F inside in the pot"),
}
"What the README leaves out: it changes no weight."


@dataclass(frozen=True, slots=True, kw_only=True)
class Equation:
    """One equation of the README."""

    left: str
    right: str

    @property
    def worked(self) -> Fraction:
        """The left side by plain arithmetic on fractions."""
        plain = self.left.replace("×", "*").replace("−", "-")
        assert re.fullmatch(r"[\d.+\-*/() ]+", plain), plain
        return Fraction(eval(re.sub(r"\d+(?:\.\d+)?", r'Fraction("\g<0>")', plain), {"Fraction": Fraction}))

    @property
    def printed(self) -> Fraction:
        """The right side."""
        return Fraction(self.right)

    @property
    def places(self) -> int:
        """Decimals printed."""
        return len(self.right.partition(".")[2])


def rows() -> list[list[str]]:
    cells = [
        [cell.strip() for cell in line.strip("|").split("|")] for line in TEXT.splitlines() if line[:1] == "|"
    ]
    return [row for row in cells if "`" in "".join(row)]


def equation(what: str, *, column: int = 0) -> Equation:
    (row,) = [row for row in rows() if row[column] == what and len(row) == column + 3]
    left, right = row[column + 1].strip("`").split(" = ")
    return Equation(left=left, right=right)


def blocks() -> dict[str, str]:
    found = re.search(r"```yaml\n(.*?)```", TEXT, re.S)
    assert found is not None
    parts = re.split(r"^# (\S+)\n", found[1], flags=re.M)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


@pytest.fixture(scope="module")
def plan(
    tmp_path_factory: pytest.TempPathFactory, kitchen: Kitchen
) -> tuple[dict[str, Making], dict[tuple[str, str], Item]]:
    printed = blocks()
    texts = {
        slug: recipe(name, f"{printed[f'recipes/{slug}.md']}{COURSES[slug]}") for slug, name in NAMES.items()
    }
    book = book_of(tmp_path_factory.mktemp("worked") / "content", texts, kitchen)
    # One of the four shanks of a batch lies in the freezer.
    invited = invite(
        ("greens", "1"),
        ("beans", "1"),
        adults=21,
        children=6,
        components={"shank": "1/4"},
        tables=kitchen.tables,
    )
    ((_, slug, batches),) = invited.components
    there = OnHand(line=on_hand_line("1 smoked shank", kitchen.tables).line, place="freezer")
    invited = replace(invited, components=((there, slug, batches),))
    makings = make_demand(book, invited, kitchen)
    items = make_list(book, invited, makings, kitchen)
    return {making.slug: making for making in makings}, {(item.place, item.name): item for item in items}


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row[0]} {row[1]}")
def test_the_equations_of_the_readme_are_right(row: list[str]) -> None:
    (cell,) = [cell for cell in row if cell.startswith("`")]
    left, right = cell.strip("`").split(" = ")
    one = Equation(left=left, right=right)
    assert abs(one.worked - one.printed) <= Fraction(1, 2 * 10**one.places), float(one.worked)


def test_the_gathering_is_the_printed_one() -> None:
    supper = blocks()["gatherings/supper.md"]
    assert "{adults: 21, children: 6, child share: 1/2}" in supper
    assert supper.count("all guests") == 2
    assert "- 1 [smoked shank](../recipes/shank.md)" in supper


def test_batches(plan: tuple[dict[str, Making], dict[tuple[str, str], Item]]) -> None:
    made = plan[0]
    assert list(made) == ["greens", "beans", "stock", "shank"]
    assert made["greens"].servings == made["beans"].servings == equation("helpings").worked == 24
    for slug in ("greens", "beans", "stock"):
        assert made[slug].batches == equation(slug).worked
    shank = made["shank"]
    assert shank.needed * 4 == equation("shanks needed").worked == 7
    assert shank.batches == equation("shanks made").worked == Fraction(3, 2)
    assert shank.used_by == ("beans", "stock")


def test_weights_of_the_one_brine(plan: tuple[dict[str, Making], dict[tuple[str, str], Item]]) -> None:
    shank = plan[0]["shank"]
    assert shank.green_weight_g == 1000 * equation("raw meat").worked
    assert shank.amount_g is not None
    assert shank.amount_g.low == shank.amount_g.high == 1000 * equation("smoked").worked
    cure = shank.recipe.cure
    assert cure is not None
    assert cure.weigh is not None
    assert cure.setting is not None
    assert cure.setting.meat_g + cure.setting.water_g == equation("meat and water").worked
    assert cure.weigh.sugar_g == equation("sugar").worked
    assert cure.weigh.curing_salt_g == equation("curing salt").printed == Fraction("18.72")
    assert cure.weigh.salt_g == equation("salt").printed == Fraction("207.45")
    assert (cure.shown["curing_salt"], cure.shown["salt"], cure.shown["sugar"]) == ("18.7 g", "207 g", "75 g")
    assert "the page shows 18.7 g" in TEXT
    assert "the page shows 207 g" in TEXT
    assert cure.limit is not None
    assert equation("nitrite again").worked < 150 < cure.limit.limit_ppm == 200


def test_the_list(plan: tuple[dict[str, Making], dict[tuple[str, str], Item]]) -> None:
    items = plan[1]
    printed = [row for row in rows() if len(row) == 4]
    assert [(row[0], row[1]) for row in printed] == list(items)
    for place, name, cell, on_list in printed:
        item = items[place, name]
        assert item.shown.metric == on_list.partition(",")[0]
        worked = equation(name, column=1).worked
        assert cell.startswith("`")
        if item.grams is not None:
            assert item.grams.low == item.grams.high == worked
        else:
            assert item.shown.metric == str(worked), name
    assert items["garden", "collard leaves"].note.startswith("43 % of the weight is stems")
    assert "43 % is stems" in TEXT
