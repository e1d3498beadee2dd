"""The demo's two gatherings, by the commands a cook types: one that can be run from its pages, one that comes too soon."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from datetime import datetime, time
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from generator.build import build_site, kitchen, load_book, plans_of
from generator.cli import main
from generator.model.plan import Plan
from generator.problems import ProblemLog

ROOT = Path(__file__).parent.parent
SUPPER, HASH = "first-snow-supper", "hash-for-the-road-crew"


def sheet(slug: str, *options: str) -> Result:
    return CliRunner().invoke(main, ["sheet", str(ROOT / f"content/gatherings/{slug}.md"), *options])


@pytest.fixture(scope="module")
def plans() -> dict[str, Plan]:
    book = load_book(ROOT / "content", kitchen(), ProblemLog())
    assert book is not None
    return {plan.invited.gathering.slug: plan for plan in plans_of(book)}


def test_the_supper_can_be_met(plans: dict[str, Plan]) -> None:
    assert plans[SUPPER].problems == ()
    result = sheet(SUPPER, "--json")
    assert result.exit_code == 0
    data: dict[str, Any] = json.loads(result.stdout)
    assert sorted(data) == ["cautions", "cures", "demand", "problems", "shopping", "timeline"]


def test_one_batch_of_shanks_serves_beans_and_stock(plans: dict[str, Plan]) -> None:
    """By hand: 29 + 6/2 = 32 helpings, of beans 32/12 batches with 1 shank each; of greens 24/8 = 3 batches with
    1 1/2 qt of stock each, of the 4 qt that 2 shanks make. 4 shanks of 6 lb raw meat are a batch, 2 are there."""
    made = {making.slug: making for making in plans[SUPPER].makings}
    beans, stock = Fraction(32, 12), Fraction(3) * Fraction(3, 2) / 4
    shanks = beans * 1 + stock * 2
    assert made["smoked-shank-stock"].batches == stock
    assert made["smoked-elk-shank"].batches == (shanks - 2) / 4
    assert made["smoked-elk-shank"].green_weight_g == (shanks - 2) / 4 * 6 * Fraction("453.59237")
    assert [making.slug for making in plans[SUPPER].makings].count("smoked-elk-shank") == 1


def test_no_step_starts_before_what_it_needs_is_over(plans: dict[str, Plan]) -> None:
    for plan in plans.values():
        first: dict[str, datetime] = {}
        last: dict[str, datetime] = {}
        for step in plan.steps:
            if step.index >= 0:
                first[step.slug] = min(step.start, first.get(step.slug, step.start))
                last[step.slug] = max(step.end, last.get(step.slug, step.end))
        for making in plan.makings:
            for taker in making.used_by:
                if making.slug in last:
                    assert last[making.slug] <= max(step.end for step in plan.steps if step.slug == taker)
                    heats = [
                        s.start
                        for s in plan.steps
                        if s.slug == taker and s.stage in ("simmer", "cook", "fry")
                    ]
                    assert all(last[making.slug] <= start for start in heats), (making.slug, taker)


def test_nothing_that_can_be_moved_begins_or_ends_at_night(plans: dict[str, Plan]) -> None:
    """Components, thaws, and what lies in the fridge: all of it from 07:00 to 21:00, so that nothing is said of nights."""
    seen = 0
    for plan in plans.values():
        components = {making.slug for making in plan.makings if making.servings is None}
        for step in plan.steps:
            if step.slug in components or step.stage == "thaw" or step.place == "in the fridge":
                seen += 1
                for moment in (step.start, step.end):
                    assert time(7) <= moment.time() <= time(21), (step.slug, step.stage, moment)
        assert not [note for note in plan.notes if "at night" in note]
    assert seen > 40


def test_everything_fetched_is_used_and_served_in_time(plans: dict[str, Plan]) -> None:
    plan = plans[SUPPER]
    made = {making.slug for making in plan.makings if making.batches}
    assert all(item.needed_for and set(item.needed_for) <= made for item in plan.shopping)
    first = plan.shopping[0]
    assert (first.place, first.shown.us, first.name) == ("freezer", "2", "smoked elk shanks")
    assert max(step.end for step in plan.steps) <= plan.invited.gathering.serve_at


def test_the_hash_comes_too_soon_and_says_what_helps() -> None:
    result = sheet(HASH)
    assert result.exit_code == 1
    said = " ".join(result.stdout.split())
    assert "Corned deer neck is too late by 12 days: its last possible start is Mon 16 Nov 14:14" in said
    assert "What takes longest is 'cure', 14 days." in said
    assert "1 lb 8 oz of Corned deer neck in the larder" in said
    assert "another dish that can still be made" in said


def test_the_supper_as_a_pdf_has_every_line_of_its_list(plans: dict[str, Plan], tmp_path: Path) -> None:
    """Once on the gathering's page and once on the sheet to tick: a list over two pages loses nothing. What lies off the
    paper is no text to this reader."""
    into = tmp_path / "supper.pdf"
    assert f"Wrote {into}" in sheet(SUPPER, "--into", str(into)).stdout
    read = subprocess.run(["pdftotext", str(into), "-"], capture_output=True, text=True, check=True).stdout
    text = " ".join(read.split())
    for words in ("Not past 130 °F", "What to fetch", "Stop rules", "Fore shanks brined by weight"):
        assert words in text, words
    for item in plans[SUPPER].shopping:
        line = rf"{re.escape(item.shown.us)}( \([^)]*\))? {re.escape(item.name)}"
        assert len(re.findall(line, text)) >= 2, item.name


def test_check_tells_of_the_plan_and_finds_the_book_in_order() -> None:
    result = CliRunner().invoke(main, ["check", str(ROOT / "content")])
    assert result.exit_code == 0
    assert f"gatherings/{HASH}.md: the plan: Corned deer neck is too late by 12 days" in result.stdout
    assert "No problems." in result.stdout


def test_a_gathering_that_cannot_be_met_stops_no_site(tmp_path: Path) -> None:
    result = CliRunner().invoke(main, ["site", str(ROOT / "content"), "--into", str(tmp_path / "out")])
    assert result.exit_code == 0
    assert "The gathering 'Hash for the road crew' cannot be met as it is written" in result.output
    page = (tmp_path / "out/gatherings" / HASH / "index.html").read_text(encoding="utf-8")
    assert "too late by 12 days" in page
    for slug in (SUPPER, HASH):
        calendar = (tmp_path / "out/gatherings" / slug / "plan.ics").read_bytes()
        assert calendar.startswith(b"BEGIN:VCALENDAR\r\n")


def test_moving_the_date_moves_every_start_alike(tmp_path: Path) -> None:
    """A week later, without a zone so that no change of clocks comes between."""

    def starts(day: str, first: str) -> list[datetime]:
        folder = tmp_path / day
        shutil.copytree(ROOT / "content", folder)
        file = folder / "gatherings" / f"{SUPPER}.md"
        text = file.read_text(encoding="utf-8")
        text = text.replace("2026-12-12 17:30 America/Denver", f"{day} 17:30")
        file.write_text(text.replace("2026-11-25 07:00", f"{first} 07:00"), encoding="utf-8")
        book = load_book(folder, kitchen(), ProblemLog())
        assert book is not None
        (plan,) = [one for one in plans_of(book) if one.invited.gathering.slug == SUPPER]
        return [step.start for step in plan.steps]

    before, after = starts("2026-12-12", "2026-11-25"), starts("2026-12-19", "2026-12-02")
    assert len({later - sooner for sooner, later in zip(before, after, strict=True)}) == 1
    assert (after[0] - before[0]).days == 7


def test_a_book_without_gatherings_builds(tmp_path: Path) -> None:
    shutil.copytree(ROOT / "content", tmp_path / "content")
    shutil.rmtree(tmp_path / "content/gatherings")
    report = build_site(tmp_path / "content", into=tmp_path / "out")
    assert report.unmet == ()
    assert not (tmp_path / "out/gatherings").exists()
