"""Ingredient lines in, the plants and fungi that they name out, each with what says so and whether it is foraged."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.compute.safety.facts.names import find_names
from generator.model.recipe import Ingredient, Recipe
from generator.tables import Tables
from generator.tables.garden import Plant, spaced

MADE_OF = frozenset(
    {"syrup", "jelly", "jam", "wine", "cordial", "liqueur", "vinegar", "stock", "broth", "salt"}
)
"Words that make of a plant a thing boiled or fermented before; juice may still be raw. Source: house choice."
SAID = ("wild", "foraged", "hedgerow", "gathered")
"Words of a line or a tag that say a plant was not grown or bought. Source: house choice."
TAGS = frozenset({"wild", "foraged", "foraging"})
RAW = frozenset({"raw", "uncooked"})
"Words of a line that say the plant is not heated. Source: house choice."


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantFact:
    """One plant or fungus in a recipe."""

    plant: Plant
    line: Ingredient
    words: str
    "Name and preparation of the line."
    because: str
    is_foraged: bool

    def has(self, rule: str) -> bool:
        """True where the table sends this plant to a rule."""
        return rule in self.plant.rules

    @property
    def is_raw(self) -> bool:
        """True where the line says that it is not heated."""
        return not RAW.isdisjoint(spaced(self.words).split())


def plants_in(recipe: Recipe, raw_components: Iterable[Recipe], tables: Tables) -> list[PlantFact]:
    """The plants of the recipe's own lines, then of components that are not ready to eat."""
    found = _of_lines(recipe, "", tables)
    for component in raw_components:
        found += _of_lines(component, f" in {component.name}, not yet cooked", tables)
    return found


def plant_in(name: str, tables: Tables, *, company: str = "") -> Plant | None:
    """The first plant or fungus that a name speaks of and that has a row in plants.csv."""
    found = (key for one in find_names(tables.lexicon, name, company) for key in one.means)
    return next((plant for key in found if (plant := plant_of(key, tables))), None)


def plant_of(key: str, tables: Tables) -> Plant | None:
    """The row of plants.csv of what a name means: its own, or that whose rules a poison keeps."""
    poison = tables.lexicon.poisons.get(key)
    return tables.garden.plants.get(poison.plant if poison is not None and poison.plant else key)


def together(found: Iterable[PlantFact]) -> str:
    """Their reasons, each once."""
    return "; ".join(dict.fromkeys(fact.because for fact in found))


def _of_lines(recipe: Recipe, where: str, tables: Tables) -> list[PlantFact]:
    found = []
    for line in recipe.ingredients:
        plant = plant_in(line.name, tables, company=line.preparation) if line.link is None else None
        if plant is None or _made_before(line.name):
            continue
        words = f"{line.name}, {line.preparation}" if line.preparation else line.name
        found.append(
            PlantFact(
                plant=plant,
                line=line,
                words=words,
                because=f"it uses {line.name}{where}",
                is_foraged=plant.foraged == "always" or (plant.foraged == "said" and _is_said(recipe, words)),
            )
        )
    return found


def _made_before(name: str) -> bool:
    """Elderberry syrup is no raw berry; elderberry juice may be."""
    return bool(MADE_OF.intersection(spaced(name).split()))


def _is_said(recipe: Recipe, words: str) -> bool:
    tags = {word for tag in recipe.tags for word in spaced(tag).split()}
    return bool(TAGS & tags) or any(word in spaced(words).split() for word in SAID)
