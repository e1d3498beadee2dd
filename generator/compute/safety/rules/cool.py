"""A cooked course in; how it is cooled, and what to do where a piece is too thick to cool in time, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.keeping import COOLING, cooled_from
from generator.compute.safety.facts.pieces import (
    Inside,
    MeatPiece,
    inches,
    meat_inside,
    pieces,
    thickest,
)
from generator.compute.safety.facts.places import IN_WATER, ROOM
from generator.compute.safety.words import minutes_words, span_words
from generator.compute.transfer.heat import FAST_MM2_S, SLOW_MM2_S, Surround, from_fahrenheit, minutes_to
from generator.compute.transfer.thaw import COLD_WATER, FRIDGE, Medium
from generator.model.recipe import Stage

TWO_STEPS, THICK = "cool-two-steps", "thick-cooling"

WARM_PLACES = ROOM | {"rack", "pot", "pan", "oven", "smoker"}
"Places in which food cools only as fast as the room lets it. Source: house choice."
MIN_PER_H = Fraction(60)
"Source: a definition."
WAYS_OUT = "Take the bone out, halve it, or lay it in ice water in a sealed bag."


def cooling(case: Case) -> None:
    """Met: cooled in the cold, or within 2 hours. Not met: longer in a warm place. Cannot be told: for how long."""
    _between_heats(case)
    hot = cooled_from(case.facts, case.tables)
    if hot is None:
        return
    cools = [
        (index, stage) for index, stage in enumerate(case.stages) if index > hot and stage.name in COOLING
    ]
    # what is kept without a word of cooling is cooled after its last heat
    index, stage = cools[0] if cools else (hot, None)
    meat, most = meat_inside(case.facts)[0], case.constant("cooling_half_h") * MIN_PER_H
    reasons = "; ".join(part for part in (f"{meat.because}, cooked and kept", _slow_schedule(case)) if part)
    if stage is not None and _is_warm(stage, case) and stage.minutes is None:
        because = f"{reasons}; it cools {stage.place_written}, and nothing says for how long"
        case.cannot_tell(TWO_STEPS, because, ("course",), meat.written, stage=index)
    elif (
        stage is not None
        and _is_warm(stage, case)
        and stage.minutes is not None
        and stage.minutes.high > most
    ):
        _refuse_slow(case, index, stage, meat, reasons)
    else:
        _in_the_cold(case, index, stage, meat, reasons)


def _between_heats(case: Case) -> None:
    """Cooled slowly and warmed again the next day: no heat makes good what grew between."""
    hot = [index for index, stage in enumerate(case.stages) if case.tables.stages.get(stage.name, False)]
    meats, most = meat_inside(case.facts), case.constant("cooling_half_h") * MIN_PER_H
    for index in range(hot[0] + 1, hot[-1]) if hot and meats else ():
        stage = case.stages[index]
        is_long = stage.minutes is not None and stage.minutes.high > most
        if stage.name in COOLING and is_long and _is_warm(stage, case):
            _refuse_slow(case, index, stage, meats[0], f"{meats[0].because}, cooked and warmed again")


def _refuse_slow(case: Case, index: int, stage: Stage, meat: Inside, reasons: str) -> None:
    length = minutes_words(int(stage.minutes.high if stage.minutes is not None else 0))
    case.refuse(
        TWO_STEPS,
        stage,
        meat.written,
        message=f"Cooked meat cools for {length} out of the cold; 2 hours are the most.",
        hint="Write it: cool: 2 h in the fridge, in shallow pans, or cool: 1 h in an ice bath.",
        because=f"{reasons}; it cools out of the cold for {length}",
        stage=index,
    )


def _in_the_cold(case: Case, index: int, stage: Stage | None, meat: Inside, reasons: str) -> None:
    whole = [one for one in pieces(case.facts, case.tables) if one.is_own and not one.is_small]
    own = thickest(whole)
    too_thick = _too_thick(own, stage, case) if own is not None else ""
    if own is not None and too_thick:
        case.box(THICK, f"{reasons}; {too_thick}", own.written, meat.written, stage=index)
    else:
        case.box(TWO_STEPS, reasons, meat.written, stage=index)


def _is_warm(stage: Stage, case: Case) -> bool:
    if stage.at is not None:
        return stage.at.high.fahrenheit > case.constant("cold_holding_maximum_f")
    return stage.place in WARM_PLACES


def _slow_schedule(case: Case) -> str:
    """The slower schedule of cured meat, where the recipe's own cure has what it asks for."""
    cure = case.facts.cure
    if cure is None or cure.accelerator_ppm is None or not case.facts.nitrite:
        return ""
    figure = next((ppm for ppm in (cure.whole_system_ppm, cure.dry_ppm) if ppm is not None), None)
    enough = figure is not None and figure >= case.constant("slow_cooling_nitrite_ppm")
    if not enough or cure.accelerator_ppm < case.constant("slow_cooling_accelerator_ppm"):
        return ""
    return (
        "its cure has at least 100 ppm nitrite and 250 ppm ascorbate or erythorbate, so the slower schedule of plants "
        "would hold too: 130 to 80 °F (54 to 27 °C) within 5 hours, 80 to 45 °F (27 to 7 °C) within 10 more"
    )


def _too_thick(own: MeatPiece, stage: Stage | None, case: Case) -> str:
    """What is said of the recipe's own piece when even the fast case misses the first step; empty where it does not."""
    in_water = stage is not None and stage.place in IN_WATER
    medium, where = (COLD_WATER, "cold water") if in_water else (FRIDGE, "the fridge")
    fast, slow = (_minutes(own, medium, case, fast=fast) for fast in (True, False))
    if fast is None or fast <= case.constant("cooling_half_h") * MIN_PER_H:
        return ""
    takes = span_words(fast, slow) if slow is not None else f"{span_words(fast, fast)} or much more"
    return (
        f"by an estimate the middle of a piece {inches(own.thickness_mm or 0)} thick takes {takes} in {where} from 135 "
        f"to 70 °F (57 to 21 °C). {WAYS_OUT}"
    )


def _minutes(piece: MeatPiece, medium: Medium, case: Case, *, fast: bool) -> float | None:
    start, half = (from_fahrenheit(case.constant(key)) for key in ("cooling_from_f", "cooling_half_f"))
    around = Surround(
        outside_c=medium.cold_c if fast else medium.warm_c,
        h=medium.h_high if fast else medium.h_low,
        diffusivity_mm2_s=FAST_MM2_S if fast else SLOW_MM2_S,
    )
    return minutes_to(piece.body(fast=fast), around, start_c=start, target_c=half)


RULES = (Rule(slugs=(TWO_STEPS, THICK), look=cooling),)
