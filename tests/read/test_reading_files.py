"""Folders and files: encodings, names, settings of the book, what is passed over and what is refused."""

from __future__ import annotations

import os
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from generator.model.book import Manuscript
from generator.problems import Position, ProblemLog
from generator.read import read_book
from generator.read.source import DEVICE_NAMES, MAX_BYTES, slug_of, split_front_matter
from generator.tables import Tables

MakeBook = Callable[..., Path]
DISH = "---\nname: Dish\nserves: 4\nchapter: Pots\n---\n\nCook it.\n"


def read(folder: Path, tables: Tables) -> tuple[Manuscript | None, ProblemLog]:
    log = ProblemLog()
    return read_book(folder, tables, log), log


def told(log: ProblemLog) -> list[tuple[str, str]]:
    return [(problem.slug, problem.position.file if problem.position else "") for problem in log.sorted()]


def test_book_without_recipes_is_a_book(make_book: MakeBook, tables: Tables) -> None:
    manuscript, log = read(make_book({"book.yaml": "title: A\n"}), tables)
    assert manuscript is not None
    assert manuscript.config.title == "A"
    assert manuscript.config.units == "us"
    assert not any((manuscript.recipes, manuscript.pages, manuscript.photos, manuscript.unread))
    assert log.sorted() == ()


def test_folder_without_book_file_is_no_book(tmp_path: Path, tables: Tables) -> None:
    manuscript, log = read(tmp_path, tables)
    assert manuscript is None
    (problem,) = log
    assert (problem.slug, problem.position) == ("no-book", None)
    assert "title:" in problem.hint


def test_recipes_come_in_order_of_their_slugs(make_book: MakeBook, tables: Tables) -> None:
    names = ["zander.md", "Äsche.md", "b.md", "a-2.MD", "a.md"]
    folder = make_book({f"recipes/{name}": DISH for name in names})
    manuscript, log = read(folder, tables)
    assert log.sorted() == ()
    assert manuscript is not None
    assert [recipe.slug for recipe in manuscript.recipes] == ["a", "a-2", "b", "zander", "äsche"]


def test_droppings_of_editors_are_passed_over(make_book: MakeBook, tables: Tables) -> None:
    names = [".a.md.swp", ".hidden.md", "#a.md#", "a.md~", "a.md.bak", ".DS_Store", "~lock.md", "Thumbs.db"]
    manuscript, log = read(make_book({f"recipes/{name}": "x" for name in names}), tables)
    assert manuscript is not None
    assert manuscript.recipes == ()
    assert log.sorted() == ()


def test_file_in_an_inner_folder_is_not_lost_in_silence(make_book: MakeBook, tables: Tables) -> None:
    _, log = read(make_book({"recipes/smoke/a.md": DISH}), tables)
    assert told(log) == [("bad-slug", "recipes/smoke/a.md")]
    assert "recipes/a.md" in log.sorted()[0].hint


def test_two_files_of_one_address(make_book: MakeBook, tables: Tables) -> None:
    folder = make_book({"recipes/Stew.md": DISH, "recipes/stew.md": DISH})
    if len(list((folder / "recipes").iterdir())) == 1:  # a file system that folds case already
        (folder / "recipes" / "Stew.md").unlink()
        (folder / "recipes" / "e\u0301tuve\u0301e.md").write_text(DISH, encoding="utf-8")
        (folder / "recipes" / "étuvée.md").write_text(DISH, encoding="utf-8")
    _, log = read(folder, tables)
    assert [slug for slug, _ in told(log)] == ["same-slug"]


def test_composed_and_decomposed_letters_are_one_address(make_book: MakeBook, tables: Tables) -> None:
    folder = make_book({"recipes/e\u0301tuve\u0301e.md": DISH, "recipes/étuvée.md": DISH})
    if len(list((folder / "recipes").iterdir())) == 2:
        _, log = read(folder, tables)
        assert [slug for slug, _ in told(log)] == ["same-slug"]


SLUGS_OF_FILES = [
    ("smoked-elk-shank", "smoked-elk-shank"),
    ("Smoked-Elk", "smoked-elk"),
    ("étuvée", "étuvée"),
    ("e\u0301tuve\u0301e", "étuvée"),
    ("STRASSE-ß", "strasse-ss"),
    ("燻製", "燻製"),
    ("2-beans", "2-beans"),
]


