"""A cure with its reach in, the section on how far it has reached out; nothing where there is no estimate."""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.results import ComputedRecipe
from generator.render.reach_figure import ReachFigure, reach_figure
from generator.render.reach_words import even_sentence, nitrite_sentence, salt_sentence

REACH_IDS = frozenset({"reach-title", "reach-description"})
"Ids of the figure, which no heading of a recipe may take."


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachView:
    """How far salt and nitrite have probably reached."""

    salt: str
    nitrite: str
    even: str
    worked_out_for: str
    caveats: tuple[str, ...]
    figure: ReachFigure


def reach_view(recipe: ComputedRecipe) -> ReachView | None:
    """None for a recipe without an estimate."""
    reach = recipe.cure.reach if recipe.cure else None
    if reach is None:
        return None
    return ReachView(
        salt=salt_sentence(reach),
        nitrite=nitrite_sentence(reach),
        even=even_sentence(reach),
        worked_out_for=reach.worked_out_for,
        caveats=reach.caveats,
        figure=reach_figure(reach),
    )
