"""A brine's salt and water in, what the brine tables say of it out: specific gravity, salt to a gallon and a litre."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from generator.compute.cure.formulas import (
    PER_CENT,
    brine_strength_percent,
    salometer_reading,
    salt_for_water_g,
    salt_in_brine,
)
from generator.compute.cure.to_make import specific_gravity
from generator.model.form import Setting
from generator.model.results import BrineFigures, CureForms, CureResult
from generator.tables import Tables


def water_g_per_l(tables: Tables) -> Fraction:
    """Water in a litre at 60 °F [g], from the pounds of the brine table."""
    pound, gallon = tables.units["pound"].factor, tables.units["us_gallon"].factor
    return tables.constant("water_lb_per_us_gal") * pound / gallon * 1000


def volume_ml(forms: CureForms, setting: Setting, tables: Tables) -> Fraction:
    """Volume of a brine [mL]: its weight over its specific gravity, with water at 1 g per mL; sugar counts as water.

    Beyond saturation the rest of the salt lies on the bottom; the table's last row stands for it.
    """
    strength = forms.strength_at(setting)
    within = max(min(strength or Fraction(0), tables.brine[-1].percent), Fraction(0))
    return forms.brine.at(setting) / specific_gravity(within, tables.brine)


def brine_figures(result: CureResult, tables: Tables) -> BrineFigures | None:
    """The figures of a result's brine; None in a dry cure, beyond saturation, and where a weight is not known."""
    if result.ice_unmeasured or result.forms is None or result.setting is None or not result.setting.water_g:
        return None
    if result.ends is not None and "salt" in result.ends.open:
        return None
    if result.strength_percent is None or result.salometer_degrees is None:
        return None
    salt_g = result.forms.total_salt.at(result.setting)
    if salt_g < 0:
        return None
    plain = brine_strength_percent(salt_g=salt_g, brine_g=salt_g + result.setting.water_g)
    if plain > tables.brine[-1].percent:
        return None
    gravity = specific_gravity(plain, tables.brine)
    gallon, litre = tables.constant("water_lb_per_us_gal"), water_g_per_l(tables)
    return BrineFigures(
        percent=result.strength_percent,
        degrees_60f=result.salometer_degrees,
        plain_percent=plain,
        specific_gravity=gravity,
        lb_salt_per_us_gal_water=salt_for_water_g(strength_percent=plain, water_g=gallon),
        lb_salt_per_us_gal_brine=salt_in_brine(
            strength_percent=plain, specific_gravity=gravity, water=gallon
        ),
        g_salt_per_l_water=salt_for_water_g(strength_percent=plain, water_g=litre),
        g_salt_per_l_brine=salt_in_brine(strength_percent=plain, specific_gravity=gravity, water=litre),
    )


def at_temperature(figures: BrineFigures, temperature_f: Fraction, tables: Tables) -> BrineFigures:
    """With what a salometer reads in the salt and water at a temperature [°F]; OutOfRange outside 60 to 100 °F."""
    degrees = PER_CENT * figures.plain_percent / tables.brine[-1].percent
    reading = salometer_reading(degrees=degrees, temperature_f=temperature_f)
    return replace(figures, at_f=temperature_f, reading_at=reading)
