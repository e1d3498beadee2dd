"""Every page kind has its view, its template, and a page that links to it: what nobody can get to is not there."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from importlib import import_module
from inspect import getmembers, isfunction
from pathlib import Path
from typing import get_args, get_type_hints

from generator.render import PAGE_KINDS, load_theme, render_book
from generator.render.context import make_context
from generator.render.theme import themes_root
from generator.tables import load_tables
from tests.gaps import GENERATOR
from tests.pages.kinds import OF_A_GATHERING, OF_THE_BOOK
from tests.render.gaps import KindPlaces, kind_gaps
from tests.render.plan_sample import sample_book, sample_plan

RENDER = GENERATOR / "render"
FRAME = "layout"
"The template that all others fill."
OF_A_PAGE = {"title", "description"}
"What the frame around a page asks of its view."


def page_views(file: Path) -> Iterator[str]:
    """The functions of a module that give the view of a whole page."""
    module = import_module(f"generator.render.views.{file.stem}")
    for name, found in getmembers(module, isfunction):
        if found.__module__ == module.__name__ and not name.startswith("_"):
            made = get_type_hints(found).get("return")
            kinds = get_args(made) or (made,)
            if any(set(dir(kind)) >= OF_A_PAGE for kind in kinds):
                yield name


def used(*files: Path) -> Iterator[str]:
    """Names and words that modules use, but for those that they only import."""
    for file in files:
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Name):
                yield node.id
            elif isinstance(node, ast.Constant) and isinstance(node.value, str):
                yield node.value


def kind_places() -> KindPlaces:
    """As they are; the demo book with a gathering has pages of every kind."""
    tables, theme, plans = load_tables(), load_theme("larder"), (sample_plan(),)
    context = make_context(sample_book(), tables=tables, theme=theme, plans=plans)
    templates = {path.stem for path in (themes_root() / "base/templates").glob("*.html")}
    files = [
        path for path in sorted((RENDER / "views").glob("*.py")) if path.stem not in ("__init__", "shell")
    ]
    return KindPlaces(
        kinds={kind.name: kind.template for kind in PAGE_KINDS},
        templates=templates - {FRAME},
        views={file.name: tuple(page_views(file)) for file in files},
        used=set(used(RENDER / "site.py", RENDER / "sheets.py")),
        paths={kind.name: {at.path for at, _ in kind.views(context)} for kind in PAGE_KINDS},
        pages=render_book(sample_book(), plans, tables=tables, theme=theme).pages,
        looked_at={*OF_THE_BOOK.values(), *OF_A_GATHERING.values()},
    )


def test_every_page_kind_stands_wherever_it_is_needed() -> None:
    places = kind_places()
    assert sum(map(len, places.views.values())) >= 12
    assert kind_gaps(places) == []
