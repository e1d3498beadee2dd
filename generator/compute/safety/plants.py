"""Plants that an ingredient line names in; boxes and refusals for those that poison, or that poison raw, out."""

from __future__ import annotations

from collections.abc import Collection
from fractions import Fraction

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.plants import PlantFact
from generator.compute.safety.verdict import cannot_tell, contradict
from generator.model.recipe import Recipe, Stage
from generator.model.results import Caution
from generator.model.shown import show_decimal
from generator.problems import ProblemLog
from generator.tables import Tables
from generator.tables.garden import spaced

BOILS = ("boil", "simmer", "braise", "cook", "bake")
"Stages that bring fruit to the boil. Source: words of the trade; a pie bubbles."
BOILING_AIR_F = Fraction(180)
"A stage that says it is colder than this [degF] does not boil. Source: house choice, a boil at 10,000 ft is 193.8."
ELDERBERRY_MIN = Fraction(20)
"Source: 20 to 30 minutes for elderberry syrup, a physician's page (second-hand); no agency's figure was found."
FIDDLEHEAD_BOIL_MIN = Fraction(15)
"Source: Health Canada, Information Update 2006-42."
FIDDLEHEAD_STEAM_MIN = Fraction(12)
"Source: Health Canada, Information Update 2006-42: 10 to 12, the longer is taken."
NETTLE_MIN = Fraction(5)
"Source: a wildflower flora citing Crowhurst 1972 (second-hand, weak)."
RAW = ("raw", "uncooked")
"Words of a line that say the plant is not heated. Source: house choice."
NEVER = ("pokeweed", "elder-leaf", "rhubarb-leaf")
"Never eaten, whatever is done to them: each an error always."


