"""A laid plan in; every start and every end of a stage that is at night, out.

Every start and every end is somebody's presence. The end of a stage is the start of the next: it counts once.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from generator.compute.gathering.capacity import SMOKES
from generator.compute.gathering.layout import TURN_MIN, Given, LaidCourse, Layout, turn_starts
from generator.model.moment import moment_words
from generator.model.plan import DAY_FROM, DAY_TO
from generator.model.recipe import Recipe, Stage
from generator.model.shown import listed

WORK = (
    frozenset({"trim", "rinse", "turn", "pack", "grind", "stuff", "jar", "inject", "mix", "strain", "serve"})
    | SMOKES
)
"Stages that begin with somebody's hands; a smoke is lit. Source: words of the trade."
OF_A_DISH = "a dish is over when it is served"
NO_HOUR = "no hour was found that has all of it by day"


@dataclass(frozen=True, slots=True, kw_only=True)
class Presence:
    """One start or one end."""

    at: int
    stage: str
    is_end: bool = False


def is_day(given: Given, minutes: int, *, begins_work: bool = False) -> bool:
    """From 07:00 to 21:00 by the local clock, and at serving; work does not begin at 21:00 sharp."""
    shown = given.clock(minutes).time()
    return not minutes or (DAY_FROM <= shown <= DAY_TO and not (begins_work and shown == DAY_TO))


def begins_work(stage: Stage) -> bool:
    """It begins with somebody's hands."""
    return stage.name in WORK or stage.hands_minutes is not None


def stage_nights(given: Given, recipe: Recipe, stage: Stage, start: int, end: int) -> Iterator[Presence]:
    """The start of a stage and its turning, where they are at night."""
    if not is_day(given, start, begins_work=begins_work(stage)):
        yield Presence(at=start, stage=stage.name)
    for turn in turn_starts(recipe, stage, start, end):
        if not is_day(given, turn, begins_work=True) or not is_day(given, turn + TURN_MIN):
            yield Presence(at=turn, stage="turn")


def nights(given: Given, layout: Layout, slugs: Iterable[str]) -> tuple[Presence, ...]:
    """Everything of some courses, and of the thaws that the plan puts in for them, in the order of the course."""
    found: list[Presence] = []
    for slug in slugs:
        found += [
            Presence(at=thaw.start, stage="thaw")
            for thaw in layout.thaws
            if thaw.taker == slug and not is_day(given, thaw.start)
        ]
        found += _course_nights(given, layout.courses[slug])
    return tuple(found)


def _course_nights(given: Given, course: LaidCourse) -> Iterator[Presence]:
    recipe = given.book.recipes[course.slug]
    for one in course.stages:
        yield from stage_nights(given, recipe, one.stage, one.start, one.end)
    if course.stages and not is_day(given, course.ready):
        yield Presence(at=course.ready, stage=course.stages[-1].stage.name, is_end=True)


def night_notes(given: Given, layout: Layout, why: Mapping[str, str]) -> list[str]:
    """One for each recipe."""
    notes = []
    for slug in given.order:
        found = nights(given, layout, (slug,))
        if found:
            reason = why.get(slug) or (OF_A_DISH if slug in given.dishes else NO_HOUR)
            notes.append(
                f"{given.book.recipes[slug].name}: {_nights_words(given, found)}, at night "
                f"({DAY_TO:%H:%M} to {DAY_FROM:%H:%M}), because {reason}."
            )
    return notes


def _nights_words(given: Given, found: tuple[Presence, ...]) -> str:
    """Each stage once, with its first time."""
    told: dict[tuple[str, bool], list[Presence]] = {}
    for one in found:
        told.setdefault((one.stage, one.is_end), []).append(one)
    said = []
    for (stage, is_end), times in told.items():
        more = f" and {len(times) - 1} more" if len(times) > 1 else ""
        at = moment_words(given.moment(min(one.at for one in times)))
        said.append(f"{stage} {'ends' if is_end else 'begins'} {at}{more}")
    return listed(said)
