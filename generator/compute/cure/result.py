"""One cure as written and the weights on the scale in, its result out: weights, figures, or refusals."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from generator.compute.cure.amounts import Scales
from generator.compute.cure.brine import brine_figures
from generator.compute.cure.case import CureInput, JudgedCure, Solved
from generator.compute.cure.contract import make_contract
from generator.compute.cure.dose import work_out_dose
from generator.compute.cure.ends import ends_of, spans_at
from generator.compute.cure.formulas import PER_CENT
from generator.compute.cure.parts import Parts, read_parts
from generator.compute.cure.refusals import (
    NO_SOLUTION,
    facts_are_known,
    judge,
    refuse_fish,
)
from generator.compute.cure.short import Entered, nitrite_entered
from generator.compute.cure.solve import NoSolution, solve_cure
from generator.compute.cure.to_make import water_to_make_g
from generator.model.contract import CureContract
from generator.model.form import Setting
from generator.model.published import NitriteLimit
from generator.model.quantity import Span
from generator.model.reader import Reader
from generator.model.results import CureEnds, CureForms, CureResult, CureWeights, PumpBrineResult
from generator.model.shown import Shower
from generator.problems import OutOfRange, ProblemLog


def work_out_cure(given: CureInput, scales: Scales, shower: Shower) -> CureResult:
    """Weights [g] and figures [ppm, %] of a cure at one setting; above a limit, or with a fact missing, no weights.

    Source: the limits and their places stand in limits.csv, the definitions of the figures with `solve_cure`.
    """
    log = ProblemLog()
    parts = read_parts(given, scales, log)
    limit = _limit(given, scales, log)
    forms = _forms(given, parts, log)
    given = _with_water(given, forms, scales, log)
    bare = CureResult(
        method=given.method,
        cut=given.cut,
        kind=given.kind,
        setting=None,
        green_weight_g=given.meat_g,
        water_g=given.water_g if given.is_brine else None,
        weigh=None,
        limit=limit,
        forms=forms,
        ice_unmeasured=given.ice_unmeasured,
    )
    if parts is None or forms is None or not facts_are_known(given, forms, limit, shower, log):
        return replace(bare, problems=log.sorted())
    assert given.meat_g is not None
    setting = Setting(batches=given.batches, meat_g=given.meat_g, water_g=bare.water_g or Fraction(0))
    solved = Solved(given=given, forms=forms, setting=setting)
    return _at_setting(bare, solved, parts, scales, Reader(setting=setting, shower=shower), log)


def unread_cure(given: CureInput) -> CureResult:
    """No weights and no figures: a part of what they follow from is not read."""
    return CureResult(
        method=given.method,
        cut=given.cut,
        kind=given.kind,
        setting=None,
        green_weight_g=None,
        water_g=None,
        weigh=None,
    )


def _at_setting(
    bare: CureResult, solved: Solved, parts: Parts, scales: Scales, reader: Reader, log: ProblemLog
) -> CureResult:
    """The figures of a cure that is known whole; the weights only where nothing refuses them."""
    result = _figures(bare, solved, parts, scales)
    entered = _entered(solved, result, scales)
    if entered is not None and bare.limit is not None:
        last = entered.last_hour_within(bare.limit.limit_ppm)
        result = replace(result, judged_ppm=entered.at_last, last_hour=last)
    cure = JudgedCure(
        # A contract knows no setting: with it left out, one contract serves every scale of a recipe.
        given=replace(solved.given, meat_g=None, water_g=None, to_make_ml=None, batches=Fraction(1)),
        forms=solved.forms,
        needle=parts.problem.needle,
        limit=bare.limit,
        pump_brine=parts.pump_brine,
        tables=scales.tables,
        entered_share=_entered_share(result),
        ends=result.ends,
    )
    contract = make_contract(cure)
    judge(cure, contract.guards, entered, reader, log)
    result = replace(result, contract=contract, problems=log.sorted())
    if not log.has_errors:
        result = _weighed(result, contract, reader)
    return replace(result, brine=brine_figures(result, scales.tables))


def _entered_share(result: CureResult) -> Fraction:
    """Of a short cure: the share of the whole-system figure that can have entered by its last day; else 1."""
    whole, judged = result.whole_system_ppm, result.judged_ppm
    return judged / whole if whole and judged else Fraction(1)


def _weighed(result: CureResult, contract: CureContract, reader: Reader) -> CureResult:
    """The weights at a setting that no guard refuses."""
    grams = {key: reader.value(value) for key, value in contract.weigh.items()}
    spans, most = result.spans, {key: reader.value(value) for key, value in contract.heaviest.items()}
    if spans is not None:
        spans = replace(
            spans,
            salt_g=Span(grams["salt"], most.get("salt", grams["salt"])),
            sugar_g=Span(grams["sugar"], most.get("sugar", grams["sugar"])),
        )
    return replace(
        result,
        spans=spans,
        weigh=CureWeights(salt_g=grams["salt"], sugar_g=grams["sugar"], curing_salt_g=grams["curing_salt"]),
        shown={key: reader.text(text) for key, text in contract.shown.items()},
        dose=work_out_dose(contract.dose, reader),
    )


def _forms(given: CureInput, parts: Parts | None, log: ProblemLog) -> CureForms | None:
    if parts is None:
        return None
    try:
        return solve_cure(parts.problem)
    except NoSolution:
        log.add("no-solution", given.position, *NO_SOLUTION)
        return None


def _with_water(given: CureInput, forms: CureForms | None, scales: Scales, log: ProblemLog) -> CureInput:
    """Where the volume of the finished brine is told, the water it takes: of one batch, times the batches."""
    if forms is None or given.to_make_ml is None:
        return given
    try:
        water = water_to_make_g(
            forms,
            scales.tables.brine,
            volume_ml=given.to_make_ml / given.batches,
            batches=Fraction(1),
            meat_g=given.meat_g / given.batches if given.meat_g is not None else Fraction(0),
        )
    except OutOfRange as error:
        log.add(
            "out-of-range",
            given.water_position or given.position,
            f"The water to make that brine cannot be worked out: {error}.",
            "Use less salt, or write the water that goes in.",
        )
        return given
    return replace(given, water_g=water * given.batches)


def _limit(given: CureInput, scales: Scales, log: ProblemLog) -> NitriteLimit | None:
    """The limit of the cut and the method; of a fish only where it is listed. Of both the lower."""
    if not _brings_nitrite(given):
        return None
    cut = scales.tables.limit(given.cut, given.method)
    if given.fish is None:
        return cut
    if given.fish_limit_ppm is None:
        refuse_fish(given, log)
        return None
    if not given.is_all_fish and cut.limit_ppm < given.fish_limit_ppm:
        return cut
    whole = scales.tables.limit("whole", given.method)
    return replace(whole, limit_ppm=given.fish_limit_ppm, source="21cfr172.175", locator="(a)")


def _brings_nitrite(given: CureInput) -> bool:
    kinds = [given.kind] if given.curing_salt is not None else []
    if given.pump_brine is not None and given.pump_brine.curing_salt is not None:
        kinds.append(given.pump_brine.kind)
    return any(kind.nitrite > 0 for kind in kinds)


def _figures(bare: CureResult, solved: Solved, parts: Parts, scales: Scales) -> CureResult:
    """Every figure of the cure, limits not yet looked at."""
    given, forms, setting = solved.given, solved.forms, solved.setting
    ppm = forms.nitrite_ppm.at(setting)
    strength = forms.strength_at(setting)
    saturated = scales.tables.constant("saturated_brine_percent")
    accelerated = given.accelerator is not None
    ends = ends_of(parts.problem, forms, parts.spans)
    spans = spans_at(ends, setting, saturated, is_brine=given.is_brine)
    return replace(
        bare,
        setting=setting,
        ends=ends,
        spans=spans,
        whole_system_ppm=ppm if given.is_brine else None,
        dry_ppm=None if given.is_brine else ppm,
        pick_up_ppm=None if forms.pick_up_ppm is None else forms.pick_up_ppm.at(setting),
        judged_ppm=ppm,
        whole_limit_is_worst_case=given.pick_up is not None,
        ppm_range=_ppm_range(ends, setting, ppm),
        nitrate_ppm=forms.nitrate_ppm.at(setting),
        nitrate_limit_ppm=_nitrate_limit(solved, scales),
        accelerator_g=solved.accelerator_g if accelerated else None,
        accelerator_ppm=forms.accelerator_ppm.at(setting) if accelerated else None,
        salt_percent=forms.salt_percent.at(setting),
        sugar_percent=PER_CENT * solved.sugar_g / solved.base_g if solved.base_g else None,
        strength_percent=strength,
        salometer_degrees=None if strength is None else PER_CENT * strength / saturated,
        pump_g=None if given.pump_share is None else given.pump_share * setting.meat_g,
        pump_brine=_scaled(parts.pump_brine, setting.batches),
    )


def _nitrate_limit(solved: Solved, scales: Scales) -> Fraction | None:
    """Home limit for nitrate, where the cure brings any; in belly none is allowed at all."""
    if not solved.forms.nitrate_ppm.at(solved.setting):
        return None
    return Fraction(0) if solved.given.has_belly else scales.tables.constant("nitrate_limit_ppm")


def _scaled(brine: PumpBrineResult | None, batches: Fraction) -> PumpBrineResult | None:
    """A pump brine of so many batches; its strength and its figure hold at any scale."""
    if brine is None:
        return None
    grams = {key: getattr(brine, key) * batches for key in ("water_g", "salt_g", "sugar_g", "curing_salt_g")}
    return replace(brine, **grams)


def _entered(solved: Solved, result: CureResult, scales: Scales) -> Entered | None:
    """What can have entered a short cure by its last day; None where the cure is not short, or a fact is missing."""
    given, whole_ppm = solved.given, result.whole_system_ppm
    if given.pick_up is None or not whole_ppm:
        return None
    if given.thickness_mm is None or given.days is None:
        return None
    try:
        return nitrite_entered(solved, whole_ppm, scales.transfer)
    except OutOfRange:
        return None


def _ppm_range(ends: CureEnds | None, setting: Setting, most: Fraction | None) -> Span | None:
    """Ingoing nitrite from the least that cups and spoons may come to; None where they leave nothing open."""
    least = None if ends is None else ends.least_nitrite.nitrite_ppm.at(setting)
    return None if least is None or most is None or least == most else Span(least, most)
