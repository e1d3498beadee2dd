"""An invited gathering and its makings in; every step by the clock, what cannot be met, and quiet lines out.

Laid backwards from serving: a dish's last stage ends then, and a component is over when the first making that takes
from it begins. Longer ends of every length, so that nobody is late. Components move earlier where smokes can be one.
Components, thaws and what lies in the fridge move where a start or an end would be at night; dishes do not.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from math import ceil

from generator.compute.gathering.daylight import by_daylight, why_not
from generator.compute.gathering.keeping import check_keeping
from generator.compute.gathering.kit import check_kit
from generator.compute.gathering.laid import Course, Given, Laid, LaidStage, Thaw
from generator.compute.gathering.late import check_late
from generator.compute.gathering.night_words import night_notes
from generator.compute.gathering.rounds import round_notes
from generator.compute.gathering.smokes import bring_together, smoke_notes
from generator.compute.gathering.turning import turns
from generator.compute.recipe import Kitchen
from generator.model.book import Book
from generator.model.gathering import Invited
from generator.model.plan import Making, Step
from generator.problems import Problem, ProblemLog

PUT_IN = -1
"Index of a step that no course has."
Notes = Mapping[tuple[str, int], str]
"By slug and index of a stage."


@dataclass(frozen=True, slots=True, kw_only=True)
class Schedule:
    """Who does what when."""

    steps: tuple[Step, ...]
    "By start, then in the order of the course."
    problems: tuple[Problem, ...]
    notes: tuple[str, ...]


def schedule(book: Book, invited: Invited, makings: tuple[Making, ...], kitchen: Kitchen) -> Schedule:
    """The plan of what is made; a making of no batches is on hand already."""
    made = {making.slug: making for making in makings if making.batches > 0}
    given = Given(book=book, invited=invited, made=made, kitchen=kitchen)
    earlier, groups = bring_together(given)
    moves = by_daylight(given, earlier, groups)
    laid = moves.laid(given)
    log = ProblemLog()
    _check_lengths(given, log)
    check_late(given, laid, log)
    notes = [f"{name} has no course: nothing of it is planned." for name in _without_course(given)]
    notes += [*check_keeping(given, laid, log), *check_kit(given, laid, log)]
    notes += night_notes(given, laid, why_not(given, moves, groups))
    rounds = round_notes(given)
    notes += [f"{book.recipes[slug].name}: {said}." for (slug, _), said in rounds.items()]
    steps = _steps(given, laid, (smoke_notes(given, laid), rounds))
    return Schedule(steps=steps, problems=log.sorted(), notes=tuple(notes))


def _without_course(given: Given) -> list[str]:
    return [given.book.recipes[slug].name for slug in given.order if not given.book.recipes[slug].stages]


def _check_lengths(given: Given, log: ProblemLog) -> None:
    """A stage that takes long and does not say how long."""
    for slug in given.order:
        recipe = given.book.recipes[slug]
        for stage, length in zip(recipe.stages, given.lengths[slug], strict=True):
            if length.is_unknown:
                log.add(
                    "length-unknown",
                    stage.position,
                    f"{recipe.name}: '{stage.name}' has no length, so nobody can say when to start it.",
                    f"Write how long it takes, such as {stage.name}: 3 h.",
                )


def _steps(given: Given, laid: Laid, notes: tuple[Notes, ...]) -> tuple[Step, ...]:
    """By the moment, not by the reading of a clock that may go back."""
    found: list[tuple[int, Step]] = [(thaw.start, _thaw_step(given, thaw)) for thaw in laid.thaws]
    for course in laid.courses.values():
        found += [(one.start, _stage_step(given, course.slug, one, notes)) for one in course.stages]
        found += _turn_steps(given, course)
    return tuple(step for _, step in sorted(found, key=lambda pair: pair[0]))


def _stage_step(given: Given, slug: str, one: LaidStage, notes: tuple[Notes, ...]) -> Step:
    hands = one.stage.hands_minutes
    said = (one.note, *(some.get((slug, one.index), "") for some in notes))
    return Step(
        slug=slug,
        stage=one.stage.name,
        index=one.index,
        start=given.moment(one.start),
        end=given.moment(one.end),
        hands_on_min=0 if hands is None else ceil(hands.high),
        place=one.stage.place_written,
        note="; ".join(filter(None, said)),
    )


def _thaw_step(given: Given, thaw: Thaw) -> Step:
    return Step(
        slug=thaw.component,
        stage="thaw",
        index=PUT_IN,
        start=given.moment(thaw.start),
        end=given.moment(thaw.end),
        hands_on_min=0,
        place="in the fridge",
        note=f"for {_taker_words(given, thaw)}; {thaw.note}",
    )


def _taker_words(given: Given, thaw: Thaw) -> str:
    return "the table" if thaw.taker == thaw.component else given.book.recipes[thaw.taker].name


def _turn_steps(given: Given, course: Course) -> Iterator[tuple[int, Step]]:
    for turn in turns(given, course):
        step = Step(
            slug=course.slug,
            stage="turn",
            index=PUT_IN,
            start=given.moment(turn.start),
            end=given.moment(turn.end),
            hands_on_min=turn.end - turn.start,
            place=turn.place,
            note=f"in its brine, day {turn.day}",
        )
        yield turn.start, step
