"""A recipe and its cure in, the facts that caution rules ask for out; derived here and nowhere else."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from generator.compute.safety.facts.acts import NOTHING_SAID, Words, words_of_recipe
from generator.compute.safety.facts.plants import PlantFact, plants_in
from generator.model.book import Book, BookConfig
from generator.model.published import Animal
from generator.model.recipe import Ingredient, Meat, Recipe, Stage
from generator.model.results import CureResult
from generator.tables import Tables
from generator.tables.garden import spaced

FATS = frozenset({"fat", "lard", "tallow", "suet", "schmaltz", "dripping", "drippings", "oil"})
BOILED_OUT = frozenset({"stock", "broth", "bouillon", "gelatin", "gelatine", "sauce", "juice"})
BESIDES = frozenset({"egg", "eggs", "feather", "feathers", "casing", "casings"})
PLANTS = frozenset(
    {"mushroom", "mushrooms", "fungus", "woods", "grape", "grapes", "berry", "berries", "lettuce", "garlic"}
)
NOT_MEAT = FATS | BOILED_OUT | BESIDES | PLANTS
"Words that turn the name of an animal into something that is not a piece of its meat."

BEGINS_A_PHRASE = frozenset({"with", "for", "in", "from"})
"Words behind which a name speaks of something besides."

_COMPOUND = re.compile(r"\b(?:low|non|reduced)-fat\b|\bfat-free\b|\bcasing-on\b")
"Compounds of which the animal's word is no part."

FARMED = frozenset({"farmed", "farm-raised", "domestic", "store-bought"})
"Words of an ingredient line that say an animal was not wild."

FISH = frozenset({"fish", "shellfish"})
"Groups with cooking rules of their own; the rule for wild game does not speak of them."

FOR_BABIES = frozenset(
    {"baby food", "for babies", "for a baby", "for the baby", "for infants", "infant", "infants", "weaning"}
)
"Words of a name, summary or tag; a baby carrot is not meant. Source: house choice."


@dataclass(frozen=True, slots=True, kw_only=True)
class WildMeat:
    """Meat of a wild animal in a recipe, and what says so."""

    title: str
    "Name of the animal."
    because: str
    written: Ingredient | Meat
    "The recipe's own `meat:`, its line, or the line of the raw component that brings it."


@dataclass(frozen=True, slots=True, kw_only=True)
class MeatFact:
    """One piece of meat, fish or fowl in a recipe."""

    animal: Animal
    is_wild: bool
    words: str
    "What was written: the meat's name, or the name of the ingredient line with its preparation."
    because: str
    written: Ingredient | Meat
    "The line, or the recipe's own `meat:`."

    @property
    def line(self) -> Ingredient | None:
        """None for the recipe's own `meat:`."""
        return self.written if isinstance(self.written, Ingredient) else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """What the rules of this recipe can ask. None is not told."""

    recipe: Recipe
    cure: CureResult | None
    wild: tuple[WildMeat, ...]
    raw_components: tuple[Recipe, ...]
    "Components with `eat: after cooking` that this recipe uses by itself."
    heating: tuple[Stage, ...]
    "Stages that can bring the middle to a temperature, in order."
    meats: tuple[MeatFact, ...]
    "Every piece of meat, fish or fowl, the recipe's own first, then by ingredient line."
    config: BookConfig
    "What the whole book says once: deer-disease area, shot, altitude, accepted rules."
    plants: tuple[PlantFact, ...] = ()
    "Plants and fungi by ingredient line, and those of components that are not ready to eat."
    parts: tuple[Recipe, ...] = ()
    "Every component, those of components too, each once."
    brought_by: Mapping[str, Ingredient] = field(default_factory=dict)
    "The line of this recipe that brings in each of `parts`, by its slug."
    components: tuple[Recipe, ...] = ()
    "Components that this recipe uses by itself."
    used: tuple[tuple[Ingredient, Recipe], ...] = ()
    "The lines that use a component, each with it."
    words: Words = NOTHING_SAID
    "What its name, lines and sentences tell the cook to do."

    @property
    def inside_f(self) -> Fraction | None:
        """The highest inside temperature [degF] that any heating stage asks for, None where none does."""
        asked = [stage.inside.fahrenheit for stage in self.heating if stage.inside is not None]
        return max(asked) if asked else None

    @property
    def nitrite(self) -> bool:
        """True where a curing salt is used."""
        cure = self.recipe.cure
        if self.cure is None or cure is None:
            return False
        pump = self.cure.pump_brine
        pumped = pump is not None and pump.curing_salt_g > 0 and pump.kind.nitrite > 0
        return pumped or (cure.curing_salt is not None and self.cure.kind.nitrite > 0)

    def plants_of(self, rule: str) -> tuple[PlantFact, ...]:
        """The plants that the table sends to a rule."""
        return tuple(fact for fact in self.plants if fact.has(rule))

    @property
    def is_for_babies(self) -> bool:
        """By its name, summary or tags."""
        recipe = self.recipe
        words = "".join(map(spaced, (recipe.name, recipe.summary, *recipe.tags)))
        return any(f" {phrase} " in words for phrase in FOR_BABIES) or "baby" in recipe.tags

    def first_stage(self, name: str) -> int | None:
        """Index of the first stage of a name."""
        for index, stage in enumerate(self.recipe.stages):
            if stage.name == name:
                return index
        return None


