"""A solved cure and its limit in, what to weigh and what the page shows out, as expressions over the setting.

Salt and sugar are rounded first, then the curing salt down: the floor of min(c, L rest / (1,000,000 n - L)) with what
is shown, so that weighing what is shown never passes the limit.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from generator.compute.cure.case import JudgedCure
from generator.compute.cure.limits import most_curing_salt, most_curing_salt_by_pick_up
from generator.model.contract import Least, Rounded, Text, Value, Weight
from generator.model.form import MEAT, WATER


def to_weigh(cure: JudgedCure) -> Mapping[str, Value]:
    """Weights [g] to 0.01 g, the curing salt down."""
    return {
        "salt": Rounded(value=cure.forms.salt, use="weigh"),
        "sugar": Rounded(value=cure.forms.sugar, use="weigh"),
        "curing_salt": Rounded(value=_capped(cure, "weigh"), use="weigh curing salt"),
    }


def to_show(cure: JudgedCure) -> Mapping[str, Text]:
    """The page's strings in grams. Meat and water round up, which can only lower the nitrite figure."""
    given, forms = cure.given, cure.forms
    rows: tuple[tuple[str, Value, str, object], ...] = (
        ("green_weight", MEAT, "cure base", True),
        ("water", WATER, "cure base", given.is_brine or None),
        ("salt", forms.salt, "cure weight", given.salt),
        ("sugar", forms.sugar, "cure weight", given.sugar),
        ("curing_salt", _capped(cure, "cure weight"), "curing salt", given.curing_salt),
        ("nitrate", forms.nitrate, "curing salt", given.nitrate),
        ("accelerator", forms.accelerator, "curing salt", given.accelerator),
    )
    return {key: () if line is None else (Weight(value=value, use=use),) for key, value, use, line in rows}


def _capped(cure: JudgedCure, use: str) -> Value:
    """The curing salt [g], held to the limit beside the salt and the sugar as they are rounded for a use."""
    forms, pick_up = cure.nitrite, cure.given.pick_up
    if cure.limit is None or cure.given.curing_salt is None:
        return forms.curing_salt
    ppm = cure.limit.limit_ppm
    rounded = replace(
        forms, salt=Rounded(value=forms.salt, use=use), sugar=Rounded(value=forms.sugar, use=use)
    )
    whole = most_curing_salt(rounded, ppm / cure.entered_share)
    if pick_up is None:
        return Least(of=(forms.curing_salt, whole))
    return Least(of=(forms.curing_salt, most_curing_salt_by_pick_up(rounded, pick_up, ppm), whole))
