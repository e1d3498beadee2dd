"""Groups of shares on a page: scaled by a line or a whole as the command scales them, to the last shown digit.

Expected values are the command's own views at the same setting; the arithmetic is checked in tests/read/test_shares.py.
"""

from __future__ import annotations

import os
import random
from pathlib import Path

import pytest
from click.testing import CliRunner
from playwright.sync_api import Browser

from generator.build import compute, kitchen
from generator.cli import main
from generator.compute import LineWish, Wish, compute_recipe
from generator.model.results import ComputedBook
from generator.problems import ProblemLog
from generator.read import Grammar, parse_amount
from generator.render import load_theme
from generator.render.context import make_context
from generator.render.views.recipe import recipe_view
from tests.pages.test_bench import WEIGH, compare, expected, pair

RECIPES = {
    "kraut": "makes: 4 qt\ningredients:\n  Cabbage:\n    - 10 lb cabbage, cored\n  Salt, of the cabbage:\n"
    "    - 2.25 % pickling salt\n    - about 0.1 % caraway seed, mixed with 2 tbsp water\n",
    "rub": "makes: 1 pint\ningredients:\n  Rub, of 12 oz:\n    - 3 parts sweet paprika\n    - 2 parts brown sugar\n"
    "    - 1 part black pepper\n",
    "loaf": "serves: 8\ningredients:\n  Flour:\n    - 4 1/2 cups bread flour (560 g)\n  Dough, of the flour:\n"
    "    - 70 % water\n    - 2 % salt\n    - 1–1.5 % dry yeast\n  Besides:\n    - 2 eggs\n    - salt for the crust (fixed)\n",
    "sausage": "makes: 10 lb\ningredients:\n  Sausage, of the total:\n    - 70 % venison trim\n    - 28.4 % pork back fat\n"
    "    - 1.6 % salt\n",
}
RECIPES["grind"] = (
    "makes: 10 lb\nmeat:\n  - 6 lb deer trim\n  - 2 lb pork shoulder\n  - 2 lb pork back fat\ningredients:\n"
    "  Spices, of the meat:\n    - 1.6 % salt\n    - 0.3 % black pepper\ncourse:\n  - fry: 10 min to 165 °F inside in the pan\n"
    "eat: after cooking\n"
)
BODY = "\n---\n\nMix it: half of the [first](#{0}:1/2) and the [whole](#{0}).\n"
FIRST = {
    "kraut": "pickling-salt",
    "rub": "brown-sugar",
    "loaf": "water",
    "sausage": "salt",
    "grind": "black-pepper",
}
BY = {
    "kraut": {"i-cabbage": "lb", "i-pickling-salt": "g", "i-caraway-seed": "oz"},
    "rub": {"w-rub": "lb", "i-brown-sugar": "oz", "batches": ""},
    "loaf": {"i-bread-flour": "g", "i-eggs": "", "i-salt": "g", "serves": ""},
    "sausage": {"w-sausage": "kg", "i-venison-trim": "lb", "makes": "lb"},
    "grind": {"i-deer-trim": "lb", "i-salt": "g", "meat": "lb"},
}
TITLES = "() => [...document.querySelectorAll('.ingredients h3')].map((one) => one.textContent.trim())"


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("shares")
    (folder / "recipes").mkdir()
    (folder / "book.yaml").write_text(
        "title: Shares\nlanguage: en\nunits: us\naltitude: 300 ft\n", encoding="utf-8"
    )
    for slug, text in RECIPES.items():
        head = f"---\nname: {slug.capitalize()}\n{text}".rstrip("\n")
        (folder / f"recipes/{slug}.md").write_text(head + BODY.format(FIRST[slug]), encoding="utf-8")
    before = Path.cwd()
    os.chdir(folder)
    try:
        result = CliRunner().invoke(main, ["site", "--into", "site"])
        assert result.exit_code == 0, result.output
    finally:
        os.chdir(before)
    return folder


def wish(by: str, text: str) -> Wish:
    grammar = Grammar(system="us", language="en", tables=kitchen().tables)
    amount = parse_amount(text, grammar)
    if by == "makes":
        return Wish(makes=amount)
    if by in ("serves", "batches"):
        number = amount.measures[0].span.low
        return Wish(serves=number) if by == "serves" else Wish(batches=number)
    if by == "meat":
        return Wish(meat_g=amount.measures[0].base.low)
    return Wish(line=LineWish(name=by[2:], amount=amount))


def test_page_scales_shares_as_the_command_does(book: Path, browser: Browser) -> None:
    computed: ComputedBook | None = compute(book, kitchen(), ProblemLog())
    assert computed is not None
    theme, rng = load_theme("larder"), random.Random(13)
    context = browser.new_context()
    page = context.new_page()
    errors: list[str] = []
    page.on("pageerror", lambda error: errors.append(str(error)))
    done = 0
    for slug, ways in BY.items():
        page.goto((book / f"site/recipes/{slug}/index.html").as_uri())
        for by, unit in ways.items():
            for units in ("us", "metric", "imperial"):
                text = f"{rng.choice(['1', '2.5', '7', '1 1/2', '13', '1/2'])} {unit}".strip()
                (snapshot,) = page.evaluate(WEIGH, [[by, text, "", units]])
                assert "stays as it was" not in snapshot["state"], (slug, by, text)
                one = compute_recipe(computed.book, slug, kitchen(), wish(by, text))
                frame = make_context(computed, tables=kitchen().tables, theme=theme, sheet_units=units)
                view = recipe_view(frame.at(f"recipes/{slug}/index.html"), one)
                compare(snapshot, expected(view), f"{slug} {by} {text} {units}")
                whole = {title: f"{b}{pair(amount)}{a}" for title, (b, amount, a) in view.wholes.items()}
                assert page.evaluate(TITLES) == [whole.get(title, title) for title in view.groups if title]
                done += 1
    context.close()
    assert errors == []
    assert done == 48


def test_page_says_each_share_and_offers_what_has_an_amount(book: Path, browser: Browser) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.goto((book / "site/recipes/loaf/index.html").as_uri())
    assert page.locator("#i-salt .note").text_content() == "2 %"
    options = page.locator("#bench-by option").all_text_contents()
    assert options == [
        "servings",
        "batches",
        "the bread flour",
        "the water",
        "the salt",
        "the dry yeast",
        "the eggs",
    ]
    page.get_by_label("Scale by").select_option("i-bread-flour")
    assert page.locator("#bench-hint").text_content() == "Write how much of it, such as 6 qt."
    page.goto((book / "site/recipes/rub/index.html").as_uri())
    assert "Rub in all" in page.locator("#bench-by option").all_text_contents()
    context.close()
