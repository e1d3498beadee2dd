"""What a view holds is shown by a template."""

from __future__ import annotations

import ast
from collections.abc import Iterator

from tests.gaps import GENERATOR, TEMPLATES, names_shown
from tests.render.gaps import ViewPlaces, view_gaps

RENDER = sorted((GENERATOR / "render").rglob("*.py"))
BY_THE_VIEW = {"AmountView.share"}
"It is written out in the view, inside a sentence of the body."


def views() -> Iterator[tuple[str, list[str]]]:
    """Each record whose name ends in View, and its fields."""
    for file in RENDER:
        for found in ast.parse(file.read_text(encoding="utf-8")).body:
            if isinstance(found, ast.ClassDef) and found.name.endswith("View"):
                fields = [one.target for one in found.body if isinstance(one, ast.AnnAssign)]
                yield found.name, [one.id for one in fields if isinstance(one, ast.Name)]


def test_every_field_of_a_view_is_shown() -> None:
    found = dict(views())
    assert sum(map(len, found.values())) > 150
    shown = names_shown(*TEMPLATES)
    assert view_gaps(ViewPlaces(fields=found, shown=shown, by_the_view=BY_THE_VIEW)) == []
