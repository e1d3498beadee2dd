"""A gathering whose links are followed in, everything that follows from it out."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from math import ceil

from generator.compute.gathering.capacity import check_capacity, round_notes
from generator.compute.gathering.daylight import by_daylight, why_not
from generator.compute.gathering.deadlines import check_keeping, check_late
from generator.compute.gathering.demand import make_demand
from generator.compute.gathering.layout import (
    TURN_MIN,
    Given,
    LaidCourse,
    LaidStage,
    Layout,
    Thaw,
    lay_out,
    turn_starts,
)
from generator.compute.gathering.lengths import course_lengths
from generator.compute.gathering.moving import bring_together, smoke_notes
from generator.compute.gathering.night import night_notes
from generator.compute.gathering.shopping import make_list, unmatched
from generator.compute.recipe import Kitchen
from generator.model.book import Book
from generator.model.gathering import Invited
from generator.model.plan import Making, Plan, Step
from generator.model.recipe import Recipe
from generator.model.results import CHECK_BEYOND
from generator.problems import Problem, ProblemLog
from generator.tables import Tables

PUT_IN = -1
"Index of a step that no course has."
Notes = Mapping[tuple[str, int], str]
"By slug and index of a stage."


def plan_gathering(book: Book, invited: Invited, kitchen: Kitchen) -> Plan:
    """Demand down to the raw meat, the list, the hours; what cannot be met stands in the plan's own problems."""
    makings = make_demand(book, invited, kitchen)
    layout = schedule(book, invited, makings, kitchen)
    return Plan(
        invited=invited,
        makings=makings,
        shopping=make_list(book, invited, makings, kitchen),
        steps=layout.steps,
        problems=(*_of_makings(makings), *layout.problems),
        notes=(*layout.notes, *_unmatched(book, invited, makings, kitchen), *_beyond(makings)),
    )


def _unmatched(
    book: Book, invited: Invited, makings: tuple[Making, ...], kitchen: Kitchen
) -> tuple[str, ...]:
    """A slip of the pen on the list of what is there would buy or cure it all over again."""
    made = {making.slug for making in makings}
    names = [book.recipes[slug].name for _, slug, _ in invited.components if slug not in made]
    names += unmatched(book, invited, makings, kitchen)
    return tuple(f"On hand, and nothing here takes it under that name: {name}." for name in names)


def _beyond(makings: Iterable[Making]) -> tuple[str, ...]:
    """Hand work, pots and cooling do not scale with the amounts."""
    names = [making.recipe.recipe.name for making in makings if making.batches > CHECK_BEYOND]
    if not names:
        return ()
    return (
        "Times of hand work, of the pot and of cooling are as written for one batch. Allow more, or make it in turns: "
        f"{', '.join(names)}.",
    )


def _of_makings(makings: Iterable[Making]) -> tuple[Problem, ...]:
    """What this scale alone makes wrong of a recipe: a cure above its limit. What is not made has none."""
    found = (problem for making in makings if making.batches for problem in making.recipe.problems)
    return tuple(dict.fromkeys(problem for problem in found if problem.is_error))


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
    given = Given(
        book=with_planned_courses(book, kitchen.tables), invited=invited, made=made, kitchen=kitchen
    )
    together, groups = bring_together(given)
    moves = by_daylight(given, together, groups)
    layout = lay_out(given, moves)
    log = ProblemLog()
    _check_lengths(given, log)
    check_late(given, layout, log)
    notes = [f"{name} has no course: nothing of it is planned." for name in _without_course(given)]
    notes += [*check_keeping(given, layout, log), *check_capacity(given, layout, log)]
    notes += night_notes(given, layout, why_not(given, moves, groups))
    rounds = round_notes(given)
    notes += [f"{book.recipes[slug].name}: {said}." for (slug, _), said in rounds.items()]
    steps = _steps(given, layout, (smoke_notes(given, layout), rounds))
    return Schedule(steps=steps, problems=log.sorted(), notes=tuple(notes))


def with_planned_courses(book: Book, tables: Tables) -> Book:
    """A course that was read from a method counts where every length is known, else there is none, as if unread."""
    recipes = {
        slug: recipe if _can_be_planned(book, recipe, tables) else replace(recipe, stages=())
        for slug, recipe in book.recipes.items()
    }
    return replace(book, recipes=recipes)


def _can_be_planned(book: Book, recipe: Recipe, tables: Tables) -> bool:
    if recipe.read_course is None:
        return True
    lengths = course_lengths(book, recipe, tables)
    return recipe.read_course.is_whole and not any(length.is_unknown for length in lengths)


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
                    f"{recipe.name}: '{stage.title}' has no length, so nobody can say when to start it.",
                    f"Write how long it takes, such as {stage.title}: 3 h.",
                )


def _steps(given: Given, layout: Layout, notes: tuple[Notes, ...]) -> tuple[Step, ...]:
    """By the moment, not by the reading of a clock that may go back."""
    found: list[tuple[int, Step]] = [(thaw.start, _thaw_step(given, thaw)) for thaw in layout.thaws]
    for course in layout.courses.values():
        found += [(one.start, _stage_step(given, one, notes)) for one in course.stages]
        found += _turn_steps(given, course)
    return tuple(step for _, step in sorted(found, key=lambda pair: pair[0]))


def _stage_step(given: Given, one: LaidStage, notes: tuple[Notes, ...]) -> Step:
    hands = one.stage.hands_minutes
    said = (one.note, *(some.get((one.slug, one.index), "") for some in notes))
    return Step(
        slug=one.slug,
        stage=one.stage.title,
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


def _turn_steps(given: Given, course: LaidCourse) -> Iterator[tuple[int, Step]]:
    recipe = given.book.recipes[course.slug]
    for one in course.stages:
        # The first turning is a day after the cure began.
        for day, start in enumerate(turn_starts(recipe, one.stage, one.start, one.end), 1):
            step = Step(
                slug=course.slug,
                stage="turn",
                index=PUT_IN,
                start=given.moment(start),
                end=given.moment(start + TURN_MIN),
                hands_on_min=TURN_MIN,
                place=one.stage.place_written,
                note=f"in its brine, day {day}",
            )
            yield start, step
