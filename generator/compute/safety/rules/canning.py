"""What lies in a sealed jar in; the tested time and pressure at the book's altitude, or a refusal, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.altitude import feet, height_shown
from generator.compute.safety.facts.jar import Jar, jar_of
from generator.compute.safety.facts.pieces import Inside
from generator.compute.safety.words import sentence_start
from generator.model.shown import show_decimal
from generator.tables import Tables
from generator.tables.garden import CanningTime

CURED, LOW_ACID, NO_TIME = "canning-cured", "canning", "canning-untested"

HIGHEST_FT = Fraction(8000)
"Source: USDA AIB 539, table of pressures: above 8,000 ft it gives none."


def sealed_jar(case: Case) -> None:
    """Cured, brined, smoked or corned meat: no tested time; smoked fish has one. Other low-acid food: as tested."""
    jar = jar_of(case.facts, case.tables)
    if jar is None:
        return
    if jar.cured is not None and jar.food != "smoked fish":
        _refuse_cured(case, jar, jar.cured)
    elif jar.low_acid is not None:
        _judge(case, jar, jar.low_acid)


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
    time = case.tables.garden.canning.get(jar.food)
    if jar.thickener is not None:
        thick = Inside(because=low.because, written=jar.thickener)
        message = f"'{jar.thickener.name}' thickens what is canned, and the heat does not get through."
        _refuse(case, jar, thick, message, "Leave it out of the jar, and add it when the jar is opened.")
    elif jar.method == "water bath":
        _refuse(
            case,
            jar,
            low,
            f"{sentence_start(low.because)}, which is low in acid, and a water bath does not get hot enough.",
            "Use a pressure canner (jar: 75 min in the pressure canner); vegetables in vinegar have a stage `pickle`.",
        )
    elif time is None:
        because = f"{low.because}, and this book knows no tested time for it"
        # Before the method, not beside the jar: it is read before anything is bought.
        case.cannot_tell(NO_TIME, because, (), jar.stage, low.written)
    else:
        _judge_time(case, jar, low, time)


def _judge_time(case: Case, jar: Jar, low: Inside, time: CanningTime) -> None:
    """The minutes of the course held against the tested ones, then the pressure at the height."""
    shortest = time.quart_min if jar.size == "quart" else time.pint_min
    given = jar.stage.minutes.low if jar.stage.minutes is not None else None
    if shortest is None and jar.size == "quart":
        _refuse(case, jar, low, f"No time was tested in quarts: {_tested(time)}.", "Use pints.")
    elif given is not None and shortest is not None and given < shortest:
        message = f"{show_decimal(given, places=0)} min is too short: {_tested(time)}."
        _refuse(case, jar, low, message, "Give it the tested time.")
    else:
        _box(case, jar, low, time)


def _refuse(case: Case, jar: Jar, inside: Inside, message: str, hint: str) -> None:
    case.refuse(
        LOW_ACID,
        jar.stage,
        inside.written,
        message=message,
        hint=f"{hint} Or keep it in the fridge or the freezer.",
        because=inside.because,
        stage=jar.index,
    )


def _box(case: Case, jar: Jar, low: Inside, time: CanningTime) -> None:
    """Above the heights of the table no pressure is published, and the box says so."""
    told, altitude, missing = _tested(time), case.facts.config.altitude_m, _missing(case, jar, time)
    pressure = pressure_told(altitude, case.tables) if altitude is not None else None
    if altitude is None:
        told += "; the pressure goes by the altitude"
    elif pressure is None:
        told += f"; at {height_shown(altitude)} none is published: ask the extension office"
    else:
        told += f", at {pressure}"
    # Where nothing is missing, this is the plain box.
    case.cannot_tell(LOW_ACID, told, missing, low.written, stage=jar.index)


def _missing(case: Case, jar: Jar, time: CanningTime) -> list[str]:
    """What must be told before it is known that the time is long enough, and at what pressure."""
    by_size = {"pint": time.pint_min, "quart": time.quart_min}
    asked = by_size.get(jar.size, time.quart_min or time.pint_min)
    given = jar.stage.minutes.low if jar.stage.minutes is not None else None
    unsized = given is not None and asked is not None and given < asked
    return [
        *(["course"] if given is None or not jar.method else []),
        *(["makes"] if unsized else []),
        *(["altitude in book.yaml"] if case.facts.config.altitude_m is None else []),
    ]


def pressure_told(altitude_m: Fraction, tables: Tables) -> str | None:
    """Pounds on both kinds of canner at a height; None above 8,000 ft."""
    height = max(feet(altitude_m), Fraction(0))
    if height > HIGHEST_FT:
        return None
    rows = [row for row in tables.garden.pressures if _is_in(height, row.above_ft, row.to_ft)]
    pounds = " or ".join(f"{row.pounds} lb on a {row.canner}" for row in rows)
    return f"{pounds} at {height_shown(altitude_m)}"


def _is_in(height: Fraction, above: Fraction, to: Fraction) -> bool:
    return (above < height or above == height == 0) and height <= to


def _tested(time: CanningTime) -> str:
    quarts = f", {time.quart_min} min in quarts" if time.quart_min is not None else ", no quarts"
    soft = " by common advice" if time.certainty == "from memory" else ""
    return f"{time.title}: {time.pint_min} min in pints{quarts}{soft}"


RULES = (Rule(slugs=(CURED, LOW_ACID, NO_TIME), look=sealed_jar),)
