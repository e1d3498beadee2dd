"""A solved cure and its limit in, what the command and the page weigh by out: expressions and guards over the setting.

Salt and sugar are rounded first, then the curing salt down: the floor of min(c, L rest / (1,000,000 n - L)) with what
is shown, so that weighing what is shown never passes the limit.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache

from generator.compute.cure.case import JudgedCure
from generator.compute.cure.dose import CARRIERS, dose_contract
from generator.compute.cure.limits import most_curing_salt, most_curing_salt_by_pick_up
from generator.compute.cure.refusals import make_guards
from generator.model.contract import CureContract, Least, Rounded, Text, Value, Weight
from generator.model.form import MEAT, WATER, Form


@lru_cache(maxsize=256)
def make_contract(cure: JudgedCure) -> CureContract:
    """The same for every setting of a cure."""
    weigh, heaviest = _to_weigh(cure), _at_heaviest(cure)
    return CureContract(
        weigh=weigh,
        heaviest={key: Rounded(value=form, use="weigh") for key, form in heaviest.items()},
        shown=_to_show(cure),
        guards=make_guards(cure),
        lightest=cure.ends.least_nitrite.nitrite_ppm if cure.ends else None,
        # Only what is weighed carries a blend: of a cup nobody knows what is left of it.
        dose=dose_contract(cure.given, cure.forms, weigh, [key for key in CARRIERS if key not in heaviest]),
    )


def _to_weigh(cure: JudgedCure) -> Mapping[str, Value]:
    """Weights [g] to 0.01 g, the curing salt down."""
    return {
        "salt": Rounded(value=cure.forms.salt, use="weigh"),
        "sugar": Rounded(value=cure.forms.sugar, use="weigh"),
        "curing_salt": Rounded(value=_capped(cure, "weigh"), use="weigh curing salt"),
    }


def _at_heaviest(cure: JudgedCure) -> Mapping[str, Form]:
    """The other end [g] of what comes by the cup; a curing salt is only ever given as the most that may go in."""
    if cure.ends is None:
        return {}
    ends = cure.ends
    heaviest = {
        "salt": ends.strongest.salt,
        "sugar": ends.weakest.sugar,
        "nitrate": ends.most_nitrate.nitrate,
    }
    return {key: form for key, form in heaviest.items() if key in cure.ends.open}


def _to_show(cure: JudgedCure) -> Mapping[str, Text]:
    """The page's strings in grams. Meat and water round up, which can only lower the nitrite figure."""
    given, forms, heaviest = cure.given, cure.forms, _at_heaviest(cure)
    lines = (
        ("salt", forms.salt, "cure weight", given.salt),
        ("sugar", forms.sugar, "cure weight", given.sugar),
        ("curing_salt", _capped(cure, "cure weight"), "curing salt", given.curing_salt),
        ("nitrate", forms.nitrate, "curing salt", given.nitrate),
        ("accelerator", forms.accelerator, "curing salt", given.accelerator),
    )
    return {
        "green_weight": (Weight(value=MEAT, use="cure base"),),
        "water": (Weight(value=WATER, use="cure base"),) if given.is_brine else (),
        **{
            key: (Weight(value=value, use=use, high=heaviest.get(key)),) if line else ()
            for key, value, use, line in lines
        },
    }


def _capped(cure: JudgedCure, use: str) -> Value:
    """The curing salt [g], held to the limit beside the salt and the sugar as they are rounded for a use."""
    forms, pick_up = cure.nitrite, cure.given.pick_up
    if cure.limit is None or cure.given.curing_salt is None:
        return forms.curing_salt
    ppm = cure.limit.limit_ppm
    open_lines = cure.ends.open if cure.ends else frozenset()
    # What a cup holds is not rounded: it may be no more than its lightest.
    salt = forms.salt if "salt" in open_lines else Rounded(value=forms.salt, use=use)
    sugar = forms.sugar if "sugar" in open_lines else Rounded(value=forms.sugar, use=use)
    rounded = replace(forms, salt=salt, sugar=sugar)
    # A short cure is held to its limit twice: by its pick-up, and by the share of the even brine that enters in time.
    whole = most_curing_salt(rounded, ppm / cure.entered_share)
    if pick_up is None:
        return Least(of=(forms.curing_salt, whole))
    return Least(of=(forms.curing_salt, most_curing_salt_by_pick_up(rounded, pick_up, ppm), whole))
