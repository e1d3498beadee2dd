"""Facts in; whether every raw piece is in its pot for longer than the slow case needs, in words for a box, out."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from generator.compute.safety.facts.gather import Facts, MeatFact
from generator.compute.safety.facts.heat import WET_STAGES
from generator.compute.safety.facts.pieces import MeatPiece, pieces
from generator.compute.safety.facts.pot import SLOW_C, from_frozen, from_thawed
from generator.compute.safety.words import minutes_words
from generator.model.quantity import Span
from generator.model.recipe import Stage
from generator.tables import Tables

STEP_MIN = 5
"The slow case is shown in steps, rounded up. Source: house choice."


def simmered_through(facts: Facts, meats: Sequence[MeatFact], tables: Tables) -> str:
    """What it takes and how long it is in the pot; empty where that is too short, or a thickness is not told.

    `meats` are those that must be hot: one that a line brings has no thickness.
    """
    # cut smaller than its thickness it is done sooner
    whole = [piece for piece in pieces(facts, tables) if piece.is_raw]
    told = _hot_minutes(facts)
    if not whole or told is None or any(meat.line is not None for meat in meats):
        return ""
    slowest = [_slowest(piece, facts, tables) for piece in whole]
    needs = [minutes for minutes in slowest if minutes is not None]
    if len(needs) < len(slowest) or told.low < max(needs):
        return ""
    least = minutes_words(int(-(-max(needs) // STEP_MIN) * STEP_MIN))
    return (
        f"it is in the pot for {minutes_words(int(told.low))}, longer than the {least} of the slow case of the "
        "estimate, so its middle has reached 165 °F (74 °C)"
    )


def _hot_minutes(facts: Facts) -> Span | None:
    """Minutes of all its stages in hot liquid, one after another; None where one has no length or is not told hot."""
    wet = [stage for stage in facts.recipe.stages if stage.name in WET_STAGES]
    lengths = [stage.minutes for stage in wet if stage.minutes is not None and _is_hot(stage)]
    if not wet or len(lengths) < len(wet):
        return None
    return Span(
        sum((one.low for one in lengths), Fraction(0)), sum((one.high for one in lengths), Fraction(0))
    )


def _is_hot(stage: Stage) -> bool:
    return stage.at is None or stage.at.low.celsius >= SLOW_C


def _slowest(piece: MeatPiece, facts: Facts, tables: Tables) -> float | None:
    """A piece of another recipe may come out of the freezer."""
    if not piece.thickness_mm:
        return None
    thaws = any(stage.name == "thaw" for stage in facts.recipe.stages)
    return (from_thawed if thaws or piece.is_own else from_frozen)(piece, tables)[1]
