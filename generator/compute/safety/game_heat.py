"""Wild game in, the box of 165 °F with its reasons out, or the refusal of a course that stays below it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts, MeatFact, is_wild, position_of
from generator.compute.safety.facts.heat import Heat, Reached, looks_finished, reached
from generator.compute.safety.facts.meats import game_group, is_ground, is_opened, wild_game_of
from generator.compute.safety.verdict import accepted, cannot_tell, contradict
from generator.compute.safety.words import at_least, both_scales
from generator.model.results import Caution
from generator.problems import Position, ProblemLog
from generator.tables import Tables
from generator.tables.heat import GameHazard

RULE, HIGH_RISK, TRICHINELLA = "wild-game-165", "high-risk-game-165", "trichinella"
CARRIERS = frozenset({"bear", "wild pig", "carnivore"})
"Groups that carry Trichinella. Source: CDC, Trichinellosis, prevention page, meats at risk."
DEER = "deer family"
ACCEPTED_F = Fraction(160)
"[degF] Source: NCHFP 2002, section 6.1.3, and the older line of the CDC; only for whole cuts of the deer family."
NOT_ACCEPTED = "Only 160 °F (72 °C) for whole, unpumped cuts of the deer family can be accepted."


def wild_game(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Every wild animal: 165 °F inside. A piece that is cooked later says so in its own box instead."""
    if not facts.wild or facts.recipe.eat_after_cooking:
        return []
    raw = wild_game_of(facts)
    because = _because(facts, raw, tables)
    found = reached(facts.recipe, tables.constant("wild_game_minimum_f"), tables)
    if not raw or found.heat is Heat.MET:  # components alone are judged by `uncooked-component`
        boxes = [box(RULE, because, tables)]
    elif found.heat is Heat.UNKNOWN:
        boxes = cannot_tell(RULE, f"{because}; no stage says how hot the middle gets", ("course",), tables)
    elif found.heat is Heat.RAW and not (is_danger(raw, tables) and looks_finished(facts.recipe)):
        boxes = cannot_tell(RULE, f"{because}; no stage says that it is cooked", ("course", "eat"), tables)
    else:
        boxes = _too_little(facts, raw, found, because, tables, log)
    return [_with_sources(one, hazards(facts, raw, tables)) for one in boxes]


def _too_little(
    facts: Facts, raw: Sequence[MeatFact], found: Reached, because: str, tables: Tables, log: ProblemLog
) -> list[Caution]:
    """Too little heat. Carriers of Trichinella that are cured, dried or smoked have an error of their own."""
    groups = {game_group(meat.animal) for meat in raw}
    danger = is_danger(raw, tables)
    slug = RULE
    if danger:
        slug = TRICHINELLA if groups & CARRIERS and looks_finished(facts.recipe) else HIGH_RISK
    acceptable = not danger and _may_accept(facts, raw, tables)
    if acceptable:
        because = (
            f"{because}; it is a whole, unpumped cut, cooked to {both_scales(found.inside_f or ACCEPTED_F)}"
        )
    minimum = tables.constant("wild_game_minimum_f")
    hint = (
        f"Write a stage that ends with: to {minimum} °F inside. Or `eat: after cooking`, and a dish cooks it."
    )
    return contradict(
        slug,
        facts,
        tables,
        log,
        position=_position(facts, raw, found),
        message=f"{_subject(raw)} {how_hot(found)}; wild game is cooked to {at_least(minimum)}.",
        hint=f"{hint} {NOT_ACCEPTED}" if accepted(RULE, facts) and not acceptable else hint,
        because=because,
        acceptable=acceptable,
    )


def is_danger(raw: Sequence[MeatFact], tables: Tables) -> bool:
    """True for bear, wild pig, flesh-eaters and wild birds."""
    return any(tables.heat.game[game_group(meat.animal)].is_danger for meat in raw)


def _may_accept(facts: Facts, raw: Sequence[MeatFact], tables: Tables) -> bool:
    """True where every piece is a whole, unpumped cut of the deer family, and it comes to 160 °F."""
    plain = all(is_plain_deer(meat, facts) for meat in raw)
    return plain and reached(facts.recipe, ACCEPTED_F, tables).heat is Heat.MET


def is_plain_deer(meat: MeatFact, facts: Facts) -> bool:
    """A whole cut of the deer family that nothing has opened."""
    recipe = facts.recipe
    return game_group(meat.animal) == DEER and not is_ground(meat, recipe) and not is_opened(meat, recipe)


def _subject(raw: Sequence[MeatFact]) -> str:
    titles = dict.fromkeys(meat.animal.title for meat in raw)
    return f"{' and '.join(titles)} {'is' if len(titles) == 1 else 'are'}"


def how_hot(found: Reached) -> str:
    """What a course does, in words behind `is` or `are`."""
    if found.inside_f is None:
        return "made ready to eat without any heat"
    if found.by_air:
        return f"heated in air of no more than {both_scales(found.inside_f)}"
    return f"heated only to {both_scales(found.inside_f)} inside"


def _position(facts: Facts, raw: Sequence[MeatFact], found: Reached) -> Position:
    if found.stage is not None:
        return facts.recipe.stages[found.stage].position
    return position_of(raw[0], facts)


def _because(facts: Facts, raw: Sequence[MeatFact], tables: Tables) -> str:
    """What is wild, and what each kind of it can carry."""
    parts = [" and ".join(meat.because for meat in facts.wild)]
    parts += [hazard.reason for hazard in hazards(facts, raw, tables)]
    if any(is_opened(meat, facts.recipe) for meat in raw):
        parts.append(
            "needle, blade or roll has brought what was outside into the middle, so the middle is measured"
        )
    return "; ".join(dict.fromkeys(parts))


def hazards(facts: Facts, raw: Sequence[MeatFact], tables: Tables) -> tuple[GameHazard, ...]:
    """Of the recipe's own game, then of the raw components it cooks; each reason once."""
    animals = [meat.animal for meat in raw]
    for component in facts.raw_components:
        meat = component.meat
        animal = tables.animal(meat.animal) if meat is not None else None
        if meat is not None and animal is not None and is_wild(animal, meat.source):
            animals.append(animal)
    groups = dict.fromkeys(game_group(animal) for animal in animals)
    found = (tables.heat.game[group] for group in groups if group in tables.heat.game)
    return tuple({hazard.reason: hazard for hazard in found}.values())


def _with_sources(caution: Caution, found: Sequence[GameHazard]) -> Caution:
    keys = [key for hazard in found for key in hazard.sources]
    return replace(caution, sources=tuple(dict.fromkeys((*caution.sources, *keys))))
