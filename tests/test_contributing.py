"""The table of DEVELOPERS.md: each part of a contribution is left out in turn, and the check that it names tells which.

Each contribution is made up: whole, nothing is missing; without one of its parts, a sentence says what. The checks are
those that run on the program itself, and the last tests hold the table against them.
"""

from __future__ import annotations

import re
import shutil
from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass, make_dataclass, replace
from pathlib import Path
from typing import Any

import pytest

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.rules.named import named
from generator.model.page import Page
from generator.model.published import Source
from generator.read.keys import Block, Key
from generator.read.values import words
from generator.tables.csvfile import Shelf
from generator.tables.load import FOLDER
from tests.compute.safety.owners import Places, gaps
from tests.gaps import ROOT, CommandPlaces, ProblemPlaces, command_gaps, problem_gaps
from tests.read.gaps import KeyPlaces, key_gaps
from tests.readme_keys import line
from tests.render.gaps import ColourPlaces, KindPlaces, ViewPlaces, colour_gaps, kind_gaps, view_gaps
from tests.tables.gaps import TablePlaces, UnitPlaces, table_gaps, unit_gaps

Check = Callable[[Any], list[str]]
RUN_BY: dict[Check, str] = {
    gaps: "tests/compute/safety/test_rows.py",
    unit_gaps: "tests/tables/test_units.py",
    table_gaps: "tests/tables/test_tables.py",
    key_gaps: "tests/read/test_keys.py",
    view_gaps: "tests/render/test_views.py",
    kind_gaps: "tests/render/test_page_links.py",
    colour_gaps: "tests/render/test_theme.py",
    problem_gaps: "tests/test_problems.py",
    command_gaps: "tests/test_docs.py",
}
"Each check, and the test that runs it on what is there."


@dataclass(frozen=True, slots=True)
class Part:
    """One part of a contribution."""

    row: str
    "Of the table."
    written: str
    "Words of its second cell."
    check: Check
    without: Callable[[Any], Any]
    "The places of the whole in, those without this part out."
    told: str


# A made-up rule about late frost, and a berry whose name alone makes a box.


def frost(case: Case) -> None:
    """A rule that looks at nothing."""


FROST, BERRY = Rule(slugs=("late-frost",), look=frost), Rule(slugs=("frost-berry",), look=named)


def a_rule(folder: Path) -> Places:
    slugs = ("late-frost", "frost-berry")
    return Places(
        files={"frost": (frost,)},
        hazards={"frost": (FROST, BERRY)},
        cautions=slugs,
        named=("frost-berry",),
        cases=slugs,
        asking=("late-frost",),
        asked=("late-frost",),
        quiet=slugs,
        quiet_lines={"oxalate": True},
    )


def of_rule(written: str, told: str, /, **left: Any) -> Part:
    return Part("caution rule", written, gaps, lambda of: replace(of, **left), told)


# A made-up unit, in a copy of the tables that units are read from.

TUB = "smoke_tub"
OF_UNITS = ("units.txt", "unit_titles.csv", "unit_names.csv", "sources.csv")


def a_unit(folder: Path) -> UnitPlaces:
    for file in OF_UNITS:
        shutil.copy(FOLDER / file, folder)
    _append(folder / "units.txt", f"{TUB} = 40 * litre  # sp811, Table 6\n")
    _append(folder / "unit_titles.csv", f"{TUB},any,tub,tubs,house,how pages name units\n")
    _append(folder / "unit_names.csv", f"smoke tub,{TUB},{TUB},{TUB},no,,house,as it is called\n")
    known = set(_units(folder))
    return UnitPlaces(folder=folder, published=known, opinions=known)


def _units(folder: Path) -> list[str]:
    return re.findall(r"^(\w+) =", (folder / "units.txt").read_text(encoding="utf-8"), re.MULTILINE)


def _append(file: Path, text: str) -> None:
    file.write_text(file.read_text(encoding="utf-8") + text, encoding="utf-8")


def rewritten(file: str, old: str, new: str = "") -> Callable[[Any], Any]:
    """Something else in place of what a pattern finds in a file of the folder."""

    def without(of: Any) -> Any:
        text = (of.folder / file).read_text(encoding="utf-8")
        changed = re.sub(old, new, text, flags=re.MULTILINE)
        assert changed != text, f"{old} is not in {file}"
        (of.folder / file).write_text(changed, encoding="utf-8")
        return of

    return without


