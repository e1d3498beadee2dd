"""A gathering with one mistake in it, one test a kind: file, line, column, slug, words of the sentence and the hint.

In each text the sign « stands just before the character that the problem must point at.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from generator.cli import main

MARK = "«"
FILE = "gatherings/supper.md"
BEANS = "---\nname: Beans\nserves: 8\nchapter: Pots\n{extra}---\n\nSimmer them.\n"
SHANK = "---\nname: Smoked shank\nmakes: 4 shanks (3 lb)\nchapter: Pots\n---\n\nSmoke it.\n"
OTHERS = {
    "recipes/beans.md": BEANS.format(extra=""),
    "recipes/greens.md": BEANS.format(extra="draft: true\n").replace("Beans", "Greens"),
    "recipes/shank.md": SHANK,
}
DATE, GUESTS = "date: 2026-12-05 17:30 America/Denver", "guests: 35"
DISH = "all guests [Beans](../recipes/beans.md)"


def supper(
    front: str = "", *, date: str = DATE, guests: str = GUESTS, dish: str = DISH, body: str = "Come hungry.\n"
) -> str:
    head = f"---\nname: Supper\n{date}\n{guests}\ndishes:\n  - {dish}\n"
    return f"{head}{front}---\n\n{body}"


def on_hand(line: str) -> str:
    return supper(f"on hand:\n  - {line}\n")


# name, text with its mark, slug, words of the sentence, words of the hint
MISTAKES: list[tuple[str, str, str, str, str]] = [
    ("no name", supper().replace("name: Supper\ndate", "«date"), "missing-key", "'name'", "name:"),
    ("no date", supper(date="").replace("name: S", "«name: S"), "missing-key", "'date'", "date: 2026-12-05 17:30"),
    ("no guests", supper(guests="").replace("name: S", "«name: S"), "missing-key", "'guests'", "guests: 35"),
    ("no dishes", supper().replace(f"dishes:\n  - {DISH}\n", "").replace("name: S", "«name: S"), "missing-key", "'dishes'", "- all guests [Cornbread]"),
    ("unknown key", supper("«whole batch: yes\n"), "unknown-key", "'whole batch'", "'whole batches'"),
    ("a key of a recipe", supper("«serves: 4\n"), "unknown-key", "'serves'", "Known are name"),
    # moments
    ("day without a time", supper(date="date: «2026-12-05"), "unreadable-moment", "'2026-12-05' has no time of day", "Write the time behind it: 2026-12-05 17:30."),
    ("day and zone without a time", supper(date="date: «2026-12-05 Europe/Berlin"), "unreadable-moment", "no time of day", "2026-12-05 17:30 Europe/Berlin."),
    ("no date at all", supper(date="date: «next Saturday"), "unreadable-moment", "'next Saturday': this is no date and time", "2026-12-05 08:00"),
    ("day that is none", supper(date="date: «2026-02-30 17:30"), "unreadable-moment", "no such day", "Write a date"),
    ("unknown zone", supper(date="date: «2026-12-05 17:30 America/Dever"), "unreadable-moment", "'America/Dever'", "IANA"),
    ("hour that comes twice", supper(date="date: «2026-11-01 01:30 America/Denver"), "unreadable-moment", "comes twice", "01:30-06:00 America/Denver"),
    ("empty date", supper(date="date:«"), "wrong-value", "'date' is empty", "Write a value"),
    ("day to start without a time", supper("work from: «2026-11-28\n"), "unreadable-moment", "no time of day", "2026-11-28 07:00."),
    ("start in an hour that comes twice in the zone of the date", supper("work from: «2026-11-01 01:30\n"), "unreadable-moment", "comes twice in America/Denver", "01:30-07:00"),
    ("start behind the serving", supper("work from: «2026-12-05 17:30\n"), "wrong-value", "not before the food is served", "earlier"),
    ("start with a zone, date without", supper("work from: «2026-11-28 07:00 Europe/Berlin\n", date="date: 2026-12-05 17:30"), "wrong-value", "'date' has none", "behind the date"),
    # guests
    ("guests in words", supper(guests="guests: «thirty"), "wrong-value", "'thirty' is not a number of people", "such as 35"),
    ("guests as a range", supper(guests="guests: «30–40"), "wrong-value", "'30–40'", "whole number"),
    ("nobody", supper(guests="guests: «0"), "wrong-value", "Nobody comes", "35"),
    ("nobody by keys", supper(guests="guests: {adults: «0, children: 0}"), "wrong-value", "Nobody comes", "35"),
    ("children alone", supper(guests="«guests: {children: 6}"), "missing-key", "'adults' is missing under 'guests'", "adults: 29"),
    ("half a child", supper(guests="guests: {adults: 2, children: «1/2}"), "wrong-value", "'1/2' is not a number of people", "whole number"),
    ("share above an adult's", supper(guests="guests: {adults: 2, child share: «3/2}"), "wrong-value", "'3/2' is not a share", "up to 1"),
    ("share of nothing", supper(guests="guests: {adults: 2, child share: «0}"), "wrong-value", "'0' is not a share", "above 0"),
    ("unknown key of the guests", supper(guests="guests: {adults: 2, «kids: 3}"), "unknown-key", "'kids' is not a key that is known under 'guests'", "children"),
    ("list of guests", supper(guests="«guests: [2, 3]"), "wrong-value", "'guests' takes", "key: value"),
    # dishes
    ("empty dishes", supper().replace(f"dishes:\n  - {DISH}", "«dishes: []"), "wrong-value", "'dishes' is empty", "how much and a link"),
    ("dishes in one line", supper().replace(f"dishes:\n  - {DISH}", "dishes: «beans"), "wrong-value", "'dishes' takes a list", "Write dishes: [beans]"),
    ("dish without a link", supper(dish="«all guests Beans"), "unreadable-dish", "links to no recipe", "all guests [Cornbread]"),
    ("dish without an amount", supper(dish="'«[Beans](../recipes/beans.md)'"), "unreadable-dish", "Nothing says how much", "24 servings"),
    ("dish by a word", supper(dish="«half the guests [Beans](../recipes/beans.md)"), "unreadable-dish", "'half the guests' does not say how much", "60 % of guests"),
    ("dish by a weight", supper(dish="«3 lb [Beans](../recipes/beans.md)"), "unreadable-dish", "'3 lb'", "24 servings"),
    ("dish by a range", supper(dish="«20–24 servings [Beans](../recipes/beans.md)"), "unreadable-dish", "'20–24 servings'", "one number"),
    ("dish for more than all", supper(dish="«600 % of guests [Beans](../recipes/beans.md)"), "unreadable-dish", "'600 % of guests'", "no more than 100 %"),
    ("dish for none", supper(dish="«0 % of guests [Beans](../recipes/beans.md)"), "unreadable-dish", "'0 % of guests'", "one number"),
    ("words behind the link", supper(dish="all guests [Beans](../recipes/beans.md) «with butter"), "unreadable-dish", "'with butter' stands behind", "the line ends with the link"),
    ("two links", supper(dish="all guests [Beans](../recipes/beans.md) «[Beans](../recipes/beans.md)"), "wrong-value", "two links", "a line for each"),
    ("link to a site", supper(dish="all guests [Beans](«https://example.org)"), "link-scheme", "not a recipe", "file of a recipe"),
    ("unknown dish", supper(dish="all guests «[Beans](../recipes/baens.md)"), "unknown-link", "'../recipes/baens.md' is not a recipe", "'beans.md'"),
    ("dish in the wrong folder", supper(dish="all guests «[Beans](beans.md)"), "unknown-link", "'beans.md' is not a recipe", "it is '../recipes/beans.md'"),
    ("gathering for a dish", supper(dish="all guests «[Supper](supper.md)"), "unknown-link", "not a recipe", ".md file"),
    ("draft for a dish", supper(dish="all guests «[Greens](../recipes/greens.md)"), "unknown-link", "'greens' is a draft", "this gathering a draft"),
    ("dish that serves nobody", supper(dish="all guests «[Shank](../recipes/shank.md)"), "not-scalable", "Smoked shank does not say how many it serves", "`serves:` to recipes/shank.md"),
    ("the same dish twice", supper(dish=f"{DISH}\n  - 3 servings «[More beans](../recipes/beans.md)"), "same-dish", "'More beans' is the dish of line 6 already", "Keep one line"),
    ("dish joined to the one above", supper(dish=f"{DISH}\n   «- 3 servings [Shank](../recipes/shank.md)"), "yaml-not-text", "joins this line", "Begin it with '- '"),
    ("dish that begins with its link", supper(dish="«[Beans](../recipes/beans.md)"), "yaml-syntax", "", "Put the text in single quotes"),
    ("comment behind a dish", supper(dish=f"{DISH}« # hot"), "yaml-comment", "'# hot'", "# hot'"),
    ("dish divided by nothing", supper(dish="«1/0 servings [Beans](../recipes/beans.md)"), "unreadable-amount", "divides by nothing", "1/2"),
    ("on hand in one line", supper("on hand: «2 lb beans\n"), "wrong-value", "'on hand' takes a list", "Write on hand: [2 lb beans]"),
    # on hand
    ("no amount", on_hand("«salt"), "wrong-dimension", "'salt' has no amount", "Begin the line"),
    ("vague amount", on_hand("«a pinch of mace"), "wrong-dimension", "no amount", "a count, a weight or a volume"),
    ("bare number", on_hand("«3"), "yaml-not-text", "bare number", "3 onions"),
    ("unknown unit", on_hand("2 «cupps flour"), "unknown-unit", "'cupps'", "cup"),
    ("fixed", on_hand("2 lb beans «(fixed)"), "wrong-value", "never scaled", "(fixed)"),
    ("misspelled place", on_hand("2 lb beans, «in the freezr"), "unknown-place", "'in the freezr'", ", in the freezer"),
    ("another place", on_hand("2 lb beans, «in the cellar"), "unknown-place", "'in the cellar'", "in the freezer, in the fridge or on the shelf"),
    ("place on which nothing lies", on_hand("2 lb beans, «on the freezer"), "unknown-place", "'on the freezer'", "in the freezer"),
    ("place by another name", on_hand("2 lb beans, «in the refrigerator"), "unknown-place", "'in the refrigerator'", ", in the fridge"),
    ("place without a comma", on_hand("2 lb rolled oats «in the freezer"), "unknown-place", "'in the freezer' is not read", "behind a comma: , in the freezer"),
    ("place without a comma behind a link", on_hand("2 [shanks](../recipes/shank.md) «in the freezer"), "unknown-place", "'in the freezer' is not read", ", in the freezer"),
    ("two places", on_hand("2 lb beans, «in the fridge, in the freezer"), "unknown-place", "'in the fridge'", "one place behind a comma"),
    ("the same twice", on_hand("2 lb beans, in the fridge\n  - «3 lb beans, in the fridge"), "same-id", "'beans' stands in line 8 already", "Add the amounts"),
    ("amounts disagree", on_hand("«2 lb (1900 g) beans"), "alternatives-disagree", "differ by more than 6 %", "Correct"),
    ("unknown component", on_hand("1 «[shank](../recipes/shnk.md)"), "unknown-link", "not a recipe", "'shank.md'"),
    ("draft component", on_hand("1 qt «[greens](../recipes/greens.md)"), "unknown-link", "'greens' is a draft", "this gathering a draft"),
    ("component by a measure that it does not tell", on_hand("«1 qt [shank](../recipes/shank.md)"), "wrong-dimension", "'1 qt' cannot be compared", "`makes:` in recipes/shank.md"),
    ("component that tells no yield", on_hand("«1 qt [beans](../recipes/beans.md)"), "wrong-dimension", "does not say what a batch makes", "recipes/beans.md"),
    # the rest
    ("neither yes nor no", supper("whole batches: «maybe\n"), "wrong-value", "'maybe'", "yes or no"),
    ("draft of a kind", supper("draft: «almost\n"), "wrong-value", "'almost'", "yes or no"),
    ("link in the text", supper(body="See «[it](beens.md).\n"), "unknown-link", "'beens.md' leads to no file", "beans.md"),
    ("photo in the text", supper(body="«![it](../photos/it.jpg)\n"), "missing-photo", "../photos/it.jpg", "photos/"),
    ("amount in the text", supper(body="Stir in «[salt](#salt).\n"), "unknown-ingredient", "'#salt'", "none here"),
]  # fmt: skip


def place(text: str) -> tuple[str, int, int]:
    """The text without its mark, and the line and column where the mark stood."""
    before, _, after = text.partition(MARK)
    assert MARK not in after, "one mark a text"
    return before + after, before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1


def check(folder: Path) -> list[dict[str, Any]]:
    """The problems that `check` tells."""
    result = CliRunner().invoke(main, ["check", str(folder), "--json"])
    assert not isinstance(result.exception, Exception), result.exception
    problems: list[dict[str, Any]] = json.loads(result.stdout)
    assert result.exit_code == (1 if any(problem["severity"] == "error" for problem in problems) else 0)
    return problems


@pytest.mark.parametrize(
    ("text", "slug", "sentence", "hint"), [m[1:] for m in MISTAKES], ids=[m[0] for m in MISTAKES]
)
def test_mistake_is_told_with_its_place(
    make_book: Callable[..., Path], text: str, slug: str, sentence: str, hint: str
) -> None:
    clean, line, column = place(text)
    (problem,) = check(make_book({**OTHERS, FILE: clean}))
    found = (problem["slug"], problem["file"], problem["line"], problem["column"])
    assert found == (slug, FILE, line, column), problem
    assert sentence in problem["message"]
    assert hint in problem["hint"]


def test_without_its_mistake_there_is_none(make_book: Callable[..., Path]) -> None:
    text = supper(
        "work from: 2026-11-28 07:00\non hand:\n  - 2 [shanks](../recipes/shank.md), in the freezer\n"
    )
    assert check(make_book({**OTHERS, FILE: text})) == []


def test_a_gathering_with_an_error_does_not_stop_the_recipes(make_book: Callable[..., Path]) -> None:
    bad = BEANS.format(extra="ingredients:\n  - 2 cupps flour\n")
    problems = check(make_book({**OTHERS, "recipes/soup.md": bad, FILE: supper(date="date: 2026-12-05")}))
    assert [(problem["file"], problem["slug"]) for problem in problems] == [
        (FILE, "unreadable-moment"),
        ("recipes/soup.md", "same-name"),
        ("recipes/soup.md", "unknown-unit"),
    ]


def test_a_faulty_recipe_is_told_once_where_the_fault_is(make_book: Callable[..., Path]) -> None:
    files = {
        **OTHERS,
        "recipes/beans.md": BEANS.format(extra="ingredients:\n  - 2 cupps flour\n"),
        FILE: supper(),
    }
    assert [problem["file"] for problem in check(make_book(files))] == ["recipes/beans.md"]


def test_a_faulty_gathering_is_no_fault_of_the_link_to_it(make_book: Callable[..., Path]) -> None:
    page = "---\nname: News\n---\n\nCome to [the supper](../gatherings/supper.md).\n"
    files = {**OTHERS, "pages/news.md": page, FILE: supper(guests="guests: many")}
    assert [problem["file"] for problem in check(make_book(files))] == [FILE]


def test_two_files_for_one_address_and_a_folder_within(make_book: Callable[..., Path]) -> None:
    files = {**OTHERS, "gatherings/Supper.md": supper(), FILE: supper(), "gatherings/old/one.md": supper()}
    problems = check(make_book(files))
    assert sorted(problem["slug"] for problem in problems) == ["bad-slug", "same-slug"]
    assert any("inside gatherings/" in problem["message"] for problem in problems)
