"""What lies in a sealed jar in; the tested time and pressure at the book's altitude, or a refusal, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.acid import Sour
from generator.compute.safety.facts.altitude import feet, height_shown
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.jar import Jar, jar_of
from generator.compute.safety.facts.jar_food import Tested
from generator.compute.safety.facts.pieces import Inside
from generator.compute.safety.words import sentence_start
from generator.model.shown import show_decimal
from generator.tables import Tables
from generator.tables.garden import CannerPressure

CURED, LOW_ACID, NO_TIME = "canning-cured", "canning", "canning-untested"
THICK = "canning-thick"

LARGEST_PINTS = Fraction(2)
"Source: USDA AIB 539, low-acid food: no time for jars larger than a quart."
WAY = "jar: pints, hot pack, 75 min at 11 lb on the dial gauge in the pressure canner"


def sealed_jar(case: Case) -> None:
    """Cured, brined, smoked or corned meat: no tested time; smoked fish has one. Other low-acid food: as tested."""
    jar = jar_of(case.facts, case.tables)
    if jar is None:
        return
    if jar.cured is not None and not _is_smoked_fish(jar):
        _refuse_cured(case, jar, jar.cured)
    elif jar.low_acid is not None:
        _judge(case, jar, jar.low_acid)


def _is_smoked_fish(jar: Jar) -> bool:
    return jar.time is not None and jar.time.title == "smoked fish"


def _refuse_cured(case: Case, jar: Jar, cured: Inside) -> None:
    case.refuse(
        CURED,
        jar.stage,
        cured.written,
        message=f"{sentence_start(cured.because)}, and is sealed in a jar. No canning time was tested for cured, "
        "brined or smoked meat.",
        hint="Freeze it instead (pack: in bags, then freeze), or can the meat fresh, without a cure.",
        because=cured.because,
        stage=jar.index,
    )


def _judge(case: Case, jar: Jar, low: Inside) -> None:
    """Low-acid food in a sealed jar: only in a pressure canner, for a tested time, at the pressure of the height."""
    if jar.thick is not None:
        thick = Inside(because=low.because, written=jar.thick.written)
        message = f"{sentence_start(jar.thick.because)}, and the heat does not get through."
        hint = "Leave it out of the jar, and thicken when the jar is opened."
        _refuse(case, jar, thick, message, hint, slug=THICK)
    elif jar.sour is Sour.UNTOLD and jar.method != "pressure canner" and not case.facts.meats:
        because = f"{low.because}, and whether the acid is enough for it is not told; no tested measures are known here"
        case.cannot_tell(LOW_ACID, because, ("ingredients",), low.written, stage=jar.index)
    elif jar.method == "water bath" or jar.is_only_packed:
        _refuse_unheated(case, jar, low)
    elif jar.time is None:
        because = f"{low.because}, and this book knows no tested time for it"
        # Before the method, not beside the jar: it is read before anything is bought.
        case.cannot_tell(NO_TIME, because, (), jar.stage, low.written)
    else:
        _judge_time(case, jar, low, jar.time)


def _refuse_unheated(case: Case, jar: Jar, low: Inside) -> None:
    why = "a water bath does not get hot enough"
    if jar.is_only_packed:
        why = "nothing heats the filled jars, which stand on a shelf"
    hint = f"Use a pressure canner ({WAY}); a pickle needs tested measures of vinegar of 5 %."
    _refuse(case, jar, low, f"{sentence_start(low.because)}, which is low in acid, and {why}.", hint)


def _judge_time(case: Case, jar: Jar, low: Inside, time: Tested) -> None:
    """Size, pack and minutes of the course held against the tested ones, then the pressure at the height."""
    contradiction = _against_table(jar, time) or _too_little_pressure(case.facts, jar, case.tables)
    if contradiction:
        _refuse(case, jar, low, *contradiction)
    else:
        _box(case, jar, low, time)


def _against_table(jar: Jar, time: Tested) -> tuple[str, str] | None:
    """What the course does otherwise than the table, and what to do."""
    given = jar.stage.minutes.low if jar.stage.minutes is not None else None
    shortest = time.minutes(jar.pints) if jar.pints is not None else time.pint_min
    if jar.pints is not None and jar.pints > LARGEST_PINTS:
        return f"No time was tested in jars larger than quarts: {_tested(time)}.", "Use quarts or pints."
    if jar.pints is not None and shortest is None:
        return f"No time was tested in quarts: {_tested(time)}.", "Use pints."
    if jar.stage.pack and jar.stage.pack not in time.packs:
        packs = " or ".join(f"{pack} pack" for pack in time.packs)
        return (
            f"It was tested in {packs} only, not {jar.stage.pack} pack.",
            f"Write {packs}, and fill the jars so.",
        )
    if given is not None and shortest is not None and given < shortest:
        return (
            f"{show_decimal(given, places=0)} min is too short: {_tested(time)}.",
            "Give it the tested time.",
        )
    return None


def _too_little_pressure(facts: Facts, jar: Jar, tables: Tables) -> tuple[str, str] | None:
    """Below what the height asks for; where gauge or height is not told, below what any of them asks for."""
    given, altitude = jar.stage.pounds, facts.config.altitude_m
    rows = [row for row in pressures(altitude, tables) if jar.stage.gauge in ("", row.canner)]
    if given is None or not rows or given >= min(row.pounds for row in rows):
        return None
    at = f" at {height_shown(altitude)}" if altitude is not None else ""
    needed = " or ".join(dict.fromkeys(f"{row.pounds} lb on a {row.canner}" for row in rows))
    return f"{show_decimal(given, places=1)} lb is too little{at}.", f"Write {needed}."


def _refuse(case: Case, jar: Jar, inside: Inside, message: str, hint: str, *, slug: str = LOW_ACID) -> None:
    case.refuse(
        slug,
        jar.stage,
        inside.written,
        message=message,
        hint=f"{hint} Or keep it in the fridge or the freezer.",
        because=inside.because,
        stage=jar.index,
    )


def _box(case: Case, jar: Jar, low: Inside, time: Tested) -> None:
    """Above the heights of the table no pressure is published, and the box says so."""
    told, altitude, untold = _tested(time), case.facts.config.altitude_m, _untold(jar)
    pressure = pressure_told(altitude, case.tables) if altitude is not None else None
    if altitude is None:
        told += "; the pressure goes by the altitude"
    elif pressure is None:
        told += f"; at {height_shown(altitude)} none is published: ask the extension office"
    else:
        told += f", at {pressure}"
    told += f"; not told: {', '.join(untold)}" if untold else ""
    told += f"; {time.untold}" if time.untold else ""
    missing = [
        *(["course"] if untold else []),
        *(["ingredients"] if time.untold else []),
        *(["altitude in book.yaml"] if altitude is None else []),
    ]
    # Where nothing is missing, this is the plain box.
    case.cannot_tell(LOW_ACID, told, missing, low.written, stage=jar.index)


def _untold(jar: Jar) -> list[str]:
    """What the stage must say before it is known that time and pressure are enough."""
    stage = jar.stage
    said = {
        "the canner": jar.method,
        "the size of the jar": jar.pints,
        "raw or hot pack": stage.pack,
        "the minutes": stage.minutes,
        "the pounds": stage.pounds,
        "dial or weighted gauge": stage.gauge,
    }
    return [what for what, one in said.items() if not one]


def is_canned_as_tested(facts: Facts, tables: Tables) -> bool:
    """All that was tested is told and kept to: some 240 °F for longer than any least temperature asks for."""
    jar = jar_of(facts, tables)
    if jar is None or jar.method != "pressure canner" or jar.time is None or jar.low_acid is None:
        return False
    if jar.thick is not None or jar.cured is not None or jar.time.untold or _untold(jar):
        return False
    altitude = facts.config.altitude_m
    at_height = altitude is not None and pressure_told(altitude, tables) is not None
    return (
        at_height and not _against_table(jar, jar.time) and _too_little_pressure(facts, jar, tables) is None
    )


def pressures(altitude_m: Fraction | None, tables: Tables) -> list[CannerPressure]:
    """The rows of both kinds of canner at a height; the lowest where none is told, nothing above 8,000 ft."""
    height = max(feet(altitude_m), Fraction(0)) if altitude_m is not None else Fraction(0)
    return [row for row in tables.garden.pressures if _is_in(height, row.above_ft, row.to_ft)]


def pressure_told(altitude_m: Fraction, tables: Tables) -> str | None:
    """Pounds on both kinds of canner at a height; None above 8,000 ft."""
    rows = pressures(altitude_m, tables)
    if not rows:
        return None
    pounds = " or ".join(f"{row.pounds} lb on a {row.canner}" for row in rows)
    return f"{pounds} at {height_shown(altitude_m)}"


def _is_in(height: Fraction, above: Fraction, to: Fraction) -> bool:
    return (above < height or above == height == 0) and height <= to


def _tested(time: Tested) -> str:
    quarts = f", {time.quart_min} min in quarts" if time.quart_min is not None else ", no quarts"
    soft = " by common advice" if time.is_from_memory else ""
    return f"{time.title}: {time.pint_min} min in pints{quarts}{soft}"


RULES = (Rule(slugs=(CURED, LOW_ACID, THICK, NO_TIME), look=sealed_jar),)
