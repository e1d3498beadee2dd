"""Plants and fungi that a recipe names in; for each that poisons, by its class in poisons.csv, its box or refusal out.

A line, and a sentence that does something with it, name what is eaten; a title, a tag and a quoted passage cannot tell.
Plants with rules of their own keep them: here only what is said of those outside of the lines.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from fractions import Fraction

from generator.compute.safety.case import Case
from generator.compute.safety.facts.acts import minutes_in
from generator.compute.safety.facts.names import Mention, stems_in
from generator.compute.safety.facts.plants import plant_of
from generator.english import is_turned_down
from generator.model.recipe import Stage
from generator.model.shown import show_decimal
from generator.tables import Tables
from generator.tables.poisons import Poison

BY_CLASS = {
    **{"X": "poison-plant", "P": "poison-part", "T": "treat-first", "D": "advised-against"},
    **{
        "L": "small-amount",
        "K": "burns-skin",
        "look-alike": "deadly-look-alike",
        "ask": "one-name-two-plants",
    },
    **{"FX": "deadly-mushroom", "FG+": "grave-mushroom", "FG": "poison-mushroom", "FC": "raw-mushroom"},
    **{"FA": "mushroom-alcohol", "FL": "disputed-mushroom"},
}
"Slugs by class. What is only for babies (N) has a quiet line."
NEVER = ("pokeweed", "elder-leaf", "rhubarb-leaf")
NEVER_RULES = frozenset(NEVER)
OWN = (*NEVER, "elderberry", "fiddlehead", "morel", "wild-mushrooms", "ramps-lookalike")
"Rules of plants.csv that speak for their plants, the gravest first."
NEVER_FOOD = frozenset({"X", "FX", "FG+", "FG"})
LINES_ONLY = frozenset({"T", "FC", "L", "K", "FA", "FL"})
"Classes of which a title tells nothing: a kidney bean salad has its beans in a line."
STAGES = {
    "boil": frozenset({"boil", "simmer", "braise", "cook", "jar"}),
    "soak": frozenset({"soak", "rinse", "ferment"}),
    "fry": frozenset(
        {"fry", "brown", "boil", "simmer", "braise", "cook", "roast", "bake", "grill", "reheat", "jar"}
    ),
}
"Stages that do what a poison asks for. Source: words of the trade."
VERBS = {kind: f"{kind} word" for kind in STAGES}
"Sets of name_words.csv with the words of a sentence that do it."
TINS = frozenset({"can", "tin", "jar"})
"Vessels in which a food is bought cooked. Source: words of the trade."
NEVER_BOILS = "slow cooker"
"Its low setting may stay below the boil. Source: HAZ-131, which names it; that it is so of every cooker is from memory."
WORD = re.compile(r"[^\W\d_]+")
UNTOLD = ("ingredients",)


def tell_names(case: Case) -> None:
    """Everything that a recipe names of the rule's slugs, one box or refusal for each plant."""
    for (slug, key), found in _by_key(case).items():
        poison = case.tables.lexicon.poisons.get(key)
        cls = "X" if slug in NEVER else "" if slug in OWN or poison is None else poison.cls
        if slug in OWN:
            quiet = case.facts.plants_of(slug) or not _is_gathered(key, case.tables)
            found = [one for one in found if one.where != "line" and not quiet]
        elif cls in LINES_ONLY:
            found = [one for one in found if one.is_said]
        found = [one for one in found if one.is_food]
        if found:
            _judge(case, slug, cls, poison, found)


def _is_gathered(key: str, tables: Tables) -> bool:
    """Not the mushroom that is bought."""
    plant = plant_of(key, tables)
    return plant is not None and (plant.foraged == "always" or not NEVER_RULES.isdisjoint(plant.rules))


def _by_key(case: Case) -> dict[tuple[str, str], list[Mention]]:
    found: dict[tuple[str, str], list[Mention]] = {}
    for mention in case.facts.mentions:
        for key in mention.found.means if mention.found.kind != "animal" else ():
            slug = owner_of(key, case.tables)
            if slug in case.slugs:
                found.setdefault((slug, key), []).append(mention)
    return found


def owner_of(key: str, tables: Tables) -> str:
    """The slug that speaks for a plant or fungus, or nothing."""
    plant, poison = plant_of(key, tables), tables.lexicon.poisons.get(key)
    own = next((slug for slug in OWN if plant is not None and slug in plant.rules), "")
    return own or (BY_CLASS.get(poison.cls, "") if poison is not None else "")


