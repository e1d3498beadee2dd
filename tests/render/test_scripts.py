"""Scripts kept in parts: joined into one plain file, every part whole, behind what it imports, no name twice."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from generator.render import load_theme
from generator.render.theme import themes_root

FOLDERS = sorted((themes_root() / "base/scripts").glob("*/"))
DECLARED = re.compile(r"^(?:export )?(?:function|var|let|const|class) (\w+)", re.MULTILINE)


def parts(folder: Path) -> dict[str, str]:
    return {path.name: path.read_text("utf-8") for path in sorted(folder.glob("*.js"))}


def imports(text: str) -> dict[str, set[str]]:
    """The names that a part takes from each other part."""
    found = re.findall(r'^import { ([\w, ]+) } from "\./(\w+\.js)";$', text, re.MULTILINE)
    return {file: set(names.split(", ")) for names, file in found}


def joined(folder: Path) -> str:
    return load_theme("larder").style(f"{folder.name}.js")


def declared(text: str) -> list[str]:
    """Names at the top of a part or of the whole, the second and later of one `var` among them."""
    lines = [line for line in text.splitlines() if DECLARED.match(line)]
    later = [name for line in lines if " var " in f" {line}" for name in re.findall(r", ([A-Z]+) =", line)]
    return DECLARED.findall(text) + later


def test_the_bench_is_kept_in_parts() -> None:
    assert [folder.name for folder in FOLDERS] == ["bench"]
    assert {"fraction.js", "shown.js", "contract.js", "form.js"} <= parts(FOLDERS[0]).keys()


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda one: one.name)
def test_what_a_part_imports_another_exports(folder: Path) -> None:
    files = parts(folder)
    for text in files.values():
        assert len(imports(text)) == text.count("\nimport "), "an import has a line to itself"
        for file, names in imports(text).items():
            exported = {
                name
                for line in files[file].splitlines()
                if line.startswith("export ")
                for name in declared(line.removeprefix("export "))
            }
            assert names <= exported, file


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda one: one.name)
def test_no_name_stands_in_two_parts(folder: Path) -> None:
    names = declared(joined(folder))
    assert len(names) > 50
    assert [name for name in names if names.count(name) > 1] == []


@pytest.mark.parametrize("folder", FOLDERS, ids=lambda one: one.name)
def test_each_part_is_there_once_behind_what_it_imports_and_the_whole_is_no_module(folder: Path) -> None:
    whole = joined(folder)
    assert not re.search(r"^(import|export) ", whole, re.MULTILINE)
    assert whole.startswith('(function () {\n"use strict";\n')
    files = parts(folder)
    starts = {file: whole.index(text.splitlines()[0]) for file, text in files.items()}
    for file, text in files.items():
        assert whole.count(text.splitlines()[0]) == 1
        assert all(starts[other] < starts[file] for other in imports(text))
