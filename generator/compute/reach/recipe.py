"""A recipe and its cure in, the cure with its reach out; where something was not told, a line that names it."""

from __future__ import annotations

from dataclasses import replace

from generator.compute.meat.cured import days_in_cure, was_frozen
from generator.compute.reach.estimate import PieceInCure, work_out_reach
from generator.model.recipe import Recipe
from generator.model.results import CureResult
from generator.model.shown import Shower
from generator.problems import OutOfRange
from generator.tables import Tables

SKINNED = frozenset({"deer family", "other game", "small game", "bear"})
"Animal groups whose skin comes off with the hide. Source: common practice, no source."
MEASURED_OTHERWISE = frozenset({"fish", "shellfish"})
"""Groups without an estimate. Source: J. Cookery Science Japan 25(4):283, 1992: salt in fillets of fish moves at 1e-11
to 1e-10 m2/s, no faster than the slow case of transfer.csv, which is of meat."""


def add_recipe_reach(
    cure: CureResult, recipe: Recipe, tables: Tables, shower: Shower, system: str
) -> tuple[CureResult, str]:
    """The cure of a recipe with its reach, and a fact line that says why there is none."""
    meat = recipe.meat
    if cure.weigh is None or (meat is not None and meat.form == "ground"):
        return cure, ""  # refused, which its problems say; or mixed through
    animal = tables.animal(meat.animal) if meat is not None else None
    if animal is not None and animal.group in MEASURED_OTHERWISE:
        return (
            cure,
            "How far the salt has reached is not estimated: the measurements behind it are of meat, not of fish.",
        )
    piece = piece_of(recipe, tables)
    if piece is None:
        return cure, f"How far the salt has reached cannot be told without {_missing(recipe)}."
    try:
        return replace(cure, reach=work_out_reach(cure, piece, tables, shower, system)), ""
    except OutOfRange as error:
        return cure, f"How far the salt has reached is not estimated: {error}."


def piece_of(recipe: Recipe, tables: Tables) -> PieceInCure | None:
    """What a recipe says of its thickest piece and its days; None where thickness, shape or days are not told.

    Of a range of days the shorter end is taken, of a thickness the thicker, of a temperature the colder: what is said
    of the middle must hold for the slowest piece that follows the recipe.
    """
    meat, days = recipe.meat, days_in_cure(recipe)
    if meat is None or meat.shape is None or meat.thickest_mm is None or days is None:
        return None
    animal = tables.animal(meat.animal)
    group = animal.group if animal else ""
    colds = [stage.at.low for stage in recipe.stages if stage.name == "cure" and stage.at is not None]
    skin = _is(meat.skin, "on")
    return PieceInCure(
        thickness_mm=meat.thickest_mm,
        shape=meat.shape,
        days=days.low,
        temperature=min(colds, key=lambda cold: cold.celsius) if colds else None,
        bone_in=_is(meat.bone, "in"),
        skin_on=False if skin is None and group in SKINNED and "belly" not in meat.cut.lower() else skin,
        silverskin_on=_is(meat.silverskin, "on"),
        frozen_before=was_frozen(recipe),
    )


def _is(word: str | None, yes: str) -> bool | None:
    return None if word is None else word == yes


def _missing(recipe: Recipe) -> str:
    """The keys of the front matter that an estimate needs and that are not there."""
    meat = recipe.meat
    needs = [
        ("'thickness' of the meat", meat is not None and meat.thickest_mm is not None),
        ("'shape' of the meat", meat is not None and meat.shape is not None),
        ("the length of the cure in 'course'", days_in_cure(recipe) is not None),
    ]
    return " and ".join(name for name, found in needs if not found)
