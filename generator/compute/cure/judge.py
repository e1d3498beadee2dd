"""A solved cure in, every reason to give no weights out, each with what to do about it."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.cure.case import CureInput, Solved
from generator.compute.cure.formulas import PER_CENT
from generator.compute.cure.limits import (
    TEN_G,
    TENTH_G,
    least_meat_g,
    most_nitrate_g,
    refusal,
    ways_out,
    ways_out_of_pick_up,
)
from generator.compute.cure.short import HOURS, Entered
from generator.model.form import Setting
from generator.model.published import NitriteLimit
from generator.model.results import CureForms, CureResult
from generator.model.rounding import round_down, round_up
from generator.model.shown import show_decimal
from generator.problems import ProblemLog
from generator.tables import Tables

HUNDREDTH = Fraction(1, 100)
"Source: house choice, the step in which a least percentage is named."

NEEDLE_ROOM = Fraction(99, 100)
"Source: house choice; less curing salt makes the pump brine a little lighter, which this leaves room for."

BASIS = {"brine": "on meat and brine together", "dry": "on the green weight"}


def facts_are_known(given: CureInput, forms: CureForms, limit: NitriteLimit | None, log: ProblemLog) -> bool:
    """False where a missing fact leaves nothing to work out; each missing fact is named."""
    if given.cut == "belly" and given.skin_on is None and given.has_nitrite:
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
    if given.pick_up is not None and given.pump_brine is not None:
        log.add(
            "short-cure-pumped",
            given.position,
            "A short cure together with a separately mixed pump brine is not worked out.",
            "Leave the meat until even (no `pick-up`), or pump from the cover brine (no `pump brine`).",
        )
    if given.meat_g is None:
        message, hint = _meat_missing(given, forms, limit)
        log.add("meat-unknown", given.position, message, hint)
    return not log.has_errors


def _meat_missing(given: CureInput, forms: CureForms, limit: NitriteLimit | None) -> tuple[str, str]:
    """What is missing, and the least meat that the weights as written would fit."""
    message = "The weight of the meat is not known, so the ingoing nitrite cannot be worked out."
    hint = "Weigh the raw meat and write its green weight."
    by_amount = given.curing_salt is not None and given.curing_salt.amount is not None
    if limit is None or not by_amount or (given.is_brine and given.water_g is None):
        return message, hint
    water = given.water_g if given.water_g is not None else Fraction(0)
    setting = Setting(batches=given.batches, meat_g=Fraction(0), water_g=water)
    case = Solved(given=given, forms=forms, setting=setting).nitrite_case
    least = least_meat_g(case, limit.limit_ppm)
    if least is None:
        return message, hint
    return message, (
        f"{hint} As written it would fit no less than "
        f"{show_decimal(round_up(max(least, Fraction(0)), TEN_G), places=0)} g of meat "
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


def judge(
    solved: Solved, result: CureResult, entered: Entered | None, tables: Tables, log: ProblemLog
) -> None:
    """Every reason to give no weights goes to the log."""
    too_strong = solved.given.is_brine and solved.brine_g < solved.setting.water_g
    if too_strong or solved.nitrate_g < 0:
        add_no_solution(solved.given, log)
        return
    _judge_nitrate(solved, result, log)
    _judge_nitrite(solved, result, entered, tables, log)
    _judge_accelerator(solved, result, tables, log)
    if solved.salt_g < 0 or solved.curing_salt_g < 0:
        _refuse_negative_salt(solved, log)
    _judge_saturation(solved, result, tables, log)
    _judge_pump(solved, result, log)


def _judge_nitrate(solved: Solved, result: CureResult, log: ProblemLog) -> None:
    given = solved.given
    pumped = given.pump_brine.curing_salt if given.pump_brine else None
    line = given.nitrate or given.curing_salt or pumped
    if not result.nitrate_ppm or line is None:
        return
    if given.cut == "belly":
        log.add(
            "nitrate-in-belly",
            line.position,
            "Nitrate is never allowed in belly (9 CFR 424.22(b)), and this cure brings some.",
            "Use a curing salt with nitrite alone.",
        )
    elif given.fish is not None and not given.fish_nitrate_ppm:
        log.add(
            "fish-nitrite",
            line.position,
            f"Nitrate is not allowed in {given.fish}: 21 CFR 172.170(a)(1) lists sablefish, salmon and shad.",
            "Leave it out and cure with salt alone, kept cold and cooked through.",
        )
    elif result.nitrate_limit_ppm is not None and result.nitrate_ppm > result.nitrate_limit_ppm:
        most_g = round_down(most_nitrate_g(solved, result.nitrate_limit_ppm), TENTH_G)
        log.add(
            "nitrate-above-limit",
            line.position,
            f"{show_decimal(result.nitrate_ppm, places=1)} ppm ingoing nitrate {BASIS[given.method]} is above "
            f"the limit of {show_decimal(result.nitrate_limit_ppm, places=0)} ppm for home cures "
            "(21 CFR 172.170(a)(2)).",
            f"At most {show_decimal(most_g, places=1)} g of it for this meat, or more meat, "
            "or nitrite alone, which works without months of waiting.",
        )


def _judge_nitrite(
    solved: Solved, result: CureResult, entered: Entered | None, tables: Tables, log: ProblemLog
) -> None:
    given, limit = solved.given, result.limit
    line = given.curing_salt or (given.pump_brine.curing_salt if given.pump_brine else None)
    if line is None or limit is None:
        return
    source = tables.sources[limit.source].citation.partition(",")[0]
    if _needle_is_above(solved, result, limit, source, log):
        return
    if given.pick_up is not None and result.pick_up_ppm is not None:
        if result.pick_up_ppm > limit.limit_ppm:
            basis = f"by a pick-up of {show_decimal(given.pick_up_percent or Fraction(0), places=1)} %"
            hint = ways_out_of_pick_up(solved.nitrite_case, given.pick_up, limit)
            log.add("above-limit", line.position, refusal(result.pick_up_ppm, limit, basis, source), hint)
        elif result.whole_system_ppm is not None and result.whole_system_ppm > limit.limit_ppm:
            _judge_short_cure(solved, result, entered, limit, source, log)
        return
    ppm = result.whole_system_ppm if given.is_brine else result.dry_ppm
    if ppm is not None and ppm > limit.limit_ppm:
        hint = ways_out(solved.nitrite_case, limit)
        log.add("above-limit", line.position, refusal(ppm, limit, BASIS[given.method], source), hint)


def _needle_is_above(
    solved: Solved, result: CureResult, limit: NitriteLimit, source: str, log: ProblemLog
) -> bool:
    """What the needle brings is in the meat at once: it is held against the limit by itself, too."""
    brine, pump = result.pump_brine, solved.given.pump_brine
    if brine is None or pump is None or pump.curing_salt is None:
        return False
    ppm = brine.nitrite_ppm / solved.given.lean_share
    if ppm <= limit.limit_ppm:
        return False
    most = round_down(brine.curing_salt_g * limit.limit_ppm / ppm * NEEDLE_ROOM, HUNDREDTH)
    log.add(
        "above-limit",
        pump.curing_salt.position,
        refusal(ppm, limit, "by the needle alone", source),
        f"At most {show_decimal(most, places=2)} g of curing salt in that pump brine, or pump less of it, "
        f"or write a target under `pump brine:`, curing salt: {show_decimal(limit.limit_ppm, places=0)} ppm or less.",
    )
    return True


def _judge_short_cure(
    solved: Solved,
    result: CureResult,
    entered: Entered | None,
    limit: NitriteLimit,
    source: str,
    log: ProblemLog,
) -> None:
    """A short cure whose brine would pass the limit when even: judged on the recipe's own last day."""
    given = solved.given
    assert given.curing_salt is not None
    worst = show_decimal(result.whole_system_ppm or Fraction(0), places=0)
    if entered is None:
        facts = {
            "the thickness of the thinnest piece": given.thickness_mm,
            "the days of the cure": given.days,
        }
        missing = [name for name, value in facts.items() if value is None]
        log.add(
            "short-cure-unknown",
            given.curing_salt.position,
            f"Left until even this brine would put {worst} ppm nitrite into the meat, and "
            f"{' and '.join(missing) or 'what enters in time'} is not known, so a short cure cannot be judged.",
            "Write `thickness:` (and `pieces: 1`, or `thinnest:`) under `meat:`, and the length of the cure stage. Or: "
            + ways_out(solved.nitrite_case, limit),
        )
    elif entered.at_last > limit.limit_ppm:
        hour = entered.last_hour_within(limit.limit_ppm)
        log.add(
            "short-cure-too-long",
            given.curing_salt.position,
            f"By its last day up to {show_decimal(entered.at_last, places=0)} ppm nitrite can have entered "
            f"(left until even {worst} ppm), above the limit of "
            f"{show_decimal(limit.limit_ppm, places=2)} ppm ({source}, {limit.locator}). "
            f"{last_time(hour)}.",
            f"Take the meat out by then, or mix a weaker brine. {ways_out(solved.nitrite_case, limit)}",
        )


