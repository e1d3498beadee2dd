"""A gathering's own words: what of them makes a box or an error, what does not, and where the box is shown.

The acts and the plants are rows of acts.csv and poisons.csv, with their sources there; the sentences are our own.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner, Result

from generator.build import build_site
from generator.cli import main

MakeBook = Callable[..., Path]

STEW = """---
name: Beef stew
serves: 4
chapter: Pots
ingredients: [2 lb beef]
course:
  - simmer: 2 h to 165 °F inside
---

Simmer it.
"""
GATHERING = """---
name: {name}
{more}date: 2026-12-12 17:30
guests: 8
dishes:
  - all guests [Beef stew](../recipes/stew.md)
---

{text}
"""


def book_of(make_book: MakeBook, text: str, *, name: str = "Supper", more: str = "", book: str = "") -> Path:
    settings = {"book.yaml": f"title: A tiny book\nchapters: [Pots]\n{book}"}
    gathering = GATHERING.format(name=name, text=text, more=more)
    return make_book({**settings, "recipes/stew.md": STEW, "gatherings/supper.md": gathering})


def check(folder: Path, *options: str) -> Result:
    return CliRunner().invoke(main, ["check", str(folder), *options])


def slugs(folder: Path) -> set[str]:
    data = json.loads(check(folder, "--json", "--cautions").stdout)
    return {box["slug"] for box in data["cautions"] if box.get("gathering") == "supper"}


@pytest.mark.parametrize(
    ("text", "slug"),
    [
        ("Thaw the roast in the sink in warm water.", "thaw-counter"),
        ("Leave the pot of chowder out on the counter for 3 hours.", "danger-hours"),
        ("Leave the pot of chowder out on the counter overnight.", "danger-hours-long"),
        ("Scatter a handful of elder leaves on the salad.", "elder-leaf"),
        ("Seal the jars in the oven for an hour.", "not-canning"),
        ("> Thaw the roast in the sink in warm water.", "thaw-counter"),
    ],
)
def test_a_hazard_in_the_text_makes_its_box(make_book: MakeBook, text: str, slug: str) -> None:
    assert slug in slugs(book_of(make_book, text))


@pytest.mark.parametrize(
    "text",
    [
        "Never thaw the roast in the sink in warm water.",
        "My uncle used to thaw his birds in the bathtub; I know better.",
        "Thaw the roast in the fridge, from Wednesday on.",
        "Leave the chairs on the porch overnight.",
        "Let the boots stand by the stove overnight.",
        "Keep the plates warm in the oven at 150 °F.",
        "Take the stew out of the fridge an hour before the guests come, and bring it to a boil.",
        "Nobody touches the water hemlock by the creek: it kills.",
        "The cousins from Elk Creek bring their bear claws and the buffalo mozzarella.",
    ],
)
def test_a_story_a_warning_and_what_is_done_well_make_none(make_book: MakeBook, text: str) -> None:
    assert slugs(book_of(make_book, text)) == set()


def test_a_dish_says_of_what_the_words_speak(make_book: MakeBook) -> None:
    """Nothing else in the sentence is a meat; the dish is beef."""
    text = "Thaw it in warm water."
    assert "thaw-counter" in slugs(book_of(make_book, text))
    kale = STEW.replace("Beef stew", "Kale").replace("2 lb beef", "2 lb kale")
    folder = make_book(
        {
            "recipes/stew.md": kale,
            "gatherings/supper.md": GATHERING.format(name="Supper", text=text, more="").replace(
                "Beef stew", "Kale"
            ),
        }
    )
    assert slugs(folder) == set()


def test_the_name_and_the_summary_are_read_and_cannot_tell(make_book: MakeBook) -> None:
    folder = book_of(
        make_book, "Bring a chair.", name="Water hemlock salad", more="summary: Death cap pie.\n"
    )
    result = check(folder, "--cautions")
    assert result.exit_code == 0
    assert {"poison-plant", "deadly-mushroom"} <= slugs(folder)
    assert "it is called “Water hemlock salad”" in result.stdout
    assert "its summary says “Death cap pie”" in result.stdout
    assert "Cannot be told" not in result.stdout  # a gathering has no key that could tell it


def test_a_poison_served_as_food_is_an_error_at_its_word(make_book: MakeBook) -> None:
    result = check(book_of(make_book, "Serve a salad of water hemlock greens."))
    assert result.exit_code == 1
    assert "gatherings/supper.md:9:18: error: “water hemlock”: " in result.stderr
    assert "Take it out: nothing that a kitchen does makes it food." in result.stderr


def test_what_can_be_accepted_is_accepted_in_the_book(make_book: MakeBook) -> None:
    """The hint names book.yaml, and done to the letter it makes the problem go away."""
    text = "Serve a plate of jack-o'-lantern mushrooms."
    result = check(book_of(make_book, text))
    assert "[contradicts-warning]" in result.stderr
    (slug,) = slugs(book_of(make_book, text))
    assert f"Or write `accept:` in book.yaml with `{slug}: your reason`." in result.stderr
    accepted = f"accept:\n  {slug}: It is said, not eaten.\n"
    assert check(book_of(make_book, text, book=accepted)).exit_code == 0


def test_check_tells_the_place_and_that_the_text_says_it(make_book: MakeBook) -> None:
    text = "We eat at six.\nThaw the roast in the sink in warm water."
    said = check(book_of(make_book, text), "--cautions").stdout
    line = next(one for one in said.splitlines() if "[thaw-counter]" in one)
    assert line.startswith("gatherings/supper.md: DANGER ")
    assert line.endswith("Because its text says “Thaw the roast in the sink in warm water”.")
    assert "  gatherings/supper.md:10:1: sentence: Thaw the roast in the sink in warm water.\n" in said
    assert "3 sentences were read." in said  # with the one of the recipe


def test_the_box_stands_on_its_page_and_in_its_sheet(
    make_book: MakeBook, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = book_of(make_book, "Thaw the roast in the sink in warm water.")
    build_site(folder, into=tmp_path / "site")
    page = BeautifulSoup((tmp_path / "site/gatherings/supper/index.html").read_text("utf-8"), "html.parser")
    (box,) = page.select("section.box-danger")
    assert "its text says “Thaw the roast in the sink in warm water”" in box.get_text(" ")
    monkeypatch.chdir(folder)
    said = CliRunner().invoke(main, ["sheet", "supper"]).stdout
    assert "[DANGER] Never thaw meat on the counter or in warm water" in said
    data = json.loads(CliRunner().invoke(main, ["sheet", "supper", "--json"]).stdout)
    assert [box["slug"] for box in data["cautions"]] == ["thaw-counter"]


def test_no_sentence_of_another_language_is_read(make_book: MakeBook) -> None:
    text = "Thaw the roast in the sink in warm water."
    assert slugs(book_of(make_book, text, book="language: de\n")) == set()


def test_pages_are_not_read(make_book: MakeBook) -> None:
    page = "---\nname: About\n---\n\nThaw the roast in the sink in warm water.\n"
    folder = make_book({"recipes/stew.md": STEW, "pages/about.md": page})
    assert json.loads(check(folder, "--json", "--cautions").stdout)["cautions"] == []