def _judge(case: Case, slug: str, cls: str, poison: Poison | None, found: Sequence[Mention]) -> None:
    if cls in NEVER_FOOD:
        _never(case, slug, poison, found)
    elif not cls or cls in ("ask", "look-alike"):
        if poison is None or not _is_told_apart(case, poison, found):
            _ask(case, slug, poison, found)
    elif poison is not None:
        judge = {"P": _part, "D": _form, "T": _treated, "FC": _treated}.get(cls, _told)
        judge(case, slug, poison, found)


def _is_told_apart(case: Case, poison: Poison, found: Sequence[Mention]) -> bool:
    """A word beside the name says which plant it is, here or where the recipe names it again: three laurel leaves."""
    again = _all_words(case)
    both = (f"{one.named} {word}|{word} {one.named}".split("|") for one in found for word in poison.met)
    return _says(_words(found, case), poison.met) or any(_says(again, pair) for pair in both)


def _never(case: Case, slug: str, poison: Poison | None, found: Sequence[Mention]) -> None:
    """Met: named only to be ruled out. Not met: named as food. Cannot be told: named, and no more."""
    said = [one for one in found if one.is_said]
    if said:
        what = poison.says if poison is not None else case.tables.cautions[slug].title + "."
        case.refuse(
            slug,
            *said,
            *found,
            message=f"“{said[0].named}”: {what.rstrip('.')}.",
            hint="Take it out: nothing that a kitchen does makes it food.",
            because=_because(poison, said),
            sources=_sources(case, slug, poison),
        )
    else:
        _ask(case, slug, poison, found)


def _part(case: Case, slug: str, poison: Poison, found: Sequence[Mention]) -> None:
    """Met: the part that is food is written. Not met: another part is. Cannot be told: none is, or both are."""
    words = _words(found, case)
    met, unmet = _says(words, poison.met), _says(words, poison.unmet)
    if unmet and not met:
        _refuse(case, slug, poison, found, "this part of it is no food")
    elif met and not unmet:
        case.box(slug, _because(poison, found), *found, sources=_sources(case, slug, poison))
    else:
        _ask(case, slug, poison, found)


def _form(case: Case, slug: str, poison: Poison, found: Sequence[Mention]) -> None:
    """Met: the form that authorities allow is written. Not met: one they advise against. Cannot be told: neither."""
    words = _words(found, case)
    if _says(words, poison.unmet):
        _refuse(case, slug, poison, found, "authorities advise against it")
    elif not _says(words, poison.met) and not _says(_all_words(case), poison.met):
        _ask(case, slug, poison, found)


def _treated(case: Case, slug: str, poison: Poison, found: Sequence[Mention]) -> None:
    """Met: treated for as long as is published, or bought so. Not met: raw, or too short. Cannot be told: no time."""
    words = _words(found, case)
    if _says(words, poison.unmet) and not _says(words, poison.met):
        _refuse(case, slug, poison, found, "it is not eaten so")
        return
    if _says(words, poison.met) or case.recipe.eat_after_cooking:
        return
    done, stages = _minutes(case, poison.stage, poison.minutes)
    if done is None and not stages and case.stages and poison.stage:
        _refuse(case, slug, poison, found, "nothing in the course treats it")
    elif done is None or not poison.stage:
        _ask(case, slug, poison, found, stages)
    elif poison.minutes is not None and done < poison.minutes:
        if any(stage.minutes is None for stage in stages) or not done:
            _ask(case, slug, poison, found, stages)
        else:
            _refuse(case, slug, poison, found, f"treated for only {show_decimal(done, places=0)} min", stages)


def _told(case: Case, slug: str, poison: Poison, found: Sequence[Mention]) -> None:
    """A limit, a burn, a doubt, a drink: the box, whatever the recipe does; that the skin is covered is enough."""
    if poison.met and _says(_all_words(case), poison.met):
        return
    because = _because(poison, found)
    drinks = [line for line in case.recipe.ingredients if _is_drink(line.name, case)]
    if poison.cls == "FA" and drinks:
        because += f"; {drinks[0].name} is an ingredient"
    case.box(slug, because, *found, *drinks[: poison.cls == "FA"], sources=_sources(case, slug, poison))


