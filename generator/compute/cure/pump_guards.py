"""A separately mixed pump brine in, every comparison out that shows it cannot be mixed, or brings too much, with words."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.compute.cure.case import PumpBrineInput
from generator.compute.cure.formulas import PER_CENT
from generator.compute.cure.limits import HUNDREDTH_G
from generator.model.contract import Decimal, Guard, constant
from generator.model.form import NOTHING, Form
from generator.model.recipe import CureLine, Target
from generator.model.results import CureForms, PumpBrineResult
from generator.model.rounding import round_up
from generator.model.shown import show_decimal
from generator.tables import Tables

HUNDREDTH = Fraction(1, 100)
"Source: house choice, the step in which a least percentage is named."
NO_PUMP_BRINE: tuple[str, str] = (
    "No weights reach all the targets of the pump brine.",
    "Change one target to an amount.",
)


def pump_brine_guards(brine: PumpBrineResult, pump: PumpBrineInput, tables: Tables) -> Iterator[Guard]:
    """What a pump brine by itself cannot be."""
    yield _no_solution(brine, pump)
    yield _negative_salt(brine, pump, tables)
    yield _saturation(brine, pump, tables)
    if pump.curing_salt is not None:
        yield _too_little(brine, pump.curing_salt)


def _no_solution(brine: PumpBrineResult, pump: PumpBrineInput) -> Guard:
    """Its targets contradict each other: salt and sugar together would be more than the whole of it."""
    return Guard(
        slug="no-solution",
        group="no-solution",
        value=Form(cb=brine.water_g),
        limit=Form(cb=brine.whole_g - min(Fraction(0), brine.salt_g)),
        message=NO_PUMP_BRINE[:1],
        hint=NO_PUMP_BRINE[1:],
        position=pump.position,
        stops=True,
    )


def _negative_salt(brine: PumpBrineResult, pump: PumpBrineInput, tables: Tables) -> Guard:
    """The salt of its curing salt over all of it is a share that is enough for the target, by ppm or by amount."""
    own = brine.kind.salt * brine.curing_salt_g
    least = round_up(PER_CENT * own / brine.whole_g, HUNDREDTH)
    ask = f"Ask for at least {show_decimal(least, places=2)} % salt in it, or for less curing salt."
    if least > tables.constant("saturated_brine_percent"):
        ask = "Ask for less curing salt in it, or pump more of it."
    return Guard(
        slug="negative-salt",
        group="negative salt of the pump",
        value=NOTHING,
        limit=Form(cb=brine.salt_g),
        message=(
            "The curing salt of the pump brine alone brings ",
            Decimal(value=Form(cb=own), places=1),
            " g of salt, more than its target asks for.",
        ),
        hint=(ask,),
        position=pump.salt.position if pump.salt is not None else pump.position,
    )


def _saturation(brine: PumpBrineResult, pump: PumpBrineInput, tables: Tables) -> Guard:
    saturated = tables.constant("saturated_brine_percent")
    return Guard(
        slug="salt-beyond-saturation",
        group="saturation of the pump",
        value=constant(brine.strength_percent),
        limit=constant(saturated),
        message=(
            f"{show_decimal(brine.strength_percent, places=2)} % salt in the pump brine is more than water can hold "
            f"({show_decimal(saturated, places=3)} % at 60 °F).",
        ),
        hint=("Use less salt or more water in it.",),
        position=pump.salt.position if pump.salt is not None else pump.position,
    )


def _too_little(brine: PumpBrineResult, line: CureLine) -> Guard:
    return Guard(
        slug="too-little-to-weigh",
        group="too little for the pump",
        value=constant(HUNDREDTH_G),
        limit=Form(cb=brine.curing_salt_g),
        message=("There is too little curing salt in the pump brine to be weighed: less than 0.01 g.",),
        hint=("Mix more of it, or leave its curing salt out.",),
        position=line.position,
    )


def needle_over_target(forms: CureForms, brine: PumpBrineResult, line: CureLine, target: Target) -> Guard:
    """A target for nitrite in all that the needle passes by itself would ask for less than no curing salt."""
    return Guard(
        slug="no-solution",
        group="no-solution",
        value=NOTHING,
        limit=forms.curing_salt,
        message=(
            f"The needle brings {show_decimal(brine.nitrite_ppm, places=0)} ppm nitrite on the green weight, "
            f"more than the target of {show_decimal(target.value, places=2)} ppm for meat and brine together "
            "leaves room for.",
        ),
        hint=("Leave `curing salt:` out beside the pump brine, or mix the pump brine with less of it.",),
        position=line.position,
        stops=True,
    )
