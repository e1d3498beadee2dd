"""A recipe and its cure in, the facts that caution rules ask for out; derived here and nowhere else."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from generator.compute.safety.facts.acts import NOTHING_SAID, Words, words_of_recipe
from generator.compute.safety.facts.animals import animal_called, animal_in, animals_in, is_bare_cut
from generator.compute.safety.facts.names import Mention, mentions_in
from generator.compute.safety.facts.plants import PlantFact, plants_in
from generator.english.degrees import scale_of
from generator.model.book import Book, BookConfig
from generator.model.published import CARRIERS, Animal
from generator.model.recipe import Hole, Ingredient, Meat, Recipe, Stage
from generator.model.results import CureResult
from generator.tables import Tables
from generator.tables.garden import spaced

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
    mentions: tuple[Mention, ...] = ()
    "Names of animals, plants and fungi in its lines, title, tags and sentences."

    @property
    def holes(self) -> tuple[Hole, ...]:
        """Places of this recipe and of its components that are not read, and may hide what a rule asks."""
        return tuple(hole for one in (self.recipe, *self.parts) for hole in one.holes if hole.hides)

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
        words=_words(recipe, book, tables),
        mentions=mentions_in(recipe, tables, is_english=book.config.is_english),
    )


def _words(recipe: Recipe, book: Book, tables: Tables) -> Words:
    if not book.config.is_english:
        return NOTHING_SAID
    return words_of_recipe(recipe, tables.acts(), scale=scale_of(book.config.units))


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
    """The recipe's own, then those of its lines; a bare cut is of the animal that the recipe is called by."""
    found = [fact for meat in recipe.meats if (fact := _of_own(meat, recipe, tables)) is not None]
    for line in recipe.ingredients:
        meat = _of_line(line, recipe, tables) if line.link is None else None
        if meat is not None:
            found.append(meat)
    return found


def _of_own(meat: Meat, recipe: Recipe, tables: Tables) -> MeatFact | None:
    animal = tables.animal(meat.animal)
    if animal is None:
        return None
    because = f"{meat.name} is in the meat" if recipe.several_meats else f"the meat is {meat.name}"
    words = f"{meat.name}, {meat.preparation}" if meat.preparation else meat.name
    wild = is_wild(animal, meat.source)
    return MeatFact(animal=animal, is_wild=wild, words=words, because=because, written=meat)


def _of_line(line: Ingredient, recipe: Recipe, tables: Tables) -> MeatFact | None:
    words = f"{line.name}, {line.preparation}" if line.preparation else line.name
    animal, said = animal_in(line.name, tables, company=line.preparation), words
    because = f"{line.name} is an ingredient"
    if animal is None and is_bare_cut(line.name, tables):
        animal, said = animal_called(recipe, tables)
        because += f", and the recipe calls the animal “{said}”"
    if animal is None:
        return None
    wild = is_wild(animal, _source(animal, f"{words} {line.group}", recipe, tables))
    return MeatFact(animal=animal, is_wild=wild, words=words, because=because, written=line)


def _source(animal: Animal, words: str, recipe: Recipe, tables: Tables) -> str | None:
    """wild or farmed, by the words of the line, then by `meat:` or a title or tag that speaks of the same animal."""
    lexicon = tables.lexicon
    said = lexicon.wildness(words)
    for meat in recipe.meats if not said else ():
        if tables.animal(meat.animal) is animal:
            said = said or meat.source or ""
    for text in (recipe.name, *recipe.tags) if not said else ():
        if animal in animals_in(text, tables):
            said = said or lexicon.wildness(text)
    # Whatever feeds it, a pig that is called wild and a flesh-eater keep what they can carry.
    return None if said == "farmed" and animal.group in CARRIERS else said or None


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
            because = f"it uses {component.name}, to be eaten after cooking"
            for wild in _wild_meats(book, component, _meats(component, tables), tables):
                title = wild.title
                found.setdefault(title, WildMeat(title=title, because=because, written=use.line))
    return list(found.values())
