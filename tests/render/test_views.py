"""What a view holds is shown: by a template, or by what the views themselves are made of."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent


def views() -> Iterator[tuple[str, str]]:
    """Each record whose name ends in View, and each of its fields."""
    for file in sorted((ROOT / "generator/render").rglob("*.py")):
        for found in ast.parse(file.read_text(encoding="utf-8")).body:
            if isinstance(found, ast.ClassDef) and found.name.endswith("View"):
                fields = [one.target for one in found.body if isinstance(one, ast.AnnAssign)]
                yield from ((found.name, one.id) for one in fields if isinstance(one, ast.Name))


def shown() -> set[str]:
    """Names that a template or the code of the pages takes from something."""
    templates = (file.read_text(encoding="utf-8") for file in (ROOT / "themes").rglob("*.html"))
    names = {name for text in templates for name in re.findall(r"\.(\w+)", text)}
    for file in (ROOT / "generator/render").rglob("*.py"):
        tree = ast.parse(file.read_text(encoding="utf-8"))
        names |= {node.attr for node in ast.walk(tree) if isinstance(node, ast.Attribute)}
    return names


def test_every_field_of_a_view_is_shown() -> None:
    """By its name, which another view may have too: so this sees most fields that no template takes, not all."""
    found = list(views())
    seen = shown()
    assert len(found) > 200
    assert [f"{view}.{field}" for view, field in found if field not in seen] == []
    assert "difficulty" not in seen  # what no view has is not seen
