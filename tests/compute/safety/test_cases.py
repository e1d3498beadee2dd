"""Every row of `cases/*.txt`: the rule says of the recipe what the row says, in those words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from generator.build import compute, kitchen
from generator.model.results import Caution, ComputedRecipe
from generator.problems import Problem, ProblemLog
from tests.compute.safety.case_rows import FOLDER, Row, SafetyCase, read_cases

CASES = read_cases()
ALSO = frozenset({"cold-smoke-sealed", "uncooked-component", "warm-cure"})
"Errors of rules without a box that a hostile course may bring along."


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """Of one dish of a book."""

    dish: ComputedRecipe
    errors: tuple[Problem, ...]

    def under(self, slug: str) -> list[Problem]:
        """Errors of a rule, or of a problem where a refusal has no box."""
        return [one for one in self.errors if slug == one.slug or f"(rule {slug})" in one.message]

    def lacks(self, row: Row) -> Iterator[str]:
        """A sentence for each thing that a row demands and that is not so."""
        refused = self.under(row.slug)
        box = next((box for box in self.dish.cautions if box.slug == row.slug), None)
        missing = box.missing if box is not None and not refused else ()
        actual = "error" if refused else "quiet" if box is None else "asks" if missing else "box"
        if row.outcome == "none":
            found = self.errors if row.slug == "errors" else self.dish.cautions
            if found:
                yield f"there are {row.slug}: {[one.slug for one in found]}"
        elif row.outcome != "says" and (actual, missing) != (row.outcome, row.missing):
            yield f"{row.slug}: {actual} {', '.join(missing)}, not {row.outcome} {', '.join(row.missing)}"
        if len(refused) > 1:
            yield f"{row.slug} is refused {len(refused)} times"
        told = self._told(row, refused, box)
        for words in row.words:
            if not words.stand_in(told.get(words.mark, "")):
                yield f"{row.slug}: {words} of {told}"

    def _told(self, row: Row, refused: list[Problem], box: Caution | None) -> dict[str, str]:
        """What is read, by mark; where there are several of a kind, one a line."""
        if row.outcome == "says":
            return {"": "\n".join(self.dish.facts)}
        if refused:
            (error,) = refused[:1]
            return {"": error.message, "hint": error.hint or "", "problem": error.slug}
        if box is None:
            return {}
        stage = "none" if box.stage is None else self.dish.recipe.stages[box.stage].written
        told = {
            "": box.because,
            "only": box.because,
            "text": box.text,
            "title": box.title,
            "signal": box.signal,
        }
        return {**told, "source": "\n".join(box.sources), "accepted": box.accepted, "stage": stage}


def said_of(folder: Path, case: SafetyCase) -> Said:
    """What is computed of a book, written into an empty folder."""
    for name, text in case.files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    log = ProblemLog()
    book = compute(folder, kitchen(), log)
    assert book is not None, log.sorted()
    assert "dinner" in book.recipes, log.sorted()
    return Said(dish=book.recipes["dinner"], errors=tuple(one for one in log.sorted() if one.is_error))


def unplaced(case: SafetyCase, box: Caution) -> bool:
    """A box without a cause, or with one whose file, line and column are not in the book."""
    for cause in box.causes:
        at = cause.position
        lines = case.files.get(at.file, "").split("\n")
        if not (0 < at.line <= len(lines) and at.column is not None):
            return True
        if not 0 < at.column <= len(lines[at.line - 1]) + 1:
            return True
    return not box.causes


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_case(case: SafetyCase, tmp_path: Path) -> None:
    said = said_of(tmp_path, case)
    assert [box.slug for box in said.dish.cautions if unplaced(case, box)] == [], "a box without its place"
    assert [sentence for row in case.rows for sentence in said.lacks(row)] == []
    named = {row.slug for row in case.rows} | ALSO
    holes = {hole.position for hole in said.dish.recipe.holes} if "not-read" in named else set()
    strange = [
        one
        for one in said.errors
        if one.slug not in named and "(rule " not in one.message and one.position not in holes
    ]
    assert strange == [], "the recipe of the case cannot be read"


def test_every_file_of_the_folder_has_cases() -> None:
    files = {path.stem for path in FOLDER.iterdir()}
    assert files == {case.name.partition(":")[0] for case in CASES}
    assert all(path.suffix == ".txt" for path in FOLDER.iterdir())


SHORT_BOIL = """elderberries that boil too short
  ingredients: 2 lb elderberries
  course: boil: 19 min
  -> elderberry {}
"""


def read_one(folder: Path, text: str) -> SafetyCase:
    (folder / "one.txt").write_text(text, encoding="utf-8")
    (case,) = read_cases(folder)
    return case


@pytest.mark.parametrize(
    ("row", "told"),
    [
        (
            "error: boiled for only 19 min | hint: boil: 20 min | problem: contradicts-danger | !raw elderflowers",
            "",
        ),
        ("box", "error , not box"),
        ("quiet", "error , not quiet"),
        ("asks course", "error , not asks course"),
        ("error: boiled for only 18 min", "boiled for only 18 min"),
        ("error: hint: boiled for only 19 min", "mark='hint'"),
        ("error: !boiled for only 19 min", "absent=True"),
        ("error: problem: contradicts", "mark='problem'"),
        ("error: text: boiled", "mark='text'"),
    ],
)
def test_a_row_that_is_not_so_is_told(tmp_path: Path, row: str, told: str) -> None:
    case = read_one(tmp_path, SHORT_BOIL.format(row))
    lacking = " ".join(said_of(tmp_path / "book", case).lacks(case.rows[0]))
    assert bool(lacking) is bool(told)
    assert told in lacking


@pytest.mark.parametrize(
    ("text", "why"),
    [
        (SHORT_BOIL.format("refused"), "one.txt:4: -> slug, then one of error"),
        (SHORT_BOIL.format("asks"), "one.txt:4: `asks` names what is missing"),
        (SHORT_BOIL.format("box course"), "one.txt:4: `asks` names what is missing"),
        (
            SHORT_BOIL.format("box").replace("  course:", "  ingredients:"),
            "one.txt:3: ingredients stands twice",
        ),
        (SHORT_BOIL.format("box").replace("  course: boil: 19 min", "  boil"), "one.txt:3: neither a key"),
        (SHORT_BOIL.format("box").partition("  ->")[0], "nothing must be said of elderberries"),
        ("  course: boil: 19 min\n", "one.txt:1: no case begins"),
    ],
)
def test_a_line_that_cannot_be_read_is_told(tmp_path: Path, text: str, why: str) -> None:
    with pytest.raises(AssertionError, match=re.escape(why)):
        read_one(tmp_path, text)
