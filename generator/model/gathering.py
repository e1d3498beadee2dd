"""A gathering as written, and with its links followed; what a kitchen has room for. Moments are values."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.model.moment import Moment
from generator.model.recipe import Body, Ingredient, Link
from generator.problems import Position


@dataclass(frozen=True, slots=True, kw_only=True)
class Guests:
    """Who comes."""

    adults: int
    children: int = 0
    child_share: Fraction = Fraction(1, 2)
    "A child's helping, of an adult's."

    @property
    def helpings(self) -> Fraction:
        """In helpings of an adult."""
        return self.adults + self.children * self.child_share


@dataclass(frozen=True, slots=True, kw_only=True)
class Dish:
    """One dish of a gathering, by servings or by the share of the guests' helpings."""

    link: Link
    "To the file of its recipe."
    servings: Fraction | None
    share: Fraction | None
    "Of the guests: 1 is all of them. One of the two is told."


@dataclass(frozen=True, slots=True, kw_only=True)
class OnHand:
    """Something that is there already: a component by its link, or an ingredient by its name."""

    line: Ingredient
    place: str = ""
    "freezer, fridge, shelf, or not told."


@dataclass(frozen=True, slots=True, kw_only=True)
class Gathering:
    """One file of `gatherings/`."""

    slug: str
    file: str
    name: str
    summary: str
    serve_at: Moment
    "With a zone where the file names one."
    work_from: Moment | None = None
    "Nobody starts before then; None: whenever the plan asks for."
    guests: Guests
    dishes: tuple[Dish, ...]
    on_hand: tuple[OnHand, ...]
    whole_batches: bool = False
    "Components are made in whole batches; what is left over is listed."
    body: Body
    position: Position
    draft: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Invited:
    """A gathering whose links are followed: recipes by slug."""

    gathering: Gathering
    dishes: tuple[tuple[Dish, str], ...]
    "Each dish with the slug of its recipe."
    components: tuple[tuple[OnHand, str, Fraction], ...]
    "What is on hand of a component: the slug of its recipe, and the batches of it that this is."
    ingredients: tuple[OnHand, ...]
    "What is on hand besides."


@dataclass(frozen=True, slots=True, kw_only=True)
class Capacity:
    """What a kitchen has, from `book.yaml`; None is not told, and no conflict is looked for."""

    smoker_g: Fraction | None = None
    ovens: int | None = None
    burners: int | None = None
    pots_ml: tuple[Fraction, ...] = ()
