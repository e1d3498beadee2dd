"""A computed recipe in, the titles of its groups of shares out, with the whole at its scale: Rub, of 12 oz."""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.quantity import Quantity
from generator.model.recipe import Share
from generator.model.results import ComputedRecipe


@dataclass(frozen=True, slots=True, kw_only=True)
class Whole:
    """What the shares under one title are of, where that is a weight or a volume of its own."""

    key: str
    "By which a page's script finds it."
    name: str
    "Rub; the total where the title has no other words."
    written: Quantity
    scaled: Quantity
    before: str
    after: str
    "Words of the title around the amount."


def wholes_of(recipe: ComputedRecipe) -> dict[str, Whole]:
    """By title; without the groups whose base is a line or the meat, which have amounts of their own."""
    found: dict[str, Whole] = {}
    for line in recipe.recipe.ingredients:
        share = line.share
        if share is not None and share.whole and share.base is not None:
            found.setdefault(line.group, _whole(line.group, share, share.base, recipe))
    return found


def _whole(title: str, share: Share, base: Quantity, recipe: ComputedRecipe) -> Whole:
    is_amount = bool(base.written) and share.of.startswith(base.written)
    at = title.rfind(base.written) if is_amount else -1
    return Whole(
        key=f"w-{recipe.recipe.whole_id(share)}",
        name=share.whole,
        written=base,
        scaled=base.times(recipe.scale.batches),
        before=title[:at] if at >= 0 else f"{title}, ",
        after=title[at + len(base.written) :] if at >= 0 else "",
    )
