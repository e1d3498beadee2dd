"""One cured recipe in, the face of paper for the nail beside the smoker out; a refused cure gives only the reasons."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from generator.model.moment import StageTime, later
from generator.model.recipe import Stage
from generator.model.results import ComputedRecipe
from generator.render import paths
from generator.render.amounts import MINIMUM, AmountView
from generator.render.clock_words import date_words, uncounted_sentence, weekday_words, window_words
from generator.render.context import Context
from generator.render.views.boxes import BoxView, box_views
from generator.render.views.labels import cook_words
from generator.render.views.weigh import WeighView, weigh_view
from generator.render.views.yields import batches_words

MINUTES_A_DAY = 24 * 60
ROWS_OF_PIECES = 6
"Where the recipe does not say how many pieces there are. Source: house choice."
DAYS_OF_CURE = 7
"Boxes for turning where no length of the cure is written. Source: house choice."
ROWS_OF_LOG = 6
"Source: house choice: an entry an hour, for most smokes."


@dataclass(frozen=True, slots=True, kw_only=True)
class DayView:
    """A box to tick when the pieces were turned."""

    number: int
    weekday: str
    date: str
    "Empty, both, where no clock times are given."


@dataclass(frozen=True, slots=True, kw_only=True)
class HeatView:
    """What two thermometers should say in one stage."""

    stage: str
    chamber: AmountView | None
    inside: AmountView | None


@dataclass(frozen=True, slots=True, kw_only=True)
class RunView:
    """One stage of the course, with its times or room to write them."""

    stage: str
    how: str
    start: str
    end: str
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SmokerView:
    """A smoker's sheet."""

    title: str
    description: str
    name: str
    scaled: str
    recipe: str
    "Link to the recipe's page; empty where the sheet stands alone."
    eat: str
    weigh: WeighView
    has_weights: bool
    heats: tuple[HeatView, ...]
    boxes: tuple[BoxView, ...]
    course: tuple[RunView, ...]
    has_times: bool
    uncounted: str
    pieces: tuple[int, ...]
    days: tuple[DayView, ...]
    log: tuple[int, ...]
    made: str


def smoker_view(
    context: Context, page: str, recipe: ComputedRecipe, times: Sequence[StageTime] = ()
) -> SmokerView | None:
    """None for a recipe without a cure."""
    weigh = weigh_view(context, page, recipe)
    if weigh is None:
        return None
    one = recipe.recipe
    cook = cook_words(context, recipe)
    return SmokerView(
        title=f"{one.name}: smoker's sheet",
        description=f"What to weigh, to turn and to measure for {one.name}, on one sheet of paper.",
        name=one.name,
        scaled="" if recipe.scale.batches == 1 else batches_words(recipe.scale.batches),
        recipe=context.href(page, paths.recipe_path(one.slug)),
        eat=f"Not ready to eat. {cook}." if cook else "",
        weigh=weigh,
        has_weights=bool(weigh.rows),
        heats=tuple(_heat(context, stage) for stage in one.stages if stage.at or stage.inside),
        boxes=tuple(
            box
            for stage in (None, *range(len(one.stages)))
            for box in box_views(context, page, recipe, stage)
        ),
        course=_course(recipe, times),
        has_times=bool(times),
        uncounted=_uncounted(times),
        pieces=tuple(range(1, _pieces(recipe) + 1)),
        days=_days(one.stages, times),
        log=tuple(range(ROWS_OF_LOG)),
        made=f"From {context.config.title}.",
    )


def _heat(context: Context, stage: Stage) -> HeatView:
    amounts = context.amounts
    return HeatView(
        stage=stage.name,
        chamber=amounts.temperature(stage.at) if stage.at else None,
        inside=amounts.temperature(stage.inside, use=MINIMUM) if stage.inside else None,
    )


def _course(recipe: ComputedRecipe, times: Sequence[StageTime]) -> tuple[RunView, ...]:
    stages = recipe.recipe.stages
    checks = recipe.stage_checks or ("",) * len(stages)
    clock = tuple(times) or (None,) * len(stages)
    return tuple(map(_run, stages, checks, clock))


def _run(stage: Stage, check: str, time: StageTime | None) -> RunView:
    until = f"until {stage.until}" if stage.until else ""
    return RunView(
        stage=stage.name,
        how=" ".join(filter(None, (stage.length_written, stage.place_written, until))),
        start=window_words(time.start) if time else "",
        end=window_words(time.end) if time and time.end != time.start else "",
        note=check,
    )


def _uncounted(times: Sequence[StageTime]) -> str:
    names = tuple(dict.fromkeys(time.stage for time in times if time.note))
    return uncounted_sentence(names) if names else ""


def _pieces(recipe: ComputedRecipe) -> int:
    """At this scale, in whole pieces: rather a row too many than one too few."""
    meat = recipe.recipe.meat
    if meat is None or meat.pieces is None:
        return ROWS_OF_PIECES
    return ceil(meat.pieces * recipe.scale.batches)


def _days(stages: Sequence[Stage], times: Sequence[StageTime]) -> tuple[DayView, ...]:
    """A box for each day of the longer end of the cure, each begun day counted."""
    number = next((number for number, stage in enumerate(stages) if stage.name == "cure"), None)
    if number is None:
        return ()
    length = stages[number].minutes
    count = DAYS_OF_CURE if length is None else ceil(length.high / MINUTES_A_DAY)
    start = times[number].start.latest if times else None
    days = range(count)
    if start is None:
        return tuple(DayView(number=day + 1, weekday="", date="") for day in days)
    dates = (later(start, day * MINUTES_A_DAY) for day in days)
    return tuple(
        DayView(number=day + 1, weekday=weekday_words(date), date=date_words(date))
        for day, date in zip(days, dates, strict=True)
    )