def of_unit(written: str, told: str, without: Callable[[Any], Any]) -> Part:
    return Part("unit", written, unit_gaps, without, told)


# A made-up table of pods in a folder of its own, with one value and its source.

POD = make_dataclass("Pod", [("name", str), ("grams", str), ("source", str), ("locator", str)])
WITHOUT_GRAMS = make_dataclass("Pod", [("name", str), ("source", str), ("locator", str)])
SOURCES = "key,citation,certainty,note\norchard,A book of orchards,from memory,\n"
PODS = "name,grams,source,locator\nlong,12,orchard,page 3\n"


def reads(record: type, fields: Collection[str] = ("pods",)) -> Callable[[Path], list[str]]:
    """What reads the folder, and puts what it finds into a record of these fields."""
    into = make_dataclass("Tables", fields)

    def read(folder: Path) -> list[str]:
        sources = Shelf(folder).by("key", "sources.csv", Source)
        into(pods=Shelf(folder, sources).by("name", "pods.csv", record))
        return ["sources.csv", "pods.csv"]

    return read


def a_table(folder: Path) -> TablePlaces:
    (folder / "sources.csv").write_text(SOURCES, encoding="utf-8")
    (folder / "pods.csv").write_text(PODS, encoding="utf-8")
    return TablePlaces(folder=folder, read=reads(POD), fields=("pods",), asked=("pods",))


def no_file(of: TablePlaces) -> TablePlaces:
    (of.folder / "pods.csv").unlink()
    return of


def of_table(written: str, told: str, without: Callable[[Any], Any]) -> Part:
    return Part("table", written, table_gaps, without, told)


def of_value(written: str, told: str, without: Callable[[Any], Any]) -> Part:
    return Part("published value", written, table_gaps, without, told)


# A made-up key `occasion`, shown on a page.

NAME, OCCASION = (
    Key("name", words, "a line", "Beans"),
    Key("occasion", words, "when it is eaten", "First snow"),
)
DISH = make_dataclass("Dish", [("name", str), ("occasion", str, "")])
NO_OCCASION = make_dataclass("Dish", [("name", str)])


def a_key(folder: Path) -> KeyPlaces:
    return KeyPlaces(
        block=Block(DISH, NAME, OCCASION),
        others=(),
        above="",
        readme=line(NAME) + line(OCCASION),
        taken=("name", "occasion"),
    )


def a_view(folder: Path) -> ViewPlaces:
    return ViewPlaces(fields={"DishView": ("occasion",)}, shown=("occasion",))


def of_key(written: str, told: str, /, **left: Any) -> Part:
    return Part("front matter key", written, key_gaps, lambda of: replace(of, **left), told)


# A made-up page kind, linked from the front page of a book of two pages.

FRONT = Page(path="index.html", html='<a href="larder/index.html">Larder</a>')
LARDER = Page(path="larder/index.html", html='<a href="../index.html">Contents</a>')


def a_kind(folder: Path) -> KindPlaces:
    return KindPlaces(
        kinds={"front": "front", "larder": "larder"},
        templates=("front", "larder"),
        views={"larder.py": ("larder_view",)},
        used=("larder_view",),
        paths={"front": (FRONT.path,), "larder": (LARDER.path,)},
        pages=(FRONT, LARDER),
        looked_at=(FRONT.path, LARDER.path),
    )


def of_kind(written: str, told: str, /, **left: Any) -> Part:
    return Part("page kind", written, kind_gaps, lambda of: replace(of, **left), told)


# A made-up colour of berries, beside that of the ink.

INK, DYE, DYED = "--ink: #000;", "--berry: #935;", "a { color: var(--berry); }"


def theme_of(light: str, dark: str, rules: str = DYED) -> str:
    return f":root {{ {light} }}\n@media (prefers-color-scheme: dark) {{\n:root {{ {dark} }}\n}}\n{rules}\n"


