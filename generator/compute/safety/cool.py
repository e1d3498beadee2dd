"""A cooked course in; how it is cooled, and what to do where a piece is too thick to cool in time, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.pieces import Piece, has_meat, inches, pieces
from generator.compute.safety.verdict import cannot_tell, contradict
from generator.compute.safety.words import minutes_words, span_words
from generator.compute.transfer.heat import FAST_MM2_S, SLOW_MM2_S, Body, Surround, minutes_to
from generator.compute.transfer.thaw import COLD_WATER, FRIDGE, Medium
from generator.model.quantity import Temperature
from generator.model.recipe import Stage
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables

COOLING = ("cool", "chill", "freeze")
"Source: words of the trade."
COLD_PLACES = frozenset({"fridge", "freezer", "cold water", "ice bath"})
WARM_PLACES = frozenset({"counter", "pantry", "shade", "rack", "pot", "pan", "oven", "smoker"})
"Places in which food cools only as fast as the room lets it. Source: house choice."
IN_WATER = frozenset({"cold water", "ice bath"})
MIN_PER_H = Fraction(60)
"Source: a definition."
WAYS_OUT = "Take the bone out, halve it, or lay it in ice water in a sealed bag."


def cooled_from(facts: Facts, tables: Tables) -> int | None:
    """Index of the last stage of heat of a dish with meat that is kept or cooled; None where nothing is cooled."""
    recipe = facts.recipe
    hot = [index for index, stage in enumerate(recipe.stages) if tables.stages.get(stage.name, False)]
    if not hot or not has_meat(facts):
        return None
    later = any(stage.name in COOLING for stage in recipe.stages[hot[-1] + 1 :])
    kept = any(keep.place in ("fridge", "freezer") for keep in recipe.keep)
    return hot[-1] if later or kept else None


def cooling(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Met: cooled in the cold, or within 2 hours. Not met: longer in a warm place. Cannot be told: for how long."""
    hot = cooled_from(facts, tables)
    if hot is None:
        return []
    index, stage = next(
        (
            (number, stage)
            for number, stage in enumerate(facts.recipe.stages)
            if number > hot and stage.name in COOLING
        ),
        (hot, None),
    )
    reasons = "; ".join(part for part in (_why(facts), _slow_schedule(facts, tables)) if part)
    if stage is not None and _is_warm(stage, tables):
        most = tables.constant("cooling_half_h") * MIN_PER_H
        if stage.minutes is None:
            because = f"{reasons}; it cools {stage.place_written}, and nothing says for how long"
            return cannot_tell("cool-two-steps", because, ("course",), tables, stage=index)
        if stage.minutes.high > most:
            return _refuse(index, stage, reasons, facts, tables, log)
    thick = _too_thick(facts, stage, tables)
    if thick:
        return [box("thick-cooling", f"{reasons}; {thick}", tables, stage=index)]
    return [box("cool-two-steps", reasons, tables, stage=index)]


def _is_warm(stage: Stage, tables: Tables) -> bool:
    if stage.at is not None:
        return stage.at.high.fahrenheit > tables.constant("cold_holding_maximum_f")
    return stage.place in WARM_PLACES


def _why(facts: Facts) -> str:
    because = [meat.because for meat in facts.meats] or [
        f"it uses {part.name}" for part in facts.parts if part.meat is not None
    ]
    return f"{because[0]}, cooked and kept"


def _slow_schedule(facts: Facts, tables: Tables) -> str:
    """The slower schedule of cured meat, where the recipe's own cure has what it asks for."""
    cure = facts.cure
    if cure is None or cure.accelerator_ppm is None or not facts.nitrite:
        return ""
    figure = next((ppm for ppm in (cure.whole_system_ppm, cure.dry_ppm) if ppm is not None), None)
    enough = figure is not None and figure >= tables.constant("slow_cooling_nitrite_ppm")
    if not enough or cure.accelerator_ppm < tables.constant("slow_cooling_accelerator_ppm"):
        return ""
    return (
        "its cure has at least 100 ppm nitrite and 250 ppm ascorbate or erythorbate, so the slower schedule of plants "
        "would hold too: 130 to 80 °F (54 to 27 °C) within 5 hours, 80 to 45 °F (27 to 7 °C) within 10 more"
    )


def _refuse(
    index: int, stage: Stage, reasons: str, facts: Facts, tables: Tables, log: ProblemLog
) -> list[Caution]:
    assert stage.minutes is not None
    length = minutes_words(int(stage.minutes.high))
    return contradict(
        "cool-two-steps",
        facts,
        tables,
        log,
        position=stage.position,
        message=f"Cooked meat cools for {length} out of the cold; 2 hours are the most.",
        hint="Write it: cool: 2 h in the fridge, in shallow pans, or cool: 1 h in an ice bath.",
        because=f"{reasons}; it cools out of the cold for {length}",
        stage=index,
    )


def _too_thick(facts: Facts, stage: Stage | None, tables: Tables) -> str:
    """What is said of the recipe's own piece when even the fast case misses the first step; empty where it does not."""
    own = next((piece for piece in pieces(facts, tables) if piece.is_own and not piece.is_small), None)
    if own is None or own.thickness_mm is None:
        return ""
    in_water = stage is not None and stage.place in IN_WATER
    medium, where = (COLD_WATER, "cold water") if in_water else (FRIDGE, "the fridge")
    fast, slow = (
        _minutes(own, medium, tables, fast=True),
        _minutes(own, medium, tables, fast=False),
    )
    if fast is None or fast <= tables.constant("cooling_half_h") * MIN_PER_H:
        return ""
    takes = span_words(fast, slow) if slow is not None else f"{span_words(fast, fast)} or much more"
    return (
        f"by an estimate the middle of a piece {inches(own.thickness_mm)} thick takes {takes} in {where} from 135 to "
        f"70 °F (57 to 21 °C). {WAYS_OUT}"
    )


def _minutes(piece: Piece, medium: Medium, tables: Tables, *, fast: bool) -> float | None:
    assert piece.thickness_mm is not None
    start, half = (
        float(Temperature(tables.constant(key), "F").celsius) for key in ("cooling_from_f", "cooling_half_f")
    )
    body = Body(thickness_mm=piece.thickness_mm, shape=piece.shape or ("lump" if fast else "slab"))
    around = Surround(
        outside_c=medium.cold_c if fast else medium.warm_c,
        h=medium.h_high if fast else medium.h_low,
        diffusivity_mm2_s=FAST_MM2_S if fast else SLOW_MM2_S,
    )
    return minutes_to(body, around, start_c=start, target_c=half)
