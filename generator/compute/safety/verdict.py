"""What a rule found in, what follows from it out: a box, an error, or a box that says what cannot be told.

Severity is decided here and nowhere else, by the signal word of the rule in `tables/cautions.csv` (ANSI Z535,
ISO 3864): a recipe that contradicts a DANGER rule is an error; one that contradicts a WARNING rule is an error
unless its author accepts the rule by its slug and gives a reason, which the page shows; CAUTION and NOTICE print.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts
from generator.model.results import Caution
from generator.problems import Position, ProblemLog
from generator.tables import Tables

ACCEPTABLE = "WARNING"
"Only rules of this signal word can be accepted."


def contradict(
    slug: str,
    facts: Facts,
    tables: Tables,
    log: ProblemLog,
    *,
    position: Position | None,
    message: str,
    hint: str,
    because: str,
    stage: int | None = None,
    acceptable: bool = True,
) -> list[Caution]:
    """The recipe does what the rule forbids: an error, or the box with the author's reason.

    A WARNING rule that can be accepted only under conditions of its own is not `acceptable` where they are not met.
    """
    signal = tables.cautions[slug].signal
    shown = box(slug, because, tables, stage=stage)
    if signal == "DANGER":
        log.add("contradicts-danger", position, f"{message} (rule {slug})", hint)
    elif signal == ACCEPTABLE:
        reason = accepted(slug, facts) if acceptable else ""
        if reason:
            return [replace(shown, accepted=reason)]
        way = f"{hint} Or write `accept:` with `{slug}: your reason`." if acceptable else hint
        log.add("contradicts-warning", position, f"{message} (rule {slug})", way)
    return [shown]


def accepted(slug: str, facts: Facts) -> str:
    """The author's reason to accept a rule, from the recipe or from the book; empty where there is none."""
    return facts.recipe.accept.get(slug) or facts.config.accept.get(slug) or ""


def cannot_tell(
    slug: str, because: str, missing: Sequence[str], tables: Tables, *, stage: int | None = None
) -> list[Caution]:
    """The hazard is there, and a fact that decides is not told: the box names the front-matter keys."""
    return [replace(box(slug, because, tables, stage=stage), missing=tuple(missing))]