@pytest.mark.parametrize(("stem", "slug"), SLUGS_OF_FILES)
def test_slug_is_folded(stem: str, slug: str) -> None:
    log = ProblemLog()
    assert slug_of(stem, "recipes/x.md", log) == slug
    assert len(log) == 0


BAD_NAMES = [
    ("smoked elk", "smoked-elk.md"),
    ("smoked_elk", "smoked-elk.md"),
    ("elk!", "elk.md"),
    ("-elk", "elk.md"),
    ("elk-", "elk.md"),
    ("1½", "1.md"),
    ("a.b", "a-b.md"),
    ("🍲", "Rename the file"),
    *((name, "recipe.md") for name in sorted(DEVICE_NAMES)[:3]),
    ("CON", "con-recipe.md"),
]


@pytest.mark.parametrize(("stem", "hint"), BAD_NAMES)
def test_name_that_is_no_address_is_refused(stem: str, hint: str) -> None:
    log = ProblemLog()
    assert slug_of(stem, "recipes/x.md", log) is None
    (problem,) = log
    assert (problem.slug, problem.position) == ("bad-slug", Position("recipes/x.md", 1, 1))
    assert hint in problem.hint
    assert stem in problem.message


ENCODED = [
    ("byte-order mark", b"\xef\xbb\xbf" + DISH.encode()),
    ("carriage returns", DISH.replace("\n", "\r\n").encode()),
    ("old line ends", DISH.replace("\n", "\r").encode()),
    ("spaces behind the fence", DISH.replace("---\n", "---  \n").encode()),
    ("no body", b"---\nname: Dish\nserves: 4\nchapter: Pots\n---"),
]


@pytest.mark.parametrize("data", [case[1] for case in ENCODED], ids=[case[0] for case in ENCODED])
def test_one_recipe_in_every_kind_of_line_end(make_book: MakeBook, tables: Tables, data: bytes) -> None:
    folder = make_book({"recipes/dish.md": ""})
    (folder / "recipes/dish.md").write_bytes(data)
    manuscript, log = read(folder, tables)
    assert log.sorted() == ()
    assert manuscript is not None
    assert manuscript.recipes[0].name == "Dish"
    assert "\r" not in manuscript.recipes[0].body.text


DAMAGED = [
    ("latin-1", b"---\nname: Br\xe4t\n---\n", "not-utf8", (2, 9), "UTF-8"),
    ("utf-16", "---\nname: A\n---\n".encode("utf-16"), "not-utf8", (1, 1), "UTF-8"),
    ("control character", b"---\nname: A\n---\n\nCo\x07ok", "invisible-character", (5, 3), "Delete"),
    ("nothing", b"", "no-front-matter", (1, 1), "---"),
    ("no fence", b"name: A\n", "no-front-matter", (1, 1), "---"),
    ("empty line first", b"\n---\nname: A\n---\n", "no-front-matter", (1, 1), "---"),
    ("never closed", b"---\nname: A\n\nCook.\n", "no-front-matter", (1, 1), "---"),
    ("line separator", "---\nname: A\u2028b\n---\n".encode(), "invisible-character", (2, 8), "Delete"),
    ("too large", b"---\nname: A\n---\n" + b"x" * MAX_BYTES, "file-too-large", (1, 1), "photos/"),
]


@pytest.mark.parametrize(
    ("data", "slug", "place", "hint"), [d[1:] for d in DAMAGED], ids=[d[0] for d in DAMAGED]
)
def test_damaged_file_is_named(
    make_book: MakeBook, tables: Tables, data: bytes, slug: str, place: tuple[int, int], hint: str
) -> None:
    folder = make_book({"recipes/dish.md": "", "recipes/other.md": DISH})
    (folder / "recipes/dish.md").write_bytes(data)
    manuscript, log = read(folder, tables)
    (problem,) = log
    assert problem.slug == slug
    assert problem.position == Position("recipes/dish.md", *place)
    assert hint in problem.hint
    assert manuscript is not None
    assert manuscript.unread == ("recipes/dish.md",)
    assert [recipe.slug for recipe in manuscript.recipes] == ["other"]


