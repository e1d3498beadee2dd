"""A cure in, what a step of the scale does to its nitrite out, with a blend where the step is too coarse."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from generator.compute.cure.case import CureInput
from generator.compute.cure.formulas import PER_MILLION
from generator.model.contract import Blend, DoseContract, Stepped, Sum, Value, constant
from generator.model.form import Figure
from generator.model.reader import Reader
from generator.model.results import CureForms, Dose, PreBlend

CARRIERS = ("salt", "sugar")
"What a curing salt may be blended with, in the order in which they are tried."
GRAM = Fraction(1)
"[g] Source: house choice, the step of a common kitchen scale."
TENTH_G = Fraction(1, 10)
"[g] Source: house choice, the step of a pocket scale."
COARSE_SHARE = Fraction(1, 10)
"Source: house choice: a step that moves the figure by more than a tenth is too coarse."
CARRIER_PARTS = Fraction(9)
"Source: house choice: one part of curing salt in ten of the blend, so that a step of 1 g counts as one of 0.1 g."
STRONGEST_TO_BLEND = Fraction(1, 10)
"Source: house choice: nobody mixes a stronger nitrite at home."
BLENDED_G = Fraction(50)
"[g] Source: house choice: the least curing salt that a scale in steps of 1 g weighs to within 2 %."


def dose_contract(
    given: CureInput, forms: CureForms, weigh: Mapping[str, Value], carriers: Sequence[str] = CARRIERS
) -> DoseContract | None:
    """What a gram does [ppm] to the figure that is judged; None for a curing salt without nitrite, or none at all.

    That a gram more makes the brine heavier is left out, so that a step is never named smaller than it is.
    """
    if given.curing_salt is None or not given.kind.nitrite:
        return None
    figure, share, under = forms.nitrite_ppm, given.kind.nitrite, forms.nitrite_ppm.under
    if given.pick_up is not None:
        assert forms.pick_up_ppm is not None, "a short cure has a figure by its pick-up"
        figure, share, under = forms.pick_up_ppm, share * given.pick_up, forms.brine
    return DoseContract(
        per_gram=Figure(factor=PER_MILLION, over=constant(share), under=under),
        coarse_from=Sum(terms=((COARSE_SHARE, figure),)),
        blends=blends(weigh, carriers) if given.kind.nitrite <= STRONGEST_TO_BLEND else (),
    )


def blends(weigh: Mapping[str, Value], carriers: Sequence[str] = CARRIERS) -> tuple[Blend, ...]:
    """Ten times the curing salt's weight of a blend, its nine parts taken from the salt, or else from the sugar.

    Whole grams of the blend, rounded down: a step of 1 g is then one of 0.1 g.
    """
    parts = CARRIER_PARTS + 1
    blend = Stepped(value=Sum(terms=((parts, weigh["curing_salt"]),)), step=GRAM, direction="down")
    taken = Sum(terms=((CARRIER_PARTS / parts, blend),))
    return tuple(
        Blend(carrier=carrier, weigh=blend, taken=taken, there=weigh[carrier]) for carrier in carriers
    )


def work_out_dose(contract: DoseContract | None, reader: Reader) -> Dose | None:
    """The dose at a setting [ppm for each step of the scale]; None where there is none."""
    if contract is None or not reader.value(contract.coarse_from):
        return None
    per_gram = reader.value(contract.per_gram)
    coarse = per_gram > reader.value(contract.coarse_from)
    return Dose(
        tenth_gram_ppm=per_gram * TENTH_G,
        gram_ppm=per_gram,
        use_finer_scale=coarse,
        pre_blend=pre_blend(contract.blends, reader) if coarse else None,
    )


def pre_blend(some: tuple[Blend, ...], reader: Reader) -> PreBlend | None:
    """The first blend [g] whose carrier is enough; None where neither is."""
    for blend in some:
        if reader.value(blend.taken) <= reader.value(blend.there):
            return PreBlend(
                carrier=blend.carrier,
                curing_salt_g=BLENDED_G,
                carrier_g=BLENDED_G * CARRIER_PARTS,
                weigh_g=reader.value(blend.weigh),
                carrier_left_g=reader.value(blend.left),
            )
    return None
