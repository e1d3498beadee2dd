"""Problem slugs: each is reported somewhere in the program, each is seen by a test with its words."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from generator.problems import SLUGS, Position, Problem, ProblemLog, Severity

ROOT = Path(__file__).parent.parent


def sources(folder: str) -> str:
    return "\n".join(
        path.read_text(encoding="utf-8")
        for path in (ROOT / folder).rglob("*.py")
        if path.name not in ("problems.py", "test_problems.py")
    )


@pytest.mark.parametrize("slug", SLUGS)
def test_slug_is_reported_and_seen(slug: str) -> None:
    assert f'"{slug}"' in sources("generator"), f"{slug} is reported nowhere"
    assert re.search(rf"[\"']{slug}[\"']", sources("tests")), f"{slug} is seen by no test"


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
