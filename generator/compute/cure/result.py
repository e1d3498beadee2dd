"""One cure as written and the weights on the scale in, its result out: weights, figures, or refusals."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from generator.compute.cure.amounts import Scales, curing_salt_grams, plain_grams
from generator.compute.cure.case import CureInput, Solved
from generator.compute.cure.judge import add_no_solution, facts_are_known, judge
from generator.compute.cure.solve import NoSolution, Part, solve_cure
from generator.compute.cure.weigh import show_weights, weigh
from generator.model.form import Form, Setting
from generator.model.published import NitriteLimit
from generator.model.quantity import Span
from generator.model.recipe import CureLine
from generator.model.results import CureForms, CureResult
from generator.model.shown import Shower
from generator.problems import ProblemLog

PER_CENT = Fraction(100)
"Source: per cent, a definition."


def work_out_cure(given: CureInput, scales: Scales, shower: Shower) -> CureResult:
    """Weights and figures of a cure at one setting; above a limit, or with a fact missing, no weights."""
    log = ProblemLog()
    forms, spooned = _forms(given, scales, log)
    limit = _limit(given, scales, log)
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
    )
    if forms is None or not facts_are_known(given, forms, limit, log) or given.meat_g is None:
        return replace(bare, problems=log.sorted())
    water_g = given.water_g if given.is_brine and given.water_g is not None else Fraction(0)
    setting = Setting(batches=given.batches, meat_g=given.meat_g, water_g=water_g)
    solved = Solved(given=given, forms=forms, setting=setting)
    result = _figures(bare, solved, spooned, scales)
    judge(solved, result, scales.tables, log)
    if not log.has_errors:
        result = replace(
            result,
            weigh=weigh(solved, limit, shower),
            shown=show_weights(solved, limit, shower),
        )
    return replace(result, problems=log.sorted())


def _forms(given: CureInput, scales: Scales, log: ProblemLog) -> tuple[CureForms | None, Span | None]:
    """The cure solved, and the range of a curing salt that was given by the spoon."""
    salt = _plain_part(given.salt, "salt", scales, log)
    sugar = _plain_part(given.sugar, "granulated sugar", scales, log)
    spooned: Span | None = None
    cure_part: Part | None = Part()
    if given.curing_salt is not None:
        if given.curing_salt.target is not None:
            cure_part = Part(target=given.curing_salt.target)
        else:
            spooned = curing_salt_grams(given.curing_salt, given.kind, scales, log)
            cure_part = Part(weight=Form(cb=spooned.high)) if spooned else None
    if salt is None or sugar is None or cure_part is None:
        return None, None
    try:
        forms = solve_cure(
            method=given.method,
            salt=salt,
            sugar=sugar,
            curing_salt=cure_part,
            kind=given.kind,
            lean_share=given.lean_share,
            saturated_percent=scales.tables.constant("saturated_brine_percent"),
        )
    except NoSolution:
        add_no_solution(given, log)
        return None, None
    return forms, spooned if spooned is not None and spooned.is_range else None


def _plain_part(line: CureLine | None, name: str, scales: Scales, log: ProblemLog) -> Part | None:
    if line is None:
        return Part()
    if line.target is not None:
        return Part(target=line.target)
    grams = plain_grams(line, name, scales, log)
    return None if grams is None else Part(weight=Form(cb=grams))


def _limit(given: CureInput, scales: Scales, log: ProblemLog) -> NitriteLimit | None:
    if given.curing_salt is None:
        return None
    if given.fish is None:
        return scales.tables.limit(given.cut, given.method)
    if given.fish_limit_ppm is None:
        log.add(
            "fish-nitrite",
            given.curing_salt.position,
            f"Nitrite is not allowed in {given.fish}: 21 CFR 172.175 lists only some smoked fish.",
            "Leave the curing salt out and cure with salt alone, kept cold and cooked through.",
        )
        return None
    whole = scales.tables.limit("whole", given.method)
    return replace(
        whole,
        limit_ppm=given.fish_limit_ppm,
        source="21cfr172.175",
        locator="(a)",
    )


def _figures(bare: CureResult, solved: Solved, spooned: Span | None, scales: Scales) -> CureResult:
    """Every figure of the cure, limits not yet looked at."""
    given, forms, setting = solved.given, solved.forms, solved.setting
    ppm = forms.nitrite_ppm.at(setting) if given.curing_salt is not None else Fraction(0)
    strength = forms.strength_percent.at(setting) if forms.strength_percent else None
    saturated = scales.tables.constant("saturated_brine_percent")
    return replace(
        bare,
        setting=setting,
        whole_system_ppm=ppm if given.is_brine else None,
        dry_ppm=None if given.is_brine else ppm,
        ppm_range=_spoon_range(solved, spooned) if spooned else None,
        salt_percent=forms.salt_percent.at(setting),
        sugar_percent=PER_CENT * solved.sugar_g / solved.base_g if solved.base_g else None,
        strength_percent=strength,
        salometer_degrees=None if strength is None else PER_CENT * strength / saturated,
        pump_g=None if given.pump_percent is None else given.pump_percent / PER_CENT * setting.meat_g,
    )


def _spoon_range(solved: Solved, spooned: Span) -> Span | None:
    """The figure at the lightest and the heaviest published spoon, salt and sugar as they are."""
    figure = solved.forms.nitrite_ppm
    high = figure.at(solved.setting)
    lighter = (spooned.high - spooned.low) * solved.setting.batches
    under = figure.under.at(solved.setting) - (lighter if solved.given.is_brine else 0)
    if high is None or under <= 0:
        return None
    return Span(figure.factor * (solved.curing_salt_g - lighter) / under, high)
