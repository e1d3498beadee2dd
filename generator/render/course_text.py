"""Stages and what a method left unread in, the lines that go under `course:` and where nothing was found out."""

from __future__ import annotations

from collections.abc import Iterator

from generator.model.quantity import Temperature, TemperatureRange
from generator.model.recipe import Recipe, Stage
from generator.model.shown import show_decimal

ROOM = "at room temperature"
"Words of a place that no line of a course has: there it is the counter."


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
