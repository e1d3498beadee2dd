"""Characters that nobody sees: named by their number where they stand, and no byte of them in what is told or made.

The classes are those of The Unicode Standard, chapter 23 and section 5.7 of YAML 1.2.2 for its escapes.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from generator.build import build_site
from generator.cli import main
from generator.preview.pages import problems_page
from generator.problems import UNSEEN, BookError, Position, Problem, ProblemLog, visible
from generator.read import read_book
from generator.read.signs import without_ignored
from generator.tables import Tables

MakeBook = Callable[..., Path]
BODY = "\nCook it.\n"


def recipe(front: str = "", body: str = BODY, *, name: str = "name: Dish") -> str:
    return f"---\n{name}\nserves: 4\nchapter: Pots\n{front}---\n{body}"


def run(*words: str) -> Result:
    result = CliRunner().invoke(main, list(words))
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result


def clean(text: str) -> bool:
    return UNSEEN.search(text) is None


REFUSED = [
    *range(0x00, 0x09), *range(0x0B, 0x20), *range(0x7F, 0xA0),  # controls
    0x2028, 0x2029, *range(0x202A, 0x202F), *range(0x2066, 0x206A),  # lines, directions
    0xFFFE, 0xFFFF, 0xFDD0, 0xFDEF, 0x1FFFE, 0x10FFFF, 0xD800, 0xDFFF,  # no characters
]  # fmt: skip
TEXT = "\t\n aZ09é½–…“”’°µ\u00a0\u00ad\u200b\u200c\u200d\u200e\u200f\u2011\u202f\ufe0f\ufeff燻製שלום🍲"


def test_every_unseen_sign_is_known_and_no_sign_of_text_is() -> None:
    assert [hex(code) for code in REFUSED if clean(chr(code))] == []
    assert clean(TEXT)


# escape in double quotes, its code point
ESCAPES = [
    (r"\e", "U+001B"), (r"\0", "U+0000"), (r"\a", "U+0007"), (r"\b", "U+0008"), (r"\r", "U+000D"),
    (r"\x1b", "U+001B"), (r"\x7f", "U+007F"), (r"\N", "U+0085"), (r"\x9B", "U+009B"),
    (r"\L", "U+2028"), (r"\P", "U+2029"),
    (r"\u202A", "U+202A"), (r"\u202e", "U+202E"), (r"\u2066", "U+2066"), (r"\u2069", "U+2069"),
    (r"\uFFFE", "U+FFFE"), (r"\uFDD0", "U+FDD0"), (r"\U0001FFFF", "U+1FFFF"), (r"\U0010FFFE", "U+10FFFE"),
    (r"\uD800", "U+D800"), (r"\uDFFF", "U+DFFF"), (r"\ud83d\ude00", "U+D83D"), (r"\U00110000", "U+110000"),
]  # fmt: skip


@pytest.mark.parametrize(("escape", "named"), ESCAPES)
def test_escape_of_an_unseen_sign_is_named_where_it_stands(
    make_book: MakeBook, escape: str, named: str
) -> None:
    folder = make_book({"recipes/dish.md": recipe(name=f'name: "Mum\\u2019s \\tpot {escape}]0;x"')})
    result = run("check", str(folder), "--json")
    (problem,) = json.loads(result.stdout)
    assert result.exit_code == 1
    assert (problem["slug"], problem["file"]) == ("invisible-character", "recipes/dish.md")
    assert (problem["line"], problem["column"]) == (2, 7 + len('"Mum\\u2019s \\tpot '))
    assert named in problem["message"]
    assert "elete" in problem["hint"]


# where a text of an author can stand, with the place of the escape
PLACES = [
    ("recipes/dish.md", recipe('summary: "«\\e[31m"\n')),
    ("recipes/dish.md", recipe('tags: [a, "«\\e"]\n')),
    ("recipes/dish.md", recipe('ingredients:\n  - "1 cup «\\u202eyenoh"\n')),
    ("recipes/dish.md", recipe('ingredients:\n  "For «\\e":\n    - 1 cup honey\n')),
    ("recipes/dish.md", recipe('course:\n  - cook: "10 min until «\\u202e"\n')),
    ("recipes/dish.md", recipe('"a«\\eb": c\n')),
    ("recipes/dish.md", recipe('accept:\n  "«\\e": b\n')),
    ("recipes/dish.md", recipe('summary: "one\n  two «\\e"\n')),
    ("book.yaml", 'title: "A «\\e]0;x\\a"\nchapters: [Pots]\n'),
    ("book.yaml", 'title: A\nchapters: [Pots, "«\\u2066"]\n'),
    ("book.yaml", 'title: A\nchapters: [Pots]\ncuring salts:\n  "«\\e": nitrite 6 %\n'),
    ("pages/a.md", '---\nname: "A «\\e"\n---\n'),
    ("gatherings/a.md", '---\nname: "A «\\e"\ndate: 2026-12-05 17:30\nguests: 4\ndishes: [b]\n---\n'),
    ("recipes/dish.md", recipe("", "\nCook «&#x202E;it.\n")),
    ("recipes/dish.md", recipe("", "\nCook [it](https://a.example 'x «&#x2066;').\n")),
    ("recipes/dish.md", recipe("", "\nCook <https://a.example/«%E2%80%AEb>.\n")),
    ("recipes/dish.md", recipe("", "\nCook «\u202eit.\n")),
    ("recipes/dish.md", recipe("", "\nCook «\x9bit.\n")),
    ("recipes/dish.md", recipe("", "\nCook «\ufffeit.\n")),
    ("recipes/dish.md", recipe("summary: a «\u2067b\n")),
]


@pytest.mark.parametrize(("file", "text"), PLACES)
def test_nothing_of_it_reaches_what_is_told_or_made(
    make_book: MakeBook, tmp_path: Path, file: str, text: str
) -> None:
    before, _, after = text.partition("«")
    folder = make_book({"recipes/b.md": recipe(), file: before + after})
    line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
    told = run("check", str(folder), "--cautions")
    assert f"{file}:{line}:{column}: error" in told.stderr
    assert "[invisible-character]" in told.stderr
    assert clean(told.stderr + told.stdout)
    as_json = run("check", str(folder), "--json").stdout
    assert clean(as_json)
    assert "U+" in as_json
    assert not any(f"\\u00{code:02x}" in as_json for code in (0x1B, 0x9B))
    with pytest.raises(BookError) as caught:
        build_site(folder, into=tmp_path / "out")
    assert clean(problems_page(caught.value.problems, "1"))
    assert not (tmp_path / "out").exists()


def test_hint_followed_to_the_letter_ends_the_problem(make_book: MakeBook) -> None:
    for text in (recipe('summary: "a\\eb"\n'), recipe("", "\nCook &#x202E;it.\n")):
        (problem,) = json.loads(run("check", str(make_book({"recipes/a.md": text})), "--json").stdout)
        written = problem["hint"].removeprefix("Delete ").removesuffix(".")
        assert written in text
        assert run("check", str(make_book({"recipes/a.md": text.replace(written, "")}))).exit_code == 0


def test_every_escape_of_a_text_is_told_at_once(make_book: MakeBook) -> None:
    text = recipe('summary: "a\\eb\\tc\n  d\\u202Ee"  # \\e\n')
    problems = json.loads(run("check", str(make_book({"recipes/a.md": text})), "--json").stdout)
    assert [(one["line"], one["column"]) for one in problems] == [(5, 12), (6, 4)]


HARMLESS = [
    recipe('summary: "a\\tb\\nc \\u00e9\\x41 \\U0001F372 \\"q\\" \\\\e"\n'),
    recipe("summary: 'a \\e b'\n"),
    recipe("summary: a \\u202E b\n"),
    recipe("", "\nCook &amp; eat &eacute;, &#233; `&#x202E;` \\u202E &nosuch; 100%25.\n"),
    recipe("", "\nSee [this](https://a.example/%E2%80%AEb).\n"),
    recipe("summary: میهمانی\u200cها and 👩\u200d🍳 at שלום\u200f!\n"),
]


@pytest.mark.parametrize("text", HARMLESS)
def test_text_that_only_looks_like_it_is_text(make_book: MakeBook, text: str) -> None:
    result = run("check", str(make_book({"recipes/dish.md": text})), "--json")
    assert json.loads(result.stdout) == []


KEPT = [
    "میهمانی\u200cها",  # Persian: the plural is written apart without a space
    "क्\u200dष",  # Devanagari: the joiner chooses the shape
    "👩\u200d🍳 ❤\ufe0f 1\ufe0f\u20e3 🏴\U000e0067\U000e0062\U000e007f",
    "שלום\u200f, שלום",
    "na\u00efve cafe\u0301",
]
LEFT_OUT = [
    ("ven\u00adison", "venison"),
    ("sodium ni\u00adtrite", "sodium nitrite"),
    ("salt\u200b and\u2060 \ufeffhoney", "salt and honey"),
    ("ni\u200dtrite", "nitrite"),
    ("ni\u200ctri\u200ete", "nitrite"),
    ("ni\ufe0ftri\U000e0061te", "nitrite"),
    ("ni\u00ad\u200dtrite", "nitrite"),
    ("1\u200d0 g\u200d", "10 g"),
    ("\u200dsalt\u200f", "salt"),
    ("燻\u00ad製", "燻製"),
]


@pytest.mark.parametrize("text", KEPT)
def test_sign_that_spells_a_word_stays(text: str) -> None:
    assert without_ignored(text) == text


@pytest.mark.parametrize(("text", "seen"), LEFT_OUT)
def test_sign_that_would_only_hide_a_word_is_left_out(text: str, seen: str) -> None:
    assert without_ignored(text) == seen


@pytest.mark.parametrize("animal", ["ven\u00adison", '"ven\\u00adison"', '"v\\u200Benison"'])
def test_animal_is_known_through_a_soft_hyphen(make_book: MakeBook, tables: Tables, animal: str) -> None:
    log = ProblemLog()
    text = recipe(f"meat:\n  animal: {animal}\n  weight: 2 lb\n", "\nCook the ven\u00adison.\n")
    manuscript = read_book(make_book({"recipes/dish.md": text}), tables, log)
    assert log.sorted() == ()
    assert manuscript is not None
    (dish,) = manuscript.recipes
    assert dish.meat is not None
    assert dish.meat.animal_written == "venison"
    assert dish.body.text == "\nCook the venison.\n"


def test_problem_quotes_nothing_unseen() -> None:
    odd = "br\udce4t\x1b]0;x\x07\u202e"
    problem = Problem(slug="bad-slug", message=odd, hint=odd, position=Position(f"recipes/{odd}.md", 2, 3))
    shown = "br[byte E4]t[U+001B]]0;x[U+0007][U+202E]"
    assert (problem.message, problem.hint) == (shown, shown)
    assert problem.position == Position(f"recipes/{shown}.md", 2, 3)


def test_links_and_words_of_a_command_are_told_without_it(
    make_book: MakeBook, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = make_book(
        {"recipes/a.md": recipe("", "\nSee [it](%1B%5D0;%E2%80%AE.md) ![x](../photos/%9B.jpg).\n")}
    )
    told = run("check", str(folder))
    assert "[unknown-link]" in told.stderr
    assert "[missing-photo]" in told.stderr
    assert clean(told.stderr)
    monkeypatch.chdir(folder)
    assert "'br[byte E4]t' is no recipe" in run("sheet", "br\udce4t").stderr


def test_colons_are_not_pictures_on_a_terminal(make_book: MakeBook) -> None:
    result = run("check", str(make_book({"recipes/a.md": recipe("course:\n  - ':bacon:'\n")})))
    assert "':bacon:'" in result.stderr


ODD_NAMES = [
    ("recipes", b"br\xe4t.md", "recipes/br[byte E4]t.md", "bad-slug"),
    ("recipes", "a\u202eb.md".encode(), "recipes/a[U+202E]b.md", "bad-slug"),
    ("recipes", b"a\x1b[31m.md", "recipes/a[U+001B][31m.md", "bad-slug"),
    ("recipes", b"\xff.txt", "recipes/[byte FF].txt", "not-read"),
    ("photos", b"br\xe4t.jpg", "photos/br[byte E4]t.jpg", "not-read"),
    ("photos", "a\u202eb.jpg".encode(), "photos/a[U+202E]b.jpg", "not-read"),
    ("gatherings", b"\xe4.md", "gatherings/[byte E4].md", "bad-slug"),
]


@pytest.mark.parametrize(("kind", "name", "shown", "slug"), ODD_NAMES)
def test_name_of_a_file_that_is_no_text_is_told(
    make_book: MakeBook, tmp_path: Path, kind: str, name: bytes, shown: str, slug: str
) -> None:
    folder = make_book({"recipes/dish.md": recipe()})
    (folder / kind).mkdir(exist_ok=True)
    path = os.fsencode(folder / kind) + b"/" + name
    with open(path, "w", encoding="utf-8") as file:
        file.write(recipe())
    (problem,) = json.loads(run("check", str(folder), "--json").stdout)
    assert (problem["slug"], problem["file"]) == (slug, shown)
    assert shown in run("check", str(folder)).stderr
    if slug == "not-read":
        build_site(folder, into=tmp_path / "out")


ROOT = Path(__file__).parent.parent
PROGRAM = b"from generator.cli import main; main()"


def strictly(encoding: str, *words: str | bytes) -> subprocess.CompletedProcess[bytes]:
    """The program itself, with a stdout that refuses what its encoding lacks."""
    env = {**os.environ, "PYTHONUTF8": "0", "PYTHONIOENCODING": f"{encoding}:strict"}
    command = [os.fsencode(sys.executable), b"-c", PROGRAM, *map(os.fsencode, words)]
    done = subprocess.run(command, capture_output=True, env=env, cwd=ROOT, check=False)
    assert b"Traceback" not in done.stderr, done.stderr
    return done


def test_folder_whose_name_is_no_text_is_told_on_a_strict_stdout(tmp_path: Path) -> None:
    done = strictly("utf-8", "start", os.fsencode(tmp_path) + b"/br\xe4t")
    assert done.returncode == 0, done.stderr
    assert b"br[byte E4]t" in done.stdout


def test_stdout_that_knows_no_dash_ends_in_no_traceback(make_book: MakeBook) -> None:
    folder = make_book({"recipes/dish.md": recipe("course:\n  - roast: 1–2 h at 350 °F\n")})
    done = strictly("latin-1", "sheet", str(folder / "recipes/dish.md"))
    assert done.returncode == 0, done.stderr
    assert rb"roast: 1\u2013" in done.stdout


def test_visible_text_is_left_as_it_is() -> None:
    assert visible(TEXT) == TEXT