def _is_drink(name: str, case: Case) -> bool:
    words = set(_stems(name).split())
    return bool(case.tables.lexicon.sets["drink word"] & words) and "vinegar" not in words


def _refuse(
    case: Case, slug: str, poison: Poison, found: Sequence[Mention], why: str, stages: Sequence[Stage] = ()
) -> None:
    """An error where a line names it; a sentence alone makes the box."""
    lines = [one for one in found if one.where == "line"]
    because = f"{_because(poison, found)}; {why}"
    if not lines:
        case.told(slug, because, *found, *stages)
        return
    advice = case.tables.cautions[slug].text.partition(". ")[0].rstrip(".")
    case.refuse(
        slug,
        *lines,
        *found,
        *stages,
        message=f"“{lines[0].named}”: {why}. {poison.says}",
        hint=f"{advice}.",
        because=because,
        sources=_sources(case, slug, poison),
    )


def _ask(
    case: Case, slug: str, poison: Poison | None, found: Sequence[Mention], stages: Sequence[Stage] = ()
) -> None:
    missing = ("course",) if stages else UNTOLD
    sources = _sources(case, slug, poison)
    case.cannot_tell(slug, _because(poison, found), missing, *found, *stages, sources=sources)


def _because(poison: Poison | None, found: Sequence[Mention]) -> str:
    """Where it is named, and what is known of it."""
    where = "; ".join(dict.fromkeys(one.because for one in found))
    return f"{where}; {poison.says.rstrip('.')}" if poison is not None else where


def _sources(case: Case, slug: str, poison: Poison | None) -> tuple[str, ...]:
    own = poison.sources if poison is not None else ()
    return tuple(dict.fromkeys((*case.tables.cautions[slug].sources, *own)))


def _minutes(case: Case, kind: str, needed: Fraction | None) -> tuple[Fraction | None, list[Stage]]:
    """Minutes of a treatment that are certain, and its stages; None: nothing does it, or no time is told."""
    stages = [
        stage for stage in case.stages if stage.name in STAGES.get(kind, ()) and not _is_lukewarm(stage, kind)
    ]
    verbs = case.tables.lexicon.sets[VERBS[kind]] if kind else frozenset()
    told = [stage.minutes.low for stage in stages if stage.minutes is not None]
    for one in case.facts.words.told:
        if one.kind == "sentence" and not one.is_quoted and _tells(one.text, verbs, kind):
            told += minutes_in(one.text) or ([] if stages or (case.stages and needed) else [Fraction(0)])
    return (sum(told, Fraction(0)) if told else None), stages


def _is_lukewarm(stage: Stage, kind: str) -> bool:
    """What stands for hours below the boil is not boiled, however long it stands."""
    return kind == "boil" and stage.place == NEVER_BOILS and stage.name != "boil"


def _tells(text: str, verbs: Collection[str], kind: str) -> bool:
    """That a sentence does it: one of the verbs, which nothing turns down, and no vessel that keeps below the boil."""
    if kind == "boil" and _says(_stems(text), (NEVER_BOILS,)):
        return False
    words = (one for one in WORD.finditer(text) if not set(_stems(one.group()).split()).isdisjoint(verbs))
    return any(not is_turned_down(text, one.start(), one.end()) for one in words)


def _words(found: Sequence[Mention], case: Case) -> str:
    """What is said beside the name: the lines where there are any, else the sentences and titles."""
    lines = [f"{one.words} canned" if _is_tinned(one) else one.words for one in found if one.where == "line"]
    return _stems(" . ".join(lines or [one.words for one in found]))


def _is_tinned(one: Mention) -> bool:
    """By the vessel that is counted: 1 can bamboo shoots."""
    quantity = one.line.quantity if one.line is not None else None
    return quantity is not None and not TINS.isdisjoint(stems_in(quantity.written))


def _all_words(case: Case) -> str:
    recipe = case.recipe
    lines = [line.written for line in recipe.ingredients]
    return _stems(
        " . ".join((recipe.name, recipe.summary, *lines, *(one.text for one in recipe.body.sentences)))
    )


def _says(stems: str, words: Collection[str]) -> bool:
    return any(f" {_stems(word)} " in f" {stems} " for word in words)


def _stems(text: str) -> str:
    return " ".join(stems_in(text))
