"""Twelve ordinary dishes of vegetables, bread and fruit: not one box, so that a box is read where it stands."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.cli import main

# name, ingredient lines, stages, days in the fridge
DISHES = (
    (
        "Roast carrots",
        ("2 lb carrots", "2 tbsp butter", "1 tsp table salt"),
        ("roast: 40 min at 425 °F in the oven",),
        3,
    ),
    (
        "Kale with lemon",
        ("2 lb kale, chopped", "1 lemon", "2 tbsp olive oil"),
        ("boil: 8 min", "fry: 3 min"),
        3,
    ),
    ("Beet salad", ("6 beets", "1 tbsp honey", "2 tbsp cider vinegar"), ("boil: 45 min", "cool"), 3),
    ("Potato soup", ("3 lb potatoes", "3 leeks", "2 qt water", "1 cup cream"), ("simmer: 30 min",), 3),
    ("Cabbage in butter", ("1 cabbage, shredded", "3 tbsp butter"), ("braise: 40 min",), 3),
    ("Green peas and mint", ("2 cups green peas", "1 tbsp mint"), ("simmer: 6 min",), 2),
    (
        "White bread",
        ("4 cups all-purpose flour", "1 1/2 cups water", "2 tsp yeast"),
        ("bake: 35 min at 430 °F",),
        3,
    ),
    ("Apple crumble", ("6 apples", "1 cup oats", "1/2 cup honey"), ("bake: 40 min at 375 °F",), 3),
    ("Baked squash", ("1 butternut squash", "2 tbsp maple syrup"), ("bake: 1 h at 400 °F",), 3),
    ("Corn pudding", ("3 cups corn", "2 cups milk", "1/2 cup cornmeal"), ("bake: 45 min at 350 °F",), 3),
    ("Pears in cider", ("6 pears", "1 qt cider"), ("simmer: 25 min", "chill: 3 h in the fridge"), 4),
    (
        "Turnips and parsnips",
        ("1 lb turnips", "1 lb parsnips", "2 tbsp butter"),
        ("roast: 45 min at 425 °F",),
        3,
    ),
)


def recipe(name: str, lines: tuple[str, ...], stages: tuple[str, ...], days: int) -> str:
    listed = "".join(f"  - {line}\n" for line in lines)
    course = "".join(f"  - {stage}\n" for stage in stages)
    return (
        f"---\nname: {name}\nserves: 6\nchapter: Pots\ningredients:\n{listed}course:\n{course}"
        f"keep:\n  fridge: {days} days\n---\n\nCook it.\n"
    )


@pytest.mark.parametrize("dish", DISHES, ids=[dish[0] for dish in DISHES])
def test_ordinary_dish_has_no_box(
    make_book: Callable[..., Path], dish: tuple[str, tuple[str, ...], tuple[str, ...], int]
) -> None:
    folder = make_book({"recipes/dish.md": recipe(*dish)})
    result = CliRunner().invoke(main, ["check", str(folder), "--json", "--cautions"])
    data = json.loads(result.stdout)
    assert [problem for problem in data["problems"] if problem["severity"] == "error"] == []
    assert [caution["slug"] for caution in data["cautions"]] == []


def test_there_are_twelve() -> None:
    assert len(DISHES) >= 12
