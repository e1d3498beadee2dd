"""Themes: found, whole, without Python and arithmetic, every caution in every one of them, on screen and paper."""

from __future__ import annotations

import base64
import hashlib
import re
import shutil
from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from generator.model.results import Shown
from generator.problems import BookError, Position
from generator.render import Theme, load_theme, render_book, render_sheet
from generator.render.context import PLATES
from generator.render.theme import ThemeError, fill_template, make_environment, themes_root
from tests.render import sample
from tests.render.gaps import COLOUR, ColourPlaces, colour_gaps
from tests.render.helpers import one, words

THEMES = sorted(folder.parent.name for folder in themes_root().glob("*/theme.toml"))


def css(theme: Theme, medium: str) -> str:
    """What a page sets for a medium: on paper, the theme's own over what every theme has."""
    names = {"screen": ("screen.css",), "print": ("paper.css", "print.css")}[medium]
    return "\n".join(theme.style(name) for name in names)


def test_unknown_theme_is_refused_with_the_nearest_name() -> None:
    with pytest.raises(BookError) as caught:
        load_theme("ladder", position=Position("book.yaml", 4, 8))
    (problem,) = caught.value.problems
    assert (problem.slug, problem.message) == ("unknown-theme", "There is no theme 'ladder'.")
    assert problem.hint == "Did you mean 'larder'?"
    assert problem.position == Position("book.yaml", 4, 8)


def test_theme_unlike_any_other_lists_the_known_ones() -> None:
    with pytest.raises(BookError) as caught:
        load_theme("../base")
    assert caught.value.problems[0].hint == "Known themes: larder, slate."


@pytest.mark.parametrize(
    ("toml", "expected"),
    [("author = 'x'\n", "a theme needs a title"), ("title = 'x'\ncolour = 'red'\n", "unknown keys")],
)
def test_theme_with_a_wrong_description_is_refused(tmp_path: Path, toml: str, expected: str) -> None:
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "theme.toml").write_text(toml, encoding="utf-8")
    with pytest.raises(ThemeError, match=expected):
        load_theme("mine", root=tmp_path)


def test_theme_comes_before_base_and_lacks_nothing(tmp_path: Path) -> None:
    for path in themes_root().glob("base/**/*"):
        if path.is_file():
            target = tmp_path / path.relative_to(themes_root())
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(path.read_bytes())
    own = tmp_path / "mine" / "templates" / "plain.html"
    own.parent.mkdir(parents=True)
    own.write_text("mine: {{ view.title }}", encoding="utf-8")
    (tmp_path / "mine" / "theme.toml").write_text("title = 'Mine'\n", encoding="utf-8")
    with pytest.raises(ThemeError, match=r"needs assets/print\.css and assets/screen\.css"):
        load_theme("mine", root=tmp_path)
    (tmp_path / "mine" / "assets").mkdir()
    for medium in ("screen", "print"):
        (tmp_path / "mine" / "assets" / f"{medium}.css").write_text("", encoding="utf-8")
    site = render_book(sample.book(), tables=sample.TABLES, theme=load_theme("mine", root=tmp_path))
    pages = {page.path: page.html for page in site.pages}
    assert pages["pages/weighing/index.html"] == "mine: How we weigh"
    assert "<h1>Smoked elk shank</h1>" in pages["recipes/smoked-elk-shank/index.html"]


def a_theme(root: Path, **files: str) -> Path:
    """Base and beside it a theme of these files; its own sheets are there, if empty."""
    shutil.copytree(themes_root() / "base", root / "base")
    own = {"theme.toml": "title = 'Mine'\n", "assets/screen.css": "", "assets/print.css": "", **files}
    for name, text in own.items():
        (root / "mine" / name).parent.mkdir(parents=True, exist_ok=True)
        (root / "mine" / name).write_text(text, encoding="utf-8")
    return root


