"""A plan in; components, thaws and what lies in the fridge moved, so that as little as can be is at night, out.

A dish is over when it is served: of it only a thaw, and a stage in the fridge with a written range, can be moved. What is
moved never begins too early for whoever works, never waits longer than it keeps, and never meets another in a place that
is too small for both. Of several ways the least move that helps most is taken, and only where the whole
plan is the better for it.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import cache
from math import ceil

from generator.compute.gathering.capacity import in_smoker
from generator.compute.gathering.deadlines import cold_keep, most
from generator.compute.gathering.layout import (
    FRIDGE,
    Given,
    Layout,
    Moves,
    is_thawed_to_serve,
    lay_out,
    own_thaw,
    thawed_for,
)
from generator.compute.gathering.lengths import DAY, HOUR, Length
from generator.compute.gathering.moving import Groups, group_of, hindrance, movable
from generator.compute.gathering.night import is_day, nights, stage_nights
from generator.compute.safety.facts.cure_days import held_against
from generator.model.recipe import Recipe, Stage

ROUNDS = 2
"What is moved late moves what it is made of, which is looked at once more."
INSTEAD = "otherwise what it is made of would be at night"
Choices = tuple[tuple[int, ...], ...]
"For each stage of a course."
Turns = tuple[frozenset[str], ...]
"Groups of courses that move together, each behind all that takes from it."
STEP = 30
"[min] Source: house choice."
NIGHT = 10 * HOUR
"""[min] Sooner a thaw never begins: what thawed in the fridge keeps a day at the least. Source: University of Maryland
Extension, University of Illinois Extension: ground meat, poultry and fish 1 to 2 days, pieces of red meat 3 to 5."""
RESTING = frozenset(
    {"cure", "equalise", "dry", "soak", "age", "rest", "pickle", "infuse", "marinate", "press", "rise"}
)
"Stages that lie in the fridge for as long as is written. Source: words of the trade."
CURES = frozenset({"cure", "equalise"})
"Stages whose days are published."


@dataclass(frozen=True, slots=True, order=True)
class _Fit:
    """One way for a course to lie; the least is the best."""

    nights: int
    off: int
    "Minutes by which stages are not as counted."
    lengths: tuple[int, ...] = ()
    sooner: tuple[tuple[str, int], ...] = ()
    "Component and minutes of each thaw that the plan puts in."

    def with_stage(self, minutes: int, *, nights: int, off: int) -> _Fit:
        """And a stage behind it."""
        return _Fit(self.nights + nights, self.off + off, (*self.lengths, minutes), self.sooner)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """One way for a group of courses to lie."""

    by: int
    "Minutes earlier than now."
    fits: Mapping[str, _Fit]

    @property
    def rank(self) -> tuple[int, int, int]:
        """Presences at night [1], how much earlier [min], how far from what is counted [min]: the least is the best."""
        fits = self.fits.values()
        return sum(fit.nights for fit in fits), self.by, sum(fit.off for fit in fits)


def by_daylight(given: Given, moves: Moves, groups: Groups) -> Moves:
    """What is moved already stays together; each course, or group of them, moves by the least that helps most."""
    turns = tuple(_in_turn(given, groups))
    for group in turns * ROUNDS:
        moves = _turn(given, moves, group, _behind(given, turns, group))
    return moves


def _turn(given: Given, moves: Moves, group: frozenset[str], behind: Turns) -> Moves:
    """What a group is made of moves with it, into the night perhaps. Where that undoes what is gained, and still does when
    all of it has moved too, the group moves only so far as the whole plan gains at once."""
    tried = _best(given, moves, group, group)
    now = _all_nights(given, moves)
    if tried is moves or _all_nights(given, tried) < now:
        return tried
    with_it, without = (_all_moved(given, one, behind) for one in (tried, moves))
    if _all_nights(given, with_it) < min(now, _all_nights(given, without)):
        return with_it
    return _best(given, moves, group, given.order)


def _behind(given: Given, turns: Turns, group: frozenset[str]) -> Turns:
    """The groups of what a group is made of, and of what that is made of."""
    found = set(group)
    for slug in given.order:
        if found.intersection(given.takers(slug)):
            found.add(slug)
    return tuple(one for one in turns if one != group and found & one)


def _all_moved(given: Given, moves: Moves, turns: Turns) -> Moves:
    for group in turns:
        moves = _best(given, moves, group, group)
    return moves


def _all_nights(given: Given, moves: Moves) -> int:
    return len(nights(given, lay_out(given, moves), given.order))


def why_not(given: Given, moves: Moves, groups: Groups) -> dict[str, str]:
    """For each course that is at night all the same: what stands in the way; empty where no hour was found at all."""
    layout = lay_out(given, moves)
    found: dict[str, str] = {}
    for group in _in_turn(given, groups):
        now = len(nights(given, layout, group))
        if not now:
            continue
        better = (way for way in _ways(given, moves, layout, group) if way.rank[0] < now)
        tried = next((_taking(given, moves, way) for way in better), None)
        reason = "" if tried is None else _why_not(given, moves, tried)
        found |= dict.fromkeys(group, reason)
    return found


def _why_not(given: Given, moves: Moves, tried: Moves) -> str:
    helps = _all_nights(given, tried) < _all_nights(given, moves)
    return hindrance(given, lay_out(given, moves), lay_out(given, tried)) or ("" if helps else INSTEAD)


def _in_turn(given: Given, groups: Groups) -> Iterator[frozenset[str]]:
    """Each course, or group of them, when all that takes from it has been looked at."""
    done: set[str] = set()
    for slug in given.order:
        group = group_of(groups, slug)
        done.add(slug)
        if group <= done:
            yield group


def _best(given: Given, moves: Moves, group: frozenset[str], counted: Collection[str]) -> Moves:
    """The best way for a group that leaves fewer nights to those that are counted; as it is where there is none."""
    before = lay_out(given, moves)
    now = len(nights(given, before, group))
    if not now:
        return moves
    dark = len(nights(given, before, counted))
    for way in _ways(given, moves, before, group):
        # The best come first: from here on no way has less at night than there is now.
        if way.rank[0] >= now:
            break
        tried = _taking(given, moves, way)
        after = lay_out(given, tried)
        if len(nights(given, after, counted)) < dark and not hindrance(given, before, after):
            return tried
    return moves


def _ways(given: Given, moves: Moves, layout: Layout, group: frozenset[str]) -> list[_Way]:
    """The best first. Each move is tried with every stage as counted too, where stretching one is what is in the way."""
    choices = {slug: _choices(given, slug, is_alone=len(group) == 1) for slug in sorted(group)}
    plain = {slug: tuple(of[:1] for of in choices[slug]) for slug in choices}
    ways = []
    for some in (choices, plain):
        fits = {slug: _fits(given, slug, of) for slug, of in some.items()}
        for by in _distances(given, moves, group):
            found = {slug: fit(layout.courses[slug].ready - by) for slug, fit in fits.items()}
            ways.append(_Way(by=by, fits=found))
    return sorted(ways, key=lambda way: way.rank)


def _distances(given: Given, moves: Moves, group: frozenset[str]) -> tuple[int, ...]:
    """How much earlier it may be over: a component by a day, a dish that is thawed for the table by a longer thaw."""
    if group <= set(movable(given)):
        return tuple(range(0, DAY, STEP))
    slug = min(group)
    if len(group) > 1 or not is_thawed_to_serve(given, slug):
        return (0,)
    now = moves.sooner.get((slug, slug), 0)
    return tuple(sooner - now for sooner in thaw_choices(given, (slug,)) if sooner >= now)


def _choices(given: Given, slug: str, *, is_alone: bool) -> Choices:
    """Smokes that are one stay one: what is behind such a smoke is as counted."""
    choices, stages = course_choices(given, slug), given.book.recipes[slug].stages
    smokes = [index for index, stage in enumerate(stages) if in_smoker(stage)]
    until = len(stages) if is_alone or not smokes else smokes[0]
    return tuple(of if index < until else of[:1] for index, of in enumerate(choices))


def _fits(given: Given, slug: str, choices: Choices) -> Callable[[int], _Fit]:
    """The best way for a course that is over at a minute; what is found on the way is kept for other minutes."""
    recipe = given.book.recipes[slug]
    thaws = [
        (component, own_thaw(given.book, component, given.kitchen).minutes, thaw_choices(given, (component,)))
        for component in thawed_for(given, slug)
    ]

    @cache
    def of_first(count: int, end: int) -> _Fit:
        """The first so many stages, over at a minute, and the thaws before them."""
        if not count:
            return _thawed(given, end, thaws)
        stage, options = recipe.stages[count - 1], choices[count - 1]
        return min(
            of_first(count - 1, end - minutes).with_stage(
                minutes,
                nights=sum(1 for _ in stage_nights(given, recipe, stage, end - minutes, end)),
                off=abs(minutes - options[0]),
            )
            for minutes in options
        )

    def whole(ready: int) -> _Fit:
        fit = of_first(len(recipe.stages), ready)
        return replace(fit, nights=fit.nights + (bool(recipe.stages) and not is_day(given, ready)))

    return whole


def _thawed(given: Given, end: int, thaws: list[tuple[str, int, tuple[int, ...]]]) -> _Fit:
    """Each thaw begun by the least sooner that is by day."""
    dark, off, sooner = 0, 0, []
    for component, minutes, choices in thaws:
        by = next((one for one in choices if is_day(given, end - minutes - one)), None)
        dark, off = dark + (by is None), off + (by or 0)
        sooner.append((component, by or 0))
    return _Fit(dark, off, (), tuple(sooner))


def _taking(given: Given, moves: Moves, way: _Way) -> Moves:
    """The moves, and that way besides."""
    earlier, sooner = dict(moves.earlier), dict(moves.sooner)
    for slug, fit in way.fits.items():
        if slug in given.dishes:
            sooner[slug, slug] = sooner.get((slug, slug), 0) + way.by
        else:
            earlier[slug] = earlier.get(slug, 0) + way.by
        sooner |= {(component, slug): minutes for component, minutes in fit.sooner}
    lengths = {**moves.lengths, **{slug: fit.lengths for slug, fit in way.fits.items()}}
    return Moves(earlier=earlier, lengths=lengths, sooner=sooner)


def course_choices(given: Given, slug: str) -> tuple[tuple[int, ...], ...]:
    """For each stage of a recipe, the minutes [min] that it may take, those that are counted first."""
    recipe = given.book.recipes[slug]
    pairs = zip(recipe.stages, given.lengths[slug], strict=True)
    return tuple(_stage_choices(given, recipe, stage, length) for stage, length in pairs)


def _stage_choices(given: Given, recipe: Recipe, stage: Stage, length: Length) -> tuple[int, ...]:
    counted = length.minutes
    if length.is_unknown:
        return (counted,)
    if stage.name == "thaw" and stage.place in ("", FRIDGE):
        taken = (use.component for use in given.book.uses_of(recipe.slug))
        return tuple(counted + sooner for sooner in thaw_choices(given, taken))
    least = _least(given, recipe, stage, counted) if _rests(stage) else counted
    # Within a day it can end at every hour of the clock.
    return tuple(range(counted, max(least, counted - DAY) - 1, -STEP))


def thaw_choices(given: Given, components: Iterable[str]) -> tuple[int, ...]:
    """How much sooner a thaw may begin [min]: no more than what is thawed keeps unfrozen."""
    keeps = [cold_keep(given.book.recipes[slug]) for slug in components]
    bound = min((NIGHT, *(most(keep) for keep in keeps if keep is not None)))
    return tuple(range(0, bound + 1, STEP))


def _rests(stage: Stage) -> bool:
    """It lies in the fridge, and nothing but the clock says when it is over."""
    return stage.place == FRIDGE and stage.name in RESTING and not stage.until and stage.inside is None


def _least(given: Given, recipe: Recipe, stage: Stage, counted: int) -> int:
    """The shorter end of what is written; of a cure only where no published time asks for more than that."""
    if stage.minutes is None or (stage.name in CURES and not _is_long_enough(given, recipe)):
        return counted
    return min(counted, ceil(stage.minutes.low))


def _is_long_enough(given: Given, recipe: Recipe) -> bool:
    held = [held_against(recipe, meat, given.kitchen.tables) for meat in recipe.meats]
    return bool(held) and all(
        rules and all(one.is_told and not one.is_longer for one in rules) for rules in held
    )
