"""A dish at its scale in, the salt in it out: by its own lines and by every cured piece, however deep, as ranges.

A cured piece brings its salt in the share of its batch that is used. What it is cooked with keeps that salt: a stock
made with a shank carries all of the shank's salt on, since nothing published says how much stays in meat and bone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction

from generator.compute.weight.measures import weigh_measures
from generator.model.book import Book, Use
from generator.model.quantity import Dimension, Span
from generator.model.recipe import Ingredient, Recipe
from generator.model.results import DishSalt, SaltInPiece, SaltShare
from generator.tables import Tables

MILLIGRAMS = Fraction(1000)
"Source: milligrams of a gram, a definition."
OF_SODIUM_G = Fraction(100)
"The sodium table is per 100 g. Source: SR28, nutrient values per 100 g of the edible part."
PICKED = frozenset({"picked", "pulled", "boned", "boneless", "shredded", "flaked", "meat"})
"Words of a line that say its weight is of meat without bone. Source: common practice, no source."
SALTED = ("ingredients", "meat", "cure")
"Keys with salt under them: where one is not read in part, how much there is is not known."
NONE = Span.of(0)
NO_SALT_MG = 35
"[mg sodium per 100 g] A food up to here is not salted. Source: house choice; 21 CFR 101.61(b)(2) calls 35 mg very low."
DAY_LIMITS = ("who-sodium", "21cfr101.9c")
"Sources of the constants that a day's salt is held against."

PieceOf = Callable[[str], SaltInPiece | None]
"The salt that one batch of a cured recipe makes; None where its cure gives no weights."


@dataclass(frozen=True, slots=True, kw_only=True)
class Larder:
    """What carrying salt needs: the book, the tables, and the salt of each cured recipe."""

    book: Book
    tables: Tables
    piece_of: PieceOf


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnSalt:
    """The salt of a recipe's own lines [g]; salted foods as the salt of their sodium."""

    grams: Span
    not_counted: tuple[str, ...]
    adds_salt: bool
    sources: tuple[str, ...]


def dish_salt(larder: Larder, recipe: Recipe, batches: Fraction) -> DishSalt | None:
    """The salt of a dish at a scale; None for a cured recipe, and where nothing in it is known to be salted."""
    if recipe.cure is not None or recipe.is_open(*SALTED):
        return None
    own = own_salt(larder, recipe.ingredients, batches)
    shares = tuple(
        share for use in larder.book.uses_of(recipe.slug) for share in _share(larder, use, batches)
    )
    if own.grams == NONE and not own.not_counted and not shares:
        return None
    return DishSalt(
        serves=None if recipe.serves is None else recipe.serves * batches,
        own_g=own.grams,
        shares=_together(shares),
        not_counted=own.not_counted,
        adds_salt=own.adds_salt,
        sodium_share=larder.tables.constant("sodium_share_of_salt"),
        sources=(*DAY_LIMITS, *own.sources),
    )


def _share(larder: Larder, use: Use, batches: Fraction) -> list[SaltShare]:
    """What one use brings; nothing where its component is without any salt."""
    component = larder.book.recipes[use.component]
    grams = used_g(larder, use, batches)
    if grams == NONE:
        return []
    return [SaltShare(recipe=component.slug, name=component.name, grams=grams)]


def _together(shares: Iterable[SaltShare]) -> tuple[SaltShare, ...]:
    """A component that stands in two lines is told once."""
    found: dict[str, SaltShare] = {}
    for share in shares:
        before = found.get(share.recipe)
        grams = share.grams
        if before is not None:
            grams = before.grams.plus(grams) if before.grams is not None and grams is not None else None
        found[share.recipe] = SaltShare(recipe=share.recipe, name=share.name, grams=grams)
    return tuple(found.values())


