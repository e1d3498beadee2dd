"""What one build of a preview came to: built or not, with its problems."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from generator.problems import Problem


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildOutcome:
    """One build. A failed one leaves the last good site where it is."""

    ok: bool
    problems: tuple[Problem, ...] = ()
    "All of them: warnings of a good build, errors and warnings of a failed one."
    site: Path
    "The folder that holds, or would hold, the site: the preview's own, never the book's output."
