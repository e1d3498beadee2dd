"""A solved cure in, every reason to give no weights out, each with what to do about it."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.cure.case import CureInput, Solved, nitrite_forms
from generator.compute.cure.guards import NO_SOLUTION
from generator.compute.cure.limits import TEN_G, least_meat, ways_out
from generator.compute.cure.short import HOURS, Entered
from generator.model.contract import Guard, up
from generator.model.form import Setting
from generator.model.published import NitriteLimit
from generator.model.reader import Reader
from generator.model.results import CureForms, CureResult
from generator.model.shown import Shower, show_decimal
from generator.problems import ProblemLog
from generator.tables import Tables


def facts_are_known(
    given: CureInput, forms: CureForms, limit: NitriteLimit | None, shower: Shower, log: ProblemLog
) -> bool:
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
        message, hint = _meat_missing(given, forms, limit, shower)
        log.add("meat-unknown", given.position, message, hint)
    return not log.has_errors


def _meat_missing(
    given: CureInput, forms: CureForms, limit: NitriteLimit | None, shower: Shower
) -> tuple[str, str]:
    """What is missing, and the least meat that the weights as written would fit."""
    message = "The weight of the meat is not known, so the ingoing nitrite cannot be worked out."
    hint = "Weigh the raw meat and write its green weight."
    by_amount = given.curing_salt is not None and given.curing_salt.amount is not None
    if limit is None or not by_amount or (given.is_brine and given.water_g is None):
        return message, hint
    water = given.water_g if given.water_g is not None else Fraction(0)
    setting = Setting(batches=given.batches, meat_g=Fraction(0), water_g=water)
    least = least_meat(nitrite_forms(given, forms, None), limit.limit_ppm)
    if least is None:
        return message, hint
    reader = Reader(setting=setting, shower=shower)
    grams = "0" if reader.value(least) < 0 else reader.text((up(least, TEN_G, 0),))
    return message, (
        f"{hint} As written it would fit no less than {grams} g of meat "
        f"(limit {show_decimal(limit.limit_ppm, places=2)} ppm, {limit.locator})."
    )


def add_no_solution(given: CureInput, log: ProblemLog) -> None:
    """The targets contradict each other: salt and sugar together would be more than the whole brine."""
    log.add("no-solution", given.position, *NO_SOLUTION)


def judge(
    solved: Solved,
    result: CureResult,
    entered: Entered | None,
    guards: tuple[Guard, ...],
    reader: Reader,
    tables: Tables,
    log: ProblemLog,
) -> None:
    """Every reason to give no weights goes to the log."""
    broken = reader.broken(guards)
    for guard in broken:
        log.add(guard.slug, guard.position, reader.text(guard.message), reader.text(guard.hint))
    if any(guard.stops or guard.group == "nitrite" for guard in broken):
        return
    limit, whole = result.limit, result.whole_system_ppm
    if (
        solved.given.pick_up is not None
        and limit is not None
        and whole is not None
        and whole > limit.limit_ppm
    ):
        others = reader.text(ways_out(nitrite_forms(solved.given, solved.forms, solved.needle), limit))
        _judge_short_cure(solved, result, entered, limit, others, tables, log)


def _judge_short_cure(
    solved: Solved,
    result: CureResult,
    entered: Entered | None,
    limit: NitriteLimit,
    others: str,
    tables: Tables,
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
            + others,
        )
    elif entered.at_last > limit.limit_ppm:
        hour = entered.last_hour_within(limit.limit_ppm)
        source = tables.sources[limit.source].citation.partition(",")[0]
        log.add(
            "short-cure-too-long",
            given.curing_salt.position,
            f"By its last day up to {show_decimal(entered.at_last, places=0)} ppm nitrite can have entered "
            f"(left until even {worst} ppm), above the limit of "
            f"{show_decimal(limit.limit_ppm, places=2)} ppm ({source}, {limit.locator}). "
            f"{last_time(hour)}.",
            f"Take the meat out by then, or mix a weaker brine. {others}",
        )


def last_time(hours: int) -> str:
    """A last hour as the sentence a cook reads: in whole days where there are any."""
    days = hours // HOURS
    if days >= 1:
        return f"The last day allowed is day {days}"
    if hours >= 1:
        return f"The last day allowed is the first, and on it no more than {hours} h"
    return "No day is allowed: within the first hour more than the limit can have entered"