def test_a_sheet_is_set_behind_that_of_base_and_any_other_file_takes_its_place(tmp_path: Path) -> None:
    files = {"assets/screen.css": "a { color: red; }", "assets/wall.css": "p { }", "assets/kitchen.js": ""}
    theme = load_theme("mine", root=a_theme(tmp_path, **files))
    for sheet in ("screen.css", "wall.css"):
        base = (themes_root() / "base/assets" / sheet).read_text("utf-8")
        assert theme.style(sheet) == base + files[f"assets/{sheet}"]
    assert theme.style("kitchen.js") == ""


def test_icon_is_drawn_in_the_light_colours_of_the_sheet(tmp_path: Path) -> None:
    sheet = ":root { --paper: #fed; } @media (prefers-color-scheme: dark) { :root { --paper: #012; } }"
    files = {"assets/screen.css": sheet, "assets/icon.svg": '<rect fill="var(--paper)"/>'}
    assert load_theme("mine", root=a_theme(tmp_path, **files)).style("icon.svg") == '<rect fill="#fed"/>'


def test_icon_in_a_colour_that_the_sheet_lacks_is_refused(tmp_path: Path) -> None:
    root = a_theme(tmp_path, **{"assets/icon.svg": '<rect fill="var(--accent)"/>'})
    with pytest.raises(ThemeError, match=r"icon\.svg: assets/screen\.css sets no colour --accent"):
        load_theme("mine", root=root)


@pytest.mark.parametrize("name", THEMES)
def test_a_colour_of_the_screen_stands_in_one_place(name: str) -> None:
    base, own = ((themes_root() / one / "assets/screen.css").read_text("utf-8") for one in ("base", name))
    icon = (themes_root() / name / "assets/icon.svg").read_text("utf-8")
    assert COLOUR.search(own)
    assert colour_gaps(ColourPlaces(base=base, own=own, icon=icon)) == []


@pytest.mark.parametrize("name", THEMES)
def test_theme_has_no_python_and_no_address_of_anyone_else(name: str) -> None:
    files = [path for path in (themes_root() / name).rglob("*") if path.is_file()]
    assert not [path for path in files if path.suffix == ".py"]
    for path in files:
        text = path.read_text(encoding="utf-8").replace("http://www.w3.org/2000/svg", "")
        assert not re.search(r"https?:|//[a-z]|@import", text), path


@pytest.mark.parametrize("folder", ["base", *THEMES])
def test_template_works_nothing_out(folder: str) -> None:
    """Inside braces stand names, tests and joins: no plus, minus, times, no rounding, no number."""
    for path in (themes_root() / folder).rglob("*.html"):
        for code in re.findall(r"{[{%](.*?)[%}]}", path.read_text(encoding="utf-8"), re.DOTALL):
            bare = re.sub(r'"[^"]*"', "", code).strip().strip("-")
            assert not re.search(r"[+*/]|\d|\|\s*(round|int|float|abs)|(?<=\w)\s-\s", bare), f"{path}: {code}"


@pytest.mark.parametrize("name", THEMES)
def test_every_animal_group_has_a_drawing_and_every_signal_a_symbol(name: str) -> None:
    plates = load_theme(name).plates
    assert set(PLATES.values()) | {"sprig", "trail"} <= plates
    assert {f"signal-{level}" for level in ("danger", "warning", "caution", "notice")} <= plates


@pytest.mark.parametrize("name", THEMES)
@pytest.mark.parametrize("medium", ["screen", "print"])
def test_every_signal_has_its_own_border_and_none_its_own_colour(name: str, medium: str) -> None:
    sheet = css(load_theme(name), medium)
    borders = {}
    for level in ("danger", "warning", "caution", "notice"):
        found = re.search(rf"^\.box-{level} {{ ([^}}]*) }}", sheet, re.MULTILINE)
        assert found, level
        borders[level] = found[1]
        assert set(re.findall(r"#\w+|var\([^)]*\)", found[1])) <= {"var(--ink)", "#000"}, level
    assert len(set(borders.values())) == 4


