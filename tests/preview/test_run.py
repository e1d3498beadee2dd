"""A book under preview: its own folder and the themes are watched, and a theme that is not whole is told."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from generator.preview import preview_book
from generator.preview.live import BuildOutcome
from generator.preview.watch import Watcher
from generator.render.theme import themes_root
from generator.write.files import start_book

SOON_S = 10.0
"Generous: an event comes within a thousandth of a second on a quiet machine."


@pytest.fixture
def themes(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A copy of the themes that a test may write in."""
    folder = tmp_path / "themes"
    shutil.copytree(themes_root(), folder)
    for user in ("generator.render.theme", "generator.preview.run"):
        monkeypatch.setattr(f"{user}.themes_root", lambda: folder)
    return folder


@pytest.fixture
def asked(tmp_path: Path, themes: Path, monkeypatch: pytest.MonkeyPatch) -> dict[str, Any]:
    """What a preview of a new book is asked to watch and to build."""
    told: dict[str, Any] = {}
    monkeypatch.setattr("generator.preview.run.preview", told.update)
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    book = start_book(tmp_path / "book")
    preview_book(book, port=0, say=lambda text: None, show_problems=lambda problems: None)
    return told


def test_a_themes_edit_is_a_change(asked: dict[str, Any], themes: Path) -> None:
    with Watcher(asked["folders"]) as watcher:
        (themes / "larder" / "assets" / "screen.css").write_text("main { color: red }")
        assert watcher.wait(SOON_S)
        (themes / "base" / "templates" / "recipe.html").write_text("{% if %}")
        assert watcher.wait(SOON_S)


@pytest.mark.parametrize(
    ("file", "content", "says"),
    [
        ("base/templates/recipe.html", "<p>\n{% if %}", "templates/recipe.html:2: "),
        ("base/templates/recipe.html", "{{ view.colour }}", "templates/recipe.html: "),
        ("larder/theme.toml", "title = ", "larder/theme.toml: "),
    ],
)
def test_a_theme_that_is_not_whole_is_told_and_ends_nothing(
    asked: dict[str, Any], themes: Path, file: str, content: str, says: str
) -> None:
    build: Callable[[], BuildOutcome] = asked["build"]
    (themes / file).write_text(content)
    outcome = build()
    assert not outcome.ok
    (problem,) = outcome.problems
    assert problem.slug == "broken-theme"
    assert problem.message.startswith("The theme 'larder' cannot be used: ")
    assert says in problem.message
    assert problem.hint == "Mend it, or take another theme in book.yaml."
