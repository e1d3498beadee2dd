"""The water of a brine with its temperatures in, the part of it to take as ice out: ice is water and counts as such."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.compute.cure.formulas import LATENT_HEAT_J_G, SPECIFIC_HEAT_J_GK, ice_within
from generator.compute.cure.refusals import TEN_G
from generator.model.quantity import Temperature
from generator.model.results import IceShare
from generator.model.rounding import round_down
from generator.model.shown import show_decimal, show_number
from generator.problems import ProblemLog
from generator.tables import Tables


@dataclass(frozen=True, slots=True, kw_only=True)
class PouredWater:
    """How warm the water of a brine is poured."""

    hot_g: Fraction
    hot_c: Fraction
    cold_c: Fraction


def share_ice(water_g: Fraction, poured: PouredWater, tables: Tables, log: ProblemLog) -> IceShare | None:
    """Hot water, cold water and ice [g] that are the whole water [g] together, at 38 °F; None where too much is hot.

    Source: heat given is heat taken (`ice_within` of the formulas); 38 °F by Michigan R 285.569.5 (constants.csv).
    """
    target_f = tables.constant("brining_maximum_f")
    target_c = Temperature(target_f, "F").celsius
    most_g = most_hot_g(water_g, poured, target_c)
    if poured.hot_g > most_g:
        log.add(
            "ice-over-water",
            None,
            f"{show_decimal(poured.hot_g, places=0)} g of hot water needs more ice to come to "
            f"{show_decimal(target_f, places=0)} °F than there is water left of "
            f"{show_decimal(water_g, places=0)} g: the brine would come out weaker.",
            f"Take at most {show_number(round_down(most_g, TEN_G))} g of hot water, or let it cool first.",
        )
        return None
    ice_g = ice_within(
        total_g=water_g, hot_g=poured.hot_g, hot_c=poured.hot_c, cold_c=poured.cold_c, target_c=target_c
    )
    return IceShare(ice_g=ice_g, hot_g=poured.hot_g, cold_g=water_g - poured.hot_g - ice_g, target_f=target_f)


def most_hot_g(water_g: Fraction, poured: PouredWater, target_c: Fraction) -> Fraction:
    """The most hot water [g] that ice cools, no cold water being left: hot c (Th - t) = (water - hot)(L + c t)."""
    gives = SPECIFIC_HEAT_J_GK * max(poured.hot_c - target_c, Fraction(0))
    takes = LATENT_HEAT_J_G + SPECIFIC_HEAT_J_GK * target_c
    return water_g * takes / (gives + takes)
