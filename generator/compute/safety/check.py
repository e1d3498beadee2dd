"""Facts of a recipe in, its boxes out: one for each slug, the gravest first; what contradicts a rule goes to the log."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import cache

from generator.compute.safety.case import Case
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.poisons import tell_names
from generator.compute.safety.rules import RULES
from generator.compute.safety.told import tell
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables
from generator.tables.words import SIGNALS


def check_safety(
    facts: Facts, tables: Tables, log: ProblemLog, unread: Callable[[], Facts] | None = None
) -> tuple[Caution, ...]:
    """Every rule looks at the recipe; among boxes of one signal word a box stands where its slug stands in RULES.

    `unread` gives the facts without the stages that were read from a method, where any were: what only those contradict
    is no error. The rules look a second time, at those, only where they refuse the recipe at all.
    """
    refused = None if unread is None else cache(lambda: _refused(unread(), tables))
    boxes: list[Caution] = []
    own = ProblemLog()
    for rule in RULES:
        case = Case(
            facts=facts, tables=tables, log=own, slugs=rule.slugs, boxes=boxes, refused_unread=refused
        )
        rule.look(case)
        tell(case)
        tell_names(case)
    log.extend(one for one in own if not (facts.holes and one.slug in _LACKING))
    return in_order(boxes)


_LACKING = frozenset({"uncooked-component", "cold-smoke-sealed"})
"Errors that something is not there: where a place is not read it may be, and the box of that place says so."


def in_order(boxes: Iterable[Caution]) -> tuple[Caution, ...]:
    """One box for each slug, the gravest first; among equals as RULES has them."""
    order = [slug for rule in RULES for slug in rule.slugs]
    return merge(sorted(boxes, key=lambda box: order.index(box.slug)))


def _refused(facts: Facts, tables: Tables) -> frozenset[str]:
    """The slugs under which the rules refuse a recipe."""
    refused: list[str] = []
    for rule in RULES:
        case = Case(facts=facts, tables=tables, log=ProblemLog(), slugs=rule.slugs, refused=refused)
        rule.look(case)
        tell(case)
    return frozenset(refused)


def merge(cautions: Iterable[Caution]) -> tuple[Caution, ...]:
    """Boxes with the same words are one box with all its reasons; sorting is stable: among equals the order given stands."""
    by_slug: dict[str, list[Caution]] = {}
    for caution in cautions:
        by_slug.setdefault(caution.slug, []).append(caution)
    boxes = (_together(same) for same in by_slug.values())
    return tuple(sorted(boxes, key=lambda box: SIGNALS.index(box.signal)))


def _together(same: list[Caution]) -> Caution:
    """One box for several: it stands where the earliest is needed, and what one of them cannot tell stays untold."""
    stages = [one.stage for one in same if one.stage is not None]
    return replace(
        same[0],
        because="; ".join(_each_once(part for one in same for part in one.because.split("; "))),
        sources=_each_once(key for one in same for key in one.sources),
        stage=min(stages) if len(stages) == len(same) else None,
        missing=_each_once(key for one in same for key in one.missing),
        accepted="; ".join(_each_once(one.accepted for one in same)),
        causes=tuple(dict.fromkeys(cause for one in same for cause in one.causes)),
    )


def _each_once(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(word for word in words if word))
