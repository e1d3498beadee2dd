"""A cure's contract in, the figures of its page as sentences out that follow batches, meat and water.

What stands here is read twice: by the page's script at the reader's scale, and by the tests beside the command's words.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from generator.model.contract import Blend, Decimal, Either, Sum, Text, Value, Weight, down, up
from generator.model.form import MEAT, WATER, Figure, Form
from generator.model.recipe import Cure
from generator.model.results import CureForms, CureResult
from generator.render.method_words import TENTH
from generator.render.table_words import BLEND, BLEND_NOTE, FINER, FINER_OR_BLEND

PER_CENT = Fraction(100)
ONE = Fraction(1)
BLENDED = 50
"[g] Curing salt in a blend; its carrier is nine times that. Source: house choice, as the command mixes it."

Sentences = Mapping[str, tuple[Text, Text]]
"Value and note of each figure, by the figure's key."


def following(cure: CureResult, written: Cure, saturated_percent: Fraction) -> Sentences:
    """Every figure of a cure that changes with the scale; empty where nothing was worked out."""
    forms = cure.forms
    if forms is None or cure.contract is None or cure.setting is None:
        return {}
    return {
        **_strengths(cure, forms, saturated_percent),
        **_nitrite(cure, forms),
        **_apart(cure, forms),
        **_applications(written, forms),
        **_dose(cure),
    }


def _strengths(cure: CureResult, forms: CureForms, saturated_percent: Fraction) -> Sentences:
    brine = cure.method == "brine"
    base, of = (MEAT.plus(WATER), "meat and water") if brine else (MEAT, "the meat")
    found: dict[str, tuple[Text, Text]] = {
        "Salt": ((Decimal(value=forms.salt_percent, places=2), f" % of {of}"), ())
    }
    if cure.sugar_percent:
        sugar = Figure(factor=PER_CENT, over=forms.sugar, under=base)
        found["Sugar"] = ((Decimal(value=sugar, places=2), f" % of {of}"), ())
    strength = forms.strength_percent
    if strength is not None:
        degrees = Sum(terms=((PER_CENT / saturated_percent, strength),))
        found["Brine strength"] = (
            (Decimal(value=strength, places=2), " % salt by weight"),
            (Decimal(value=degrees, places=0), " degrees salometer"),
        )
    if cure.pump_g is not None and cure.green_weight_g:
        pump = MEAT.times(cure.pump_g / cure.green_weight_g)
        which = "this brine" if cure.pump_brine is None else "the pump brine"
        found["Pump"] = ((Weight(value=pump, use="cure base"), f" of {which}"), ())
    return found


def _nitrite(cure: CureResult, forms: CureForms) -> Sentences:
    known: list[tuple[str, object, Value | None]] = [
        ("Ingoing nitrite, whole system", cure.whole_system_ppm, forms.nitrite_ppm),
        ("Ingoing nitrite, pick-up", cure.pick_up_ppm, forms.pick_up_ppm),
        ("Ingoing nitrite, dry", cure.dry_ppm, forms.nitrite_ppm),
        ("If left until even", cure.whole_system_ppm, forms.nitrite_ppm),
    ]
    whole, judged = cure.whole_system_ppm, cure.judged_ppm
    found = {key: (_ppm(value), ()) for key, told, value in known if told is not None and value is not None}
    if whole and judged:
        entered = Sum(terms=((judged / whole, forms.nitrite_ppm),))
        found["Entered by the last day"] = (("at most ", *_ppm(entered)), ())
    lightest = cure.contract.lightest if cure.contract is not None else None
    if lightest is not None:
        found["By the spoon"] = ((Decimal(value=lightest, places=0), " to ", *_ppm(forms.nitrite_ppm)), ())
    return found


def _ppm(value: Value) -> Text:
    """Rounded up: what is judged against a greatest value is never shown as less than it is."""
    return (up(value, ONE, 0), " ppm")


def _apart(cure: CureResult, forms: CureForms) -> Sentences:
    """Nitrate, accelerator, and the brine for the needle."""
    found: dict[str, tuple[Text, Text]] = {}
    contract, setting = cure.contract, cure.setting
    if cure.nitrate_ppm and contract is not None:
        grams = (*contract.shown["nitrate"], ", ") if contract.shown["nitrate"] else ()
        found["Ingoing nitrate"] = ((*grams, *_ppm(forms.nitrate_ppm)), ())
    if cure.accelerator_g is not None:
        grams = (down(forms.accelerator, TENTH, 1), " g, ")
        found["Accelerator"] = ((*grams, *_ppm(forms.accelerator_ppm)), ())
    brine = cure.pump_brine
    if brine is not None and setting is not None:
        weights = (
            ("water", brine.water_g),
            ("salt", brine.salt_g),
            ("sugar", brine.sugar_g),
            (brine.kind.title, brine.curing_salt_g),
        )
        named = [
            (down(Form(cb=grams / setting.batches), TENTH, 1), f" g {name}")
            for name, grams in weights
            if grams
        ]
        parts: list[Text] = [named[0], *((", ", *one) for one in named[1:])]
        found["Pump brine, mixed apart"] = (tuple(part for one in parts for part in one), ())
    return found


def _applications(written: Cure, forms: CureForms) -> Sentences:
    if written.applications < 2:
        return {}
    whole = forms.salt.plus(forms.sugar).plus(forms.curing_salt)
    each = Decimal(value=whole.times(ONE / written.applications), places=1)
    return {"Rubbed on in": ((f"{written.applications} equal parts, ", each, " g of the mix each time"), ())}


def _dose(cure: CureResult) -> Sentences:
    """What a step of the scale does to the nitrite, and a blend where the step is too coarse."""
    dose = cure.contract.dose if cure.contract is not None else None
    if dose is None:
        return {}
    tenth = up(Sum(terms=((TENTH, dose.per_gram),)), TENTH, 1)
    steps: Text = ("0.1 g of curing salt is ", tenth, " ppm, 1 g is ", up(dose.per_gram, TENTH, 1), " ppm")
    finer: Text = (FINER,)
    blend: Text = ()
    for one in reversed(dose.blends):
        finer = (Either(value=one.taken, above=one.there, then=finer, otherwise=(FINER_OR_BLEND,)),)
        blend = (Either(value=one.taken, above=one.there, then=blend, otherwise=_blend(one)),)
    return {
        "The scale": (steps, (Either(value=dose.per_gram, above=dose.coarse_from, then=finer),)),
        BLEND: (
            (Either(value=dose.per_gram, above=dose.coarse_from, then=blend),),
            (BLEND_NOTE,),
        ),
    }


def _blend(blend: Blend) -> Text:
    grams = Decimal(value=blend.weigh, places=0)
    return (
        f"mix {BLENDED} g of curing salt evenly with {9 * BLENDED} g of {blend.carrier}; weigh ",
        grams,
        " g of that instead of the curing salt, and ",
        Decimal(value=blend.left, places=1),
        f" g of {blend.carrier} besides",
    )
