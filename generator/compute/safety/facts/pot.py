"""A pot and the pieces in it in; for how long it is hot, and when the thickest middle comes to 165 °F, out."""

from __future__ import annotations

from dataclasses import replace

from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.heat import WET_STAGES, is_hot
from generator.compute.safety.facts.pieces import MeatPiece, pieces
from generator.compute.transfer.frozen import minutes_from_frozen
from generator.compute.transfer.heat import (
    FAST_MM2_S,
    SLOW_MM2_S,
    Body,
    Surround,
    from_fahrenheit,
    minutes_to,
)
from generator.model.quantity import Span
from generator.model.recipe import Recipe
from generator.tables import Tables

FAST_C, SLOW_C = 100.0, 85.0
"[degC] of the liquid. Source: water boils at 100 at sea level; a simmer is from 185 °F, culinary textbooks (from memory)."
FAST_H, SLOW_H = 2000.0, 300.0
"[W/m2K] Source: boiling water 2000 (Singh and Heldman, from memory); free liquid 50 to 1000 (Incropera, from memory)."
FAST_START_C, SLOW_START_C = 20.0, 4.0
"[degC] A piece that stood out, and one from the fridge. Source: house choice; 2 hours out are the most allowed."
HALF_LENGTH = 1.0
"Length of a halved round, in diameters: the shortest it is likely to be. Source: house choice, so that it is fast."


def pot_minutes(recipe: Recipe, tables: Tables) -> Span | None:
    """Minutes of all hot stages of a course with a pot; None where there is no pot, or one has no length."""
    hot = [stage for stage in recipe.stages if is_hot(stage, recipe, tables) and stage.name != "dry"]
    lengths = [stage.minutes for stage in hot if stage.minutes is not None]
    if not any(stage.name in WET_STAGES for stage in hot) or len(lengths) < len(hot):
        return None
    total = Span.of(0)
    for minutes in lengths:
        total = total.plus(minutes)
    return total


def to_cook(facts: Facts, tables: Tables) -> tuple[MeatPiece, ...]:
    """Whole pieces that this pot must cook."""
    return tuple(piece for piece in pieces(facts, tables) if piece.is_raw and not piece.is_small)


def from_thawed(piece: MeatPiece, tables: Tables) -> tuple[float | None, float | None]:
    """Minutes until the middle is at 165 °F in a simmer, soonest and latest."""
    target = _target_c(tables)
    return (
        minutes_to(_shortest(piece), _around(fast=True), start_c=FAST_START_C, target_c=target),
        minutes_to(piece.body(fast=False), _around(fast=False), start_c=SLOW_START_C, target_c=target),
    )


def from_frozen(piece: MeatPiece, tables: Tables) -> tuple[float | None, float | None]:
    """The same from -18 degC. A short round counts as a long one, which is slower."""
    target = _target_c(tables)
    return (
        minutes_from_frozen(piece.body(fast=True), _around(fast=True), target_c=target),
        minutes_from_frozen(piece.body(fast=False), _around(fast=False), target_c=target),
    )


def _target_c(tables: Tables) -> float:
    return from_fahrenheit(tables.constant("wild_game_minimum_f"))


def _around(*, fast: bool) -> Surround:
    return Surround(
        outside_c=FAST_C if fast else SLOW_C,
        h=FAST_H if fast else SLOW_H,
        diffusivity_mm2_s=FAST_MM2_S if fast else SLOW_MM2_S,
    )


def _shortest(piece: MeatPiece) -> Body:
    """A halved round is heated from its ends too."""
    body = piece.body(fast=True)
    is_short = body.shape == "round" and piece.is_halved
    return replace(body, length_mm=body.thickness_mm * HALF_LENGTH) if is_short else body
