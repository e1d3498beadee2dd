"""A pot and the pieces in it in; whether its time can bring the thickest middle to 165 °F, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.heat import WET_STAGES, is_hot
from generator.compute.safety.facts.pieces import Piece, inches, pieces
from generator.compute.safety.facts.times import last_stage
from generator.compute.safety.verdict import cannot_tell, contradict
from generator.compute.safety.words import minutes_words
from generator.compute.transfer.frozen import minutes_from_frozen
from generator.compute.transfer.heat import FAST_MM2_S, SLOW_MM2_S, Body, Surround, minutes_to
from generator.model.quantity import Span, Temperature
from generator.model.recipe import Recipe, Stage
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables

FAST_C, SLOW_C = 100.0, 85.0
"[degC] of the liquid. Source: water boils at 100 at sea level; a simmer is from 185 °F, culinary textbooks (from memory)."
FAST_H, SLOW_H = 2000.0, 300.0
"[W/m2K] Source: boiling water 2000 (Singh and Heldman, from memory); free liquid 50 to 1000 (Incropera, from memory)."
FAST_START_C, SLOW_START_C = 20.0, 4.0
"[degC] A piece that stood out, and one from the fridge. Source: house choice; 2 hours out are the most allowed."
SHORT_POT_MIN = Fraction(60)
"[min] A whole piece of unknown thickness may not be done in a shorter pot. Source: 3 in take 45 min at the soonest."
HALF_LENGTH = 1.0
"Length of a halved round, in diameters: the shortest it is likely to be. Source: house choice, so that it is fast."


def pot_minutes(recipe: Recipe, tables: Tables) -> Span | None:
    """Minutes of all hot stages of a course with a pot; None where there is no pot, or one has no length."""
    hot = [stage for stage in recipe.stages if is_hot(stage, tables) and stage.name != "dry"]
    if not any(stage.name in WET_STAGES for stage in hot) or any(stage.minutes is None for stage in hot):
        return None
    total = Span.of(0)
    for stage in hot:
        if stage.minutes is not None:
            total = total.plus(stage.minutes)
    return total


def to_cook(facts: Facts, tables: Tables) -> tuple[Piece, ...]:
    """Whole pieces that this pot must cook."""
    return tuple(piece for piece in pieces(facts, tables) if piece.is_raw and not piece.is_small)


def simmer(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Not met: shorter than the fast case of the thickest piece. Cannot be told: thickness or length. Else no box."""
    index, whole = last_stage(facts.recipe, WET_STAGES), to_cook(facts, tables)
    if index is None or not whole:
        return []
    stage, total = facts.recipe.stages[index], pot_minutes(facts.recipe, tables)
    if total is None:
        return _untold_length(index, stage, whole, tables)
    thick = max(
        (piece for piece in whole if piece.thickness_mm), key=lambda p: p.thickness_mm or 0, default=None
    )
    if thick is None:
        if total.high >= SHORT_POT_MIN:
            return []
        because = (
            f"{whole[0].name} cooks for {minutes_words(int(total.high))}, and how thick it is is not told"
        )
        return cannot_tell("simmer-too-short", because, ("meat.thickness",), tables, stage=index)
    fast = from_thawed(thick, tables)[0]
    if fast is None or total.high >= fast:
        return []
    return _refuse(index, stage, total, thick, fast, facts, tables, log)


def _untold_length(index: int, stage: Stage, whole: tuple[Piece, ...], tables: Tables) -> list[Caution]:
    """A stage that goes on to a temperature inside needs no length."""
    if stage.inside is not None:
        return []
    because = f"{whole[0].name} cooks in the pot, and nothing says for how long"
    return cannot_tell("simmer-too-short", because, ("course",), tables, stage=index)


def _refuse(
    index: int,
    stage: Stage,
    total: Span,
    piece: Piece,
    fast: float,
    facts: Facts,
    tables: Tables,
    log: ProblemLog,
) -> list[Caution]:
    assert piece.thickness_mm is not None
    length, least = minutes_words(int(total.high)), minutes_words(int(fast // 5 * 5))
    thick = inches(piece.thickness_mm)
    return contradict(
        "simmer-too-short",
        facts,
        tables,
        log,
        position=stage.position,
        message=f"{piece.name} is {thick} thick and cooks for {length}; by an estimate its middle comes to 165 °F "
        f"(74 °C) in {least} at the soonest.",
        hint="Give it longer, or cut it smaller and write that in its line: 1 [shank](shank.md), diced.",
        because=f"{piece.name} is {thick} thick, and {length} are less than the {least} of the fast case",
        stage=index,
    )


def from_thawed(piece: Piece, tables: Tables) -> tuple[float | None, float | None]:
    """Minutes until the middle is at 165 °F in a simmer, soonest and latest."""
    target = float(Temperature(tables.constant("wild_game_minimum_f"), "F").celsius)
    fast = minutes_to(_body(piece, fast=True), _around(fast=True), start_c=FAST_START_C, target_c=target)
    slow = minutes_to(_body(piece, fast=False), _around(fast=False), start_c=SLOW_START_C, target_c=target)
    return fast, slow


def from_frozen(piece: Piece, tables: Tables) -> tuple[float | None, float | None]:
    """The same from -18 degC. A short round counts as a long one, which is slower."""
    target = float(Temperature(tables.constant("wild_game_minimum_f"), "F").celsius)
    return _frozen(_body(piece, fast=True, long=True), target, True), _frozen(
        _body(piece, fast=False), target, False
    )


def _frozen(body: Body, target_c: float, fast: bool) -> float | None:
    return minutes_from_frozen(body, _around(fast=fast), target_c=target_c)


def _around(*, fast: bool) -> Surround:
    return Surround(
        outside_c=FAST_C if fast else SLOW_C,
        h=FAST_H if fast else SLOW_H,
        diffusivity_mm2_s=FAST_MM2_S if fast else SLOW_MM2_S,
    )


def _body(piece: Piece, *, fast: bool, long: bool = False) -> Body:
    assert piece.thickness_mm is not None
    shape = piece.shape or ("lump" if fast else "slab")
    is_short = fast and not long and shape == "round" and piece.is_halved
    length = piece.thickness_mm * HALF_LENGTH if is_short else None
    return Body(thickness_mm=piece.thickness_mm, shape=shape, length_mm=length)
