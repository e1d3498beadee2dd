"""A measured brine and a wanted strength in, salt or water to add out; or why the brine is left alone."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.cure.formulas import (
    PER_CENT,
    degrees_at_60_f,
    salometer_degrees,
    salt_to_add_g,
    water_to_add_g,
)
from generator.compute.cure.to_make import specific_gravity
from generator.model.quantity import Dimension, Quantity
from generator.model.recipe import Target, TargetKind
from generator.model.results import Correction
from generator.model.shown import show_decimal
from generator.problems import Position, ProblemLog
from generator.tables import Tables

MIX_FRESH = (
    "Mix fresh brine. What has held meat has lost salt and nitrite by an unknown lot, and carries blood and "
    "bacteria (Michigan R 285.569.5: brine is not used again)."
)


def strength_percent(strength: Target, tables: Tables) -> Fraction:
    """Salt by weight of the brine [%] of a strength in per cent or in degrees at 60 °F."""
    if strength.kind is TargetKind.DEGREES:
        return strength.value * tables.constant("saturated_brine_percent") / PER_CENT
    return strength.value


def refuse_used_brine(log: ProblemLog, position: Position | None = None) -> None:
    """A brine that has held meat is not corrected, nor used again."""
    log.add("reused-brine", position, "Brine that has held meat is not used again.", MIX_FRESH)


def correct_brine(
    brine: Quantity,
    measured: Target,
    wanted: Target,
    tables: Tables,
    log: ProblemLog,
    *,
    measured_at_f: Fraction | None = None,
) -> Correction | None:
    """Salt to add [g] with the water constant, or water to add [g] with the salt constant; None where that cannot be.

    Parameters: measured_at_f [°F], at which a salometer was read; a percentage needs none. Of a range of brine the low
    end counts: what is missing can still be added, and what is in cannot be taken out. Raises OutOfRange outside 60 to
    100 °F.
    Source: `salt_to_add_g`, `water_to_add_g` and `degrees_at_60_f` of the formulas.
    """
    if measured_at_f is not None and measured.kind is TargetKind.DEGREES:
        true = degrees_at_60_f(reading_degrees=measured.value, temperature_f=measured_at_f)
        measured = Target(kind=TargetKind.DEGREES, value=true)
    is_percent, want_percent = strength_percent(measured, tables), strength_percent(wanted, tables)
    saturated = tables.constant("saturated_brine_percent")
    for percent in (is_percent, want_percent):
        if percent > saturated:
            _refuse_saturated(percent, saturated, log)
    if log.has_errors:
        return None
    brine_g = _weight_g(brine, is_percent, tables)
    weak = is_percent < want_percent
    parts = {"is_percent": is_percent, "want_percent": want_percent, "brine_g": brine_g}
    return Correction(
        brine_g=brine_g,
        water_g=brine_g * (1 - is_percent / PER_CENT),
        is_percent=is_percent,
        want_percent=want_percent,
        is_degrees=salometer_degrees(strength_percent=is_percent, saturated_percent=saturated),
        want_degrees=salometer_degrees(strength_percent=want_percent, saturated_percent=saturated),
        add_salt_g=salt_to_add_g(**parts) if weak else Fraction(0),
        add_water_g=Fraction(0) if weak else water_to_add_g(**parts),
    )


def _refuse_saturated(percent: Fraction, saturated: Fraction, log: ProblemLog) -> None:
    log.add(
        "salt-beyond-saturation",
        None,
        f"{show_decimal(percent, places=2)} % salt is more than water can hold "
        f"({show_decimal(saturated, places=3)} % at 60 °F, 100 degrees salometer).",
        "Ask for less; measure a brine at 60 °F, with no salt lying on the bottom.",
    )


def _weight_g(brine: Quantity, percent: Fraction, tables: Tables) -> Fraction:
    """A brine's weight [g]: as weighed, or its volume at 1 g per mL times its specific gravity."""
    weight = brine.total(Dimension.WEIGHT)
    if weight is not None:
        return weight.low
    volume = brine.total(Dimension.VOLUME)
    assert volume is not None
    return volume.low * specific_gravity(percent, tables.brine)