def gather_facts(book: Book, recipe: Recipe, cure: CureResult | None, tables: Tables) -> Facts:
    """All facts of one recipe."""
    used = tuple((use.line, book.recipes[use.component]) for use in book.uses_of(recipe.slug))
    components = tuple(part for _, part in used)
    raw = tuple(part for part in components if part.eat_after_cooking)
    meats = _meats(recipe, tables)
    return Facts(
        recipe=recipe,
        cure=cure,
        wild=tuple(_wild_meats(book, recipe, meats, tables)),
        raw_components=raw,
        heating=tuple(stage for stage in recipe.stages if tables.stages.get(stage.name, False)),
        meats=tuple(meats),
        config=book.config,
        plants=tuple(plants_in(recipe, raw, tables)),
        parts=tuple(_parts(book, recipe).values()),
        brought_by=_brought_by(book, recipe),
        components=components,
        used=used,
        words=words_of_recipe(recipe, book.config.language, tables.acts()),
    )


def _parts(book: Book, recipe: Recipe) -> dict[str, Recipe]:
    """All components by slug; a resolved book has no cycle."""
    found: dict[str, Recipe] = {}
    for use in book.uses_of(recipe.slug):
        component = book.recipes[use.component]
        found |= {component.slug: component, **_parts(book, component)}
    return found


def _brought_by(book: Book, recipe: Recipe) -> dict[str, Ingredient]:
    """The first line for each, though several may bring it."""
    found: dict[str, Ingredient] = {}
    for use in book.uses_of(recipe.slug):
        for slug in (use.component, *_parts(book, book.recipes[use.component])):
            found.setdefault(slug, use.line)
    return found


def _meats(recipe: Recipe, tables: Tables) -> list[MeatFact]:
    found: list[MeatFact] = []
    own = tables.animal(recipe.meat.animal) if recipe.meat is not None else None
    if recipe.meat is not None and own is not None:
        wild, name = is_wild(own, recipe.meat.source), recipe.meat.name
        because = f"the meat is {name}"
        found.append(MeatFact(animal=own, is_wild=wild, words=name, because=because, written=recipe.meat))
    for line in recipe.ingredients:
        animal = animal_in(line.name, tables) if line.link is None else None
        if animal is not None:
            words = f"{line.name}, {line.preparation}" if line.preparation else line.name
            because = f"{line.name} is an ingredient"
            wild = is_wild(animal, "farmed" if is_farmed(words) else None)
            found.append(MeatFact(animal=animal, is_wild=wild, words=words, because=because, written=line))
    return found


def is_wild(animal: Animal, source: str | None) -> bool:
    """By the source that is written, else by what the animal commonly is."""
    return animal.wild if source is None else source == "wild"


def _wild_meats(book: Book, recipe: Recipe, meats: Sequence[MeatFact], tables: Tables) -> list[WildMeat]:
    """The recipe's own meats in their order, then what its raw components are made of, however deep."""
    found: dict[str, WildMeat] = {}
    for meat in meats:
        if meat.is_wild and meat.animal.group not in FISH:
            title = meat.animal.title
            found.setdefault(title, WildMeat(title=title, because=meat.because, written=meat.written))
    for use in book.uses_of(recipe.slug):
        component = book.recipes[use.component]
        if component.eat_after_cooking:
            because = f"it uses {component.name}, not yet cooked"
            for wild in _wild_meats(book, component, _meats(component, tables), tables):
                title = wild.title
                found.setdefault(title, WildMeat(title=title, because=because, written=use.line))
    return list(found.values())


def is_farmed(words: str) -> bool:
    """True for a line that says so."""
    return not FARMED.isdisjoint(words.lower().replace(",", " ").split())


def animal_in(name: str, tables: Tables) -> Animal | None:
    """The animal whose meat an ingredient's name speaks of, by whole words, the longest name first.

    `duck fat` and `venison stock` are no meat of theirs, `low-fat elk mince` and `venison with pork fat` are: a word
    that says so counts only right behind the animal, or as the last word before `with`, `for` or `in`. What stands
    before an `and` is meat of its own in `bear and mushrooms`, and may not be in `duck and goose fat`.
    """
    words = re.sub(r"[-–]", " ", _COMPOUND.sub(" ", tables.garden.without_plants(name))).split()
    head = next((words[:at] for at, word in enumerate(words) if word in BEGINS_A_PHRASE and at), words)
    if head and head[-1] in NOT_MEAT:
        head = _before_and(head, tables)
    return _named(head, tables) if head else None


def _before_and(head: list[str], tables: Tables) -> list[str]:
    """The words before the last `and` that are meat, whatever is no meat behind it; none where they may share it."""
    end = len(head)
    for at in (at for at in range(len(head) - 1, 0, -1) if head[at] == "and"):
        last = head[at - 1]
        if last != "meat" and _speaks_of_animal(head[at + 1 : end], tables):
            return []
        if last not in NOT_MEAT:
            return head[:at]
        end = at
    return []


def _speaks_of_animal(words: list[str], tables: Tables) -> bool:
    padded = f" {' '.join(words)} "
    return any(f" {spelling.replace('-', ' ')} " in padded for spelling in tables.animal_spellings)


def _named(head: list[str], tables: Tables) -> Animal | None:
    padded = f" {' '.join(head)} "
    for spelling in tables.animal_spellings:
        at = padded.find(f" {spelling.replace('-', ' ')} ")
        if at >= 0:
            behind = padded[at + len(spelling) + 1 :].split()[:1]
            return None if behind and behind[0] in NOT_MEAT else tables.animal(spelling)
    return None