def last_time(hours: int) -> str:
    """A last hour as the sentence a cook reads: in whole days where there are any."""
    days = hours // HOURS
    if days >= 1:
        return f"The last day allowed is day {days}"
    if hours >= 1:
        return f"The last day allowed is the first, and on it no more than {hours} h"
    return "No day is allowed: within the first hour more than the limit can have entered"


def _judge_accelerator(solved: Solved, result: CureResult, tables: Tables, log: ProblemLog) -> None:
    line = solved.given.accelerator
    if line is None or result.accelerator_ppm is None:
        return
    acid = "acid" in line.name.lower()
    key = "ascorbic_acid_limit_ppm" if acid or not line.name else "ascorbate_limit_ppm"
    if solved.given.cut == "belly" and not acid:
        key = "belly_ascorbate_ppm"
    limit = tables.constant(key)
    if result.accelerator_ppm > limit:
        log.add(
            "accelerator-above-limit",
            line.position,
            f"{show_decimal(result.accelerator_ppm, places=1)} ppm of {line.name or 'it'} is above the limit "
            f"of {show_decimal(limit, places=3)} ppm (9 CFR 424.21(c), 424.22(b)).",
            f"Write a target: {show_decimal(round_down(limit, TEN_G), places=0)} ppm or less.",
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
    if result.pump_g is None:
        return
    mixed = solved.brine_g if result.pump_brine is None else result.pump_brine.whole_g
    if result.pump_g <= mixed:
        return
    log.add(
        "pump-over-brine",
        solved.given.position,
        f"The pump takes {show_decimal(result.pump_g, places=0)} g, and the brine it comes from is "
        f"{show_decimal(mixed, places=0)} g.",
        "Mix more brine or pump less.",
    )