@pytest.mark.parametrize("name", THEMES)
def test_no_caution_is_hidden_on_paper_and_none_breaks_over_two_pages(name: str) -> None:
    sheet = css(load_theme(name), "print")
    hidden = " ".join(re.findall(r"([^{}]*){[^}]*display:\s*none", sheet))
    hidden = hidden.replace(":not(:has(.weigh))", "")  # what a card leaves out, on pages without a cure
    assert not re.search(r"\.(box|because|from|signal|says|weigh|ledger|only|refused|raw|stage)\b", hidden)
    assert re.search(r"\.box {[^}]*break-inside: avoid", sheet)
    assert re.search(r"\.ledger table {[^}]*break-inside: avoid", sheet)
    assert "A6" not in sheet


def test_missing_field_of_a_view_is_an_error_not_a_blank(theme: Theme) -> None:
    with pytest.raises(ThemeError, match="config"):
        fill_template(make_environment(theme), "plain", page=object(), shell=object(), view=object())


def sheet(theme: Theme) -> BeautifulSoup:
    html = render_sheet(sample.sheet(theme, units="metric"), sample.shank())
    return BeautifulSoup(html, "html.parser")


@pytest.mark.parametrize(
    ("book_units", "sheet_units", "other"),
    [("us", "imperial", "5 pt"), ("imperial", "us", "3 qt"), ("imperial", "metric", "3 qt")],
)
def test_small_units_of_the_scale_follow_the_sheet(
    theme: Theme, book_units: str, sheet_units: str, other: str
) -> None:
    """3 US quarts are 2.839 l, 4.996 imperial pints: another word, not the same one."""
    shown = Shown(us="3 qt", metric="2.84 l", imperial="5 pt")
    computed = sample.shank(cure_lines={"water": shown})
    book = sample.book(computed, sample.beans(), units=book_units)
    html = render_sheet(sample.sheet(theme, book, units=sheet_units), computed)
    water = next(
        row
        for row in BeautifulSoup(html, "html.parser").select(".ledger tbody tr")
        if words(row).startswith("water")
    )
    assert [words(cell) for cell in water.find_all(["th", "td"])] == ["water", "2.84 kg", other]


def test_sheet_stands_alone_with_its_styles_and_every_caution(theme: Theme) -> None:
    tree = sheet(theme)
    style = one(tree, "style")
    assert "@media print" in style.get_text()
    assert not tree.find_all(["link", "img", "script", "nav"])
    for caution in sample.CAUTIONS:
        assert caution.text in words(tree)


def test_sheet_lets_in_its_own_style_and_nothing_else(theme: Theme) -> None:
    tree = sheet(theme)
    policy = str(one(tree, 'meta[http-equiv="Content-Security-Policy"]')["content"])
    digest = hashlib.sha256(one(tree, "style").get_text().encode()).digest()
    assert f"style-src 'sha256-{base64.b64encode(digest).decode()}'" in policy
    assert policy.startswith("default-src 'none';")


def test_sheet_links_only_within_itself_or_to_the_world(theme: Theme) -> None:
    tree = sheet(theme)
    ids = {f"#{tag['id']}" for tag in tree.find_all(id=True)}
    for link in tree.find_all("a"):
        address = str(link["href"])
        assert address in ids or address.startswith("https://example.org"), address


def test_sheet_is_shown_in_the_units_asked_for(theme: Theme) -> None:
    assert "15 mL (1 tbsp) juniper berries" in words(sheet(theme))


def test_columns_of_a_gathering_are_filled_one_after_another() -> None:
    """Balanced over pages they are laid out again and again, for minutes."""
    style = load_theme("larder").style("gathering.css")
    rules = [rule for rule in re.findall(r"\{([^{}]*)\}", style) if re.search(r"(?<![\w-])columns:", rule)]
    assert rules
    assert all("column-fill: auto" in rule for rule in rules)
