"""The stages of a recipe in, its course out: on a page, each with its boxes; as lines of text; by the clock."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from generator.model.moment import StageTime, Window, window_words
from generator.model.quantity import Span, Temperature, TemperatureRange
from generator.model.recipe import Recipe, Stage
from generator.model.results import ComputedRecipe
from generator.model.shown import show_decimal
from generator.render.amounts import Amounts, AmountView, keyed
from generator.render.cautions import BoxView, box_views

LONGEST_TIMER = 24 * 60
"[min] Common practice, no source: what takes longer than a day is for the calendar."
ROOM = "at room temperature"
"Words of a place that no line of a course has: there it is the counter."


@dataclass(frozen=True, slots=True, kw_only=True)
class StageView:
    """One stage."""

    id: str
    "Its fragment, to which links of the text lead."
    stage: Stage
    length: str
    minutes: str
    "Of a timer: `60` or `300-360`; empty where there is no length, or one that no timer is for."
    at: AmountView | None
    inside: AmountView | None
    hands: str
    "Time of work within the stage, where it is not the whole of it."
    check: str
    check_beyond: str
    boxes: tuple[BoxView, ...]

    @property
    def jar(self) -> str:
        """Size and pack of a jar: `pints, raw pack`; empty where neither is told."""
        size = f"{self.stage.jar_size}s" if self.stage.jar_size else ""
        return ", ".join(filter(None, (size, f"{self.stage.pack} pack" if self.stage.pack else "")))

    @property
    def pressure(self) -> str:
        """Of a pressure canner: `at 12 lb on the dial gauge`, or the part of it that is told."""
        pounds = self.stage.pounds
        at = f"at {show_decimal(pounds, places=1)} lb" if pounds is not None else ""
        return " ".join(filter(None, (at, f"on the {self.stage.gauge}" if self.stage.gauge else "")))

    @property
    def told(self) -> str:
        """What a link of the text to it tells, for machine readers: its length and its temperatures."""
        at = f"at {self.at.plain}" if self.at else ""
        inside = f"to {self.inside.plain} inside" if self.inside else ""
        return ", ".join(filter(None, (" ".join(filter(None, (self.length, at))), inside)))

    @property
    def plain(self) -> str:
        """In one sentence, for machine readers."""
        parts = (
            self.stage.title.capitalize(),
            self.jar,
            self.length,
            f"at {self.at.plain}" if self.at else "",
            f"to {self.inside.plain} inside" if self.inside else "",
            self.pressure,
            self.stage.place_written,
            self.stage.words,
            f"until {self.stage.until}" if self.stage.until else "",
        )
        return " ".join(part for part in parts if part) + "."


def stage_id(number: int) -> str:
    """The fragment of a stage of a page, `number` from 0."""
    return f"stage-{number + 1}"


def stage_words(stage: Stage) -> str:
    """What a link of the text to a stage tells: `5 h at 180–200 °F, to 165 °F inside`, in the author's scale."""
    length = stage.length_written
    at = f"at {_range(stage.at)}" if stage.at is not None else ""
    inside = f"to {_point(stage.inside)} inside" if stage.inside is not None else ""
    return ", ".join(filter(None, (" ".join(filter(None, (length, at))), inside)))


def stage_views(amounts: Amounts, recipe: ComputedRecipe) -> tuple[StageView, ...]:
    """Every stage in order."""
    return tuple(_stage(amounts, recipe, number) for number in range(len(recipe.recipe.stages)))


def _stage(amounts: Amounts, recipe: ComputedRecipe, number: int) -> StageView:
    stage = recipe.recipe.stages[number]
    length = stage.length_written or (amounts.minutes(stage.minutes) if stage.minutes else "")
    hands = amounts.minutes(stage.hands_minutes) if stage.hands_minutes else ""
    return StageView(
        id=stage_id(number),
        stage=stage,
        length=length,
        minutes=timer_minutes(stage.minutes),
        at=keyed(amounts.temperature(stage.at), f"s-{number}-at") if stage.at else None,
        inside=keyed(amounts.least(stage.inside), f"s-{number}-inside") if stage.inside else None,
        hands="" if hands == length else hands,
        check=recipe.stage_checks[number] if recipe.stage_checks else "",
        check_beyond=recipe.stage_checks_beyond[number] if recipe.stage_checks_beyond else "",
        boxes=box_views(recipe, number),
    )


