"""One recipe of a book and a wish in, everything that follows from it out: scaled, cured, needed, boxed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache, partial

from generator.compute.cure import Scales, unread_cure, work_out_cure
from generator.compute.cure.written import cure_input
from generator.compute.meat.cured import cured_meat
from generator.compute.meat.uncounted import tell_uncounted
from generator.compute.reach.recipe import add_recipe_reach
from generator.compute.safety import check_safety, gather_facts, judge_text, quiet_facts
from generator.compute.salt.bath import soak_facts
from generator.compute.salt.dish import Larder, dish_salt
from generator.compute.salt.piece import salt_in_piece
from generator.compute.salt.words import salt_facts
from generator.compute.scale.lines import check_stages, compute_line, weigh_line
from generator.compute.scale.needs import component_needs, used_by
from generator.compute.scale.wish import (
    AS_WRITTEN,
    Wish,
    green_meat_g,
    meat_shares,
    scale_for,
    written_meat_g,
)
from generator.model.book import Book
from generator.model.quantity import Measure, Quantity, Span
from generator.model.recipe import Ingredient, Meat, Recipe
from generator.model.results import (
    CHECK_BEYOND,
    ComputedBook,
    ComputedLine,
    ComputedRecipe,
    CureResult,
    SaltInPiece,
    Scale,
    Shown,
)
from generator.model.shown import SYSTEMS, Shower, fits
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
    larder, unread = _larder(book, kitchen), without_read_courses(book)
    return ComputedBook(
        book=book,
        recipes={slug: _compute(larder, unread, slug, kitchen, AS_WRITTEN) for slug in book.recipes},
        texts={
            one.gathering.slug: judge_text(book, one.gathering, kitchen.tables) for one in book.gatherings
        },
    )


def compute_recipe(book: Book, slug: str, kitchen: Kitchen, wish: Wish = AS_WRITTEN) -> ComputedRecipe:
    """One recipe at one scale. Raises NotScalable where the recipe lacks what the wish needs."""
    return _compute(_larder(book, kitchen), without_read_courses(book), slug, kitchen, wish)


def without_read_courses(book: Book) -> Book:
    """The book as its front matter alone has it: stages that were read from a method are left out."""
    recipes = {
        slug: replace(recipe, stages=()) if recipe.course_read else recipe
        for slug, recipe in book.recipes.items()
    }
    return replace(book, recipes=recipes)


def _compute(larder: Larder, unread: Book, slug: str, kitchen: Kitchen, wish: Wish) -> ComputedRecipe:
    book = larder.book
    recipe = book.recipes[slug]
    scale = scale_for(recipe, wish, partial(weigh_line, tables=kitchen.tables, config=book.config))
    log = ProblemLog()
    cure = _cure(book, recipe, scale, kitchen, log)
    reach_fact = ""
    if cure is not None:
        tables, shower, units = kitchen.tables, kitchen.shower, book.config.units
        cure, reach_fact = add_recipe_reach(cure, recipe, tables, shower, units)
        cure = replace(cure, salt_carried=salt_in_piece(cure, recipe, scale.batches, tables))
    salt = dish_salt(larder, recipe, scale.batches)
    lines = tuple(
        compute_line(line, scale.batches, kitchen.tables, book.config, kitchen.shower)
        for line in recipe.ingredients
    )
    facts = gather_facts(book, recipe, cure, kitchen.tables)
    is_read = any(one.course_read for one in (recipe, *facts.parts))
    bare = partial(gather_facts, unread, unread.recipes[slug], cure, kitchen.tables)
    cautions = check_safety(facts, kitchen.tables, log, bare if is_read else None)
    stage_checks = check_stages(recipe, kitchen.tables)
    makes = recipe.makes.quantity.times(scale.batches) if recipe.makes else None
    return ComputedRecipe(
        recipe=recipe,
        scale=scale,
        serves=None if recipe.serves is None else recipe.serves * scale.batches,
        makes=makes,
        makes_shown=None if makes is None else kitchen.shower.everywhere(makes),
        meat_line=_meat_line(recipe, scale, kitchen, book),
        meat_lines=_meat_lines(recipe, scale, kitchen, book),
        meat_shares=meat_shares(recipe),
        green_weight_g=green_meat_g(recipe, scale.batches),
        lines=lines,
        cure=cure,
        cure_lines={} if cure is None else _cure_lines(recipe, cure, scale, kitchen),
        needs=component_needs(book, slug, scale.batches, kitchen.shower),
        used_by=used_by(book, slug),
        cautions=cautions,
        facts=(
            *_fact_lines(recipe, reach_fact, kitchen.tables),
            *tell_uncounted(recipe, kitchen.tables, log),
            *quiet_facts(facts, kitchen.tables),
            *salt_facts(salt, kitchen.tables),
        ),
        stage_checks=stage_checks if scale.batches > CHECK_BEYOND else ("",) * len(stage_checks),
        stage_checks_beyond=stage_checks,
        problems=log.sorted(),
        salt=salt,
    )


def _fact_lines(recipe: Recipe, reach_fact: str, tables: Tables) -> tuple[str, ...]:
    keeps = (f"Keeps {keep.written} {keep.where}." for keep in recipe.keep)
    return (*keeps, *([reach_fact] if reach_fact else ()), *soak_facts(recipe, tables))


def _larder(book: Book, kitchen: Kitchen) -> Larder:
    """The book with the salt of one batch of each of its cured recipes; their problems are told on their own pages."""

    @cache
    def piece_of(slug: str) -> SaltInPiece | None:
        recipe, one = book.recipes[slug], Fraction(1)
        cure = _cure(book, recipe, Scale(batches=one), kitchen, ProblemLog())
        return None if cure is None else salt_in_piece(cure, recipe, one, kitchen.tables)

    return Larder(book=book, tables=kitchen.tables, piece_of=piece_of)


def _meat_line(recipe: Recipe, scale: Scale, kitchen: Kitchen, book: Book) -> ComputedLine | None:
    """The only meat, or all of several together."""
    if not recipe.meats:
        return None
    first, several = recipe.meats[0], bool(recipe.several_meats)
    whole = written_meat_g(recipe)
    quantity = first.weight if not several or whole is None else _in_the_unit_of(first, whole)
    line = Ingredient(
        id="meat",
        name="meat" if several else first.name,
        quantity=None if several and whole is None else quantity,
        preparation=recipe.meat_name if several else first.preparation,
        written=recipe.meat_name,
        position=first.position,
    )
    return _weighed_meat(line, green_meat_g(recipe, scale.batches), recipe, scale, kitchen, book)


def _in_the_unit_of(meat: Meat, grams: Fraction) -> Quantity:
    """A weight, in the unit that one meat is written in."""
    assert meat.weight is not None
    unit = meat.weight.measures[0].unit
    return Quantity(measures=(Measure(span=Span.of(grams / unit.factor), unit=unit),))


def _meat_lines(recipe: Recipe, scale: Scale, kitchen: Kitchen, book: Book) -> tuple[ComputedLine, ...]:
    """Each of several meats: of whatever lies on the scale, its written share."""
    whole, shares = green_meat_g(recipe, scale.batches), meat_shares(recipe)
    return tuple(
        _weighed_meat(
            meat.line,
            None if whole is None else whole * shares[meat.id],
            recipe,
            scale,
            kitchen,
            book,
        )
        for meat in recipe.several_meats
    )


def _weighed_meat(
    line: Ingredient, green: Fraction | None, recipe: Recipe, scale: Scale, kitchen: Kitchen, book: Book
) -> ComputedLine:
    computed = compute_line(line, scale.batches, kitchen.tables, book.config, kitchen.shower)
    if recipe.cure is None or green is None or scale.batches == 1:
        return computed
    # Up, as in the cure's own table: a shown weight of meat below the exact one would raise its nitrite.
    return replace(computed, shown=kitchen.shower.base_everywhere(Span.of(green), use="cure base"))


def _cure(book: Book, recipe: Recipe, scale: Scale, kitchen: Kitchen, log: ProblemLog) -> CureResult | None:
    cure = recipe.cure
    if cure is None:
        return None
    meat = cured_meat(recipe, scale, kitchen.tables)
    given = cure_input(cure, meat, book.config.curing_salts, kitchen.tables, log)
    scales = Scales(tables=kitchen.tables, house=book.config.house_weights)
    if _is_open(recipe, kitchen.tables):
        return unread_cure(given)
    result = work_out_cure(given, scales, kitchen.shower)
    log.extend(result.problems)
    return result


def _is_open(recipe: Recipe, tables: Tables) -> bool:
    """True where something of the cure or its meat is not read, or a line that names a curing salt."""
    return recipe.is_open("meat", "cure") or any(
        tables.nitrite_names.all_in(hole.words) for hole in recipe.holes
    )


def _cure_lines(recipe: Recipe, cure: CureResult, scale: Scale, kitchen: Kitchen) -> dict[str, Shown]:
    """Strings for [water](#water), [salt](#salt) ... in the body; none at all where the cure is refused."""
    if cure.weigh is None or recipe.cure is None:
        return {}
    lines = {
        name: Shown(**dict.fromkeys(SYSTEMS, cure.shown[key]))
        for name, key in (("salt", "salt"), ("sugar", "sugar"), ("curing-salt", "curing_salt"))
        if cure.shown[key]
    }
    if recipe.cure.water is not None and cure.water_g is not None:
        lines["water"] = _water(recipe.cure.water, cure.water_g, scale, kitchen)
    return lines


def _water(water: Quantity, grams: Fraction, scale: Scale, kitchen: Kitchen) -> Shown:
    """As written at one batch where the reader's kitchen has those measures, else its weight, rounded up."""
    shown, written = (
        kitchen.shower.base_everywhere(Span.of(grams), use="cure base"),
        kitchen.shower.everywhere(water),
    )
    if scale.batches != 1 or scale.water_g is not None:
        return shown
    kept = [system for system in SYSTEMS if all(fits(measure.unit, system) for measure in water.measures)]
    return replace(shown, **{system: written.in_units(system) for system in kept})
