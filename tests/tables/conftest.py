"""A copy of the tables that a test may spoil."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from generator.tables.load import FOLDER


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Every table of the book, to be written to."""
    copy = tmp_path / "tables"
    shutil.copytree(FOLDER, copy, ignore=shutil.ignore_patterns("*.py", "__pycache__"))
    return copy


def spoil(folder: Path, file: str, old: str, new: str) -> int:
    """Replaces a text that stands in one line of a file, and gives the number of that line."""
    text = (folder / file).read_text(encoding="utf-8")
    assert old in text, f"'{old}' is not in {file}"
    (folder / file).write_text(text.replace(old, new, 1), encoding="utf-8")
    return text[: text.index(old)].count("\n") + 1
