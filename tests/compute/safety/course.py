"""What the tests of courses share: recipes from a few lines, and what `potherb check` says of them, with its words."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from click.testing import CliRunner

from generator.build import check_recipes
from generator.cli import main

ELK = "animal: elk; cut: roast"
NITRITE = "method: brine; water: 2 qt; salt: 3 %; curing salt: 150 ppm"


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """Errors by rule with their words, boxes by slug."""

    errors: dict[str, str]
    boxes: dict[str, Any]

    def refuses(self, rule: str) -> bool:
        """True where an error names the rule."""
        return any(f"(rule {rule})" in words for words in self.errors.values())

    def words(self, rule: str) -> str:
        """Message and hint of the error that names the rule."""
        return next(words for words in self.errors.values() if f"(rule {rule})" in words)

    def is_untold(self, rule: str) -> bool:
        """True where the box says what is missing."""
        return rule in self.boxes and bool(self.boxes[rule]["missing"]) and not self.refuses(rule)

    def is_met(self, rule: str) -> bool:
        """True where the box stands and nothing is missing or refused."""
        return rule in self.boxes and not self.boxes[rule]["missing"] and not self.refuses(rule)

    def is_quiet(self, rule: str) -> bool:
        """True where the rule says nothing at all."""
        return rule not in self.boxes and not self.refuses(rule)


def recipe(
    *stages: str,
    meat: str = ELK,
    cure: str = "",
    keep: str = "",
    lines: Sequence[str] = (),
    eat: bool = False,
    name: str = "Piece",
    makes: str = "makes: 2 pieces (4 lb)",
) -> str:
    """A recipe from parts with semicolons between."""
    parts = [f"name: {name}", makes, "chapter: Pots"]
    for key, text in (("meat", meat), ("cure", cure), ("keep", keep)):
        if text:
            parts += [f"{key}:", *(f"  {line}" for line in text.split("; "))]
    if lines:
        parts += ["ingredients:", *(f"  - {line}" for line in lines)]
    if stages:
        parts += ["course:", *(f"  - {stage}" for stage in stages)]
    parts += ["eat: after cooking"] if eat else []
    return "---\n" + "\n".join(parts) + "\n---\n\nCook it.\n"


def check(folder: Path, text: str, **others: str) -> Said:
    """What is said of a recipe, and of the others beside it, by slug with underscores."""
    files = {f"recipes/{slug.replace('_', '-')}.md": other for slug, other in others.items()}
    for file, words in {
        "book.yaml": "title: Book\nchapters: [Pots]\n",
        "recipes/piece.md": text,
        **files,
    }.items():
        path = folder / file
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(words, encoding="utf-8")
    result = CliRunner().invoke(main, ["check", str(folder), "--json", "--cautions"])
    assert result.exit_code in (0, 1), result.output
    data = json.loads(result.stdout)
    errors = [one for one in data["problems"] if one["severity"] == "error"]
    broken = [one for one in errors if not one["slug"].startswith("contradicts") and one["slug"] not in ALSO]
    assert broken == [], "the test's own recipe cannot be read"
    return Said(
        errors={
            f"{one['slug']} {number}": f"{one['message']} {one['hint']}" for number, one in enumerate(errors)
        },
        boxes={one["slug"]: one for one in data["cautions"] if one["recipe"] == "piece"},
    )


ALSO = frozenset({"cold-smoke-sealed", "uncooked-component", "warm-cure"})
"Errors of older rules that a hostile course may bring along."


def facts(folder: Path, text: str, **others: str) -> str:
    """The quiet lines of a page, one a line."""
    check(folder, text, **others)
    computed = check_recipes(folder).recipes
    return "\n".join(next(one.facts for one in computed if one.recipe.slug == "piece"))
