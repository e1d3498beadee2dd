"""In: a recipe as somebody writes it. Out: what the commands say about it; nothing of the program is called but `potherb`."""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from bs4 import BeautifulSoup
from click.testing import CliRunner, Result

from generator.cli import main

BOOK = "title: A book\nfamily: Nobody\nlanguage: en\nunits: us\naltitude: 300 ft\ndeer disease area: no\nshot: copper\n"


def check(recipe: str) -> list[dict[str, Any]]:
    """The problems of a book with this one recipe."""
    with book_of({"one": recipe}):
        problems: list[dict[str, Any]] = json.loads(run("check", "--json").stdout)
        return problems


def sheets_of(recipe: str) -> tuple[list[dict[str, Any] | None], list[BeautifulSoup | None]]:
    """What its sheets say at one batch and at two, as JSON and as pages; None where there is no sheet."""
    with book_of({"one": recipe}) as book:
        return [_json(batches) for batches in ("1", "2")], [_page(book, batches) for batches in ("1", "2")]


def page_of(recipe: str) -> BeautifulSoup | None:
    """Its page as it is written."""
    with book_of({"one": recipe}) as book:
        return _page(book, "1")


@contextmanager
def book_of(recipes: dict[str, str], chapters: Iterable[str] = ()) -> Iterator[Path]:
    """A book with these recipes, by file name; the commands run in it."""
    with TemporaryDirectory() as folder:
        book = Path(folder)
        (book / "recipes").mkdir()
        listed = "".join(f"  - {chapter}\n" for chapter in chapters)
        (book / "book.yaml").write_text(BOOK + (f"chapters:\n{listed}" if listed else ""), encoding="utf-8")
        for name, recipe in recipes.items():
            (book / "recipes" / f"{name}.md").write_text(recipe, encoding="utf-8")
        before = Path.cwd()
        os.chdir(book)
        try:
            yield book
        finally:
            os.chdir(before)


def _json(batches: str) -> dict[str, Any] | None:
    result = run("sheet", "one", "--batches", batches, "--json")
    told = json.loads(result.stdout) if result.stdout.strip().startswith("{") else {}
    return told if "ingredients" in told else None


def _page(book: Path, batches: str) -> BeautifulSoup | None:
    path = book / f"sheet-{batches}.html"
    run("sheet", "one", "--batches", batches, "--into", str(path))
    return BeautifulSoup(path.read_text(encoding="utf-8"), "html.parser") if path.exists() else None


def run(*words: str) -> Result:
    """`potherb` with these words; what it did not expect itself is raised."""
    result = CliRunner().invoke(main, list(words))
    if result.exception is not None and not isinstance(result.exception, SystemExit):
        raise result.exception
    return result
