"""A solved cure in, every reason to give no weights out, each with what to do about it."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.cure.case import CureInput, Solved
from generator.compute.cure.limits import refusal, spread_needed_g, ways_out
from generator.model.form import Setting
from generator.model.published import NitriteLimit
from generator.model.results import CureForms, CureResult
from generator.model.rounding import round_up
from generator.model.shown import show_decimal
from generator.problems import ProblemLog
from generator.tables import Tables

PER_CENT = Fraction(100)
"Source: per cent, a definition."
HUNDREDTH = Fraction(1, 100)
"Source: house choice, the step in which a least percentage is named."
TEN_G = Fraction(10)
"Source: house choice, the step in which a least weight of meat is named."


def facts_are_known(given: CureInput, forms: CureForms, limit: NitriteLimit | None, log: ProblemLog) -> bool:
    """False where a missing fact leaves nothing to work out; each missing fact is named."""
    if given.cut == "belly" and given.skin_on is None and given.curing_salt is not None:
        log.add(
            "skin-unknown",
            given.position,
            "Nitrite in belly is counted without the skin, and the recipe does not say whether the skin is on.",
            "Write `skin: on` or `skin: off` under `meat:`.",
        )
    if given.is_brine and given.water_g is None:
        log.add(
            "water-unknown",
            given.water_position or given.position,
            "The water of the brine is not known, so nothing can be worked out.",
            "Write its volume or weight.",
        )
    if given.meat_g is None:
        message, hint = _meat_missing(given, forms, limit)
        log.add("meat-unknown", given.position, message, hint)
    return not log.has_errors


def _meat_missing(given: CureInput, forms: CureForms, limit: NitriteLimit | None) -> tuple[str, str]:
    """What is missing, and the least meat that the weights as written would fit."""
    message = "The weight of the meat is not known, so the ingoing nitrite cannot be worked out."
    hint = "Weigh the raw meat and write its green weight."
    water = given.water_g if given.water_g is not None else Fraction(0)
    setting = Setting(batches=given.batches, meat_g=Fraction(0), water_g=water)
    by_amount = given.curing_salt is not None and given.curing_salt.amount is not None
    if limit is None or not by_amount or (given.is_brine and given.water_g is None):
        return message, hint
    case = Solved(given=given, forms=forms, setting=setting).nitrite_case
    least = max(spread_needed_g(case, limit.limit_ppm) / given.lean_share, Fraction(0))
    return message, (
        f"{hint} As written it would fit no less than "
        f"{show_decimal(round_up(least, TEN_G), places=0)} g of meat "
        f"(limit {show_decimal(limit.limit_ppm, places=2)} ppm, {limit.locator})."
    )


def add_no_solution(given: CureInput, log: ProblemLog) -> None:
    """The targets contradict each other: salt and sugar together would be more than the whole brine."""
    log.add(
        "no-solution",
        given.position,
        "No weights reach all the targets of this cure: together they ask for more than there can be.",
        "Change one target to an amount.",
    )


def judge(solved: Solved, result: CureResult, tables: Tables, log: ProblemLog) -> None:
    """Every reason to give no weights goes to the log."""
    if solved.given.is_brine and solved.brine_g < solved.setting.water_g:
        add_no_solution(solved.given, log)
        return
    _judge_nitrate(solved, log)
    _judge_nitrite(solved, result, tables, log)
    if solved.salt_g < 0 or solved.curing_salt_g < 0:
        _refuse_negative_salt(solved, log)
    _judge_saturation(solved, result, tables, log)
    _judge_pump(solved, result, log)


def _judge_nitrate(solved: Solved, log: ProblemLog) -> None:
    given = solved.given
    if given.curing_salt is not None and given.cut == "belly" and given.kind.nitrate > 0:
        log.add(
            "nitrate-in-belly",
            given.curing_salt.position,
            f"{given.kind.title} brings nitrate, and nitrate is never allowed in belly (9 CFR 424.22(b)).",
            "Use a curing salt with nitrite alone.",
        )


def _judge_nitrite(solved: Solved, result: CureResult, tables: Tables, log: ProblemLog) -> None:
    given = solved.given
    ppm = result.whole_system_ppm if given.is_brine else result.dry_ppm
    if given.curing_salt is None or ppm is None or result.limit is None or ppm <= result.limit.limit_ppm:
        return
    source = tables.sources[result.limit.source].citation.partition(",")[0]
    log.add(
        "above-limit",
        given.curing_salt.position,
        refusal(ppm, result.limit, source),
        ways_out(solved.nitrite_case, result.limit),
    )


def _refuse_negative_salt(solved: Solved, log: ProblemLog) -> None:
    given = solved.given
    own = given.kind.salt * solved.curing_salt_g
    least = round_up(PER_CENT * own / solved.base_g, HUNDREDTH)
    log.add(
        "negative-salt",
        given.salt.position if given.salt else given.position,
        f"The curing salt alone brings {show_decimal(own, places=1)} g of salt, more than the target asks for.",
        f"Ask for at least {show_decimal(least, places=2)} % salt, or for less curing salt.",
    )


def _judge_saturation(solved: Solved, result: CureResult, tables: Tables, log: ProblemLog) -> None:
    saturated = tables.constant("saturated_brine_percent")
    if result.strength_percent is None or result.strength_percent <= saturated:
        return
    given = solved.given
    log.add(
        "salt-beyond-saturation",
        given.salt.position if given.salt else given.position,
        f"{show_decimal(result.strength_percent, places=2)} % salt is more than water can hold "
        f"({show_decimal(saturated, places=3)} % at 60 °F).",
        "Use less salt or more water.",
    )


def _judge_pump(solved: Solved, result: CureResult, log: ProblemLog) -> None:
    if result.pump_g is None or result.pump_g <= solved.brine_g:
        return
    log.add(
        "pump-over-brine",
        solved.given.position,
        f"The pump takes {show_decimal(result.pump_g, places=0)} g, and the whole brine is "
        f"{show_decimal(solved.brine_g, places=0)} g.",
        "Mix more brine or pump less.",
    )
