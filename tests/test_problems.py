"""Problem slugs: each is reported somewhere in the program, each is seen by a test with its words."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.problems import SLUGS, Position, Problem, ProblemLog, Severity
from tests.gaps import GENERATOR, ProblemPlaces, problem_gaps, texts

HERE = Path(__file__)


def test_every_problem_stands_wherever_it_is_needed() -> None:
    program = [path for path in GENERATOR.rglob("*.py") if path.name != "problems.py"]
    tests = [path for path in HERE.parent.rglob("*.py") if path != HERE]
    assert problem_gaps(ProblemPlaces(slugs=SLUGS, program=texts(*program), tests=texts(*tests))) == []


def test_unknown_slug_is_a_bug() -> None:
    with pytest.raises(KeyError, match="no-such-slug"):
        ProblemLog().add("no-such-slug", None, "Something.")


def test_problems_are_told_once_and_in_the_order_of_the_book() -> None:
    log = ProblemLog()
    for line in (9, 2, 9):
        log.add("unknown-unit", Position("recipes/a.md", line, 3), f"Line {line}.")
    assert [problem.position.line for problem in log.sorted() if problem.position] == [2, 9]


def test_severity_is_decided_by_the_slug() -> None:
    assert Problem(slug="unlinked-amount", message="").severity is Severity.WARNING
    assert Problem(slug="above-limit", message="").severity is Severity.ERROR