def never_eaten(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Pokeweed, elder leaves and bark, rhubarb leaves: boiling does not help."""
    found = []
    for fact in facts.plants:
        for slug in NEVER:
            if fact.has(slug):
                found += contradict(
                    slug,
                    facts,
                    tables,
                    log,
                    position=fact.line.position,
                    message=f"'{fact.line.name}': this poisons, and no cooking makes it safe to eat.",
                    hint="Take the line out of the recipe.",
                    because=fact.because,
                )
    return found


def elderberry(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Met: boiled for at least 20 minutes. Not met: shorter, or raw. Cannot be told: no length is given."""
    found = []
    for fact in plants_of(facts, "elderberry"):
        stages = [stage for stage in facts.recipe.stages if stage.name in BOILS and _is_hot(stage)]
        minutes = sum((stage.minutes.low for stage in stages if stage.minutes), Fraction(0))
        if minutes >= ELDERBERRY_MIN and not is_raw(fact):
            found.append(box("elderberry", f"{fact.because}, boiled {_min(minutes)}", tables))
        elif facts.recipe.eat_after_cooking:
            found.append(box("elderberry", f"{fact.because}, not yet boiled", tables))
        elif is_raw(fact) or all(stage.minutes for stage in stages):
            found += _not_boiled(fact, minutes, facts, tables, log)
        else:
            because = f"{fact.because}, and the course does not say how long it boils"
            found += cannot_tell("elderberry", because, ("course",), tables)
    return found


def _not_boiled(
    fact: PlantFact, minutes: Fraction, facts: Facts, tables: Tables, log: ProblemLog
) -> list[Caution]:
    how = f"boiled for only {_min(minutes)}" if minutes and not is_raw(fact) else "raw"
    return contradict(
        "elderberry",
        facts,
        tables,
        log,
        position=fact.line.position,
        message=f"'{fact.line.name}': {how}. Raw elderberries poison.",
        hint=f"Boil them, and write it in the course: boil: {_min(ELDERBERRY_MIN)} in the pot.",
        because=f"{fact.because}, {how}",
    )


def fiddlehead(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Met: boiled for 15 minutes, or steamed for 12. Frying, baking or pickling alone does not do."""
    found = []
    for fact in plants_of(facts, "fiddlehead"):
        boils = [stage for stage in facts.recipe.stages if stage.name == "boil"]
        if facts.recipe.eat_after_cooking:
            found.append(box("fiddlehead", f"{fact.because}, not yet cooked", tables))
        elif not is_raw(fact) and any(_boils_fiddleheads(stage) for stage in facts.recipe.stages):
            found.append(box("fiddlehead", fact.because, tables))
        elif not is_raw(fact) and any(stage.minutes is None for stage in boils):
            because = f"{fact.because}, and the course does not say how long it boils"
            found += cannot_tell("fiddlehead", because, ("course",), tables)
        else:
            found += contradict(
                "fiddlehead",
                facts,
                tables,
                log,
                position=fact.line.position,
                message=f"'{fact.line.name}': not boiled for {_min(FIDDLEHEAD_BOIL_MIN)} first.",
                hint="Boil them before anything else and pour that water away: boil: 15 min in the pot.",
                because=f"{fact.because}, not boiled for {_min(FIDDLEHEAD_BOIL_MIN)}",
            )
    return found


def _boils_fiddleheads(stage: Stage) -> bool:
    if stage.minutes is None:
        return False
    if stage.name == "cook" and "steam" in stage.written.lower():
        return stage.minutes.low >= FIDDLEHEAD_STEAM_MIN
    return stage.name == "boil" and _is_hot(stage) and stage.minutes.low >= FIDDLEHEAD_BOIL_MIN


def look_alikes(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Ramps and wild garlic grow beside plants that kill and look like them. Nothing in a recipe can meet it."""
    found = plants_of(facts, "ramps-lookalike")
    return [box("ramps-lookalike", together(found), tables)] if found else []


def nettle(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """A CAUTION: with heat the sting goes; raw it stays; without a length it cannot be told."""
    found = plants_of(facts, "nettle")
    if not found:
        return []
    heated = [stage for stage in facts.recipe.stages if _heats(stage, tables)]
    because = together(found)
    if any(stage.minutes and stage.minutes.high >= NETTLE_MIN for stage in heated):
        return [box("nettle", because, tables)]
    if not heated:
        return [box("nettle", f"{because}, and nothing in the course heats that", tables)]
    if any(stage.minutes is None for stage in heated):
        return cannot_tell("nettle", f"{because}, and no heating says how long", ("course",), tables)
    return [box("nettle", f"{because}, heated for less than {_min(NETTLE_MIN)}", tables)]


def watercress(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Wild watercress: raw it may carry fluke; without a word of where it grew it is not spoken of."""
    found = [fact for fact in plants_of(facts, "watercress-fluke") if fact.is_foraged]
    if not found:
        return []
    if not any(_heats(stage, tables) for stage in facts.recipe.stages):
        return [box("watercress-fluke", f"{together(found)}, gathered wild and eaten raw", tables)]
    return [box("watercress-fluke", f"{together(found)}, gathered wild", tables)]


def foraged(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Once for all foraged plants and mushrooms of a recipe, with the book's own line for help."""
    found = [fact for fact in facts.plants if fact.is_foraged]
    if not found:
        return []
    help_line = f"; {facts.config.poison_help}" if facts.config.poison_help else ""
    return [box("foraged", f"{together(found)}{help_line}", tables)]


def plants_of(facts: Facts, rule: str) -> list[PlantFact]:
    """Those that a rule speaks of."""
    return [fact for fact in facts.plants if fact.has(rule)]


def together(found: Collection[PlantFact]) -> str:
    """Their reasons, each once."""
    return "; ".join(dict.fromkeys(fact.because for fact in found))


def is_raw(fact: PlantFact) -> bool:
    """True where the line says that it is not heated."""
    return bool(set(RAW).intersection(spaced(fact.words).split()))


def _is_hot(stage: Stage) -> bool:
    return stage.at is None or stage.at.low.fahrenheit >= BOILING_AIR_F


def _heats(stage: Stage, tables: Tables) -> bool:
    return tables.stages.get(stage.name, False) or stage.name == "blanch"


def _min(minutes: Fraction) -> str:
    return f"{show_decimal(minutes, places=0)} min"


def cooked_through(recipe: Recipe, tables: Tables) -> list[Stage]:
    """Stages that cook what lies in a pan or pot; smoke dries more than it cooks."""
    return [
        stage
        for stage in recipe.stages
        if (tables.stages.get(stage.name, False) and stage.name != "hot smoke") or stage.name == "brown"
    ]
