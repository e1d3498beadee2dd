"""The stages of a recipe in, lines of its course out, each with the boxes that stand beside it."""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.quantity import Span
from generator.model.recipe import Stage
from generator.model.results import ComputedRecipe
from generator.model.shown import show_decimal
from generator.render.amounts import MINIMUM, AmountView, keyed
from generator.render.context import Context
from generator.render.views.boxes import BoxView, box_views

LONGEST_TIMER = 24 * 60
"[min] Common practice, no source: what takes longer than a day is for the calendar."


@dataclass(frozen=True, slots=True, kw_only=True)
class StageView:
    """One stage."""

    name: str
    length: str
    minutes: str
    "Of a timer: `60` or `300-360`; empty where there is no length, or one that no timer is for."
    at: AmountView | None
    inside: AmountView | None
    "A least temperature: never rounded down."
    place: str
    until: str
    hands: str
    "Time of work within the stage, where it is not the whole of it."
    check: str
    check_beyond: str
    boxes: tuple[BoxView, ...]

    @property
    def plain(self) -> str:
        """In one sentence, for machine readers."""
        parts = (
            self.name.capitalize(),
            self.length,
            f"at {self.at.plain}" if self.at else "",
            f"to {self.inside.plain} inside" if self.inside else "",
            self.place,
            f"until {self.until}" if self.until else "",
        )
        return " ".join(part for part in parts if part) + "."


def stage_views(context: Context, page: str, recipe: ComputedRecipe) -> tuple[StageView, ...]:
    """Every stage in order."""
    none = ("",) * len(recipe.recipe.stages)
    checks, beyond = recipe.stage_checks or none, recipe.stage_checks_beyond or none
    return tuple(
        _stage(context, number, stage, (check, later), box_views(context, page, recipe, number))
        for number, (stage, check, later) in enumerate(zip(recipe.recipe.stages, checks, beyond, strict=True))
    )


def _stage(
    context: Context, number: int, stage: Stage, checks: tuple[str, str], boxes: tuple[BoxView, ...]
) -> StageView:
    amounts = context.amounts
    length = stage.length_written or (amounts.minutes(stage.minutes) if stage.minutes else "")
    hands = amounts.minutes(stage.hands_minutes) if stage.hands_minutes else ""
    return StageView(
        name=stage.name,
        length=length,
        minutes=timer_minutes(stage.minutes),
        at=keyed(amounts.temperature(stage.at), f"s-{number}-at") if stage.at else None,
        inside=keyed(amounts.temperature(stage.inside, use=MINIMUM), f"s-{number}-inside")
        if stage.inside
        else None,
        place=stage.place_written,
        until=stage.until,
        hands="" if hands == length else hands,
        check=checks[0],
        check_beyond=checks[1],
        boxes=boxes,
    )


def timer_minutes(span: Span | None) -> str:
    """The ends of a length [min] for a timer, to 0.01 min."""
    if span is None or not 0 < span.low <= span.high <= LONGEST_TIMER:
        return ""
    return "-".join(show_decimal(end, places=2) for end in dict.fromkeys((span.low, span.high)))
