"""What lies in a sealed jar in; the tested time and pressure at the book's altitude, or a refusal, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.altitude import feet, height_shown
from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.jar import Jar, jar_of
from generator.compute.safety.verdict import cannot_tell, contradict
from generator.compute.safety.words import sentence_start
from generator.model.results import Caution
from generator.model.shown import show_decimal
from generator.problems import ProblemLog
from generator.tables import Tables
from generator.tables.garden import CanningTime

HIGHEST_FT = Fraction(8000)
"Source: USDA AIB 539, table of pressures: above 8,000 ft it gives none."
NO_TIME = "canning-untested"


def cured_in_jar(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Cured, brined, smoked or corned meat in a sealed jar: no tested time. Smoked fish has one."""
    jar = jar_of(facts, tables)
    if jar is None or not jar.cured or jar.food == "smoked fish":
        return []
    return contradict(
        "canning-cured",
        facts,
        tables,
        log,
        position=jar.stage.position,
        message=f"{sentence_start(jar.cured)}, and is sealed in a jar. No canning time was tested for cured, brined or "
        "smoked meat.",
        hint="Freeze it instead (pack: in bags, then freeze), or can the meat fresh, without a cure.",
        because=jar.cured,
        stage=jar.index,
    )


def canning(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Low-acid food in a sealed jar: only in a pressure canner, for a tested time, at the pressure of the height."""
    jar = jar_of(facts, tables)
    if jar is None or not jar.low_acid or (jar.cured and jar.food != "smoked fish"):
        return []
    if jar.thickener:
        return _refuse(
            facts,
            jar,
            f"'{jar.thickener}' thickens what is canned, and the heat does not get through.",
            "Leave it out of the jar, and add it when the jar is opened.",
            tables,
            log,
        )
    if jar.method == "water bath":
        return _refuse(
            facts,
            jar,
            f"{sentence_start(jar.low_acid)}, which is low in acid, and a water bath does not get hot enough.",
            "Use a pressure canner (jar: 75 min in the pressure canner); vegetables in vinegar have a stage `pickle`.",
            tables,
            log,
        )
    time = tables.garden.canning.get(jar.food)
    if time is None:
        return cannot_tell(NO_TIME, f"{jar.low_acid}, and this book knows no tested time for it", (), tables)
    return _timed(facts, jar, time, tables, log)


def _timed(facts: Facts, jar: Jar, time: CanningTime, tables: Tables, log: ProblemLog) -> list[Caution]:
    """The minutes of the course held against the tested ones, then the pressure at the height."""
    told = _told(time)
    asked = {"pint": time.pint_min, "quart": time.quart_min}.get(jar.size, time.quart_min or time.pint_min)
    given = jar.stage.minutes.low if jar.stage.minutes is not None else None
    if jar.size == "quart" and time.quart_min is None:
        return _refuse(facts, jar, f"No time was tested in quarts: {told}.", "Use pints.", tables, log)
    shortest = time.pint_min if jar.size != "quart" else asked
    if given is not None and shortest is not None and given < shortest:
        message = f"{show_decimal(given, places=0)} min is too short: {told}."
        return _refuse(facts, jar, message, "Give it the tested time.", tables, log)
    missing = []
    if given is None or not jar.method:
        missing.append("course")
    if given is not None and asked is not None and given < asked:
        missing.append("makes")
    if facts.config.altitude_m is None:
        missing.append("altitude in book.yaml")
        return cannot_tell(
            "canning", f"{told}; the pressure goes by the altitude", missing, tables, stage=jar.index
        )
    pressure = pressure_told(facts.config.altitude_m, tables)
    if pressure is None:
        because = (
            f"{told}; at {height_shown(facts.config.altitude_m)} none is published: ask the extension office"
        )
        return cannot_tell("canning", because, missing, tables, stage=jar.index)
    because = f"{told}, at {pressure}"
    if missing:
        return cannot_tell("canning", because, missing, tables, stage=jar.index)
    return [box("canning", because, tables, stage=jar.index)]


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


def _told(time: CanningTime) -> str:
    quarts = f", {time.quart_min} min in quarts" if time.quart_min is not None else ", no quarts"
    soft = " by common advice" if time.certainty == "from memory" else ""
    return f"{time.title}: {time.pint_min} min in pints{quarts}{soft}"


def _refuse(
    facts: Facts, jar: Jar, message: str, hint: str, tables: Tables, log: ProblemLog
) -> list[Caution]:
    return contradict(
        "canning",
        facts,
        tables,
        log,
        position=jar.stage.position,
        message=message,
        hint=f"{hint} Or keep it in the fridge or the freezer.",
        because=jar.low_acid,
        stage=jar.index,
    )
