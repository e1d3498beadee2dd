"""`potherb sheet GATHERING`: text, JSON, one document; which name is meant; every refusal with its words."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from importlib import import_module
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from generator import build
from generator.cli import main
from generator.model.plan import Plan
from generator.problems import BookError, Problem
from tests.render.plan_sample import (
    BEANS,
    COLLARDS,
    DEMO,
    SHANK,
    STOCK,
    demo_book,
    sample_book,
    sample_plan,
)

RECIPE = """---
name: Beans
serves: 4
ingredients: [1 lb beans]
---

Boil the [beans](#beans).
"""


@pytest.fixture
def folder(make_book: Callable[..., Path]) -> Path:
    """A book with a recipe, a gathering, and a name that is both; what is in the gatherings is not read here."""
    return make_book(
        {
            "recipes/beans.md": RECIPE,
            "recipes/both.md": RECIPE,
            "gatherings/both.md": "x",
            "gatherings/supper.md": "x",
        }
    )


@pytest.fixture
def planned(folder: Path, monkeypatch: pytest.MonkeyPatch) -> list[tuple[Path, str]]:
    """The plan set by hand in place of one that is worked out; what was asked for is kept."""
    return use(sample_plan(), folder, monkeypatch)


def use(plan: Plan, folder: Path, monkeypatch: pytest.MonkeyPatch) -> list[tuple[Path, str]]:
    asked: list[tuple[Path, str]] = []

    def compute(folder: Path, slug: str) -> tuple[Plan, Any]:
        asked.append((folder, slug))
        return plan, sample_book()

    monkeypatch.setattr(import_module("generator.cli.sheet"), "compute_gathering", compute)
    monkeypatch.chdir(folder.parent)
    return asked


def sheet(*words: str) -> Result:
    return CliRunner().invoke(main, ["sheet", *words])


def test_a_gathering_by_its_name_and_by_its_path(planned: list[tuple[Path, str]], folder: Path) -> None:
    assert "Supper for thirty-five" in sheet("supper").stdout
    assert "Supper for thirty-five" in sheet(str(folder / "gatherings/supper.md")).stdout
    assert [slug for _, slug in planned] == ["supper", "supper"]


def test_a_plan_that_cannot_be_met_ends_with_1_and_says_why(planned: list[tuple[Path, str]]) -> None:
    result = sheet("supper")
    assert result.exit_code == 1
    assert "The brine of Smoked elk shank is 2 days short." in result.stderr
    assert "1 error, 1 warning" in result.stderr


def test_a_plan_that_can_be_met_ends_with_0(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    warning = sample_plan().problems[1:]
    use(replace(sample_plan(), problems=warning), folder, monkeypatch)
    result = sheet("supper")
    assert result.exit_code == 0, result.output
    assert "Two pots are wanted" in result.stdout


def test_json_is_json_alone(planned: list[tuple[Path, str]]) -> None:
    result = sheet("supper", "--json")
    data = json.loads(result.stdout)
    assert result.exit_code == 1
    assert result.stderr == ""
    assert [one["recipe"] for one in data["demand"]] == [BEANS, COLLARDS, STOCK, SHANK]
    assert data["timeline"][0]["start"] == "2026-11-29T08:00-07:00"


def test_one_document_as_html_and_as_pdf(
    planned: list[tuple[Path, str]], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The PDF itself is read in the test of the demo's supper."""
    monkeypatch.setattr("generator.write.files.write_pdf", lambda html, into: into.write_text(html, "utf-8"))
    for name in ("supper.html", "supper.pdf"):
        result = sheet("supper", "--into", str(tmp_path / name))
        assert f"Wrote {tmp_path / name}" in result.stdout
        assert result.exit_code == 1, "it cannot be met, on paper neither"
        assert "<h1>What to fetch</h1>" in (tmp_path / name).read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "typed",
    [
        ("--serves", "20"),
        ("--makes", "4 qt"),
        ("--batches", "2"),
        ("--meat", "5 lb"),
        ("--water", "4 qt"),
        ("--start", "2026-12-05 08:00"),
        ("--ready", "2026-12-05 08:00"),
        ("--smoker", "--into", "x.html"),
        ("--labels", "3", "--into", "x.html"),
    ],
)
def test_what_is_for_recipes_is_refused(planned: list[tuple[Path, str]], typed: tuple[str, ...]) -> None:
    result = sheet("supper", *typed)
    assert result.exit_code == 2
    said = " ".join(result.stderr.split())
    assert f"{typed[0]} is for a recipe: a gathering takes its scale and its times from its file." in said
    assert planned == []


def test_a_name_that_is_both_is_refused_and_a_path_decides(
    planned: list[tuple[Path, str]], folder: Path
) -> None:
    result = sheet("both")
    assert result.exit_code == 1
    assert "'both' is a recipe and a gathering of this book. [same-slug]" in result.stderr
    assert "Name the file: recipes/both.md or gatherings/both.md." in result.stderr
    assert json.loads(sheet("both", "--json").stdout)["problems"][0]["slug"] == "same-slug"
    assert "Beans" in sheet(str(folder / "recipes/both.md")).stdout
    assert planned == []
    sheet(str(folder / "gatherings/both.md"))
    assert [slug for _, slug in planned] == ["both"]


def test_a_recipe_is_a_recipe(planned: list[tuple[Path, str]]) -> None:
    assert "Beans" in sheet("beans").stdout
    assert planned == []


def test_errors_of_its_files_are_told(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def compute(folder: Path, slug: str) -> tuple[Plan, Any]:
        raise BookError((Problem(slug="wrong-value", message="No such day."),))

    use(sample_plan(), folder, monkeypatch)
    monkeypatch.setattr(import_module("generator.cli.sheet"), "compute_gathering", compute)
    result = sheet("supper")
    assert (result.exit_code, "No such day. [wrong-value]" in result.stderr) == (1, True)
    assert json.loads(sheet("supper", "--json").stdout)["problems"][0]["message"] == "No such day."


@pytest.fixture
def with_gathering(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """The demo book with the gathering of the sample in it, and a planner that hands the sample back."""
    book = replace(demo_book(), gatherings=(sample_plan().invited,))
    monkeypatch.setattr(build, "load_book", lambda *_: book)
    asked: list[str] = []

    def plan_gathering(book: Any, invited: Any, kitchen: Any) -> Plan:
        asked.append(invited.gathering.slug)
        return sample_plan()

    monkeypatch.setattr(build, "plan_gathering", plan_gathering)
    return asked


def test_a_gathering_is_planned_with_all_the_recipes_it_needs(with_gathering: list[str]) -> None:
    plan, computed = build.compute_gathering(DEMO, "supper")
    assert with_gathering == ["supper"]
    assert plan is sample_plan()
    assert sorted(computed.recipes) == sorted((BEANS, COLLARDS, STOCK, SHANK)), "three deep, each once"


def test_an_unknown_gathering_is_refused(with_gathering: list[str]) -> None:
    with pytest.raises(BookError) as found:
        build.compute_gathering(DEMO, "feast")
    assert "'feast' is no recipe of this book." in found.value.problems[0].message
