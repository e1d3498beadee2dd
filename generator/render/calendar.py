"""A gathering's plan in; the job of its calendar out: what takes time or hands, and what somebody must be told of."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping

from generator.model.page import CalendarJob, Event
from generator.model.plan import Plan, Step

ALARMS = {"thaw": 15, "turn": 15, "rinse": 15, "hot smoke": 30, "cold smoke": 30}
"[min] before a stage at which it is told; a smoker is lit before it smokes. Source: house choice."
DOING = {
    "thaw": "take out to thaw",
    "turn": "turn over",
    "hot smoke": "light the smoker, hot smoke",
    "cold smoke": "light the smoker, cold smoke",
}
"A stage as something to do, where its name alone is not."


def plan_calendar(plan: Plan, path: str, names: Mapping[str, str]) -> CalendarJob:
    """`names` has the name of each recipe by its slug. The file is as old as its supper: a later one is newer."""
    gathering = plan.invited.gathering
    seen: Counter[str] = Counter()
    events = []
    for step in plan.steps:
        if step.end != step.start or step.hands_on_min or step.stage in ALARMS:
            known = f"{gathering.slug}/{step.slug}/{step.stage}/{step.index}"
            seen[known] += 1
            events.append(_event(step, f"{known}/{seen[known]}", names[step.slug]))
    return CalendarJob(path=path, name=gathering.name, stamp=gathering.serve_at, events=tuple(events))


def _event(step: Step, name: str, recipe: str) -> Event:
    return Event(
        name=name,
        start=step.start,
        end=step.end,
        summary=f"{recipe}: {DOING.get(step.stage, step.stage)}",
        description=_description(step),
        alarm_min=ALARMS.get(step.stage),
    )


def _description(step: Step) -> str:
    """Lines: the work, the place, why so long."""
    work = f"{step.hands_on_min} min of work" if step.hands_on_min else ""
    return "\n".join(filter(None, (work, step.place, step.note)))
