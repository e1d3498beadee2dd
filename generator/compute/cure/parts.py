"""The lines of a cure as written in, the parts that the solver takes out: amounts weighed, spoons at their heaviest."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from generator.compute.cure.amounts import (
    Scales,
    curing_salt_grams,
    line_grams,
    nitrate_grams,
    open_weight,
    plain_grams,
)
from generator.compute.cure.case import CureInput, PumpBrineInput
from generator.compute.cure.ends import CURING_SALT, NITRATE, SALT, SUGAR, Spans
from generator.compute.cure.formulas import PER_CENT
from generator.compute.cure.refusals import NO_PUMP_BRINE, refuse_pump_brine
from generator.compute.cure.solve import CureProblem, Needle, NoSolution, Part, solve_cure
from generator.model.form import MEAT, Form, Setting
from generator.model.published import CuringSalt
from generator.model.quantity import Span
from generator.model.recipe import CureLine, Target, TargetKind
from generator.model.results import PumpBrineResult
from generator.problems import ProblemLog


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts:
    """A cure ready to be solved, with what its spoons leave open."""

    problem: CureProblem
    "At the most nitrite: a curing salt by the spoon at its heaviest, all else by the cup at its lightest."
    spans: Spans = field(default_factory=dict)
    pump_brine: PumpBrineResult | None = None
    "Of one batch; its strength and figure hold at any scale."


def read_parts(given: CureInput, scales: Scales, log: ProblemLog) -> Parts | None:
    """None where a line cannot be weighed; the log says why."""
    salt, salt_span = _plain_part(given.salt, SALT, scales, log)
    sugar, sugar_span = _plain_part(given.sugar, SUGAR, scales, log)
    nitrate, nitrate_span = _nitrate_part(given, log)
    accelerator, _ = _plain_part(given.accelerator, "accelerator", scales, log)
    curing_salt, spooned = _curing_part(given.curing_salt, given.kind, scales, log)
    pump_brine = _pump_brine(given, scales, log)
    if log.has_errors or salt is None or sugar is None or nitrate is None or accelerator is None:
        return None
    if curing_salt is None:
        return None
    problem = CureProblem(
        is_brine=given.is_brine,
        salt=salt,
        sugar=sugar,
        curing_salt=curing_salt,
        nitrate=nitrate,
        accelerator=accelerator,
        kind=given.kind,
        nitrate_share=given.nitrate_share,
        lean_share=given.lean_share,
        pick_up=given.pick_up,
        needle=_needle(given, pump_brine),
        saturated_percent=scales.tables.constant("saturated_brine_percent"),
    )
    spans = {SALT: salt_span, SUGAR: sugar_span, CURING_SALT: spooned, NITRATE: nitrate_span}
    return Parts(
        problem=problem,
        spans={name: span for name, span in spans.items() if span is not None},
        pump_brine=pump_brine,
    )


def _plain_part(
    line: CureLine | None, name: str, scales: Scales, log: ProblemLog
) -> tuple[Part | None, Span | None]:
    """The line at its lightest, and its range where a cup leaves it open."""
    if line is None:
        return Part(), None
    if line.target is not None:
        return Part(target=line.target), None
    grams = plain_grams(line, name, scales, log)
    if grams is None:
        return None, None
    return Part(weight=Form(cb=grams.low)), grams if grams.is_range else None


def _nitrate_part(given: CureInput, log: ProblemLog) -> tuple[Part | None, Span | None]:
    """Nitrate at its lightest, and its range where a spoon leaves it open."""
    line = given.nitrate
    if line is None or line.target is not None:
        return Part(target=line.target if line else None), None
    grams = nitrate_grams(line, given.nitrate_kind, log)
    if grams is None:
        return None, None
    return Part(weight=Form(cb=grams.low)), grams if grams.is_range else None


def _pump_part(line: CureLine | None, name: str, scales: Scales, log: ProblemLog) -> Part | None:
    """What a needle brings is in the meat at once: its own brine is weighed."""
    if line is not None and line.amount is not None:
        grams = line_grams(line, name, scales)
        if grams is not None and grams.is_range:
            log.add("unknown-crystal", line.position, *open_weight(line, name, grams))
            return None
    return _plain_part(line, name, scales, log)[0]


def _curing_part(
    line: CureLine | None, kind: CuringSalt, scales: Scales, log: ProblemLog
) -> tuple[Part | None, Span | None]:
    if line is None:
        return Part(), None
    if line.target is not None and line.target.kind is TargetKind.PERCENT:
        # So much of the salt as it is sold on the green weight: weighed like an amount, and audited like one.
        return Part(weight=MEAT.times(line.target.value / PER_CENT)), None
    if line.target is not None:
        return Part(target=line.target), None
    grams = curing_salt_grams(line, kind, scales, log)
    if grams is None:
        return None, None
    return Part(weight=Form(cb=grams.high)), grams if grams.is_range else None


def _pump_brine(given: CureInput, scales: Scales, log: ProblemLog) -> PumpBrineResult | None:
    """A separately mixed brine solved by itself: a brine of its own water, without meat."""
    pump, share = given.pump_brine, given.pump_share
    if pump is None:
        return None
    if share is None or pump.water_g is None:
        refuse_pump_brine(pump, log)
        return None
    salt = _pump_part(pump.salt, SALT, scales, log)
    sugar = _pump_part(pump.sugar, SUGAR, scales, log)
    curing_salt, _ = _curing_part(pump.curing_salt, pump.kind, scales, log)
    if salt is None or sugar is None or curing_salt is None:
        return None
    return _solve_pump(pump, share, _by_brine(salt), _by_brine(sugar), curing_salt, scales, log)


def _by_brine(part: Part) -> Part:
    """There is no meat in a pump brine: a plain per cent is one of the brine."""
    if part.target is None or part.target.kind is not TargetKind.PERCENT:
        return part
    return Part(target=Target(kind=TargetKind.PERCENT_OF_BRINE, value=part.target.value))


def _solve_pump(
    pump: PumpBrineInput,
    share: Fraction,
    salt: Part,
    sugar: Part,
    curing_salt: Part,
    scales: Scales,
    log: ProblemLog,
) -> PumpBrineResult | None:
    """The target of a pump brine is what the needle brings on the green weight: nitrite x pump / pump brine."""
    assert pump.water_g is not None
    problem = CureProblem(
        is_brine=True,
        salt=salt,
        sugar=sugar,
        curing_salt=curing_salt,
        kind=pump.kind,
        pick_up=share,
        saturated_percent=scales.tables.constant("saturated_brine_percent"),
    )
    setting = Setting(batches=Fraction(1), meat_g=Fraction(0), water_g=pump.water_g)
    try:
        forms = solve_cure(problem)
    except NoSolution:
        log.add("no-solution", pump.position, *NO_PUMP_BRINE)
        return None
    strength = forms.strength_at(setting)
    picked_up = forms.pick_up_ppm.at(setting) if forms.pick_up_ppm else None
    return PumpBrineResult(
        water_g=pump.water_g,
        salt_g=forms.salt.at(setting),
        sugar_g=forms.sugar.at(setting),
        curing_salt_g=forms.curing_salt.at(setting),
        strength_percent=strength or Fraction(0),
        nitrite_ppm=picked_up or Fraction(0),
        kind=pump.kind,
    )


def _needle(given: CureInput, brine: PumpBrineResult | None) -> Needle | None:
    if brine is None or given.pump_brine is None or given.pump_share is None:
        return None
    kind = given.pump_brine.kind
    whole = brine.whole_g
    return Needle(
        share=given.pump_share,
        nitrite=kind.nitrite * brine.curing_salt_g / whole,
        nitrate=kind.nitrate * brine.curing_salt_g / whole,
        salt=(brine.salt_g + kind.salt * brine.curing_salt_g) / whole,
    )