def test_links_out_of_the_book_are_refused(make_book: MakeBook, tables: Tables, tmp_path: Path) -> None:
    folder = make_book({"photos/real.jpg": "x", "photos/.hidden.jpg": "x", "photos/notes.txt": "x"})
    (folder / "recipes").mkdir()
    secret = tmp_path / "secret.md"
    secret.write_text(DISH, encoding="utf-8")
    try:
        (folder / "recipes/leak.md").symlink_to(secret)
        (folder / "photos/leak.jpg").symlink_to(secret)
        (folder / "pages").symlink_to(tmp_path, target_is_directory=True)
    except OSError:
        pytest.fail("this system makes no symbolic links; the refusal cannot be tested")
    manuscript, log = read(folder, tables)
    assert told(log) == [
        ("unreadable-file", "pages"),
        ("not-read", "photos/leak.jpg"),
        ("unreadable-file", "recipes/leak.md"),
    ]
    assert manuscript is not None
    assert manuscript.photos == ("photos/real.jpg",)


def test_file_that_cannot_be_opened_is_a_problem(
    make_book: MakeBook, tables: Tables, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = make_book({"recipes/dish.md": DISH})

    def refuse(self: Path) -> bytes:
        raise PermissionError(13, os.strerror(13))

    monkeypatch.setattr(Path, "read_bytes", refuse)
    manuscript, log = read(folder, tables)
    assert manuscript is None
    assert told(log) == [("unreadable-file", "book.yaml")]


def test_photos_are_listed_in_order(make_book: MakeBook, tables: Tables) -> None:
    names = ["photos/b.JPG", "photos/a.png", "photos/inner/c.webp"]
    manuscript, _ = read(make_book(dict.fromkeys(names, "x")), tables)
    assert manuscript is not None
    assert manuscript.photos == ("photos/a.png", "photos/b.JPG", "photos/inner/c.webp")


def test_pages_have_names_and_links(make_book: MakeBook, tables: Tables) -> None:
    text = "---\nname: How we weigh\nsummary: Two scales.\n---\n\n## Scales\n\nSee [stew](../recipes/stew.md), [here](#scales).\n"
    manuscript, log = read(make_book({"pages/weighing.md": text}), tables)
    assert log.sorted() == ()
    assert manuscript is not None
    (page,) = manuscript.pages
    assert (page.slug, page.name, page.summary) == ("weighing", "How we weigh", "Two scales.")
    assert [link.target for link in page.body.links] == ["../recipes/stew.md"]


def test_page_takes_only_its_own_keys(make_book: MakeBook, tables: Tables) -> None:
    manuscript, log = read(make_book({"pages/a.md": "---\nname: A\nserves: 4\n---\n"}), tables)
    assert told(log) == [("unknown-key", "pages/a.md")]
    assert manuscript is not None
    assert manuscript.unread == ("pages/a.md",)


CHAPTERS = [("Pods", "'Pots'"), ("Smoke", "Known are Pots"), ("pots", "'Pots'")]


@pytest.mark.parametrize(("chapter", "hint"), CHAPTERS)
def test_chapter_has_to_stand_in_the_book(
    make_book: MakeBook, tables: Tables, chapter: str, hint: str
) -> None:
    folder = make_book({"recipes/dish.md": DISH.replace("Pots", chapter)})
    _, log = read(folder, tables)
    (problem,) = log
    assert (problem.slug, problem.position) == ("unknown-chapter", Position("recipes/dish.md", 4, 10))
    assert hint in problem.hint


FULL = """---
title: The Tamsel Ridge Larder
family: The Wetherings
address: https://example.org/book
language: en-GB
units: imperial
altitude: 5200 ft
poison help: 'Poison help: 555'
deer disease area: yes
shot: copper
densities:
  Kosher salt: 240 g per cup
weighings:
  curing salt: 6.1 g per tsp
curing salts:
  Weir's: nitrite 6 %, nitrate 1 %
chapters: [Smokehouse, Pots]
theme: larder
smoker capacity: 30 lb
ovens: 1
burners: 4
pots: [16 US qt, 8 l]
"""


def test_every_setting_of_the_book(make_book: MakeBook, tables: Tables) -> None:
    manuscript, log = read(make_book({"book.yaml": FULL}), tables)
    assert log.sorted() == ()
    assert manuscript is not None
    config = manuscript.config
    assert (config.title, config.family) == ("The Tamsel Ridge Larder", "The Wetherings")
    assert config.address == "https://example.org/book/"
    assert (config.language, config.units, config.theme) == ("en-GB", "imperial", "larder")
    assert config.altitude_m == 5200 * Fraction(3048, 10000)
    assert (config.poison_help, config.deer_disease_area, config.shot) == ("Poison help: 555", True, "copper")
    assert config.chapters == ("Smokehouse", "Pots")
    # 1 lb = 453.59237 g, 1 US quart = 946.352946 mL. Source: NIST Handbook 44, Appendix C
    assert config.capacity.smoker_g == 30 * Fraction("453.59237")
    assert (config.capacity.ovens, config.capacity.burners) == (1, 4)
    assert config.capacity.pots_ml == (16 * Fraction("946.352946"), 8000)
    assert [(w.name, w.grams, w.unit) for w in config.house_weights] == [
        ("Kosher salt", 240, "imp_cup"),
        ("curing salt", Fraction(61, 10), "metric_tsp"),
    ]
    assert config.house_weights[1].position == Position("book.yaml", 14, 3)
    (salt,) = config.curing_salts
    assert (salt.key, salt.nitrite, salt.nitrate, salt.salt) == (
        "weir's", Fraction(6, 100), Fraction(1, 100), Fraction(93, 100)
    )  # fmt: skip
    assert salt.title == "Weir's (6 % sodium nitrite, 1 % sodium nitrate)"


@pytest.mark.parametrize(
    ("settings", "paper"),
    [
        ("", "letter"),
        ("units: us\n", "letter"),
        ("units: metric\n", "a4"),
        ("units: imperial\n", "a4"),
        ("paper: A5\n", "a5"),
        ("units: us\npaper: a4\n", "a4"),
        ("units: metric\npaper: letter\n", "letter"),
    ],
)
def test_paper_goes_with_the_units_unless_it_is_told(
    make_book: MakeBook, tables: Tables, settings: str, paper: str
) -> None:
    manuscript, log = read(make_book({"book.yaml": f"title: A\n{settings}"}), tables)
    assert log.sorted() == ()
    assert manuscript is not None
    assert manuscript.config.paper == paper


def test_own_curing_salt_is_known_to_recipes(make_book: MakeBook, tables: Tables) -> None:
    dish = DISH.replace(
        "chapter: Pots", "meat:\n  animal: elk\ncure:\n  method: dry\n  kind of curing salt: weir's"
    )
    manuscript, log = read(make_book({"book.yaml": FULL, "recipes/dish.md": dish}), tables)
    assert log.sorted() == ()
    assert manuscript is not None
    assert manuscript.recipes[0].cure is not None
    assert manuscript.recipes[0].cure.kind == "weir's"


# book.yaml with its mark, slug, words of sentence and hint
BAD_SETTINGS = [
    ("«family: A\n", "missing-key", "'title' is missing", "title: The larder book"),
    ("title: A\n«famly: B\n", "unknown-key", "'famly'", "'family'"),
    ("title: A\n«smoker: 6 lb\n", "unknown-key", "'smoker'", "smoker capacity: 30 lb"),
    ("title: A\n«oven: 6\n", "unknown-key", "'oven'", "ovens: 1"),
    ("title: A\n«oven capacity: 6\n", "unknown-key", "'oven capacity'", "ovens: 1"),
    ("title: A\nsmoker capacity: «6\n", "wrong-dimension", "'6' is not a weight", "Write 5 lb"),
    ("title: A\nsmoker capacity: «20–30 lb\n", "wrong-value", "range", "Write one number"),
    ("title: A\novens: «one\n", "wrong-value", "'one'", "a number such as 4"),
    ("title: A\nburners: «4 1/2\n", "wrong-value", "'4 1/2'", "a number such as 4"),
    ("title: A\npots: «16 qt\n", "wrong-value", "'pots' takes a list", "Write pots: [16 qt]"),
    ("title: A\npots: [16 qt, «8 lb]\n", "wrong-dimension", "'8 lb' is not a volume", "Write 2 qt"),
    ("title: A\naccept: «x\n", "wrong-value", "'accept' takes keys", "name: value"),
    ("title: A\naccept:\n  «no-such-rule: we do\n", "unknown-rule", "'no-such-rule'", "slug"),
    ("title: A\npaper: «legal\n", "wrong-value", "'legal'", "letter, a4 or a5"),
    ("title: A\nunits: «USA\n", "wrong-value", "'USA'", "'us'"),
    ("title: A\nlanguage: «English\n", "wrong-value", "'English'", "en-GB"),
    ("title: A\naddress: «example.org\n", "wrong-value", "'example.org'", "https://"),
    ("title: A\naddress: «ftp://example.org\n", "wrong-value", "ftp", "https://"),
    ("title: A\naddress: «https://[\n", "wrong-value", "https://[", "https://"),
    ("title: A\naltitude: «high\n", "unreadable-amount", "'high'", "number"),
    ("title: A\naltitude: «5 lb\n", "wrong-dimension", "height", "1600 m"),
    ("title: A\naltitude: «9000 m\n", "wrong-value", "kitchen", "1600 m"),
    ("title: A\ndeer disease area: «maybe\n", "wrong-value", "'maybe'", "yes or no"),
    ("title: A\nshot: «steel\n", "wrong-value", "'steel'", "lead, copper or none"),
    ("title: A\ntheme: «../x\n", "wrong-value", "'../x'", "themes/"),
    (
        "title: A\nchapters: Pots«\n".replace("Pots«", "«Pots"),
        "wrong-value",
        "'chapters' takes a list",
        "Write chapters: [Pots]",
    ),
    ("title: A\nchapters: [Pots, «Pots]\n", "wrong-value", "twice", "Delete"),
    ("title: A\ndensities:\n  salt: «240 g\n", "wrong-value", "240 g", "240 g per cup"),
    ("title: A\ndensities:\n  salt: 240 g per «moon\n", "unknown-unit", "'moon'", "240 g per cup"),
    ("title: A\ndensities:\n  salt: 240 g per «lb\n", "wrong-dimension", "volume", "240 g per cup"),
    ("title: A\nweighings:\n  salt: «2 cups per tsp\n", "wrong-dimension", "weight", "240 g per cup"),
    ("title: A\ncuring salts:\n  X: «6 %\n", "wrong-value", "'6 %'", "nitrite 6 %"),
    ("title: A\ncuring salts:\n  X: nitrite 6 %, «salt 94 %\n", "wrong-value", "'salt 94 %'", "rest is salt"),
    (
        "title: A\ncuring salts:\n  X: «nitrite 60 %, nitrate 50 %\n",
        "wrong-value",
        "composition",
        "nitrite 6 %",
    ),
    ("title: A\ncuring salts:\n  «No. 1: nitrite 6 %\n", "wrong-value", "published", "another name"),
    ("title: «[A\n", "yaml-syntax", "bracket", ""),
]


@pytest.mark.parametrize(("text", "slug", "words", "hint"), BAD_SETTINGS)
def test_wrong_setting_is_named_at_its_place(
    make_book: MakeBook, tables: Tables, text: str, slug: str, words: str, hint: str
) -> None:
    before, _, after = text.partition("«")
    manuscript, log = read(make_book({"book.yaml": before + after}), tables)
    (problem,) = log
    assert problem.slug == slug
    line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
    assert problem.position == Position("book.yaml", line, column)
    assert words in problem.message
    assert hint in problem.hint
    assert manuscript is not None, "recipes are still checked"


def test_metres_are_read_as_metres(make_book: MakeBook, tables: Tables) -> None:
    manuscript, log = read(make_book({"book.yaml": "title: A\naltitude: 1600 m\n"}), tables)
    assert log.sorted() == ()
    assert manuscript is not None
    assert manuscript.config.altitude_m == 1600


def test_units_of_the_book_reach_its_recipes(make_book: MakeBook, tables: Tables) -> None:
    dish = DISH.replace("chapter: Pots\n", "ingredients:\n  - 1 pint ale\n")
    _, log = read(make_book({"book.yaml": "title: A\nunits: metric\n", "recipes/dish.md": dish}), tables)
    assert told(log) == [("ambiguous-unit", "recipes/dish.md")]
    manuscript, log = read(
        make_book({"book.yaml": "title: A\nunits: imperial\n", "recipes/dish.md": dish}), tables
    )
    assert log.sorted() == ()
    assert manuscript is not None
    quantity = manuscript.recipes[0].ingredients[0].quantity
    assert quantity is not None
    assert quantity.measures[0].unit.key == "imp_pint"


def test_line_numbers_count_in_the_whole_file() -> None:
    source = split_front_matter("---\nname: A\n---\n\nBody\n", "x.md", ProblemLog())
    assert source is not None
    assert (source.front, source.front_line) == ("name: A", 2)
    assert (source.body, source.body_line) == ("\nBody\n", 4)
