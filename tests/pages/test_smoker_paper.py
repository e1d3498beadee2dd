"""The smoker's sheet and labels as a printer gets them: one side, nothing cut, nothing beside its label."""

from __future__ import annotations

import subprocess
from pathlib import Path

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner
from playwright.sync_api import Browser, Page
from pypdf import PdfReader

from generator.cli import main
from tests.long import LONG
from tests.pages.conftest import ROOT, Errors, squeezed

HERE = Path(__file__).parent
CURED = (
    "corned-deer-neck",
    "dry-cured-venison-loin",
    "hot-smoked-trout",
    "smoked-boar-belly",
    "smoked-elk-shank",
    "smoked-goose-breast",
    "smoked-turkey-legs",
)
OUTSIDE = """() => [...document.querySelectorAll(".label")].flatMap(label => {
    const frame = label.getBoundingClientRect(), found = [];
    for (const part of label.querySelectorAll("p")) {
        const range = document.createRange();
        range.selectNodeContents(part);
        for (const box of range.getClientRects())
            if (box.left < frame.left || box.right > frame.right || box.top < frame.top || box.bottom > frame.bottom)
                found.push(part.textContent);
        if (part.getBoundingClientRect().bottom > frame.bottom) found.push(part.textContent);
    }
    return found })"""
PLACES = """() => [...document.querySelectorAll(".sheet:first-of-type .label")].map(label => {
    const box = label.getBoundingClientRect(), sheet = label.parentElement.getBoundingClientRect();
    return [box.left - sheet.left, box.top - sheet.top, box.width, box.height] })"""
MM = 96 / 25.4
"[px] Source: CSS Values and Units 3, 1in is 96px and 25.4mm."


def command(slug: str, *words: str) -> None:
    result = CliRunner().invoke(main, ["sheet", str(ROOT / f"content/recipes/{slug}.md"), *words])
    assert result.exit_code == 0, result.output


def test_every_cured_recipe_of_the_book_is_looked_at(site: Path) -> None:
    assert sorted(page.parent.name for page in (site / "smoker").rglob("*.html")) == sorted(CURED)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("slug", CURED)
def test_sheet_is_one_side_with_every_word(
    site: Path, page: Page, tmp_path: Path, slug: str, paper: str
) -> None:
    """From the site, without times, and from the command, with them."""
    alone = tmp_path / "alone.html"
    command(slug, "--smoker", "--start", "2026-12-05 08:00", "--into", str(alone))
    for file in (site / f"smoker/{slug}/index.html", alone):
        page.goto(file.as_uri())
        pdf = tmp_path / "sheet.pdf"
        page.pdf(path=str(pdf), format=paper, print_background=False)
        sides = PdfReader(pdf).pages
        assert len(sides) == 1, f"{file.name}: {len(sides)} sides of {paper}"
        text = squeezed(sides[0].extract_text())
        tree = BeautifulSoup(file.read_text(encoding="utf-8"), "html.parser")
        parts = tree.select(".smoker td.mass, .only, .told li, .heats .reading, .box p, .box .says, .eat")
        assert len(parts) > 12
        for part in parts:
            assert squeezed(part.get_text()) in text, part.get_text()


@pytest.mark.parametrize("slug", CURED if LONG else CURED[:1])
def test_written_pdf_is_one_side_too(tmp_path: Path, slug: str) -> None:
    pdf = tmp_path / "sheet.pdf"
    command(slug, "--smoker", "--ready", "2026-12-05 18:00", "--into", str(pdf))
    assert len(PdfReader(pdf).pages) == 1


def test_many_pieces_run_on_to_the_back_and_leave_the_cautions_whole(page: Page, tmp_path: Path) -> None:
    file, pdf = tmp_path / "sheet.html", tmp_path / "sheet.pdf"
    command("smoked-elk-shank", "--batches", "10", "--smoker", "--into", str(file))
    page.goto(file.as_uri())
    page.pdf(path=str(pdf), format="Letter", print_background=False)
    front, back = (squeezed(side.extract_text()) for side in PdfReader(pdf).pages)
    tree = BeautifulSoup(file.read_text(encoding="utf-8"), "html.parser")
    assert len(tree.select(".pieces tbody tr")) == 40
    for part in tree.select(".smoker td.mass, .only, .told li, .box p, .box .says"):
        assert squeezed(part.get_text()) in front, part.get_text()
    assert "40" in back


