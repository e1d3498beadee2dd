"""What follows from a gathering: what is made, what is fetched, and what is done when. Exact until shown."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import time
from fractions import Fraction

from generator.model.gathering import Invited
from generator.model.moment import Moment
from generator.model.quantity import Span
from generator.model.results import ComputedRecipe, Shown
from generator.problems import Problem

DAY_FROM, DAY_TO = time(7), time(21)
"""By the local clock, when somebody is about; the rest is night. Source: house choice."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Making:
    """One recipe made for a gathering, at its scale."""

    recipe: ComputedRecipe
    "At its scale; as written where all of it is on hand and nothing is made."
    slug: str
    servings: Fraction | None
    "Of a dish; None for a component."
    needed: Fraction
    "Batches that dishes and other components take."
    on_hand: Fraction
    "Batches that are there already, no more than are needed."
    batches: Fraction
    "Made: what is needed less what is on hand, whole where the gathering asks for whole batches."
    amount_g: Span | None
    "Of what is made: as the recipe tells its weight, else of a cured one by published losses; None is not known."
    green_weight_g: Fraction | None
    "Of the raw meat: as the recipe tells it, else of a cured one the most that published losses ask for."
    used_by: tuple[str, ...]
    "Slugs of the makings that take from it; empty for a dish."
    note: str = ""
    "Where a weight is not the author's own: from which losses it follows."
    sources: tuple[str, ...] = ()
    "Of those losses."

    @property
    def extra(self) -> Fraction:
        """Batches made and not needed."""
        return self.batches + self.on_hand - self.needed


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One line of the shopping and gathering list."""

    name: str
    place: str
    "freezer, fridge, shelf, on hand, garden, woods, smokehouse shelf, shop"
    grams: Span | None
    "All of it, as bought; None where it has no known weight."
    shown: Shown
    "Rounded up to what can be bought; amounts that cannot be added stand side by side."
    needed_for: tuple[str, ...]
    "Slugs of the makings that need it."
    note: str = ""
    "Such as: 43 % of the weight is stems."
    sources: tuple[str, ...] = ()
    is_made: bool = False
    "A component that is there already."


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One stage of one making by the clock."""

    slug: str
    "Of the recipe."
    stage: str
    index: int
    "Of the stage in its course; -1 for a step that the plan put in, such as a thaw."
    start: Moment
    end: Moment
    hands_on_min: int
    "Minutes of work, at its start."
    place: str
    "In words: in the fridge."
    note: str = ""
    "Why no length is counted, in how many rounds, with which other smoke it goes in."


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Everything of one gathering, in the order of the clock."""

    invited: Invited
    makings: tuple[Making, ...]
    "Dishes first, then components, each before what it is made of."
    shopping: tuple[Item, ...]
    steps: tuple[Step, ...]
    "By start."
    problems: tuple[Problem, ...]
    "What cannot be met, conflicts, what is kept too long. A book is built all the same."
    notes: tuple[str, ...] = ()
    "Quiet lines: what is left over, holding hot, cooling."

    @property
    def cannot_be_met(self) -> bool:
        """True where something of it is impossible, and not only unwise."""
        return any(problem.is_error for problem in self.problems)
