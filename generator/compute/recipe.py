"""One recipe of a book and a wish in, everything that follows from it out: scaled, cured, needed, boxed."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.compute.cure import CureInput, work_out_cure
from generator.compute.cure.amounts import Scales, water_g
from generator.compute.lines import check_stages, compute_line
from generator.compute.needs import component_needs, used_by
from generator.compute.safety import check_safety, gather_facts
from generator.compute.scale import AS_WRITTEN, Wish, scale_for, written_meat_g
from generator.model.book import Book
from generator.model.published import CuringSalt
from generator.model.quantity import Quantity, Span
from generator.model.recipe import Cure, Ingredient, Meat, Recipe
from generator.model.results import (
    ComputedBook,
    ComputedLine,
    ComputedRecipe,
    CureResult,
    Scale,
    Shown,
)
from generator.model.shown import SYSTEMS, Shower
from generator.problems import ProblemLog
from generator.tables import Tables


@dataclass(frozen=True, slots=True, kw_only=True)
class Kitchen:
    """What every computation needs besides the book: the published tables and the way amounts are shown."""

    tables: Tables
    shower: Shower

    @classmethod
    def of(cls, tables: Tables) -> Kitchen:
        """A kitchen with the tables' own rounding."""
        return cls(tables=tables, shower=Shower(tables.rounding, tables.units))


def compute_book(book: Book, kitchen: Kitchen) -> ComputedBook:
    """Every recipe as written (one batch), in order of slug."""
    return ComputedBook(
        book=book,
        recipes={slug: compute_recipe(book, slug, kitchen) for slug in book.recipes},
    )


def compute_recipe(book: Book, slug: str, kitchen: Kitchen, wish: Wish = AS_WRITTEN) -> ComputedRecipe:
    """One recipe at one scale. Raises NotScalable where the recipe lacks what the wish needs."""
    recipe = book.recipes[slug]
    scale = scale_for(recipe, wish)
    log = ProblemLog()
    cure = _cure(book, recipe, scale.batches, kitchen, log)
    lines = tuple(
        compute_line(line, scale.batches, kitchen.tables, book.config, kitchen.shower)
        for line in recipe.ingredients
    )
    cautions = check_safety(gather_facts(book, recipe, cure, kitchen.tables), kitchen.tables, log)
    makes = recipe.makes.quantity.times(scale.batches) if recipe.makes else None
    return ComputedRecipe(
        recipe=recipe,
        scale=scale,
        serves=None if recipe.serves is None else recipe.serves * scale.batches,
        makes=makes,
        makes_shown=None if makes is None else kitchen.shower.everywhere(makes),
        meat_line=_meat_line(recipe, scale, kitchen, book),
        lines=lines,
        cure=cure,
        cure_lines={} if cure is None else _cure_lines(recipe, cure, scale.batches, kitchen),
        needs=component_needs(book, slug, scale.batches, kitchen.shower),
        used_by=used_by(book, slug),
        cautions=cautions,
        facts=tuple(f"Keeps {keep.written} in the {keep.place}." for keep in recipe.keep),
        stage_checks=check_stages(recipe, scale.batches, kitchen.tables),
        problems=log.sorted(),
    )


def _meat_line(recipe: Recipe, scale: Scale, kitchen: Kitchen, book: Book) -> ComputedLine | None:
    meat = recipe.meat
    if meat is None:
        return None
    line = Ingredient(
        id="meat",
        name=meat.name,
        quantity=meat.weight,
        written=meat.name,
        position=meat.position,
    )
    return compute_line(line, scale.batches, kitchen.tables, book.config, kitchen.shower)


def _cure(
    book: Book, recipe: Recipe, batches: Fraction, kitchen: Kitchen, log: ProblemLog
) -> CureResult | None:
    cure = recipe.cure
    if cure is None:
        return None
    given = cure_input(book, recipe, cure, batches, kitchen.tables, log)
    scales = Scales(tables=kitchen.tables, house=book.config.house_weights)
    result = work_out_cure(given, scales, kitchen.shower)
    log.extend(result.problems)
    return result


def cure_input(
    book: Book, recipe: Recipe, cure: Cure, batches: Fraction, tables: Tables, log: ProblemLog
) -> CureInput:
    """The cure of a recipe at a scale, with the facts of its meat that decide its limit."""
    meat = recipe.meat
    water = water_g(cure.water, log, cure.water_position) if cure.water else None
    written = written_meat_g(recipe)
    animal = tables.animal(meat.animal) if meat else None
    fish = animal if animal is not None and animal.group in ("fish", "shellfish") else None
    return CureInput(
        method=cure.method,
        cut=cut_class(meat),
        kind=curing_salt(cure.kind, book, tables),
        salt=cure.salt,
        sugar=cure.sugar,
        curing_salt=cure.curing_salt,
        meat_g=None if written is None else written * batches,
        water_g=None if water is None else water * batches,
        batches=batches,
        pump_percent=cure.pump_percent,
        skin_on=None if meat is None or meat.skin is None else meat.skin == "on",
        fish=fish.title.lower() if fish else None,
        fish_limit_ppm=tables.fish_limit(fish.key) if fish else None,
        position=cure.position,
        water_position=cure.water_position,
    )


def cut_class(meat: Meat | None) -> str:
    """Which limit applies: ground before belly before whole cuts."""
    if meat is not None and meat.form == "ground":
        return "ground"
    if meat is not None and "belly" in meat.cut.lower().split():
        return "belly"
    return "whole"


def curing_salt(kind: str, book: Book, tables: Tables) -> CuringSalt:
    """The book's own curing salt of that name, else the published one; reading has refused unknown names."""
    for own in book.config.curing_salts:
        if own.key == kind:
            return own
    found = tables.curing_salt(kind)
    assert found is not None, kind
    return found


def _cure_lines(recipe: Recipe, cure: CureResult, batches: Fraction, kitchen: Kitchen) -> dict[str, Shown]:
    """Strings for [water](#water), [salt](#salt) ... in the body; none at all where the cure is refused."""
    if cure.weigh is None or recipe.cure is None:
        return {}
    lines = {
        name: Shown(**dict.fromkeys(SYSTEMS, cure.shown[key]))
        for name, key in (("salt", "salt"), ("sugar", "sugar"), ("curing-salt", "curing_salt"))
        if cure.shown[key]
    }
    if recipe.cure.water is not None and cure.water_g is not None:
        lines["water"] = _water(recipe.cure.water, cure.water_g, batches, kitchen)
    return lines


def _water(water: Quantity, grams: Fraction, batches: Fraction, kitchen: Kitchen) -> Shown:
    """As written at one batch where the reader's kitchen has those measures, else its weight, rounded up."""
    shown = {
        system: kitchen.shower.base(Span.of(grams), use="cure base", system=system) for system in SYSTEMS
    }
    written_in = {measure.unit.system for measure in water.measures}
    if batches == 1:
        for system in SYSTEMS:
            if system in written_in:
                shown[system] = f"{kitchen.shower.quantity(water, system)}"
    return Shown(**shown)
