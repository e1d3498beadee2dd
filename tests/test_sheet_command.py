"""`potherb sheet` with clock times, the smoker's sheet and labels: what is written, and every refusal with its words."""

from __future__ import annotations

import json
import subprocess
from collections.abc import Callable
from dataclasses import replace
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup
from click.testing import CliRunner, Result
from pypdf import PdfReader

from generator.build import compute_sheet
from generator.cli import main
from generator.model.results import ComputedBook, ComputedRecipe
from generator.problems import Problem

SHANK = """---
name: Elk shank
makes: 4 shanks
meat: {animal: elk, cut: fore shank, weight: 5 lb, pieces: 4, thickness: 3 in, shape: round, bone: in, source: wild, form: whole}
cure: {method: brine, water: 3 qt, salt: 3 %, curing salt: 150 ppm}
course:
  - thaw: in the fridge
  - cure: 5 days in the fridge
  - hot smoke: 5–6 h at 180–200 °F to 150 °F inside
  - cool: 2 h in the fridge
eat: after cooking
keep: {fridge: 4 days, freezer: 2 months}
---

Weigh the [salt](#salt), the [curing salt](#curing-salt) and the [water](#water), and stir.
"""
BEANS = """---
name: Beans
serves: 4
ingredients: [1 lb beans]
---

Boil the [beans](#beans).
"""


@pytest.fixture
def folder(make_book: Callable[..., Path]) -> Path:
    return make_book({"recipes/shank.md": SHANK, "recipes/beans.md": BEANS})


def sheet(folder: Path, slug: str, *words: str) -> Result:
    return CliRunner().invoke(main, ["sheet", str(folder / f"recipes/{slug}.md"), *words])


def test_links_of_the_text_tell_a_stage_and_a_line_by_a_word_of_its_name(
    make_book: Callable[..., Path],
) -> None:
    """In a terminal and on the page, behind the word of the link; the stage has its place to go to."""
    text = SHANK.replace("course:", "ingredients: [2 cups dry pinto beans]\ncourse:")
    text += "[Smoke it](#hot-smoke), serve with [beans [dry]](#beans).\n"
    folder = make_book({"recipes/shank.md": text})
    told = " ".join(sheet(folder, "shank").output.split())
    assert "Smoke it (5–6 h at 180–200 °F, to 150 °F inside), serve with beans [dry] (2 cups)." in told
    page = folder / "shank.html"
    assert sheet(folder, "shank", "--into", str(page)).exit_code == 0
    html = BeautifulSoup(page.read_text(encoding="utf-8"), "html.parser")
    link = html.find("a", href="#stage-3")
    assert link is not None
    assert html.find(id="stage-3") is not None
    whole = "Smoke it 5–6 h at 180–200 °F (82–93 °C), to 150 °F (66 °C) inside, serve with beans [dry] 2 cups"
    assert whole in " ".join(link.parent.get_text().split() if link.parent else "")


def test_clock_times_from_a_start(folder: Path) -> None:
    """Five days after Saturday 08:00 is Thursday 08:00; 5 to 6 h later 13:00 to 14:00; 2 h later 15:00 to 16:00."""
    result = sheet(folder, "shank", "--start", "2026-12-05 08:00", "--json")
    assert result.exit_code == 0, result.output
    times = json.loads(result.stdout)["times"]
    early, late = ["2026-12-10T13:00", "2026-12-10T14:00"], ["2026-12-10T15:00", "2026-12-10T16:00"]
    assert [(one["stage"], one["start"], one["end"]) for one in times] == [
        ("thaw", "2026-12-05T08:00", "2026-12-05T08:00"),
        ("cure", "2026-12-05T08:00", "2026-12-10T08:00"),
        ("hot smoke", "2026-12-10T08:00", early),
        ("cool", early, late),
    ]
    assert [one["note"] for one in times] == ["no length is written", None, None, None]


def test_clock_times_up_to_ready_in_a_zone(folder: Path) -> None:
    """128 h before 2026-11-01 18:00 MST, which is 01:00 UTC of the 2nd: 17:00 UTC of 27 October, 11:00 MDT."""
    result = sheet(folder, "shank", "--ready", "2026-11-01 18:00 America/Denver", "--json")
    times = json.loads(result.stdout)["times"]
    assert times[0]["start"] == "2026-10-27T11:00-06:00"
    assert times[-1]["end"] == ["2026-11-01T17:00-07:00", "2026-11-01T18:00-07:00"]


def test_clock_times_on_the_terminal(folder: Path) -> None:
    text = " ".join(sheet(folder, "shank", "--start", "2026-12-05 08:00").stdout.split())
    assert "By the clock, 2026" in text
    assert "2. cure from Sat 5 Dec 08:00 to Thu 10 Dec 08:00" in text
    assert "3. hot smoke from Thu 10 Dec 08:00 to Thu 10 Dec 13:00–14:00" in text
    assert "Allow time for thaw: no length is written, so none is counted." in text


