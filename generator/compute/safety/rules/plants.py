"""Plants that an ingredient line names in; boxes and refusals for those that poison, or that poison raw, out."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.plants import PlantFact, together
from generator.compute.safety.rules.named import named
from generator.model.recipe import Stage
from generator.model.shown import show_decimal
from generator.tables.garden import spaced

NEVER = ("pokeweed", "elder-leaf", "rhubarb-leaf")
"Never eaten, whatever is done to them: each an error always."
ELDERBERRY, FIDDLEHEAD = "elderberry", "fiddlehead"
NETTLE, WATERCRESS = "nettle", "watercress-fluke"
BOILS = ("boil", "simmer", "braise", "cook", "bake")
"Stages that bring fruit to the boil. Source: words of the trade; a pie bubbles."
BOILING_AIR_F = Fraction(180)
"A stage that says it is colder than this [degF] does not boil. Source: house choice, a boil at 10,000 ft is 193.8."
ELDERBERRY_MIN = Fraction(20)
"Source: 20 to 30 minutes for elderberry syrup, a physician's page (second-hand); no agency's figure was found."
STRIPPED = frozenset({"stripped", "destemmed", "stemmed", "stemless", "picked"})
NOT_STRIPPED = frozenset({"not", "un", "unstripped", "with", "and", "in"})
"Words of a line that has the berries off their stems, and of one that may not. Source: words of the trade."
FIDDLEHEAD_BOIL_MIN = Fraction(15)
"Source: Health Canada, Information Update 2006-42."
FIDDLEHEAD_STEAM_MIN = Fraction(12)
"Source: Health Canada, Information Update 2006-42: 10 to 12, the longer is taken."
NETTLE_MIN = Fraction(5)
"Source: a wildflower flora citing Crowhurst 1972 (second-hand, weak)."


def elderberry(case: Case) -> None:
    """Met: boiled for at least 20 minutes; no box where it is ripe and stripped too. Not met: shorter or raw. Else asked."""
    stages = [stage for stage in case.stages if stage.name in BOILS and _is_hot(stage)]
    # the least of what is written, over every boil: only a length that is certain counts
    minutes = sum((stage.minutes.low for stage in stages if stage.minutes), Fraction(0))
    for fact in case.facts.plants_of(ELDERBERRY):
        if minutes >= ELDERBERRY_MIN and not fact.is_raw:
            _boiled(case, fact, minutes, stages)
        elif case.recipe.eat_after_cooking:
            case.box(ELDERBERRY, f"{fact.because}, not yet boiled", fact)
        elif fact.is_raw or all(stage.minutes for stage in stages):
            _not_boiled(case, fact, minutes, stages)
        else:
            because = f"{fact.because}, and the course does not say how long it boils"
            case.cannot_tell(ELDERBERRY, because, ("course",), fact, *stages)


def _boiled(case: Case, fact: PlantFact, minutes: Fraction, stages: Sequence[Stage]) -> None:
    """Nothing is left to say of berries that are ripe and stripped."""
    if not _is_stripped(fact):
        case.box(ELDERBERRY, f"{fact.because}, boiled {_min(minutes)}", fact, *stages)


def _is_stripped(fact: PlantFact) -> bool:
    """Its line says all that is asked for beside the heat: ripe, and off every stem."""
    words = set(spaced(f"{fact.line.name} {fact.line.preparation}").split())
    return "ripe" in words and bool(STRIPPED & words) and NOT_STRIPPED.isdisjoint(words)


def _not_boiled(case: Case, fact: PlantFact, minutes: Fraction, stages: Iterable[Stage]) -> None:
    how = f"boiled for only {_min(minutes)}" if minutes and not fact.is_raw else "raw"
    case.refuse(
        ELDERBERRY,
        fact,
        *stages,
        message=f"'{fact.line.name}': {how}. Raw elderberries poison.",
        hint=f"Boil them, and write it in the course: boil: {_min(ELDERBERRY_MIN)} in the pot.",
        because=f"{fact.because}, {how}",
    )


def fiddlehead(case: Case) -> None:
    """Met: boiled for 15 minutes, or steamed for 12. Frying, baking or pickling alone does not do."""
    boils = [stage for stage in case.stages if stage.name == "boil"]
    enough = [stage for stage in case.stages if _boils_fiddleheads(stage)]
    for fact in case.facts.plants_of(FIDDLEHEAD):
        if case.recipe.eat_after_cooking:
            case.box(FIDDLEHEAD, f"{fact.because}, not yet cooked", fact)
        elif enough and not fact.is_raw:
            case.box(FIDDLEHEAD, fact.because, fact, *enough)
        elif not fact.is_raw and any(stage.minutes is None for stage in boils):
            because = f"{fact.because}, and the course does not say how long it boils"
            case.cannot_tell(FIDDLEHEAD, because, ("course",), fact, *boils)
        else:
            lacks = f"not boiled for {_min(FIDDLEHEAD_BOIL_MIN)}"
            case.refuse(
                FIDDLEHEAD,
                fact,
                *boils,
                message=f"'{fact.line.name}': {lacks} first.",
                hint="Boil them before anything else and pour that water away: boil: 15 min in the pot.",
                because=f"{fact.because}, {lacks}",
            )


def _boils_fiddleheads(stage: Stage) -> bool:
    if stage.minutes is None:
        return False
    if stage.name == "cook" and "steam" in stage.written.lower():
        return stage.minutes.low >= FIDDLEHEAD_STEAM_MIN
    return stage.name == "boil" and _is_hot(stage) and stage.minutes.low >= FIDDLEHEAD_BOIL_MIN


def nettle(case: Case) -> None:
    """A CAUTION: with heat the sting goes; raw it stays; without a length it cannot be told."""
    found, heated = case.facts.plants_of(NETTLE), _heating(case)
    if not found:
        return
    because = together(found)
    if any(stage.minutes and stage.minutes.high >= NETTLE_MIN for stage in heated):
        case.box(NETTLE, because, *found, *heated)
    elif not heated:
        case.box(NETTLE, f"{because}, and nothing in the course heats that", *found)
    elif any(stage.minutes is None for stage in heated):
        case.cannot_tell(NETTLE, f"{because}, and no heating says how long", ("course",), *found, *heated)
    else:
        case.box(NETTLE, f"{because}, heated for less than {_min(NETTLE_MIN)}", *found, *heated)


def watercress(case: Case) -> None:
    """Wild watercress: raw it may carry fluke; without a word of where it grew it is not spoken of."""
    found = [fact for fact in case.facts.plants_of(WATERCRESS) if fact.is_foraged]
    if found:
        raw = "" if _heating(case) else " and eaten raw"
        case.box(WATERCRESS, f"{together(found)}, gathered wild{raw}", *found)


def _heating(case: Case) -> list[Stage]:
    return [
        stage for stage in case.stages if case.tables.stages.get(stage.name, False) or stage.name == "blanch"
    ]


def _is_hot(stage: Stage) -> bool:
    return stage.at is None or stage.at.low.fahrenheit >= BOILING_AIR_F


def _min(minutes: Fraction) -> str:
    return f"{show_decimal(minutes, places=0)} min"


RULES = (
    Rule(slugs=NEVER, look=named),
    Rule(slugs=(ELDERBERRY,), look=elderberry),
    Rule(slugs=(FIDDLEHEAD,), look=fiddlehead),
    Rule(slugs=(NETTLE,), look=nettle),
    Rule(slugs=(WATERCRESS,), look=watercress),
)
