"""A book with one mistake in it, one test a kind: file, line, column, slug, hint, and never a traceback.

In each text the sign « stands just before the character that the problem must point at.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.cli import main

MARK = "«"


def recipe(front: str, body: str = "Cook it.\n", *, name: str = "name: Greens\n") -> str:
    return f"---\n{name}serves: 4\nchapter: Pots\n{front}---\n\n{body}"


SHANK = "---\nname: Smoked shank\nmakes: 4 shanks (3 lb)\nchapter: Pots\n{extra}---\n\nSmoke it.\n"
CURED = (
    "meat:\n  animal: elk\n  cut: shank\n  weight: 5 lb\n"
    "cure:\n  method: brine\n  water: 1 gal\n  salt: 3 %\n  {line}\n"
)

# name, file with the mistake, its text, other files, slug, words of the hint
MISTAKES: list[tuple[str, str, str, dict[str, str], str, str]] = [
    (
        "duplicate key",
        "recipes/greens.md",
        recipe("summary: One\n«summary: Two\n"),
        {},
        "yaml-duplicate-key",
        "",
    ),
    ("alias", "recipes/greens.md", recipe("summary: «&a One\n"), {}, "yaml-alias", "quote"),
    ("tag", "recipes/greens.md", recipe("summary: «!!str One\n"), {}, "yaml-tag", "quote"),
    ("tab", "recipes/greens.md", recipe("ingredients:\n«\t- 1 cup honey\n"), {}, "yaml-tab", "space"),
    (
        "comment",
        "recipes/greens.md",
        recipe("ingredients:\n  - 1 cup honey« # the dark one\n"),
        {},
        "yaml-comment",
        "'1 cup honey # the dark one'",
    ),
    (
        "item read as a mapping",
        "recipes/greens.md",
        recipe("ingredients:\n  - «2 lb venison: diced\n"),
        {},
        "yaml-not-text",
        "'2 lb venison: diced'",
    ),
    (
        "item read as a list",
        "recipes/greens.md",
        recipe("ingredients:\n  - «[salt](#salt)\n"),
        {},
        "yaml-syntax",
        "",
    ),
    (
        "empty item",
        "recipes/greens.md",
        recipe("ingredients:\n  «-\n  - 1 cup honey\n"),
        {},
        "yaml-not-text",
        "",
    ),
    ("bare number", "recipes/greens.md", recipe("ingredients:\n  - «3\n"), {}, "yaml-not-text", ""),
    ("not YAML", "recipes/greens.md", recipe("summary: «'One\n"), {}, "yaml-syntax", ""),
    ("no front matter", "recipes/greens.md", "«# Greens\n\nCook them.\n", {}, "no-front-matter", "---"),
    ("unknown key", "recipes/greens.md", recipe("«sumary: One\n"), {}, "unknown-key", "summary"),
    (
        "missing name",
        "recipes/greens.md",
        "---\n«serves: 4\nchapter: Pots\n---\n\nCook.\n",
        {},
        "missing-key",
        "name",
    ),
    (
        "neither serves nor makes",
        "recipes/greens.md",
        "---\n«name: Greens\nchapter: Pots\n---\n\nCook.\n",
        {},
        "missing-key",
        "serves",
    ),
    (
        "unknown unit",
        "recipes/greens.md",
        recipe("ingredients:\n  - 2 «cupps flour\n"),
        {},
        "unknown-unit",
        "cup",
    ),
    (
        "impossible amount",
        "recipes/greens.md",
        recipe("ingredients:\n  - «1/0 cup honey\n"),
        {},
        "unreadable-amount",
        "",
    ),
    (
        "salt by the cup",
        "recipes/greens.md",
        recipe("ingredients:\n  - 5 lb cabbage\n  - «1 cup salt\ncourse:\n  - ferment: 4 weeks at 70 °F\n"),
        {},
        "unknown-crystal",
        "crystal",
    ),
    (
        "nitrite among the ingredients",
        "recipes/greens.md",
        recipe("ingredients:\n  - «1 tsp sodium nitrite\n  - 2 lb venison\n"),
        {},
        "nitrite-listed",
        "`curing salt: 120 ppm`",
    ),
    (
        "one letter off a poison",
        "recipes/greens.md",
        recipe("ingredients:\n  - «2 tbsp foxglov leaves\n"),
        {},
        "near-name",
        "foxglove",
    ),
    (
        "same id",
        "recipes/greens.md",
        recipe("ingredients:\n  - 1 cup honey\n  - «2 tbsp honey\n"),
        {},
        "same-id",
        "",
    ),
    (
        "taken id",
        "recipes/greens.md",
        recipe(
            CURED.format(line="sugar: 1 %") + "ingredients:\n  - «1 tbsp table salt\n  - «2 g salt\n"
        ).replace("  - «1 tbsp table salt\n", ""),
        {},
        "taken-id",
        "cure",
    ),
    (
        "alternatives disagree",
        "recipes/greens.md",
        recipe("ingredients:\n  - «2 lb (1900 g) potatoes\n"),
        {},
        "alternatives-disagree",
        "",
    ),
    (
        "unknown stage",
        "recipes/greens.md",
        recipe("course:\n  - «simer: 3 h\n"),
        {},
        "unknown-stage",
        "simmer",
    ),
    (
        "unknown place",
        "recipes/greens.md",
        recipe("course:\n  - cure: 5 days in the «frige\n"),
        {},
        "unknown-place",
        "fridge",
    ),
    (
        "unreadable length",
        "recipes/greens.md",
        recipe("course:\n  - simmer: «2 dayz\n"),
        {},
        "unreadable-time",
        "",
    ),
    (
        "unknown animal",
        "recipes/greens.md",
        recipe("meat:\n  animal: «elkk\n  weight: 2 lb\n"),
        {},
        "unknown-animal",
        "elk",
    ),
    (
        "unknown curing salt",
        "recipes/greens.md",
        recipe(CURED.format(line="curing salt: 150 ppm\n  kind of curing salt: «pink")),
        {},
        "unknown-curing-salt",
        "no. 1",
    ),
    (
        "link to no ingredient",
        "recipes/greens.md",
        recipe("ingredients:\n  - 1 cup honey\n", "Stir in the «[hony](#hony).\n"),
        {},
        "unknown-ingredient",
        "honey",
    ),
    (
        "shares over the whole",
        "recipes/greens.md",
        recipe(
            "ingredients:\n  - 1 cup honey\n", "Half of the [honey](#honey:1/2), then «[more](#honey:2/3).\n"
        ),
        {},
        "shares-over-whole",
        "",
    ),
    (
        "amount not linked",
        "recipes/greens.md",
        recipe("ingredients:\n  - 1 cup honey\n", "Stir in «1 cup honey.\n"),
        {},
        "unlinked-amount",
        "[honey](#honey)",
    ),
    (
        "curly quotes around a key",
        "recipes/greens.md",
        recipe("«“summary”: One\n"),
        {},
        "unknown-key",
        "Write summary: without them.",
    ),
    (
        "curly quotes around a value",
        "recipes/greens.md",
        recipe("tags:\n  - «“early”\n"),
        {},
        "curly-quotes",
        "Write it without them: early",
    ),
    (
        "curly quotes around an amount",
        "recipes/greens.md",
        recipe("ingredients:\n  - «“2 cups” honey\n"),
        {},
        "curly-quotes",
        "Write it without them: 2 cups",
    ),
    (
        "two ingredients that differ by an accent",
        "recipes/greens.md",
        recipe("ingredients:\n  - 1 cup crème\n  - «1 cup creme\n"),
        {},
        "accents-apart",
        "Add the amounts together",
    ),
    (
        "two recipes of one name",
        "recipes/greens.md",
        "---\n«name: Greens\nserves: 4\n---\n\nCook them.\n",
        {"recipes/a.md": recipe("")},
        "same-name",
        "name: Greens of Aunt Orla",
    ),
    (
        "a link whose words have a bracket too many",
        "recipes/greens.md",
        recipe("", "See «[the dark] stock](stock.md).\n"),
        {"recipes/stock.md": SHANK.format(extra="")},
        "half-link",
        "Write [the dark stock](stock.md).",
    ),
    (
        "a link whose words have a bracket that stays open",
        "recipes/greens.md",
        recipe("", "See «[the [stock](stock.md).\n"),
        {"recipes/stock.md": SHANK.format(extra="")},
        "half-link",
        "close it",
    ),
    (
        "link scheme",
        "recipes/greens.md",
        recipe("", "See «[this](javascript:alert(1)).\n"),
        {},
        "link-scheme",
        "",
    ),
    (
        "unknown link in the body",
        "recipes/greens.md",
        recipe("", "See «[stock](stok.md).\n"),
        {"recipes/stock.md": recipe("")},
        "unknown-link",
        "stock.md",
    ),
    (
        "unknown recipe in a line",
        "recipes/greens.md",
        recipe("ingredients:\n  - 1 «[shank](shnk.md)\n"),
        {"recipes/shank.md": SHANK.format(extra="")},
        "unknown-link",
        "shank.md",
    ),
    (
        "wrong dimension",
        "recipes/greens.md",
        recipe("ingredients:\n  - «1 qt [shank](shank.md)\n"),
        {"recipes/shank.md": SHANK.format(extra="")},
        "wrong-dimension",
        "makes",
    ),
    (
        "cycle",
        "recipes/greens.md",
        recipe("makes: 8 bowls\ningredients:\n  - 1 [shank](shank.md)\n"),
        {"recipes/shank.md": SHANK.format(extra="ingredients:\n  - 1 [greens](greens.md)\n")},
        "cycle",
        "Take the link out",
    ),
    (
        "unknown chapter",
        "recipes/greens.md",
        "---\nname: Greens\nserves: 4\nchapter: «Pans\n---\n\nCook.\n",
        {},
        "unknown-chapter",
        "Pots",
    ),
    (
        "above the limit",
        "recipes/greens.md",
        recipe(CURED.format(line="curing salt: «250 ppm")),
        {},
        "above-limit",
        "At most",
    ),
    (
        "meat unknown",
        "recipes/greens.md",
        recipe(
            "meat:\n  animal: elk\n«cure:\n  method: brine\n  water: 1 gal\n  salt: 3 %\n  curing salt: 30 g\n"
        ),
        {},
        "meat-unknown",
        "no less than",
    ),
    (
        "belly whose skin is not told",
        "recipes/greens.md",
        recipe(
            "meat:\n  animal: wild boar\n  cut: belly\n  weight: 5 lb\n"
            "«cure:\n  method: dry\n  salt: 3 %\n  curing salt: 150 ppm\n"
        ),
        {},
        "skin-unknown",
        "skin: off",
    ),
    (
        "salt that no brine reaches",
        "recipes/greens.md",
        recipe(
            CURED.replace("salt: 3 %", "salt: 60 % of the brine")
            .replace("cure:", "«cure:")
            .format(line="sugar: 40 % of the brine")
        ),
        {},
        "no-solution",
        "Change one target",
    ),
    (
        "nitrite in trout",
        "recipes/greens.md",
        recipe(
            "meat:\n  animal: trout\n  weight: 2 lb\ncure:\n  method: brine\n  water: 1 gal\n  salt: 3 %\n  curing salt: «100 ppm\n"
        ),
        {},
        "fish-nitrite",
        "salt alone",
    ),
    (
        "raw component not cooked",
        "recipes/greens.md",
        "---\n«name: Greens\nserves: 4\nchapter: Pots\ningredients:\n  - 1 [shank](shank.md)\ncourse:\n  - simmer: 10 min\n---\n\nWarm it.\n",
        {"recipes/shank.md": SHANK.format(extra="eat: after cooking\n")},
        "uncooked-component",
        "165 °F inside",
    ),
    ("bad slug", "recipes/con.md", "«" + recipe(""), {}, "bad-slug", ""),
    (
        "unknown key in book.yaml",
        "book.yaml",
        "title: A tiny book\nchapters: [Pots]\n«famly: Weir\n",
        {},
        "unknown-key",
        "family",
    ),
    (
        "missing photo",
        "recipes/greens.md",
        recipe("", "«![a shank](../photos/shank.jpg)\n"),
        {},
        "missing-photo",
        "photos/",
    ),
]


def place(text: str) -> tuple[str, int, int]:
    """The text without its mark, and the line and column where the mark stood."""
    before, _, after = text.partition(MARK)
    assert MARK not in after, "one mark a text"
    return before + after, before.count("\n") + 1, len(before) - (before.rfind("\n") + 1) + 1


@pytest.mark.parametrize(
    ("file", "text", "others", "slug", "hint"), [m[1:] for m in MISTAKES], ids=[m[0] for m in MISTAKES]
)
def test_mistake_is_told_with_its_place(
    make_book: Callable[..., Path], file: str, text: str, others: dict[str, str], slug: str, hint: str
) -> None:
    clean, line, column = place(text)
    folder = make_book({**others, file: clean})
    result = CliRunner().invoke(main, ["check", str(folder), "--json"])
    assert not isinstance(result.exception, Exception), result.exception
    problems = json.loads(result.stdout)
    found = [problem for problem in problems if problem["slug"] == slug]
    assert found, problems
    problem = found[0]
    if slug == "cycle":
        assert "greens" in problem["message"]
        assert "→" in problem["message"]
    else:
        assert (problem["file"], problem["line"], problem["column"]) == (file, line, column), problem
    assert hint in problem["hint"]
    assert problem["message"]
    errors = any(problem["severity"] == "error" for problem in problems)
    assert result.exit_code == (1 if errors else 0)


def test_brackets_in_pairs_lists_of_tasks_notes_and_quoted_words_are_no_mistakes(
    make_book: Callable[..., Path],
) -> None:
    text = recipe(
        "summary: “The best of all”, she said.\ntags: [“so” called]\ningredients:\n  - 1 cup crème\n",
        "[The [dark] stock](stock.md) [1], a note[^1], *[x]* [again](stock.md).\n\n- [ ] wash\n- [x] cut\n\n[^1]: Hers.\n",
    )
    folder = make_book({"recipes/greens.md": text, "recipes/stock.md": SHANK.format(extra="")})
    result = CliRunner().invoke(main, ["check", str(folder), "--json"])
    assert json.loads(result.stdout) == []


def test_there_are_at_least_thirty_kinds() -> None:
    assert len({slug for *_, slug, _ in MISTAKES}) >= 25
    assert len(MISTAKES) >= 30


def test_all_problems_of_a_book_are_told_at_once(make_book: Callable[..., Path]) -> None:
    folder = make_book(
        {
            "recipes/a.md": recipe("ingredients:\n  - 2 cupps flour\n"),
            "recipes/b.md": recipe("course:\n  - simer: 3 h\n"),
        }
    )
    result = CliRunner().invoke(main, ["check", str(folder), "--json"])
    slugs = [problem["slug"] for problem in json.loads(result.stdout)]
    assert slugs == ["unknown-unit", "same-name", "unknown-stage"]
    site = CliRunner().invoke(main, ["site", str(folder), "--into", str(folder.parent / "out")])
    assert site.exit_code == 1
    assert not (folder.parent / "out").exists()
    assert "recipes/a.md:6:7: error" in site.stderr
    assert "2 errors, 1 warning" in site.stderr


def test_a_link_to_a_faulty_recipe_is_told_once_where_the_fault_is(make_book: Callable[..., Path]) -> None:
    folder = make_book(
        {
            "recipes/shank.md": SHANK.format(extra="course:\n  - simer: 3 h\n"),
            "recipes/greens.md": recipe(
                "ingredients:\n  - 1 [shank](shank.md)\n", "As [before](shank.md).\n"
            ),
        }
    )
    result = CliRunner().invoke(main, ["check", str(folder), "--json"])
    problems = json.loads(result.stdout)
    assert [(p["file"], p["slug"]) for p in problems] == [("recipes/shank.md", "unknown-stage")]
