"""A gathering's makings in; every stage of each laid backwards from serving, in whole minutes of it, out.

Minutes are counted from serving, below 0 before it: a plan is laid without a date, and hung on one at the end.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cache, cached_property

from generator.compute.gathering.lengths import (
    DAY,
    Heaviest,
    Length,
    course_lengths,
    made_piece_lb,
    slowest_thaw_h,
    thaw_length,
)
from generator.compute.recipe import Kitchen
from generator.compute.safety.words import span_words
from generator.model.book import Book
from generator.model.gathering import Invited
from generator.model.moment import Moment, later, minutes_from
from generator.model.plan import Making
from generator.model.recipe import Recipe, Stage

FREEZER, FRIDGE = "freezer", "fridge"
TURN_MIN = 5
"[min] of work. Source: common practice, no source."


@dataclass(frozen=True, kw_only=True)
class Given:
    """What a plan starts from."""

    book: Book
    invited: Invited
    made: Mapping[str, Making]
    "By slug, only what is made at all."
    kitchen: Kitchen

    @cached_property
    def order(self) -> tuple[str, ...]:
        """Slugs of what is made, each before what it is made of."""
        return tuple(slug for slug in reversed(self.book.order) if slug in self.made)

    @cached_property
    def dishes(self) -> frozenset[str]:
        """Slugs of what is served."""
        return frozenset(slug for _, slug in self.invited.dishes)

    @cached_property
    def lengths(self) -> Mapping[str, tuple[Length, ...]]:
        """Of the stages of what is made."""
        tables = self.kitchen.tables
        return {slug: course_lengths(self.book, self.book.recipes[slug], tables) for slug in self.order}

    @cached_property
    def work_from(self) -> int | None:
        """When work starts [min from serving], below 0; None where it is not told."""
        gathering = self.invited.gathering
        return None if gathering.work_from is None else minutes_from(gathering.serve_at, gathering.work_from)

    @cached_property
    def clock(self) -> Callable[[int], Moment]:
        """As `moment`, each minute looked up once."""
        return cache(self.moment)

    def moment(self, minutes: int) -> Moment:
        """By the clock."""
        return later(self.invited.gathering.serve_at, minutes)

    def takers(self, component: str) -> tuple[str, ...]:
        """Slugs of what is made that takes from a component, each once."""
        return tuple(dict.fromkeys(use.dish for use in self.book.used_by(component) if use.dish in self.made))

    def is_in_freezer(self, component: str) -> bool:
        """Some of it is on hand, frozen."""
        return any(slug == component and one.place == FREEZER for one, slug, _ in self.invited.components)


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidStage:
    """One stage by the minutes from serving."""

    slug: str
    stage: Stage
    index: int
    start: int
    end: int
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidCourse:
    """One recipe's stages, one after another."""

    slug: str
    start: int
    ready: int
    stages: tuple[LaidStage, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Thaw:
    """A thaw that the plan puts in, because the taker has none."""

    component: str
    taker: str
    start: int
    end: int
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """A whole plan."""

    courses: Mapping[str, LaidCourse]
    thaws: tuple[Thaw, ...]

    def needed_at(self, given: Given, component: str) -> tuple[int, ...]:
        """For each taker, when it must be there [min from serving]: out of the freezer where the plan thaws it."""
        frozen = ends_frozen(given.book.recipes[component])
        thawed = {thaw.taker: thaw.start for thaw in self.thaws if thaw.component == component and frozen}
        return tuple(thawed.get(taker, self.courses[taker].start) for taker in given.takers(component))

    def used_at(self, given: Given, component: str) -> tuple[int, ...]:
        """For each taker, when its work begins [min from serving]: what is not frozen waits for a thaw of something else."""
        if ends_frozen(given.book.recipes[component]):
            return self.needed_at(given, component)
        return tuple(_first_work(self.courses[taker]) for taker in given.takers(component))


@dataclass(frozen=True, slots=True, kw_only=True)
class Moves:
    """Where a plan is not as late as it could be, or does not take what is counted."""

    earlier: Mapping[str, int] = field(default_factory=dict)
    "By how many minutes a component is over earlier than it must be, by slug."
    lengths: Mapping[str, tuple[int, ...]] = field(default_factory=dict)
    "Minutes of every stage, by slug."
    sooner: Mapping[tuple[str, str], int] = field(default_factory=dict)
    "By component and taker, how much sooner a thaw begins that the plan puts in."


AS_COUNTED = Moves()


def _first_work(course: LaidCourse) -> int:
    first = course.stages[:1]
    return first[0].end if first and first[0].stage.name == "thaw" else course.start


def ends_frozen(recipe: Recipe) -> bool:
    """Its course leaves it in the freezer."""
    names = [stage.name for stage in recipe.stages if stage.name != "pack"]
    return names[-1:] == ["freeze"]


def lay_out(given: Given, moves: Moves = AS_COUNTED) -> Layout:
    """Every course as late as it may end, but for what is moved."""
    layout = Layout(courses={}, thaws=())
    # Takers stand before what they take from, so that the start of each is known when it is asked for.
    for slug in given.order:
        # A dish whose course leaves it in the freezer is thawed for the table: its own taker.
        served = (_thaw(given, slug, slug, 0, moves),) if is_thawed_to_serve(given, slug) else ()
        due = [served[0].start if served else 0] if slug in given.dishes else []
        due += layout.needed_at(given, slug)
        course = _course(given, slug, min(due, default=0) - moves.earlier.get(slug, 0), moves)
        thaws = [_thaw(given, one, slug, course.start, moves) for one in thawed_for(given, slug)]
        layout = Layout(courses={**layout.courses, slug: course}, thaws=(*layout.thaws, *served, *thaws))
    return layout


def is_thawed_to_serve(given: Given, slug: str) -> bool:
    """A dish whose course leaves it in the freezer."""
    return slug in given.dishes and ends_frozen(given.book.recipes[slug])


def _course(given: Given, slug: str, ready: int, moves: Moves) -> LaidCourse:
    lengths = given.lengths[slug]
    minutes = moves.lengths.get(slug) or tuple(length.minutes for length in lengths)
    start = at = ready - sum(minutes)
    stages = []
    for index, (stage, length) in enumerate(zip(given.book.recipes[slug].stages, lengths, strict=True)):
        end = at + minutes[index]
        note = _sooner_words(length.note, minutes[index] - length.minutes)
        stages.append(LaidStage(slug=slug, stage=stage, index=index, start=at, end=end, note=note))
        at = end
    return LaidCourse(slug=slug, start=start, ready=ready, stages=tuple(stages))


def thawed_for(given: Given, taker: str) -> tuple[str, ...]:
    """What a taker takes out of the freezer and has no thaw of its own for."""
    if any(stage.name == "thaw" for stage in given.book.recipes[taker].stages):
        return ()
    taken = dict.fromkeys(use.component for use in given.book.uses_of(taker))
    return tuple(slug for slug in taken if _is_frozen(given, slug))


def _is_frozen(given: Given, slug: str) -> bool:
    return (slug in given.made and ends_frozen(given.book.recipes[slug])) or given.is_in_freezer(slug)


def _thaw(given: Given, component: str, taker: str, end: int, moves: Moves) -> Thaw:
    """Over when it is needed."""
    length, sooner = own_thaw(given.book, component, given.kitchen), moves.sooner.get((component, taker), 0)
    note = _sooner_words(length.note, sooner)
    return Thaw(component=component, taker=taker, start=end - length.minutes - sooner, end=end, note=note)


def _sooner_words(note: str, minutes: int) -> str:
    """A thaw that begins sooner than it must."""
    sooner = f"begun {span_words(minutes, minutes)} sooner, by day" if minutes > 0 else ""
    return "; ".join(filter(None, (note, sooner)))


def own_thaw(book: Book, component: str, kitchen: Kitchen) -> Length:
    """In the fridge, by the weight and the thickness of its pieces."""
    recipe = book.recipes[component]
    weight = made_piece_lb(recipe, kitchen.tables)
    return thaw_length("fridge", Heaviest.of(weight, slowest_h=slowest_thaw_h(recipe)))


def turn_starts(recipe: Recipe, stage: Stage, start: int, end: int) -> range:
    """Every 24 h after a cure in a brine began, as long as it lasts; none where a stage is no such cure."""
    is_brine = recipe.cure is not None and recipe.cure.method == "brine"
    return range(start + DAY, end if is_brine and stage.name == "cure" else start, DAY)
