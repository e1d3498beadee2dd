"""A solved cure and its limit in, what the command and the page weigh by out: expressions and guards over the setting.

Salt and sugar are rounded first, then the curing salt down: the floor of min(c, L rest / (1,000,000 n - L)) with what
is shown, so that weighing what is shown never passes the limit.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache

from generator.compute.cure.case import CureInput, JudgedCure
from generator.compute.cure.dose import dose_contract
from generator.compute.cure.limits import most_curing_salt, most_curing_salt_by_pick_up
from generator.compute.cure.refusals import make_guards
from generator.model.contract import CureContract, Least, Rounded, Text, Value, Weight
from generator.model.form import MEAT, WATER, Figure, Form
from generator.model.quantity import Span
from generator.model.results import CureForms


@lru_cache(maxsize=256)
def make_contract(cure: JudgedCure, spooned: Span | None) -> CureContract:
    """The same for every setting of a cure; `spooned` is the range of a curing salt by the spoon [g], one batch."""
    weigh = _to_weigh(cure)
    return CureContract(
        weigh=weigh,
        shown=_to_show(cure),
        guards=make_guards(cure),
        lightest=lightest_ppm(cure.given, cure.forms, spooned),
        dose=dose_contract(cure.given, cure.forms, weigh),
    )


def _to_weigh(cure: JudgedCure) -> Mapping[str, Value]:
    """Weights [g] to 0.01 g, the curing salt down."""
    return {
        "salt": Rounded(value=cure.forms.salt, use="weigh"),
        "sugar": Rounded(value=cure.forms.sugar, use="weigh"),
        "curing_salt": Rounded(value=_capped(cure, "weigh"), use="weigh curing salt"),
    }


def _to_show(cure: JudgedCure) -> Mapping[str, Text]:
    """The page's strings in grams. Meat and water round up, which can only lower the nitrite figure."""
    given, forms = cure.given, cure.forms
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
        **{key: (Weight(value=value, use=use),) if line else () for key, value, use, line in lines},
    }


def _capped(cure: JudgedCure, use: str) -> Value:
    """The curing salt [g], held to the limit beside the salt and the sugar as they are rounded for a use."""
    forms, pick_up = cure.nitrite, cure.given.pick_up
    if cure.limit is None or cure.given.curing_salt is None:
        return forms.curing_salt
    ppm = cure.limit.limit_ppm
    rounded = replace(
        forms, salt=Rounded(value=forms.salt, use=use), sugar=Rounded(value=forms.sugar, use=use)
    )
    # A short cure is held to its limit twice: by its pick-up, and by the share of the even brine that enters in time.
    whole = most_curing_salt(rounded, ppm / cure.entered_share)
    if pick_up is None:
        return Least(of=(forms.curing_salt, whole))
    return Least(of=(forms.curing_salt, most_curing_salt_by_pick_up(rounded, pick_up, ppm), whole))


def lightest_ppm(given: CureInput, forms: CureForms, spooned: Span | None) -> Figure | None:
    """Ingoing nitrite [ppm] at the lightest published spoon, salt and sugar as they are; None without spoons."""
    if spooned is None:
        return None
    figure, lighter = forms.nitrite_ppm, Form(cb=spooned.high - spooned.low)
    return Figure(
        factor=figure.factor,
        over=figure.over.minus(lighter.times(given.kind.nitrite)),
        under=figure.under.minus(lighter) if given.is_brine else figure.under,
    )
