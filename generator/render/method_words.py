"""A cure in, what its method adds to the figures out: (label, value, note) for the page and for the terminal alike."""

from __future__ import annotations

from fractions import Fraction

from generator.model.results import CureResult, PumpBrineResult
from generator.model.rounding import round_down, round_up
from generator.model.shown import show_decimal
from generator.render.table_words import Words

ONE = Fraction(1)
"Source: house choice, figures in ppm are printed to 1 ppm."
TENTH = Fraction(1, 10)
"Source: house choice, curing salt is printed to 0.1 g."


def method_words(cure: CureResult) -> list[Words]:
    """Short cure, pump brine, nitrate, accelerator, unmeasured ice: only what this cure has."""
    words: list[Words] = []
    if cure.whole_limit_is_worst_case and cure.limit is not None:
        words += _short_cure(cure)
    if cure.pump_brine is not None and cure.weigh is not None:
        words.append(_pump_brine(cure.pump_brine))
    if cure.nitrate_ppm:
        words.append(_nitrate(cure, cure.nitrate_ppm))
    if cure.accelerator_ppm is not None and cure.accelerator_g is not None:
        grams = show_decimal(round_down(cure.accelerator_g, TENTH), places=1)
        words.append(("Accelerator", f"{grams} g, {_ppm(cure.accelerator_ppm)}", "ascorbate or erythorbate"))
    if cure.ice_unmeasured:
        note = "the limit was judged without the ice; weigh it, and the strength can be told"
        words.append(("Ice", "not weighed: the strength is at most what is printed", note))
    return words


def _short_cure(cure: CureResult) -> list[Words]:
    """The worst case, and what was judged: the most that can have entered by the recipe's own last day."""
    assert cure.limit is not None
    words: list[Words] = []
    whole, judged = cure.whole_system_ppm, cure.judged_ppm
    if whole is not None and whole > cure.limit.limit_ppm:
        note = "the worst case; this cure must be taken out in time"
        words.append(("If left until even", _ppm(whole), note))
    if judged is not None and judged != whole:
        note = "the fast case of the salt estimate, from all sides; this is held against the limit"
        words.append(("Entered by the last day", f"at most {_ppm(judged)}", note))
    return words


def _pump_brine(brine: PumpBrineResult) -> Words:
    grams = ", ".join(
        f"{show_decimal(round_down(value, TENTH), places=1)} g {name}"
        for name, value in (
            ("water", brine.water_g),
            ("salt", brine.salt_g),
            ("sugar", brine.sugar_g),
            (brine.kind.title, brine.curing_salt_g),
        )
        if value
    )
    note = (
        f"{show_decimal(brine.strength_percent, places=1)} % salt by weight; "
        f"{_ppm(brine.nitrite_ppm)} nitrite by the needle alone"
    )
    return ("Pump brine, mixed apart", grams, note)


def _nitrate(cure: CureResult, ppm: Fraction) -> Words:
    basis = "over meat and brine together" if cure.method == "brine" else "of green weight"
    limit = (
        f"limit {show_decimal(cure.nitrate_limit_ppm, places=0)} ppm (21 CFR 172.170)"
        if cure.nitrate_limit_ppm
        else "none is allowed"
    )
    grams = cure.shown.get("nitrate", "")
    value = f"{grams}, {_ppm(ppm)}" if grams else _ppm(ppm)
    return ("Ingoing nitrate", value, f"{basis}; {limit}")


def _ppm(ppm: Fraction) -> str:
    """Rounded up: what is judged against a greatest value is never shown as less than it is."""
    return f"{show_decimal(round_up(ppm, ONE), places=0)} ppm"
