"""One cured recipe in, the face of paper for the nail beside the smoker out; a refused cure gives only the reasons."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from generator.model.moment import StageTime, date_words, later, weekday_words, window_words
from generator.model.recipe import Stage
from generator.model.results import ComputedRecipe
from generator.render import paths
from generator.render.cautions import BoxView, box_views
from generator.render.context import Context
from generator.render.course import uncounted_sentence
from generator.render.views.labels import cook_words
from generator.render.views.weigh import WeighView, weigh_view
from generator.render.yields import batches_words

MINUTES_A_DAY = 24 * 60
ROWS_OF_PIECES = 6
"Where the recipe does not say how many pieces there are. Source: house choice."
DAYS_OF_CURE = 7
"Boxes for turning where no length of the cure is written. Source: house choice."
ROWS_OF_LOG = 6
"Source: house choice: an entry an hour, for most smokes."


@dataclass(frozen=True, slots=True, kw_only=True)
class RunView:
    """One stage of the course, with its times or room to write them."""

    stage: Stage
    check: str
    start: str
    end: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SmokerView:
    """A smoker's sheet."""

    title: str
    description: str
    name: str
    scaled: str
    whole: str
    "Link to the recipe's page; empty where the sheet stands alone."
    eat: str
    weigh: WeighView
    heats: tuple[Stage, ...]
    "Stages in which two thermometers should say something."
    boxes: tuple[BoxView, ...]
    course: tuple[RunView, ...]
    is_course_read: bool
    has_times: bool
    uncounted: str
    pieces: range
    days: tuple[tuple[int, str, str], ...]
    "To tick when the pieces were turned: number, weekday and date; the two are empty where no clock times are given."
    log: range


def smoker_view(
    context: Context, recipe: ComputedRecipe, times: Sequence[StageTime] = ()
) -> SmokerView | None:
    """None for a recipe without a cure."""
    weigh = weigh_view(context, recipe)
    if weigh is None:
        return None
    one = recipe.recipe
    cook = cook_words(context, recipe)
    return SmokerView(
        title=f"{one.name}: smoker's sheet",
        description=f"What to weigh, to turn and to measure for {one.name}, on one sheet of paper.",
        name=one.name,
        scaled="" if recipe.scale.batches == 1 else batches_words(recipe.scale.batches),
        whole=context.href(paths.recipe_path(one.slug)),
        eat=f"Not ready to eat. {cook}." if cook else "",
        weigh=weigh,
        heats=tuple(stage for stage in one.stages if stage.at or stage.inside),
        boxes=tuple(box for stage in (None, *range(len(one.stages))) for box in box_views(recipe, stage)),
        course=_course(recipe, times),
        is_course_read=one.course_read,
        has_times=bool(times),
        uncounted=_uncounted(times),
        pieces=range(1, _pieces(recipe) + 1),
        days=_days(one.stages, times),
        log=range(ROWS_OF_LOG),
    )


def _course(recipe: ComputedRecipe, times: Sequence[StageTime]) -> tuple[RunView, ...]:
    stages = recipe.recipe.stages
    checks = recipe.stage_checks or ("",) * len(stages)
    clock = tuple(times) or (None,) * len(stages)
    return tuple(map(_run, stages, checks, clock))


def _run(stage: Stage, check: str, time: StageTime | None) -> RunView:
    return RunView(
        stage=stage,
        check=check,
        start=window_words(time.start) if time else "",
        end=window_words(time.end) if time and time.end != time.start else "",
    )


def _uncounted(times: Sequence[StageTime]) -> str:
    names = tuple(dict.fromkeys(time.stage for time in times if time.note))
    return uncounted_sentence(names) if names else ""


def _pieces(recipe: ComputedRecipe) -> int:
    """At this scale, in whole pieces: rather a row too many than one too few."""
    told = [meat.pieces for meat in recipe.recipe.meats if meat.pieces is not None]
    if not told or len(told) < len(recipe.recipe.meats):
        return ROWS_OF_PIECES
    return ceil(sum(told) * recipe.scale.batches)


def _days(stages: Sequence[Stage], times: Sequence[StageTime]) -> tuple[tuple[int, str, str], ...]:
    """A box for each day of the longer end of the cure, each begun day counted."""
    number = next((number for number, stage in enumerate(stages) if stage.name == "cure"), None)
    if number is None:
        return ()
    length = stages[number].minutes
    count = DAYS_OF_CURE if length is None else ceil(length.high / MINUTES_A_DAY)
    if not times:
        return tuple((day + 1, "", "") for day in range(count))
    first = times[number].start.latest
    dates = [later(first, day * MINUTES_A_DAY) for day in range(count)]
    return tuple((day, weekday_words(date), date_words(date)) for day, date in enumerate(dates, start=1))