def a_colour(folder: Path) -> ColourPlaces:
    return ColourPlaces(
        base="body { color: var(--ink); }",
        own=theme_of(INK + DYE, INK + DYE),
        icon='<path fill="var(--berry)"/>',
    )


def of_colour(written: str, told: str, /, **left: Any) -> Part:
    return Part("colour of a theme", written, colour_gaps, lambda of: replace(of, **left), told)


# A made-up problem and a made-up command.


def a_problem(folder: Path) -> ProblemPlaces:
    return ProblemPlaces(
        slugs=("milk-sour",), program='log.add("milk-sour", place, told)', tests='slug == "milk-sour"'
    )


def of_problem(written: str, told: str, /, **left: Any) -> Part:
    return Part("problem", written, problem_gaps, lambda of: replace(of, **left), told)


def a_command(folder: Path) -> CommandPlaces:
    return CommandPlaces(
        written={"cli/roast.py": ("roast",)}, listed=("roast",), readme="| `potherb roast` |"
    )


def of_command(written: str, told: str, /, **left: Any) -> Part:
    return Part("command", written, command_gaps, lambda of: replace(of, **left), told)


WHOLE: Mapping[Check, Callable[[Path], Any]] = {
    gaps: a_rule,
    unit_gaps: a_unit,
    table_gaps: a_table,
    key_gaps: a_key,
    view_gaps: a_view,
    kind_gaps: a_kind,
    colour_gaps: a_colour,
    problem_gaps: a_problem,
    command_gaps: a_command,
}
"For each check a folder in, and the places of a contribution that lacks nothing out."

