"""A cure and what stands on the table (a pot, hot water, a salometer) in, its result with all that follows out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from generator.compute.cure.amounts import Scales
from generator.compute.cure.brine import at_temperature
from generator.compute.cure.case import CureInput
from generator.compute.cure.ice import PouredWater, share_ice
from generator.compute.cure.result import work_out_cure
from generator.compute.cure.vessel import Pot, fit_vessel, refuse_small_pot, water_that_fits
from generator.model.quantity import Temperature
from generator.model.results import CureForms, CureResult
from generator.model.shown import Shower, show_decimal
from generator.problems import OutOfRange, ProblemLog

SOME_WATER_G = Fraction(1000)
"Stands for the water while its own weight is looked for: the forms of a cure do not depend on it."


@dataclass(frozen=True, slots=True, kw_only=True)
class AtTable:
    """What is asked besides the cure itself; None and False are not asked."""

    pot_ml: Fraction | None = None
    heat: PouredWater | None = None
    salometer_f: Fraction | None = None
    "Temperature of the brine that a salometer is read in."
    skin_assumed: bool = False
    "Of a belly: nobody said whether its skin is on, and it was taken as off."


class CannotAsk(ValueError):
    """A temperature at which there is no water to pour, or no rule for a salometer."""


def work_out_at_table(given: CureInput, asked: AtTable, scales: Scales, shower: Shower) -> CureResult:
    """The cure, its water [g] from the pot where none is given; what does not fit empties the weights.

    Raises CannotAsk for temperatures that are out of range.
    """
    log = ProblemLog()
    _judge_table(given, asked, scales, log)
    pot = _pot(given, asked, scales)
    from_pot = pot is not None and given.water_g is None and given.to_make_ml is None
    if pot is not None and from_pot:
        refuse_small_pot(pot, log)
        forms = None if log.has_errors else _forms(given, scales, shower)
        if forms is not None:
            given = replace(given, water_g=water_that_fits(forms, given.batches, pot))
    result = work_out_cure(given, scales, shower)
    if pot is not None:
        result = replace(result, vessel=fit_vessel(result, pot, water_from_pot=from_pot, log=log))
    try:
        result = _with_readings(result, asked, scales, log)
    except OutOfRange as error:
        raise CannotAsk(str(error)) from error
    return _with_problems(result, log)


def _judge_table(given: CureInput, asked: AtTable, scales: Scales, log: ProblemLog) -> None:
    """What a recipe's own stages and meat tell elsewhere: a cold cure, and the skin of a belly."""
    warmest = Temperature(scales.tables.constant("cold_holding_maximum_f"), "F")
    if given.temperature_c is not None and given.temperature_c > warmest.celsius:
        log.add(
            "warm-cure",
            None,
            f"{show_decimal(given.temperature_c, places=1)} °C is too warm for a cure of raw meat.",
            "Cure at or below 40 °F / 4 °C (NCHFP 2002, section 6.1.3). More salt does not replace the cold.",
        )
    if asked.skin_assumed and given.cut == "belly" and given.has_nitrite:
        log.add(
            "skin-assumed",
            None,
            "A belly is counted without its skin (9 CFR 424.22(b)); this weight was taken as without it.",
            "With the skin on, say --skin on; without it, --skin off.",
        )


def _with_readings(result: CureResult, asked: AtTable, scales: Scales, log: ProblemLog) -> CureResult:
    if asked.heat is not None and result.water_g is not None:
        result = replace(result, ice=share_ice(result.water_g, asked.heat, scales.tables, log))
    if asked.salometer_f is not None and result.brine is not None:
        result = replace(result, brine=at_temperature(result.brine, asked.salometer_f, scales.tables))
    return result


def _pot(given: CureInput, asked: AtTable, scales: Scales) -> Pot | None:
    if asked.pot_ml is None or given.meat_g is None:
        return None
    share = given.pump_share if given.pump_brine is None else None
    pump_g = given.meat_g * share if share is not None else Fraction(0)
    return Pot(pot_ml=asked.pot_ml, meat_g=given.meat_g, pump_g=pump_g, tables=scales.tables)


def _forms(given: CureInput, scales: Scales, shower: Shower) -> CureForms | None:
    return work_out_cure(replace(given, water_g=SOME_WATER_G), scales, shower).forms


def _with_problems(result: CureResult, log: ProblemLog) -> CureResult:
    """Problems of the table added; that the water is not known is no news where the pot is too small for any."""
    if not log.has_errors:
        return replace(result, problems=(*result.problems, *log.sorted()))
    too_small = any(problem.slug == "pot-too-small" for problem in log)
    for problem in result.problems:
        if not (too_small and problem.slug == "water-unknown"):
            log.extend([problem])
    return replace(result, problems=log.sorted(), weigh=None, shown={}, dose=None)
