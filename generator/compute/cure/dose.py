"""A cure's weights in, what a step of the scale does to its nitrite out, with a blend where the step is too coarse."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.cure.formulas import dose_step_ppm
from generator.model.results import CureResult, CureWeights, Dose, PreBlend

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


def work_out_dose(result: CureResult) -> Dose | None:
    """None where no weights are given, or no curing salt by itself."""
    weigh = result.weigh
    if weigh is None or weigh.curing_salt_g <= 0 or result.kind.nitrite == 0:
        return None
    figure = result.pick_up_ppm or result.whole_system_ppm or result.dry_ppm
    per_gram = _per_gram_ppm(result)
    if per_gram is None or not figure:
        return None
    coarse = per_gram > COARSE_SHARE * figure
    return Dose(
        tenth_gram_ppm=per_gram * TENTH_G,
        gram_ppm=per_gram,
        use_finer_scale=coarse,
        pre_blend=pre_blend(weigh) if coarse and result.kind.nitrite <= STRONGEST_TO_BLEND else None,
    )


def _per_gram_ppm(result: CureResult) -> Fraction | None:
    """What a gram of curing salt brings [ppm], on the basis that the cure is told by."""
    if result.forms is None or result.setting is None:
        return None
    share, figure = result.kind.nitrite, result.forms.nitrite_ppm
    if result.forms.pick_up_ppm is not None:
        figure = result.forms.pick_up_ppm
        curing_salt = result.forms.curing_salt.at(result.setting)
        ppm = figure.at(result.setting)
        return None if ppm is None or not curing_salt else ppm / curing_salt
    basis = figure.under.at(result.setting)
    return dose_step_ppm(step_g=GRAM, nitrite_share=share, basis_g=basis) if basis > 0 else None


def pre_blend(weigh: CureWeights) -> PreBlend | None:
    """Ten times the curing salt's weight of a blend, its nine parts taken from the salt, or else from the sugar.

    Whole grams of the blend, rounded down: a step of 1 g is then one of 0.1 g. None where neither is enough.
    """
    blend_g = Fraction((weigh.curing_salt_g * (CARRIER_PARTS + 1)).__floor__())
    taken_g = blend_g * CARRIER_PARTS / (CARRIER_PARTS + 1)
    for carrier, there_g in (("salt", weigh.salt_g), ("sugar", weigh.sugar_g)):
        if taken_g <= there_g:
            return PreBlend(
                carrier=carrier,
                curing_salt_g=BLENDED_G,
                carrier_g=BLENDED_G * CARRIER_PARTS,
                weigh_g=blend_g,
                carrier_left_g=there_g - taken_g,
            )
    return None
