"""A whole book: its settings, its recipes, and which uses which."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from generator.model.gathering import Capacity, Gathering, Invited
from generator.model.published import CuringSalt
from generator.model.recipe import Ingredient, PlainPage, Recipe
from generator.problems import Position


@dataclass(frozen=True, slots=True, kw_only=True)
class HouseWeight:
    """The weight of one measure of one food, as the author weighed it."""

    name: str
    grams: Fraction
    unit: str
    "Unit key: us_cup, us_tbsp, us_tsp, millilitre ..."
    position: Position


@dataclass(frozen=True, slots=True, kw_only=True)
class BookConfig:
    """What `book.yaml` says once for the whole book. None means not said."""

    title: str
    family: str = ""
    address: str = ""
    language: str = "en"
    units: str = "us"
    altitude_m: Fraction | None = None
    poison_help: str = ""
    deer_disease_area: bool | None = None
    shot: str | None = None
    "lead, copper, none"
    house_weights: tuple[HouseWeight, ...] = ()
    "Densities and weighings of the house, taken before the published ones."
    curing_salts: tuple[CuringSalt, ...] = ()
    chapters: tuple[str, ...] = ()
    accept: dict[str, str] = field(default_factory=dict)
    "Slugs of rules that the whole book contradicts on purpose, each with the reason."
    capacity: Capacity = field(default_factory=Capacity)
    theme: str = "larder"
    paper: str = "letter"
    "letter, a4, a5: what the book's sheets and PDFs are laid out for"
    file: str = "book.yaml"

    @property
    def is_english(self) -> bool:
        """The one language whose sentences are read for what is dangerous."""
        return self.language.lower().split("-")[0] == "en"


@dataclass(frozen=True, slots=True, kw_only=True)
class Manuscript:
    """Everything read from a book's folder, before links are followed."""

    config: BookConfig
    recipes: tuple[Recipe, ...]
    pages: tuple[PlainPage, ...] = ()
    gatherings: tuple[Gathering, ...] = ()
    photos: tuple[str, ...] = ()
    "Paths of photo files, relative to the book."
    unread: tuple[str, ...] = ()
    "Files with errors, which are among neither recipes, gatherings nor pages: a link to one is no fault of the link."


@dataclass(frozen=True, slots=True, kw_only=True)
class Use:
    """One recipe taking some of another."""

    dish: str
    component: str
    line: Ingredient
    batches: Fraction
    "Batches of the component that one batch of the dish takes, exact (the high end of a range)."


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """A book whose links are followed: nothing lost, no cycle."""

    config: BookConfig
    recipes: dict[str, Recipe]
    "By slug, sorted. Drafts are checked but stand in no page."
    uses: tuple[Use, ...]
    order: tuple[str, ...]
    "Slugs with every component before the recipes that use it."
    pages: tuple[PlainPage, ...] = ()
    gatherings: tuple[Invited, ...] = ()
    "By date as the local clock tells it, then slug. Drafts are checked but stand in no page."
    photos: tuple[str, ...] = ()

    def uses_of(self, dish: str) -> tuple[Use, ...]:
        """What a dish takes from other recipes, in the order of its lines."""
        return tuple(use for use in self.uses if use.dish == dish)

    def used_by(self, component: str) -> tuple[Use, ...]:
        """Who takes from a component, by slug of the dish."""
        return tuple(use for use in self.uses if use.component == component)