def test_no_time_asked_for_no_time_told(folder: Path) -> None:
    assert "times" not in json.loads(sheet(folder, "shank", "--json").stdout)
    assert "By the clock" not in sheet(folder, "shank").stdout


@pytest.mark.parametrize(
    ("slug", "typed", "said"),
    [
        ("shank", ("--start", "tomorrow"), "--start 'tomorrow': this is no date and time."),
        ("shank", ("--ready", "2026-12-05"), "--ready '2026-12-05': this is no date and time."),
        ("shank", ("--start", "2026-12-05 08:00", "--ready", "2026-12-06 08:00"), "count from one end"),
        ("beans", ("--start", "2026-12-05 08:00"), "Beans has no `course`"),
        ("shank", ("--start", "2026-12-05 08:00", "--into", "x.html"), "add --smoker"),
        ("shank", ("--smoker",), "--smoker needs --into FILE.html or FILE.pdf."),
        ("shank", ("--labels", "3"), "--labels needs --into FILE.html or FILE.pdf."),
        ("shank", ("--labels", "3", "--smoker", "--into", "x.html"), "one kind of output at a time"),
        ("shank", ("--smoker", "--json", "--into", "x.html"), "one kind of output at a time"),
        ("shank", ("--label-size", "50x30"), "--label-size needs --labels."),
        ("shank", ("--label-offset", "1,1"), "--label-offset needs --labels."),
        ("beans", ("--smoker", "--into", "x.html"), "Beans has no `cure`"),
        ("shank", ("--labels", "0", "--into", "x.html"), "takes a number from 1 to 500, not 0."),
        ("shank", ("--labels", "501", "--into", "x.html"), "takes a number from 1 to 500, not 501."),
        ("shank", ("--labels", "two", "--into", "x.html"), "'two' is not a valid integer"),
        ("shank", ("--labels", "2", "--label-size", "50", "--into", "x.html"), "two lengths in mm"),
        ("shank", ("--labels", "2", "--label-size", "0x30", "--into", "x.html"), "two lengths above 0"),
        ("shank", ("--labels", "2", "--label-size", "-50x30", "--into", "x.html"), "no length below 0"),
        (
            "shank",
            ("--labels", "2", "--label-size", "250x30", "--into", "x.html"),
            "does not fit on 215.9 mm",
        ),
        ("shank", ("--labels", "2", "--label-offset", "30,0", "--into", "x.html"), "push labels off"),
        ("shank", ("--labels", "2", "--label-size", "40x20", "--into", "x.html"), "do not fit whole"),
        ("shank", ("--labels", "2", "--into", "x.doc"), "--into takes a .html or a .pdf file"),
    ],
)
def test_refusals(
    folder: Path,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    slug: str,
    typed: tuple[str, ...],
    said: str,
) -> None:
    monkeypatch.chdir(tmp_path)
    result = sheet(folder, slug, *typed)
    assert result.exit_code == 2, result.output
    assert said in result.stderr
    assert not list(tmp_path.glob("x.*"))


def test_a_course_beyond_the_calendar_is_refused(make_book: Callable[..., Path]) -> None:
    """Two thousand years before 2001 there is no year to name."""
    folder = make_book({"recipes/beans.md": BEANS.replace("ingr", "course: [rest: 800000 days]\ningr")})
    result = sheet(folder, "beans", "--ready", "2001-01-01 08:00")
    assert result.exit_code == 2, result.output
    assert "longer than the calendar" in result.stderr


def test_labels_of_a_refused_cure_are_not_written(make_book: Callable[..., Path]) -> None:
    folder = make_book({"recipes/shank.md": SHANK.replace("150 ppm", "900 ppm")})
    into = folder.parent / "labels.html"
    result = sheet(folder, "shank", "--labels", "2", "--into", str(into))
    assert result.exit_code == 1
    assert "above-limit" in result.stderr
    assert not into.exists()