def used_g(larder: Larder, use: Use, batches: Fraction) -> Span | None:
    """The salt that a line with a component brings [g]; None where it is not known."""
    component = larder.book.recipes[use.component]
    scale = use.line.batches(batches)
    batch = batch_g(larder, component)
    if batch is None:
        return None
    grams = batch.by(taken_batches(use, component)).times(scale)
    piece = larder.piece_of(component.slug) if component.cure is not None else None
    return grams if piece is None else _without_bone(use, piece, scale, grams)


def _without_bone(use: Use, piece: SaltInPiece, scale: Fraction, grams: Span) -> Span:
    """Weighed use of a piece with bone: at the most it is weighed without its bone, and at the least too if it says so.

    A cured piece that also has components or salt of its own keeps the larger of the two figures.
    """
    weight = use.line.quantity.total(Dimension.WEIGHT) if use.line.quantity else None
    counted = use.line.quantity is not None and use.line.quantity.total(Dimension.COUNT) is not None
    if weight is None or counted or piece.lean_share_low == 1:
        return grams
    if piece.low_percent is None or piece.high_percent is None:
        return grams
    high = max(grams.high, weight.high * scale * piece.high_percent / 100)
    words = set(f"{use.line.name} {use.line.preparation}".lower().replace(",", " ").split())
    low = weight.low * scale * piece.low_percent / 100 if PICKED & words else grams.low
    return Span(max(low, grams.low), high)


def taken_batches(use: Use, component: Recipe) -> Span:
    """Batches [1] of a component in one batch of the dish: the resolved share is the high end of a range."""
    amount, makes = use.line.quantity, component.makes
    for used, whole in makes.compared_with(amount) if makes and amount else ():
        if whole.low > 0 and used.high / whole.low == use.batches:
            return Span(used.low / whole.high, use.batches)
    return Span.of(use.batches)


def batch_g(larder: Larder, recipe: Recipe) -> Span | None:
    """All the salt in one batch of a recipe [g]: its cured meat, its lines, its components. None: not known."""
    if recipe.is_open(*SALTED):
        return None
    total = own_salt(larder, recipe.ingredients, Fraction(1)).grams
    if recipe.cure is not None:
        piece = larder.piece_of(recipe.slug)
        if piece is None:
            return None
        total = total.plus(Span(piece.low_g, piece.high_g))
    taken = [used_g(larder, use, Fraction(1)) for use in larder.book.uses_of(recipe.slug)]
    return None if None in taken else Span.total((total, *filter(None, taken)))


def own_salt(larder: Larder, lines: Iterable[Ingredient], batches: Fraction) -> OwnSalt:
    """Salt by the lines that use no other recipe; what is salted to an unknown amount is named."""
    total, not_counted, adds_salt = NONE, [], False
    sources: dict[str, None] = {}
    # Sodium [mg] per 100 g of salt itself.
    salt_mg = MILLIGRAMS * OF_SODIUM_G * larder.tables.constant("sodium_share_of_salt")
    for line in lines:
        if line.link is not None:
            continue
        row = larder.tables.carry.sodium_of(line.name)
        grams = _grams(larder, line, batches)
        adds_salt = adds_salt or (row is not None and row.low >= salt_mg)
        if row is not None and grams is not None:
            total = total.plus(grams.by(row.span).times(1 / salt_mg))
            sources.update(dict.fromkeys(row.sources))
        elif row.high > NO_SALT_MG if row is not None else larder.tables.carry.is_salty(line.name):
            not_counted.append(_name(line))
    return OwnSalt(grams=total, not_counted=tuple(not_counted), adds_salt=adds_salt, sources=tuple(sources))


def _grams(larder: Larder, line: Ingredient, batches: Fraction) -> Span | None:
    if line.quantity is None or line.quantity.is_vague:
        return None
    scaled = line.quantity.times(line.batches(batches))
    weighed = weigh_measures(scaled, line.name, larder.tables, larder.book.config.house_weights)
    return weighed.grams if weighed else larder.tables.salt_grams(scaled, line.name)


def _name(line: Ingredient) -> str:
    vague = line.quantity.vague if line.quantity is not None else ""
    return f"{line.name} ({vague or line.preparation})" if vague or line.preparation else line.name