def timer_minutes(span: Span | None) -> str:
    """The ends of a length [min] for a timer, to 0.01 min."""
    if span is None or not 0 < span.low <= span.high <= LONGEST_TIMER:
        return ""
    return "-".join(show_decimal(end, places=2) for end in dict.fromkeys((span.low, span.high)))


def clock_lines(times: Sequence[StageTime], uncounted: Sequence[str]) -> list[str]:
    """The course by the clock, for a terminal: a stage, its start, its end under it where it takes time."""
    lines = [f"By the clock, {times[0].start.earliest.year}"]
    for number, one in enumerate(times, 1):
        label = f"  {number}. {one.stage:<12}"
        indent = " " * len(label)
        lines.append(f"{label} from {window_words(one.start)}")
        if one.end != one.start:
            lines.append(f"{indent} to   {window_words(one.end)}")
        if one.note:
            lines.append(f"{indent} {one.note}")
    if uncounted:
        lines.append(f"  {uncounted_sentence(uncounted)}")
    return lines


def uncounted_sentence(names: Sequence[str]) -> str:
    """What comes on top of the times told."""
    listed = " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))
    return f"Allow time for {listed}: no length is written, so none is counted."


def times_data(times: Sequence[StageTime]) -> list[dict[str, Any]]:
    """For `--json`: ISO 8601, a range as [earliest, latest]."""
    return [
        {
            "stage": one.stage,
            "start": _window_data(one.start),
            "end": _window_data(one.end),
            "note": one.note or None,
        }
        for one in times
    ]


def _window_data(window: Window) -> str | list[str]:
    first, last = (moment.isoformat(timespec="minutes") for moment in (window.earliest, window.latest))
    return [first, last] if window.is_range else first


def course_line(stage: Stage) -> str:
    """A stage as its author wrote it; one that was read, as a line of `course` has it."""
    if not stage.is_read:
        return stage.written
    parts = (
        f"{stage.jar_size}," if stage.jar_size else "",
        f"{stage.pack} pack," if stage.pack else "",
        stage.length_written,
        f"at {show_decimal(stage.pounds, places=2)} psi" if stage.pounds is not None else "",
        f"on the {stage.gauge}" if stage.gauge else "",
        f"at {_range(stage.at)}" if stage.at is not None else "",
        f"to {_point(stage.inside)} inside" if stage.inside is not None else "",
        "on the counter" if stage.place_written == ROOM else stage.place_written,
        f"until {stage.until}" if stage.until else "",
    )
    told = " ".join(part for part in parts if part)
    return f"{stage.name}: {told}" if told else stage.name


def _range(at: TemperatureRange) -> str:
    low = show_decimal(at.low.value, places=1)
    return _point(at.low) if at.low == at.high else f"{low}–{_point(at.high)}"


def _point(at: Temperature) -> str:
    return f"{show_decimal(at.value, places=1)} °{at.scale}"


def course_lines(recipe: Recipe) -> Iterator[str]:
    """What was read from a method, to paste, and the sentences that gave no stage."""
    read = recipe.read_course
    if read is None:
        yield f"{recipe.name}: nothing is read from its method, since it has a course or is not in English."
        return
    if recipe.stages:
        yield "course:"
        yield from (f"  - {course_line(stage)}" for stage in recipe.stages)
    else:
        yield f"{recipe.name}: no sentence of its method tells a stage for certain."
    if read.unread:
        yield ""
        yield f"Nothing was read from {len(read.unread)} of {_sentences(recipe)}:"
        yield from (
            f"  {one.file}:{one.position.line}:{one.position.column}: {one.text}" for one in read.unread
        )


def _sentences(recipe: Recipe) -> str:
    assert recipe.read_course is not None
    told = {stage.written for stage in recipe.stages}
    count = len(told) + len(recipe.read_course.unread)
    return "1 sentence" if count == 1 else f"{count} sentences"
