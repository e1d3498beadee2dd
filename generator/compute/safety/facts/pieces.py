"""Facts in; the thick pieces that a course thaws, heats or cools, and whether there is meat in it at all, out."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.compute.meat.cut import is_mixed_through
from generator.compute.safety.facts.gather import Facts, MeatFact
from generator.compute.transfer.geometry import MOST_MM
from generator.compute.transfer.heat import Body
from generator.model.quantity import Dimension
from generator.model.recipe import Cure, Ingredient, Meat, Recipe, Stage
from generator.tables import Tables

CUT_SMALL = re.compile(
    r"\b(?:diced?|dice|cubed?|cubes|chopped|minced|ground|shredded|shreds|pulled|picked|sliced?|slices|strips?|"
    r"matchsticks?|ribbons?|chunks?|bits|thin|flaked|crumbled)\b"
)
"Words of a line after which a piece is no longer as thick as it was. Source: words of the trade."
HALVED = re.compile(r"\b(?:sawn|sawed|halved|split|in two|in half|cut up|jointed)\b")
"Words after which it is shorter, and as thick. Source: words of the trade."


@dataclass(frozen=True, slots=True, kw_only=True)
class MeatPiece:
    """One kind of piece as the pot or the fridge gets it."""

    name: str
    thickness_mm: float | None
    "None: not told."
    shape: str | None
    weight_lb: float | None
    "Of one piece, green."
    is_small: bool
    "Cut into something thinner."
    is_halved: bool
    is_own: bool
    "The recipe's own meat."
    is_raw: bool
    "Not ready to eat before this course."
    written: Meat | Ingredient
    "The recipe's own `meat:`, or the line of the component."

    def body(self, *, fast: bool) -> Body:
        """As an estimate takes it: of an untold shape the one that is soonest through, or latest."""
        assert self.thickness_mm is not None
        return Body(thickness_mm=self.thickness_mm, shape=self.shape or ("lump" if fast else "slab"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """Something in a recipe, in a pot or in a jar, in words, and where the recipe writes it."""

    because: str
    written: Ingredient | MeatFact | Cure | Stage | Recipe


def meat_inside(facts: Facts) -> list[Inside]:
    """The recipe's own meats and lines first, then its components, those of components too."""
    own = [Inside(because=meat.because, written=meat) for meat in facts.meats]
    return own + [
        Inside(because=f"it uses {part.name}", written=facts.brought_by[part.slug])
        for part in facts.parts
        if part.meat is not None
    ]


def has_meat(facts: Facts) -> bool:
    """True for a recipe with meat, fish or fowl of its own, or by way of a component."""
    return bool(meat_inside(facts))


def thickest(found: Iterable[MeatPiece]) -> MeatPiece | None:
    """Of those whose thickness is told the thickest, the first of equals."""
    told = (piece for piece in found if piece.thickness_mm)
    return max(told, key=lambda piece: piece.thickness_mm or 0.0, default=None)


def pieces(facts: Facts, tables: Tables) -> tuple[MeatPiece, ...]:
    """The recipe's own meat, then the pieces of the components it uses by itself."""
    own = (_piece(meat, None, None, tables) for meat in facts.recipe.meats)
    if is_mixed_through(facts.recipe):
        own = (replace(piece, is_small=True) for piece in own)
    used = (_piece(meat, line, part, tables) for line, part in facts.used for meat in part.meats)
    return (*own, *used)


def _piece(meat: Meat, line: Ingredient | None, part: Recipe | None, tables: Tables) -> MeatPiece:
    words = f"{meat.cut} {meat.preparation}" if line is None else f"{line.name} {line.preparation}"
    length = meat.thickest_mm
    thick = None if length is None or not 0 < length <= Fraction(MOST_MM) else float(length)
    weight_lb = piece_lb(meat, tables)
    return MeatPiece(
        name=part.name if part is not None else meat.name,
        thickness_mm=thick,
        shape=meat.shape,
        weight_lb=None if weight_lb is None else float(weight_lb),
        is_small=CUT_SMALL.search(words.lower()) is not None or meat.form in ("ground", "sliced"),
        is_halved=HALVED.search(words.lower()) is not None,
        is_own=part is None,
        is_raw=part is None or part.eat_after_cooking,
        written=line or meat,
    )


def inches(millimetres: float) -> str:
    """A thickness in both systems: 3 in (76 mm)."""
    return f"{millimetres / 25.4:.3g} in ({millimetres:.0f} mm)"


def piece_lb(meat: Meat, tables: Tables) -> Fraction | None:
    """Weight of one piece [lb] as written, at any scale: the green weight over the pieces, or all of it as one."""
    grams = meat.weight.total(Dimension.WEIGHT) if meat.weight is not None else None
    return None if grams is None else grams.high / (meat.pieces or 1) / tables.units["pound"].factor


def thickness_in(meat: Meat, tables: Tables) -> Fraction | None:
    """The thickest part [in]."""
    return None if meat.thickest_mm is None else meat.thickest_mm / tables.units["inch"].factor
