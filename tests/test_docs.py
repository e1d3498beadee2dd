"""What the README says is what the program does."""

from __future__ import annotations

import re
import shutil
import tomllib
from datetime import date
from importlib import import_module
from pathlib import Path
from pkgutil import iter_modules

import click
import pytest
from click.testing import CliRunner

import generator.cli
from generator.build import build_site, check_book
from generator.cli import main
from generator.read.gathering import GATHERING
from generator.tables import Tables
from tests.gaps import CommandPlaces, command_gaps

ROOT = Path(__file__).parent.parent
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def section(title: str) -> str:
    """A section of the README, up to the next."""
    return README.partition(f"\n## {title}\n")[2].partition("\n## ")[0]


def written_commands() -> dict[str, list[str]]:
    """Each file of cli/, and the names of the commands that are written in it."""
    names = [f"{generator.cli.__name__}.{found.name}" for found in iter_modules(generator.cli.__path__)]
    modules = {name: vars(import_module(name)).values() for name in names}
    return {
        name: [str(one.name) for one in found if isinstance(one, click.Command)]
        for name, found in modules.items()
    }


def test_every_command_stands_wherever_it_is_needed() -> None:
    groups = [one for one in main.commands.values() if isinstance(one, click.Group)]
    listed = [*main.commands, *(name for group in groups for name in group.commands)]
    written = written_commands()
    assert sum(map(len, written.values())) == len(listed)
    assert command_gaps(CommandPlaces(written=written, listed=listed, readme=README)) == []


@pytest.mark.parametrize("command", sorted(main.commands))
def test_every_command_has_help(command: str) -> None:
    result = CliRunner().invoke(main, [command, "--help"])
    assert result.exit_code == 0
    assert len(result.output.splitlines()) > 4


def test_the_example_of_the_readme_builds(tmp_path: Path) -> None:
    example = re.search(r"```markdown\n(.*?)```", README, re.S)
    assert example is not None
    (tmp_path / "content/recipes").mkdir(parents=True)
    (tmp_path / "content/book.yaml").write_text("title: Example\nchapters: [Smokehouse]\n", encoding="utf-8")
    (tmp_path / "content/recipes/smoked-elk-shank.md").write_text(example[1], encoding="utf-8")
    report = build_site(tmp_path / "content", into=tmp_path / "output")
    assert report.problems == ()
    assert report.recipes == 1


def test_the_gathering_of_the_readme_is_read(tmp_path: Path) -> None:
    example = re.search(r"```markdown\n(.*?)```", section("Gatherings"), re.S)
    assert example is not None
    assert set(GATHERING.names) - {"draft"} <= set(re.findall(r"^([a-z ]+):", example[1], re.M))
    shutil.copytree(ROOT / "content", tmp_path / "content")
    (tmp_path / "content/gatherings").mkdir(exist_ok=True)
    (tmp_path / "content/gatherings/supper-of-the-readme.md").write_text(example[1], encoding="utf-8")
    assert check_book(tmp_path / "content") == ()


def test_readme_has_the_two_commands() -> None:
    blocks = re.findall(r"```sh\n(.*?)```", README, re.S)
    assert (
        blocks[0].strip()
        == "python3 -m venv .venv && .venv/bin/pip install --quiet -e . && .venv/bin/potherb site"
    )
    assert blocks[1].strip() == "bash tests/run"
    assert "tests/run" in (ROOT / ".ci/run").read_text(encoding="utf-8")


def test_folders_named_for_contributors_exist() -> None:
    for path in re.findall(r"`((?:tests|generator|model|compute|tables|themes)/[\w./-]+)`", DEVELOPERS):
        found = [ROOT / path, ROOT / "generator" / path]
        assert any(candidate.exists() for candidate in found), path


def test_licence_and_notices_are_shipped_and_nothing_leads_elsewhere(tables: Tables) -> None:
    text = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    project = tomllib.loads(text)["project"]
    assert (project["license"], project["license-files"]) == ("MIT", ["LICENSE", "NOTICE"])
    assert project["authors"] == [{"name": "The Potherb authors"}]
    assert "://" not in text
    licence = (ROOT / "LICENSE").read_text(encoding="utf-8")
    assert licence.startswith("MIT License\n\nCopyright (c) 2026 The Potherb authors\n")
    notice = " ".join((ROOT / "NOTICE").read_text(encoding="utf-8").split())
    data_sets = {"sr28": "Release 28", "fdc": "FoodData Central", "gnu-units": "GNU units 2.22"}
    for key, name in data_sets.items():
        assert name in tables.sources[key].citation
        assert name in notice
    for file in ("CHANGELOG.md", "LICENSE", "NOTICE"):
        assert f"]({file})" in README


def test_changelog_has_dated_headings_newest_first() -> None:
    headings = re.findall(r"^## (.*)$", (ROOT / "CHANGELOG.md").read_text(encoding="utf-8"), re.M)
    dates = [date.fromisoformat(heading) for heading in headings]
    assert dates == sorted(set(dates), reverse=True)
    assert dates


def test_each_library_states_the_lowest_version_that_the_run_tests() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    stated = [*project["dependencies"], *project["optional-dependencies"]["pdf"]]
    assert [line for line in stated if not re.fullmatch(r"[a-z0-9-]+>=[0-9.]+", line)] == []
    assert "--resolution lowest-direct" in (ROOT / "tests/run").read_text(encoding="utf-8")


def test_top_level_is_what_it_should_be() -> None:
    import subprocess

    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True).stdout
    top = {name.split("/")[0] for name in listed.splitlines()}
    named = {name for name in top if not name.startswith(".")}
    expected = {
        "README.md",
        "DEVELOPERS.md",
        "CHANGELOG.md",
        "LICENSE",
        "NOTICE",
        "pyproject.toml",
        "generator",
        "content",
        "themes",
        "tests",
        "output",
    }
    assert named == expected


def test_every_source_of_the_tables_says_how_sure_it_is(tables: Tables) -> None:
    for source in tables.sources.values():
        assert source.certainty in (
            "seen",
            "second-hand",
            "from memory",
            "common practice",
            "house choice",
        ), source.key
