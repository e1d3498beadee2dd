"""Brine, pot and ice of a cure in, label, value and note of each out; and what corrects a brine."""

from __future__ import annotations

from fractions import Fraction

from generator.model.results import BrineFigures, Correction, IceShare, Vessel
from generator.model.rounding import round_up
from generator.model.shown import show_decimal
from generator.render.figures import Words


def brine_words(brine: BrineFigures) -> list[Words]:
    """The figures of the brine tables, of salt and water before any sugar is in."""
    words = [
        (
            "Specific gravity",
            f"{_decimal(brine.specific_gravity, 3)} at 60 °F",
            "salt and water, before the sugar; from the brine table",
        ),
        (
            "Salt to water",
            f"{_decimal(brine.lb_salt_per_us_gal_water, 2)} lb per US gal of water, "
            f"{_decimal(brine.g_salt_per_l_water, 1)} g per L of water",
            f"{_decimal(brine.lb_salt_per_us_gal_brine, 2)} lb per US gal of brine, "
            f"{_decimal(brine.g_salt_per_l_brine, 1)} g per L of brine",
        ),
    ]
    if brine.at_f is not None and brine.reading_at is not None:
        reading = f"{_decimal(brine.reading_at, 1)} degrees at {_decimal(brine.at_f, 1)} °F"
        words.append(("A salometer reads", reading, "before the sugar; made for 60 °F"))
    return words


def vessel_words(vessel: Vessel) -> list[Words]:
    """The pot, what the meat takes of it, and the brine."""
    value = f"{_litres(vessel.pot_ml)}; the meat takes {_litres(vessel.meat_ml)}"
    note = ""
    if vessel.brine_ml is not None:
        value += f", the brine {_litres(vessel.brine_ml)}"
        note = "the water is worked out from it" if vessel.water_from_pot else ""
    words = [("The pot", value, note)]
    if vessel.left_for_pump_g is not None:
        note = f"beside the {_decimal(vessel.cover_g, 0)} g of brine that cover the meat"
        words.append(("Left for the pump", f"{_decimal(vessel.left_for_pump_g, 0)} g of brine", note))
    return words


def ice_words(ice: IceShare) -> Words:
    value = f"{_grams_up(ice.ice_g)} g, with {_decimal(ice.hot_g, 0)} g of hot water"
    return (
        "Ice",
        f"{value} and {_decimal(ice.cold_g, 0)} g of cold",
        f"all of it is the water, and comes to {_decimal(ice.target_f, 0)} °F; salt and pot not counted",
    )


def correction_words(found: Correction) -> str:
    """What to add to a brine."""
    brine = (
        f"Brine: {_decimal(found.brine_g, 0)} g at {_decimal(found.is_percent, 2)} % by weight, "
        f"{_decimal(found.is_degrees, 1)} degrees salometer at 60 °F"
    )
    wanted = f"{_decimal(found.want_percent, 2)} %, {_decimal(found.want_degrees, 1)} degrees"
    if found.add_salt_g:
        per_litre = 1000 * found.add_salt_g / found.water_g
        what = (
            f"{_decimal(found.add_salt_g, 0)} g of salt ({_decimal(per_litre, 1)} g for each litre of the "
            f"{_decimal(found.water_g / 1000, 2)} L of water in it)"
        )
    elif found.add_water_g:
        what = f"{_decimal(found.add_water_g, 0)} g of water; its salt stays"
    else:
        what = "nothing"
    return (
        f"{brine}\nAdd {what}, for {wanted}\n"
        "Only for fresh brine. Curing salt is not corrected with it: work the cure out again with the new water."
    )


def _decimal(value: Fraction, places: int) -> str:
    return show_decimal(value, places=places)


def _grams_up(value: Fraction) -> str:
    """More ice is colder, not weaker: it is a part of the water."""
    return show_decimal(round_up(value, Fraction(1)), places=0)


def _litres(ml: Fraction) -> str:
    return f"{show_decimal(ml / 1000, places=2)} L"