def test_labels_of_what_this_scale_alone_makes_wrong_are_not_written(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """No recipe here does it, so the problem is put in by hand where the command gets its recipe."""
    wrong = Problem(slug="above-limit", message="Too much at this scale.")

    def computed(*asked: Any) -> tuple[ComputedRecipe, ComputedBook]:
        recipe, book = compute_sheet(*asked)
        return replace(recipe, problems=(wrong,)), book

    monkeypatch.setattr(import_module("generator.cli.sheet"), "compute_sheet", computed)
    into = folder.parent / "labels.html"
    result = sheet(folder, "shank", "--labels", "2", "--into", str(into))
    assert result.exit_code == 1
    assert "Too much at this scale." in result.stderr
    assert not into.exists()


def test_labels_as_a_pdf_have_all_their_words(folder: Path, tmp_path: Path) -> None:
    """23 labels, 21 of them on the first sheet, read back by another program."""
    into = tmp_path / "labels.pdf"
    assert sheet(folder, "shank", "--labels", "23", "--into", str(into)).exit_code == 0
    text = subprocess.run(["pdftotext", str(into), "-"], capture_output=True, text=True, check=True).stdout
    words = " ".join(text.split())
    assert words.count("Elk shank") == 23
    assert words.count("COOK TO 165 °F / 74 °C BEFORE EATING") == 23
    for line in ("Date", "Weight", "Best by", "Keeps: freezer 2 months, fridge 4 days"):
        assert words.count(line) == 23, line
    info = subprocess.run(["pdfinfo", str(into)], capture_output=True, text=True, check=True).stdout
    assert "Pages:           2" in info


def test_smoker_sheet_as_a_pdf_at_a_scale(folder: Path, tmp_path: Path) -> None:
    """The weights are those of --json at the same scale."""
    into = tmp_path / "sheet.pdf"
    words = ("--meat", "7.5 lb")
    assert (
        sheet(
            folder, "shank", *words, "--smoker", "--start", "2026-12-05 08:00", "--into", str(into)
        ).exit_code
        == 0
    )
    text = subprocess.run(["pdftotext", str(into), "-"], capture_output=True, text=True, check=True).stdout
    data = json.loads(sheet(folder, "shank", *words, "--json").stdout)
    info = subprocess.run(["pdfinfo", str(into)], capture_output=True, text=True, check=True).stdout
    assert "612 x 792 pts (letter)" in info, "a book in US units"
    for key in ("green_weight", "water", "salt", "curing_salt"):
        assert data["cure"]["shown"][key] in text, key
    assert "Thu 10 Dec 08:00" in text
    for caution in data["cautions"]:
        assert "".join(caution["text"].split()) in "".join(text.split()), caution["slug"]


INCH_MM = 25.4
PAPER_MM = {"letter": (8.5 * INCH_MM, 11 * INCH_MM), "a4": (210, 297), "a5": (148, 210)}
"ANSI/ASME Y14.1, size A (8 1/2 by 11 in); ISO 216."


@pytest.mark.parametrize(
    ("settings", "paper", "words"),
    [
        ("paper: a5\n", "a5", ()),
        ("paper: a4\n", "a4", ("--labels", "1")),
        ("", "letter", ("--labels", "1")),
        ("paper: a5\n", "a4", ("--labels", "1")),
    ],
)
def test_a_pdf_has_the_papers_of_the_book(
    make_book: Callable[..., Path], tmp_path: Path, settings: str, paper: str, words: tuple[str, ...]
) -> None:
    """Measured by another program. Labels of an A5 book stand on A4, as they are sold."""
    shank = SHANK.replace("3 qt", "3 l")
    folder = make_book({"book.yaml": f"title: A tiny book\n{settings}", "recipes/shank.md": shank})
    into = tmp_path / "sheet.pdf"
    made = sheet(folder, "shank", *words, "--into", str(into))
    assert made.exit_code == 0, made.output
    boxes = [page.mediabox for page in PdfReader(into).pages]
    sides_mm = [(float(box.width) / 72 * INCH_MM, float(box.height) / 72 * INCH_MM) for box in boxes]
    assert sides_mm == [pytest.approx(PAPER_MM[paper], abs=0.1)] * len(boxes)
    assert boxes


def test_outside_a_book_it_is_told_that_a_path_works(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    folder.rename("mine")
    result = CliRunner().invoke(main, ["sheet", "shank"])
    assert result.exit_code == 1
    assert "There is no book.yaml in '.' nor in 'content'." in result.stderr
    hint = "Go to the folder that holds book.yaml, or name the file by its path, such as my-book/recipes/shank.md."
    assert hint in result.stderr
    assert CliRunner().invoke(main, ["sheet", "mine/recipes/shank.md"]).exit_code == 0
    monkeypatch.chdir("mine")
    assert CliRunner().invoke(main, ["sheet", "shank"]).exit_code == 0


def test_a_path_to_nothing_and_a_file_outside_a_book_are_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    result = CliRunner().invoke(main, ["sheet", "mine/recipes/shank.md"])
    assert result.exit_code == 1
    assert "There is no file 'mine/recipes/shank.md'." in result.stderr
    assert "or its file, which ends in .md." in result.stderr
    Path("shank.md").write_text(SHANK, encoding="utf-8")
    result = CliRunner().invoke(main, ["sheet", "shank.md"])
    assert result.exit_code == 1
    assert "Put it into the folder recipes/ or gatherings/ beside a book.yaml." in result.stderr