def test_sheet_has_no_colour(site: Path, page: Page, tmp_path: Path) -> None:
    from PIL import Image

    page.goto((site / "smoker/smoked-elk-shank/index.html").as_uri())
    pdf = tmp_path / "page.pdf"
    page.pdf(path=str(pdf), format="A4", print_background=False)
    subprocess.run(["pdftoppm", "-r", "40", str(pdf), str(tmp_path / "side")], check=True)
    (side,) = tmp_path.glob("side*.ppm")
    red, green, blue = Image.open(side).split()
    assert red.tobytes() == green.tobytes() == blue.tobytes()


@pytest.mark.parametrize(
    "slug", ["smoked-elk-shank", "dry-cured-venison-loin", "pinto-beans-with-smoked-shank"]
)
@pytest.mark.parametrize(
    "layout",
    [
        ("--label-gap", "2.5,0"),
        ("--label-size", "101.6x50.8", "--label-paper", "letter"),
        ("--label-size", "52.5x45", "--label-offset", "0,1.5"),
    ],
)
def test_no_word_leaves_its_label(page: Page, tmp_path: Path, slug: str, layout: tuple[str, ...]) -> None:
    file = tmp_path / "labels.html"
    command(slug, "--labels", "3", *layout, "--into", str(file))
    page.goto(file.as_uri())
    page.emulate_media(media="print")
    assert page.evaluate("document.querySelectorAll('.label p').length") >= 12
    assert page.evaluate(OUTSIDE) == []


def test_labels_stand_where_they_are_asked_for(page: Page, tmp_path: Path) -> None:
    """(210 - 3 x 63.5 - 2 x 2.5) / 2 = 7.25 and (297 - 7 x 38.1) / 2 = 15.15, moved by 1 and -2 mm."""
    file = tmp_path / "labels.html"
    words = ("--labels", "4", "--label-paper", "a4", "--label-gap", "2.5,0", "--label-offset", "1,-2")
    command("smoked-elk-shank", *words, "--into", str(file))
    page.goto(file.as_uri())
    page.emulate_media(media="print")
    places = page.evaluate(PLACES)
    expected = [(8.25, 13.15), (74.25, 13.15), (140.25, 13.15), (8.25, 51.25)]
    assert len(places) == 4
    for place, (left, top) in zip(places, expected, strict=True):
        assert place == pytest.approx([left * MM, top * MM, 63.5 * MM, 38.1 * MM], abs=0.1)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_printed_labels_have_all_their_words(page: Page, tmp_path: Path, paper: str) -> None:
    """The browser's PDF: the paper asked for, no heading, every label whole."""
    file, pdf = tmp_path / "labels.html", tmp_path / "labels.pdf"
    command("smoked-elk-shank", "--labels", "20", "--label-paper", paper, "--into", str(file))
    page.goto(file.as_uri())
    page.pdf(path=str(pdf), prefer_css_page_size=True)
    (side,) = PdfReader(pdf).pages
    width = {"a4": 210, "letter": 215.9}[paper]
    assert float(side.mediabox.width) == pytest.approx(width / 25.4 * 72, abs=1)
    text = squeezed(side.extract_text())
    assert text.count("COOKTO165°F/74°CBEFOREEATING") == 20
    assert text.count("Smokedelkshank") == 20
    assert "Labelsfor" not in text


@pytest.mark.parametrize("kind", ["smoker", "labels"])
def test_what_the_command_writes_is_valid_accessible_and_quiet(
    browser: Browser, alone: dict[str, Path], html_errors: Errors, kind: str
) -> None:
    file = alone[kind]
    assert html_errors(file) == (1, [])
    plain = browser.new_page()
    complaints: list[str] = []
    plain.on("console", lambda message: complaints.append(message.text))
    plain.goto(file.as_uri())
    assert complaints == []
    assert plain.evaluate("getComputedStyle(document.querySelector('h1')).fontFamily").startswith("Arial")
    context = browser.new_context(bypass_csp=True)
    page = context.new_page()
    page.goto(file.as_uri())
    page.evaluate((HERE / "node_modules/axe-core/axe.min.js").read_text(encoding="utf-8"))
    result = page.evaluate("axe.run(document, {resultTypes: ['violations']})")
    assert [(one["id"], one["nodes"][0]["html"][:120]) for one in result["violations"]] == []
    assert len(result["passes"]) > 8
    context.close()
    plain.close()
