"""Wild game in, the box of 165 °F with its reasons out, or the refusal of a course that stays below it."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.acts import Told
from generator.compute.safety.facts.animals import found_in, meant
from generator.compute.safety.facts.gather import FISH, MeatFact, is_wild
from generator.compute.safety.facts.heat import Heat, Reached, looks_finished, reached
from generator.compute.safety.facts.meats import (
    DEER,
    game_group,
    game_hazards,
    is_ground,
    is_opened,
    wild_game_of,
)
from generator.compute.safety.facts.names import Mention, stems_in
from generator.compute.safety.facts.pieces import has_meat
from generator.compute.safety.facts.simmered import simmered_through
from generator.compute.safety.rules.canning import is_canned_as_tested
from generator.compute.safety.told import tells_cooler, tells_inside
from generator.compute.safety.words import at_least, both_scales, how_hot
from generator.model.published import CARRIERS, Animal
from generator.model.quantity import Dimension
from generator.model.recipe import Ingredient, Recipe, Stage
from generator.tables import Tables
from generator.tables.garden import spaced

GAME, TRICHINELLA, HIGH_RISK = "wild-game-165", "trichinella", "high-risk-game-165"
UNKNOWN = "unknown-animal-165"
UNTOLD = "no stage says that it comes to 165 °F (74 °C) inside"
ACCEPTED_F = Fraction(160)
"[degF] Source: NCHFP 2002, section 6.1.3, and the older line of the CDC; only for whole cuts of the deer family."
NOT_ACCEPTED = "Only 160 °F (72 °C) for whole, unpumped cuts of the deer family can be accepted."
OPENED = "needle, blade or roll has brought what was outside into the middle, so the middle is measured"
COOKED = frozenset({"cooked", "precooked", "leftover"})
DOUBTED = frozenset(
    {
        *(
            "half",
            "part",
            "partly",
            "barely",
            "lightly",
            "under",
            "not",
            "rare",
            "medium",
            "pink",
            "raw",
            "to",
        ),
        *("in", "with", "over", "on", "until", "till"),
    }
)
"""Words of a line that was cooked before, and of one of which that is not certain: cooked in fat is an order.
Source: words of the trade."""


def wild_game(case: Case) -> None:
    """Every wild animal: 165 °F inside. A piece that is cooked later says so in its own box instead.

    Of bear, wild pig and flesh-eaters less is DANGER, and so is what is not told; of birds only what is known to be less.
    """
    _named_game(case)
    wild = case.facts.wild
    if not wild or case.recipe.eat_after_cooking:
        return
    raw = wild_game_of(case.facts)
    if raw and all(map(_is_cooked, raw)):
        return
    if raw and is_canned_as_tested(case.facts, case.tables):
        return
    because, sources = _because(case, raw), _sources(case, GAME)
    found = reached(case.recipe, case.constant("wild_game_minimum_f"), case.tables)
    said = _said_hot(case, raw, found)
    if not raw or found.heat is Heat.MET:  # components alone are judged by `uncooked-component`
        case.box(GAME, because, *wild, sources=sources)
    elif said is not None:
        because += f"; the method says “{said.text.rstrip('.!')}”"
        case.box(GAME, because, *wild, said.cause(0), sources=sources)
    elif through := _through(case, raw, found):
        case.box(GAME, f"{because}; {through}", *wild, sources=sources)
    elif _is_untold(case, raw, found):
        _ask_heat(case, raw, found, because)
    else:
        _too_little(case, raw, found, because)


def _is_cooked(meat: MeatFact) -> bool:
    """Its line has it cooked before, and no word that doubts it."""
    words = set(spaced(meat.words).split())
    return meat.line is not None and bool(COOKED & words) and DOUBTED.isdisjoint(words)


def _through(case: Case, raw: Sequence[MeatFact], found: Reached) -> str:
    """By the length of its simmer, where nothing tells how hot it gets."""
    if found.heat is not Heat.UNKNOWN or tells_cooler(case, case.constant("wild_game_minimum_f")) is not None:
        return ""
    return simmered_through(case.facts, raw, case.tables)


def _is_untold(case: Case, raw: Sequence[MeatFact], found: Reached) -> bool:
    finished = _is_danger(raw, case.tables) and looks_finished(case.recipe)
    return found.heat is Heat.UNKNOWN or (found.heat is Heat.RAW and not finished)


def _said_hot(case: Case, raw: Sequence[MeatFact], found: Reached) -> Told | None:
    """A sentence that brings it to 165 °F, where no stage tells how hot it gets."""
    if not raw or not _is_untold(case, raw, found):
        return None
    return tells_inside(case, case.constant("wild_game_minimum_f"))


def _ask_heat(case: Case, raw: Sequence[MeatFact], found: Reached, because: str) -> None:
    slug = HIGH_RISK if any(game_group(meat.animal) in CARRIERS for meat in raw) else GAME
    is_heated = found.heat is Heat.UNKNOWN
    because += "; no stage says " + ("how hot the middle gets" if is_heated else "that it is cooked")
    missing = ("course",) if is_heated else ("course", "eat")
    cooler = tells_cooler(case, case.constant("wild_game_minimum_f")) if raw else None
    if cooler is not None:
        slug = HIGH_RISK if _is_danger(raw, case.tables) else slug
        because = f"{_because(case, raw)}; the method says “{cooler.text.rstrip('.!')}”"
        case.cannot_tell(
            slug, because, missing, *case.facts.wild, cooler.cause(0), sources=_sources(case, slug)
        )
        return
    judged, sources = _judged(case, found), _sources(case, slug)
    case.cannot_tell(slug, because, missing, *case.facts.wild, *judged, sources=sources)


def _too_little(case: Case, raw: Sequence[MeatFact], found: Reached, because: str) -> None:
    acceptable = not _is_danger(raw, case.tables) and _may_accept(case, raw)
    if acceptable:
        because += f"; it is a whole, unpumped cut, cooked to {both_scales(found.inside_f or ACCEPTED_F)}"
    slug, minimum = _forbids(case, raw), case.constant("wild_game_minimum_f")
    heated = how_hot(found.inside_f, by_air=found.by_air)
    case.refuse(
        slug,
        *_judged(case, found),
        *case.facts.wild,
        message=f"{_subject(raw)} {heated}; wild game is cooked to {at_least(minimum)}.",
        hint=f"Write a stage that ends with: to {minimum} °F inside. Or `eat: after cooking`, and a dish cooks it."
        + (f" {NOT_ACCEPTED}" if case.accepted(GAME) and not acceptable else ""),
        because=because,
        acceptable=acceptable,
        sources=_sources(case, slug),
    )


def _forbids(case: Case, raw: Sequence[MeatFact]) -> str:
    """Carriers of Trichinella that are cured, dried or smoked have an error of their own."""
    if not _is_danger(raw, case.tables):
        return GAME
    carried = any(game_group(meat.animal) in CARRIERS for meat in raw)
    return TRICHINELLA if carried and looks_finished(case.recipe) else HIGH_RISK


def _judged(case: Case, found: Reached) -> tuple[Stage, ...]:
    return () if found.stage is None else (case.stages[found.stage],)


def _is_danger(raw: Sequence[MeatFact], tables: Tables) -> bool:
    """True for bear, wild pig, flesh-eaters and wild birds."""
    return any(tables.heat.game[game_group(meat.animal)].is_danger for meat in raw)


def _may_accept(case: Case, raw: Sequence[MeatFact]) -> bool:
    """True where every piece is a whole, unpumped cut of the deer family, and it comes to 160 °F."""
    plain = all(_is_plain_deer(meat, case.recipe) for meat in raw)
    return plain and reached(case.recipe, ACCEPTED_F, case.tables).heat is Heat.MET


def _is_plain_deer(meat: MeatFact, recipe: Recipe) -> bool:
    return game_group(meat.animal) == DEER and not is_ground(meat, recipe) and not is_opened(meat, recipe)


def _subject(raw: Sequence[MeatFact]) -> str:
    titles = dict.fromkeys(meat.animal.title for meat in raw)
    return f"{' and '.join(titles)} {'is' if len(titles) == 1 else 'are'}"


def _because(case: Case, raw: Sequence[MeatFact]) -> str:
    """What is wild, and what each kind of it can carry."""
    reasons = [" and ".join(meat.because for meat in case.facts.wild)]
    reasons += [hazard.reason for hazard in game_hazards(case.facts, case.tables)]
    if any(is_opened(meat, case.recipe) for meat in raw):
        reasons.append(OPENED)
    return "; ".join(dict.fromkeys(reasons))


def _sources(case: Case, slug: str) -> tuple[str, ...]:
    """Those of the box, then those of what the animals carry."""
    carried = (key for hazard in game_hazards(case.facts, case.tables) for key in hazard.sources)
    return tuple(dict.fromkeys((*case.tables.cautions[slug].sources, *carried)))


def _named_game(case: Case) -> None:
    """Game that only a title, a tag or the method names. Cannot be told: whether it is eaten, where 165 °F is not told."""
    if case.recipe.eat_after_cooking or _is_hot_enough(case):
        return
    known = {meat.animal.key for meat in case.facts.meats} | {
        meat.animal for part in case.facts.parts for meat in part.meats
    }
    # The method calls the mallards of a line ducks: of a group that a line has, a sentence names no other animal.
    groups = {meat.animal.group for meat in case.facts.meats}
    for mention in case.facts.mentions:
        for animal in meant(mention.found, case.tables) if mention.found.kind == "animal" else ():
            if mention.where == "sentence" and animal.group in groups:
                continue
            if animal.key not in known and _is_eaten(case, mention) and _is_wild(case, animal, mention):
                known.add(animal.key)
                hazard = case.tables.heat.game[game_group(animal)]
                slug = HIGH_RISK if hazard.is_danger else GAME
                because = f"{mention.because}; {hazard.reason}; {UNTOLD}"
                case.cannot_tell(slug, because, ("ingredients", "course"), mention, sources=hazard.sources)


def _is_hot_enough(case: Case) -> bool:
    found = reached(case.recipe, case.constant("wild_game_minimum_f"), case.tables)
    return found.heat is Heat.MET


def _is_wild(case: Case, animal: Animal, mention: Mention) -> bool:
    said = case.tables.lexicon.wildness(mention.words)
    return animal.group not in FISH and is_wild(animal, said or None)


def _is_eaten(case: Case, mention: Mention) -> bool:
    """A sentence does something with it; a title calls its dish by it, or the recipe has no other meat and some cut."""
    if mention.where == "line":
        return False
    if mention.where == "sentence":
        return mention.is_said
    sets = case.tables.lexicon.sets
    behind = stems_in(mention.words[mention.found.end :])[:1]
    if behind and behind[0] in sets["cut"]:
        return True
    texts = (
        mention.words,
        *(line.name for line in case.recipe.ingredients),
        *(one.text for one in case.recipe.body.sentences),
    )
    has_cut = any(not sets["bare cut"].isdisjoint(stems_in(text)) for text in texts)
    return has_cut and not has_meat(case.facts)


def unknown_animal(case: Case) -> None:
    """A line of an animal without a row, with a cut or a weight. Met: 165 °F. Else it cannot be told what it needs."""
    if case.recipe.eat_after_cooking or _is_hot_enough(case):
        return
    for mention in case.facts.mentions:
        if mention.line is None or mention.found.kind != "animal" or meant(mention.found, case.tables):
            continue
        if mention.found in found_in(mention.line.name, case.tables) and _is_piece(case, mention.line):
            because = f"{mention.line.name} is an ingredient, an animal that is not known here, and {UNTOLD}"
            case.cannot_tell(UNKNOWN, because, ("course", "ingredients"), mention)


def _is_piece(case: Case, line: Ingredient) -> bool:
    weighed = line.quantity is not None and line.quantity.total(Dimension.WEIGHT) is not None
    return weighed or not case.tables.lexicon.sets["cut"].isdisjoint(
        stems_in(f"{line.name} {line.preparation}")
    )


RULES = (
    Rule(slugs=(GAME, TRICHINELLA, HIGH_RISK), look=wild_game),
    Rule(slugs=(UNKNOWN,), look=unknown_animal),
)
