"""Comments in a body, by CommonMark 0.31.2, sections 4.6 (condition 2) and 6.6: told where they stand, published nowhere."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from generator.build import build_site
from generator.cli import main
from generator.markdown import (
    _comment_end,
    find_comments,
    find_headings,
    find_runs,
    render_html,
    without_comments,
)
from generator.problems import Position
from tests.read.conftest import ReadRecipe

FRONT = "---\nname: Dish\nserves: 4\nchapter: Pots\ningredients:\n  - 1 cup honey\n---\n"


def html(text: str) -> str:
    return render_html(
        without_comments(text, find_comments(text)),
        link=lambda address, inner: None,
        text_run=lambda words: words,
        image=lambda address, words: None,
        heading_offset=0,
    )


# a text, the place of its comment («), what is left of it
LEFT = [
    ("Stir «<!-- secret --> well.", "<p>Stir  well.</p>\n"),
    ("Stir. «<!-- secret -->\nHeat.", "<p>Stir.\nHeat.</p>\n"),
    ("Stir.  «<!-- secret -->\nHeat.", "<p>Stir.\nHeat.</p>\n"),  # its spaces break no line
    ("«<!-- secret -->", ""),
    ("«<!-- secret --> Stir.", "<p>Stir.</p>\n"),
    ("   «<!-- secret -->     Stir.", "<p>   Stir.</p>\n".replace("   ", "")),
    ("Stir.\n\n«<!-- secret\n\n- secret\n\n# secret\n-->\n\nHeat.", "<p>Stir.</p>\n<p>Heat.</p>\n"),
    ("«<!-- secret\n\nsecret --> Stir\nand heat.", "<p>Stir\nand heat.</p>\n"),
    ("Stir\n«<!-- secret\nsecret -->\nand heat.", "<p>Stir</p>\n<p>and heat.</p>\n"),
    ("Stir «<!-- secret\nsecret --> well.", "<p>Stir\nwell.</p>\n"),
    ("- «<!-- secret --> Stir\n- heat", "<ul>\n<li>Stir</li>\n<li>heat</li>\n</ul>\n"),
    ("1. Stir «<!-- secret\n   secret -->\n2. heat", "<ol>\n<li>\n<p>Stir</p>\n</li>\n<li>\n<p>heat</p>\n</li>\n</ol>\n"),
    ("> Stir «<!-- secret -->", "<blockquote>\n<p>Stir</p>\n</blockquote>\n"),
    ("# Stir «<!-- secret -->", '<h1 id="stir">Stir</h1>\n'),
    ("*Stir «<!-- secret* --> well*", "<p><em>Stir  well</em></p>\n"),
    ("ven«<!-- secret -->ison", "<p>venison</p>\n"),
    ("![a «<!-- secret -->shank](shank.jpg)", '<p><img src="shank.jpg" alt="a shank"></p>\n'),
    ("[the «<!-- secret -->shank](shank.md)", '<p><a href="shank.md">the shank</a></p>\n'),
    ("a«<!-->b", "<p>ab</p>\n"),  # 625 of the specification
    ("a«<!--->b", "<p>ab</p>\n"),  # 625
    ("a «<!-- this is a --\ncomment - with hyphens -->", "<p>a</p>\n"),  # 624, left out
]  # fmt: skip


@pytest.mark.parametrize(("text", "left"), LEFT)
def test_comment_is_left_out_and_told_where_it_stands(
    read_text_of_recipe: ReadRecipe, text: str, left: str
) -> None:
    before, _, after = text.partition("«")
    whole = before + after
    recipe, log = read_text_of_recipe(FRONT + whole)
    (problem,) = [one for one in log if one.slug == "html-comment"]
    line, column = before.count("\n") + 8, len(before) - before.rfind("\n")
    assert problem.position == Position("recipes/dish.md", line, column)
    assert problem.message == "This comment is left out of the page."
    assert recipe is not None
    assert "secret" not in recipe.body.text
    assert recipe.body.text.count("\n") == whole.count("\n")
    assert html(whole) == left


TEXT = [
    ("`<!-- shown -->`", "<p><code>&lt;!-- shown --&gt;</code></p>\n"),
    ("```\n<!-- shown -->\n```", "<pre><code>&lt;!-- shown --&gt;\n</code></pre>\n"),
    ("    <!-- shown -->", "<pre><code>&lt;!-- shown --&gt;\n</code></pre>\n"),
    (r"\<!-- shown -->", "<p><!-- shown --></p>\n"),
    ("&lt;!-- shown -->", "<p><!-- shown --></p>\n"),
    ("cool --> pack <! -- shown -->", "<p>cool --> pack <! -- shown --></p>\n"),
    ("<b>shown</b>", "<p><b>shown</b></p>\n"),
]


@pytest.mark.parametrize(("text", "shown"), TEXT)
def test_what_is_no_comment_stays_text(read_text_of_recipe: ReadRecipe, text: str, shown: str) -> None:
    recipe, log = read_text_of_recipe(FRONT + text)
    assert log.sorted() == ()
    assert recipe is not None
    assert recipe.body.text == text
    assert html(text) == shown


OPEN = [
    "Stir «<!-- and heat.",
    "Stir.\n\n«<!-- and heat.\n\nServe.",
    "Stir «<!-- and heat.\n\nServe --> hot.",
    "- «<!-- stir\n\n  heat --> serve",
    "`<!-- shown -->` «<!-- and more",
    "<!-- whole --> stir «<!-- and more",
]


@pytest.mark.parametrize("text", OPEN)
def test_comment_without_an_end_is_an_error_and_loses_nothing(
    read_text_of_recipe: ReadRecipe, text: str
) -> None:
    before, _, after = text.partition("«")
    recipe, log = read_text_of_recipe(FRONT + before + after)
    assert recipe is not None
    assert log.has_errors, "no site is written"
    (problem,) = [one for one in log if one.slug == "open-comment"]
    line, column = before.count("\n") + 8, len(before) - before.rfind("\n")
    assert problem.position == Position("recipes/dish.md", line, column)
    assert "-->" in problem.hint


@pytest.mark.parametrize("text", [one.replace("«", "") for one in OPEN[:3]])
def test_hints_followed_to_the_letter_end_the_problem(read_text_of_recipe: ReadRecipe, text: str) -> None:
    shown = text.replace("<!--", r"\<!--")
    assert read_text_of_recipe(FRONT + shown)[1].sorted() == ()
    closed = text.replace("<!-- and heat.", "<!-- and heat. -->")
    assert [one.slug for one in read_text_of_recipe(FRONT + closed)[1]] == ["html-comment"]
    noted = FRONT.replace("serves", "# and heat.\nserves") + "Stir.\n"
    assert read_text_of_recipe(noted)[1].sorted() == ()


def test_words_of_a_comment_are_no_heading_no_run_and_no_link(read_text_of_recipe: ReadRecipe) -> None:
    text = "## Heat <!-- heat -->\n\nStir <!-- 1 cup honey, [x](nowhere.md) --> heat [honey](#honey).\n"
    recipe, log = read_text_of_recipe(FRONT + text)
    assert [one.slug for one in log] == ["html-comment", "html-comment"]
    assert recipe is not None
    (link,) = recipe.body.amount_links
    assert link.position == Position("recipes/dish.md", 10, text.splitlines()[2].index("[honey]") + 1)
    assert [heading.id for heading in find_headings(text)] == ["heat"]
    runs = [(run.text.strip(), run.column) for run in find_runs(text) if run.line == 3]
    assert ("heat", text.splitlines()[2].index(" heat") + 1) in runs


def test_nothing_of_a_comment_is_in_any_file_of_the_site(
    make_book: Callable[..., Path], tmp_path: Path
) -> None:
    body = "\nStir <!-- zanzibar --> it.\n\n<!--\nzanzibar\n\n- zanzibar\n-->\n"
    page = "---\nname: How\n---\n\n## Scales <!-- zanzibar -->\n\nTwo.\n"
    folder = make_book({"recipes/dish.md": FRONT + body, "pages/how.md": page})
    build_site(folder, into=tmp_path / "out")
    written = [path for path in (tmp_path / "out").rglob("*") if path.is_file()]
    assert [path for path in written if b"zanzibar" in path.read_bytes()] == []
    dish = str(folder / "recipes/dish.md")
    for words in (["sheet", dish], ["sheet", dish, "--json"]):
        told = CliRunner().invoke(main, words)
        assert told.exit_code == 0
        assert "zanzibar" not in told.stdout
        assert "Stir it." in told.stdout or "--json" in words
    problems = json.loads(CliRunner().invoke(main, ["check", str(folder), "--json"]).stdout)
    assert [(one["file"], one["line"], one["severity"]) for one in problems] == [
        ("pages/how.md", 5, "warning"),
        ("recipes/dish.md", 9, "warning"),
        ("recipes/dish.md", 11, "warning"),
    ]


MARKUP = st.sampled_from(
    ["<!--", "-->", "<!-->", "<!-- a -->", "\n", "\n\n", "- ", "> ", "    ", "`", "```\n", "#", "*", "|", "a", "[a](b)", "![", "](c)", "\\", " "]
)  # fmt: skip


@given(st.lists(MARKUP, max_size=14).map("".join))
def test_every_comment_is_placed_and_no_line_is_lost(text: str) -> None:
    comments = find_comments(text)
    lines = text.split("\n")
    for one in comments:
        assert lines[one.line - 1][one.column - 1 :].startswith("<!--")
        if not one.is_open:
            assert lines[one.end_line - 1][: one.end_column - 1].endswith(("-->", "<!-->"))
    left = without_comments(text, comments)
    assert left.count("\n") == text.count("\n")


def test_comments_are_read_once_each() -> None:
    """Characters that are searched, not time: a text of open comments is searched through once."""
    searched = 0

    class Counted(str):
        __slots__ = ()

        def find(self, *words: object) -> int:  # type: ignore[override]
            nonlocal searched
            found = str.find(self, *words)  # type: ignore[arg-type]
            if words[0] == "-->":
                searched += (found if found >= 0 else len(self)) - int(str(words[1]))
            return found

    for unit, end in (("<!-- a ", ""), ("<!-- a\n", "-->"), ("<!-- a --> ", ""), ("<!-- a\n\n", "")):
        for times in (50, 500):
            searched = 0
            text = Counted(unit * times + end)
            env: dict[str, object] = {}
            for number in range(times):
                _comment_end(text, number * len(unit), env)
            assert searched <= 2 * len(text)
