"""The name of a stage as its author writes it in; what it is, and what is asked where it has two meanings, out.

`smoke` is hot or cold, `can` needs its canner: a temperature or a place behind it decides, else both lines are told.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.model.quantity import Temperature, TemperatureRange
from generator.model.recipe import Stage
from generator.problems import nearest
from generator.read.grammar import Grammar
from generator.read.number import AmountError
from generator.tables.words import BY_HEAT

COLD_SMOKE_F, HOT_SMOKE_F = Fraction(90), Fraction(100)
"[degF] Up to the first smoke is cold, from the second on hot; between them nobody can tell. Source: house choice."
JAR = "jar"
UNDER_PRESSURE = "pressure canner"
"Only it has pounds of pressure. Source: words of the trade."
OPEN = {
    "salt": "Write cure: 5 days in the fridge where meat lies in salt, or soak: 1 h for vegetables drawn with salt.",
    "store": "Leave it out of the course, and write under keep: fridge: 4 days, freezer: 2 months or shelf: 1 year.",
    "keep": "Leave it out of the course, and write under keep: fridge: 4 days, freezer: 2 months or shelf: 1 year.",
    "steam can": "Write jar: pints, 75 min at 11 psi in the pressure canner, or jar: pints, 15 min in a water bath.",
}
"Words that are no stage by themselves, and what to write."


@dataclass(frozen=True, slots=True, kw_only=True)
class StageName:
    """What a stage is called, and what that is."""

    name: str
    "A name of the table of stages, or `smoke`."
    called: str = ""
    "The author's word, where it is another."
    place: str = ""


def read_stage_name(words: str, grammar: Grammar, *, alone: bool) -> StageName:
    """What a word for a stage means, or AmountError; `alone`: nothing stands behind it."""
    spelled = " ".join(words.lower().split())
    known = grammar.tables.stage_words
    found = known.get(spelled)
    if found is not None:
        called = "" if spelled == found.stage else spelled
        return StageName(name=found.stage, called=called, place=found.place)
    if spelled in OPEN:
        raise AmountError("unknown-stage", f"'{words}' is not a stage by itself.", OPEN[spelled], 0)
    begun = max((name for name in known if re.match(rf"{name}(?:: ?| )", spelled)), key=len, default="")
    if alone and begun:
        rest = words.strip()[len(begun) :].lstrip(": ")
        message = f"A colon and a space are missing behind '{begun}'."
        raise AmountError("unreadable-stage", message, f"Write {begun}: {rest}", len(begun))
    hint = nearest(spelled, known) or f"Known are {', '.join(grammar.tables.stages)}."
    raise AmountError("unknown-stage", f"'{words}' is not a stage.", hint, 0)


def smoke_by(at: TemperatureRange | None, inside: Temperature | None) -> str | None:
    """Which smoke it is by its temperatures; None where they leave it open."""
    if at is not None:
        high, low = at.high.fahrenheit, at.low.fahrenheit
        return "cold smoke" if high <= COLD_SMOKE_F else "hot smoke" if low >= HOT_SMOKE_F else None
    return "hot smoke" if inside is not None and inside.fahrenheit >= HOT_SMOKE_F else None


def settled(stage: Stage, text: str) -> Stage:
    """A stage whose name leaves something open, by what stands behind it; AmountError with both lines to write."""
    if stage.name == BY_HEAT:
        return _smoked(stage, text)
    if stage.name != JAR or stage.place or stage.called in ("", "jarred"):
        return stage
    if stage.pounds is None:
        raise _which_canner(stage, text)
    return replace(stage, place=UNDER_PRESSURE)


def _smoked(stage: Stage, text: str) -> Stage:
    name = smoke_by(stage.at, stage.inside)
    if name is not None:
        return replace(stage, name=name, called="")
    rest = "" if stage.at is not None or not text.strip() else f", {text.strip()}"
    warm = "" if stage.at is None else " These degrees are between the two."
    raise AmountError(
        "unreadable-stage",
        f"'{stage.title}' does not say whether the smoke is hot or cold.{warm}",
        f"Write hot smoke: at 180–200 °F{rest}; or cold smoke: at 70–80 °F{rest}; with your own temperature.",
        0,
    )


def _which_canner(stage: Stage, text: str) -> AmountError:
    told = f", {text.strip()}" if text.strip() else ""
    size = "" if stage.jar_size else "pints, "
    time = "" if stage.minutes is not None else "75 min "
    return AmountError(
        "unreadable-stage",
        f"'{stage.called}' does not say in which canner.",
        f"Write jar: {size}{time}at 11 psi in the pressure canner{told}; or jar: {size}{time}in a water bath{told}.",
        0,
    )