LARDER_GONE = {"kinds": {"front": "front"}, "paths": {"front": (FRONT.path,)}, "used": ()}
PARTS = (
    of_rule(
        "a row of `tables/cautions.csv`",
        "late-frost is among the slugs of a rule, and has no row in cautions.csv",
        cautions=("frost-berry",),
    ),
    of_rule(
        "its line in the file's `RULES`",
        "rules/frost.py: frost looks at a case and is not in RULES, so it never does",
        hazards={"frost": (BERRY,)},
    ),
    of_rule(
        "with its slug",
        "late-frost is a row of cautions.csv, and no rule has it among its slugs",
        hazards={"frost": (Rule(slugs=(), look=frost), BERRY)},
    ),
    of_rule(
        "that no other rule has",
        "late-frost is among the slugs of 2 rules; one box has one owner",
        hazards={"frost": (FROST, FROST, BERRY)},
    ),
    of_rule(
        "its place in `HAZARDS`",
        "rules/frost.py is not in HAZARDS of rules/__init__.py, so none of its rules ever looks",
        hazards={},
    ),
    of_rule(
        "a row of `tables/named_boxes.csv`",
        "frost-berry is a slug of a rule that looks by name, and has no row in named_boxes.csv",
        named=(),
    ),
    of_rule(
        "its slug among those of a rule that looks by `named`",
        "frost-berry is a row of named_boxes.csv, and no rule that looks by name has it among its slugs",
        hazards={"frost": (FROST,)},
    ),
    of_rule(
        "a case in which it speaks",
        "late-frost has no case in tests/compute/safety/cases/*.txt in which its rule speaks",
        cases=("frost-berry",),
    ),
    of_rule(
        "one in which it is quiet",
        "late-frost has no case in tests/compute/safety/cases/*.txt in which its rule is quiet",
        quiet=("frost-berry",),
    ),
    of_rule(
        "where it says `cannot_tell`, one that asks for what is missing",
        "late-frost can ask for a missing fact, and has no case in tests/compute/safety/cases/*.txt in which it asks",
        asked=(),
    ),
    of_rule(
        "a function in `QUIET`",
        "compute/safety/quiet: oxalate is not in QUIET, so its line is on no page",
        quiet_lines={"oxalate": False},
    ),
    of_unit("one line in `units.txt`", f"unknown unit '{TUB}'", rewritten("units.txt", f"^{TUB}.*\n")),
    of_unit(
        "with its source",
        f"units.txt: no key of sources.csv stands beside {TUB}",
        rewritten("units.txt", rf"^({TUB} [^#]*).*$", r"\1"),
    ),
    of_unit(
        "its words in `unit_titles.csv`",
        f"unit_titles.csv:1: no row for {TUB}",
        rewritten("unit_titles.csv", f"^{TUB}.*\n"),
    ),
    of_unit(
        "its spellings in `unit_names.csv`",
        f"{TUB} has no spelling in unit_names.csv, so no recipe can use it",
        rewritten("unit_names.csv", "^smoke tub.*\n"),
    ),
    of_unit(
        "its size in print in `tests/published/units.csv`",
        f"{TUB} has no row in tests/published/units.csv with its size in print",
        lambda of: replace(of, published=set(of.published) - {TUB}),
    ),
    of_unit(
        "its name in `PINT`, `GNU` or `OWN`",
        f"{TUB} is in none of PINT, GNU and OWN of tests/tables/test_units.py",
        lambda of: replace(of, opinions=set(of.opinions) - {TUB}),
    ),
    of_table("the CSV file", "No such file or directory", no_file),
    of_table(
        "a record whose fields are its columns",
        "pods.csv:1: the columns are not name, source, locator",
        lambda of: replace(of, read=reads(WITHOUT_GRAMS)),
    ),
    of_table(
        "its place in `read_tables`",
        "pods.csv is a table that nothing reads",
        lambda of: replace(of, read=lambda folder: ["sources.csv"]),
    ),
    of_table(
        "its field in `Tables`",
        "unexpected keyword argument 'pods'",
        lambda of: replace(of, read=reads(POD, fields=())),
    ),
    of_table(
        "something that asks for that",
        "Tables.pods is asked for by nothing",
        lambda of: replace(of, asked=()),
    ),
    Part(
        "column",
        "in the CSV file",
        table_gaps,
        rewritten("pods.csv", ",grams|,12"),
        "pods.csv:1: the columns are not name, grams, source, locator",
    ),
    Part(
        "column",
        "a field of the table's record",
        table_gaps,
        lambda of: replace(of, read=reads(WITHOUT_GRAMS)),
        "pods.csv:1: the columns are not name, source, locator",
    ),
    of_value(
        "one row of a table",
        "sources.csv: no row of a table rests on orchard",
        rewritten("pods.csv", "^long.*\n"),
    ),
    of_value("its source", "pods.csv:2: source is empty", rewritten("pods.csv", "orchard")),
    of_value("the place in it", "pods.csv:2: locator is empty", rewritten("pods.csv", "page 3")),
    of_value(
        "a row of `sources.csv`",
        "pods.csv:2: unknown source 'orchard'",
        rewritten("sources.csv", "^orchard.*\n"),
    ),
    of_key(
        "a typed field",
        "the key `occasion` fills Dish.occasion, which Dish does not have",
        block=Block(NO_OCCASION, NAME, OCCASION),
    ),
    of_key("one `Key`", "Dish.occasion is filled by no key of its block", block=Block(DISH, NAME)),
    of_key(
        "what it takes",
        "the key `occasion` does not say what it takes",
        block=Block(DISH, NAME, replace(OCCASION, takes="")),
    ),
    of_key(
        "an example",
        "the key `occasion` has no example",
        block=Block(DISH, NAME, replace(OCCASION, example="")),
    ),
    of_key("its line in the README", "README.md lacks the line of the key `occasion`", readme=line(NAME)),
    of_key(
        "its template",
        "nothing looks at Dish.occasion: the key `occasion` is read in vain",
        taken=("name",),
    ),
    Part(
        "front matter key",
        "a field of the view",
        view_gaps,
        lambda of: replace(of, shown=()),
        "DishView.occasion is shown by no template",
    ),
    of_kind(
        "one entry in `PAGE_KINDS`",
        "render/views/larder.py: larder_view is of nothing in PAGE_KINDS of render/site.py",
        **LARDER_GONE,
    ),
    of_kind(
        "a template in `themes/base/templates`",
        "the page kind 'larder' has no template templates/larder.html",
        templates=("front",),
    ),
    of_kind(
        "a view",
        "no page of the kind 'larder' is made of the book that has all",
        paths={"front": (FRONT.path,), "larder": ()},
    ),
    of_kind(
        "the words of its link",
        "no other page links to larder/index.html, of the kind 'larder'",
        pages=(replace(FRONT, html=""), LARDER),
    ),
    of_kind(
        "one of them stands in `tests/pages/kinds.py`",
        "tests/pages/kinds.py names no page of the kind 'larder', so no browser looks at one",
        looked_at=(FRONT.path,),
    ),
    of_colour(
        "its value in `:root`",
        "--berry is used, and screen.css sets no value of it",
        own=theme_of(INK, INK),
    ),
    of_colour(
        "its name and its value",
        "--berry has a colour in the dark and none in the light",
        own=theme_of(INK, INK + DYE),
    ),
    of_colour(
        "its value in the dark",
        "--berry has a colour in the light and none in the dark",
        own=theme_of(INK + DYE, INK),
    ),
    of_colour(
        "`var` with the name",
        "the colour #935 stands where only names do",
        own=theme_of(INK + DYE, INK + DYE, "a { color: #935; }"),
    ),
    of_colour(
        "in rules",
        "--berry has a value in screen.css, and nothing uses it",
        own=theme_of(INK + DYE, INK + DYE, ""),
        icon="",
    ),
    of_colour("`assets/icon.svg`", "the colour #935 stands where only names do", icon='<path fill="#935"/>'),
    of_problem("one entry in `SLUGS`", "milk-sour is reported, and is not in SLUGS of problems.py", slugs=()),
    of_problem(
        "the place that reports it", "milk-sour is in SLUGS, and is reported nowhere", program="log.add(slug)"
    ),
    of_problem("a test that sees its words", "milk-sour is in SLUGS, and is seen by no test", tests=""),
    of_command(
        "one function in `cli/`",
        "README.md describes `potherb roast`, which is no command",
        written={},
        listed=(),
    ),
    of_command(
        "its name in `COMMANDS`",
        "cli/roast.py: roast is not in COMMANDS of cli/__init__.py, so nobody can call it",
        listed=(),
    ),
    of_command("a line in the README", "README.md does not describe `potherb roast`", readme="| `potherb` |"),
)


