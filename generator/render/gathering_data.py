"""A plan in, plain data for `--json` out: unknown is null, a range is [low, high], times are ISO 8601."""

from __future__ import annotations

from generator.model.plan import Item, Making, Plan, Step
from generator.render.data import Data, cure_data, exact, number, problem_data, span


def gathering_data(plan: Plan, units: str) -> Data:
    """What is made, fetched, done and weighed, and what cannot be met."""
    return {
        "demand": [_making(making) for making in plan.makings],
        "shopping": [_item(item, units) for item in plan.shopping],
        "timeline": [_step(step) for step in plan.steps],
        "cures": [
            {"recipe": making.slug, **cure_data(making.recipe.cure)}
            for making in plan.makings
            if making.recipe.cure is not None and making.batches
        ],
        "problems": [problem_data(problem) for problem in plan.problems],
    }


def _making(making: Making) -> Data:
    return {
        "recipe": making.slug,
        "amount_g": span(making.amount_g),
        "batches": exact(making.batches),
        "green_weight_g": number(making.green_weight_g),
    }


def _item(item: Item, units: str) -> Data:
    return {
        "item": item.name,
        "place": item.place,
        "shown": item.shown.in_units(units) or None,
        "grams": span(item.grams),
        "for": list(item.needed_for),
    }


def _step(step: Step) -> Data:
    return {
        "recipe": step.slug,
        "stage": step.stage,
        "start": step.start.isoformat(timespec="minutes"),
        "end": step.end.isoformat(timespec="minutes"),
        "hands_on_min": step.hands_on_min,
    }
