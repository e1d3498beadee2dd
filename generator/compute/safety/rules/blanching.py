"""Vegetables that are blanched and frozen in; a box where the course has fewer minutes than published, out."""

from __future__ import annotations

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.blanching import asked_of, blanched, length_words, minutes_told

SHORT = "blanch-time"


def blanch_time(case: Case) -> None:
    """Only before freezing. Not met: fewer minutes than published. Cannot be told: no minutes, or no size."""
    found = blanched(case.facts)
    asked = [(one, one.minutes) for one in asked_of(case.facts, case.tables) if one.minutes is not None]
    if found is None or not asked:
        return
    index, stage = found
    words, lines = "; ".join(minutes_told(one) for one, _ in asked), [one.line for one, _ in asked]
    if stage.minutes is None:
        because = f"the course does not say how long; {words}"
        case.cannot_tell(SHORT, because, ("course",), *lines, stage=index)
        return
    given, length = stage.minutes.low, length_words(stage.minutes)
    if given < min(minutes.low for _, minutes in asked):
        case.box(SHORT, f"the course blanches for {length}; {words}", *lines, stage=index)
    elif given < max(minutes.high for _, minutes in asked):
        # Several vegetables with different times, or several sizes of one: the lines decide.
        because = f"{length} may be too short; {words}"
        case.cannot_tell(SHORT, because, ("ingredients",), *lines, stage=index)


RULES = (Rule(slugs=(SHORT,), look=blanch_time),)