@pytest.mark.parametrize("check", WHOLE, ids=RUN_BY.values())
def test_a_whole_contribution_lacks_nothing(check: Check, tmp_path: Path) -> None:
    assert check(WHOLE[check](tmp_path)) == []


@pytest.mark.parametrize("part", PARTS, ids=lambda part: f"{part.row}: {part.written}")
def test_a_part_that_is_left_out_is_told(part: Part, tmp_path: Path) -> None:
    places = part.without(WHOLE[part.check](tmp_path))
    try:
        told = part.check(places)
    except (TypeError, FileNotFoundError) as error:  # the program itself does not start
        told = [str(error)]
    assert any(part.told in sentence for sentence in told), told


# The table.


def rows_of_the_table() -> dict[str, tuple[str, str]]:
    """What is added, and then the second and the third cell."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    section = text.partition("\n## How to add ...\n")[2].partition("\n## ")[0]
    rows = [row.strip("| ").split(" | ") for row in section.splitlines() if row.startswith("| ")]
    assert all(len(row) == 3 for row in rows)
    return {name: (written, tests) for name, written, tests in rows[2:]}


TABLE = rows_of_the_table()


@pytest.mark.parametrize("row", TABLE)
def test_each_row_names_tests_that_exist(row: str) -> None:
    named = re.findall(r"`(tests/[\w/.]+)`", TABLE[row][1])
    assert named
    assert [path for path in named if not (ROOT / path).exists()] == []


@pytest.mark.parametrize("part", PARTS, ids=lambda part: f"{part.row}: {part.written}")
def test_the_table_says_each_part_and_the_test_that_tells_it(part: Part) -> None:
    written, tests = TABLE[part.row]
    assert part.written in written
    assert f"`{RUN_BY[part.check]}`" in tests


@pytest.mark.parametrize(("check", "test"), RUN_BY.items(), ids=RUN_BY.values())
def test_each_check_is_run_on_the_program(check: Check, test: str) -> None:
    assert f"assert {check.__name__}(" in (ROOT / test).read_text(encoding="utf-8")


def test_each_check_is_seen_to_fail() -> None:
    assert {part.check for part in PARTS} == set(RUN_BY) == set(WHOLE)
