"""refuse, losses, meat_water, sodium and salty_words (.csv) in; what salt and weight do on their way to a dish out."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from itertools import product
from typing import Annotated

from generator.model.published import Animal, PublishedRange, Sourced
from generator.tables.csvfile import Shelf, is_range, never, normal, own_name, percent
from generator.tables.words import GROUPS

ANY = "any"
"A row for every kind or every cut that has no row of its own."
PARTS = ("bone", "skin")
AFTER = ("dry", "brine", ANY)


@dataclass(frozen=True, slots=True, kw_only=True)
class RefuseShare(PublishedRange):
    """The share of bone or of skin in cuts."""

    part: str
    kinds: tuple[str, ...]
    cuts: tuple[str, ...]
    low: Annotated[Fraction, "low_percent", percent]
    high: Annotated[Fraction, "high_percent", percent]


@dataclass(frozen=True, slots=True, kw_only=True)
class Loss(PublishedRange):
    """The share of the weight that a stage leaves."""

    stage: str
    after: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MeatWater(PublishedRange):
    """The share of water in cuts."""

    kinds: tuple[str, ...]
    cuts: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sodium(PublishedRange):
    """Sodium in a salt or in a salted food [mg per 100 g]."""

    food: str
    names: tuple[str, ...]
    low: Annotated[Fraction, "low_mg"]
    high: Annotated[Fraction, "high_mg"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SaltyWord(Sourced):
    """A word that says that a food is salted."""

    word: str


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CarryTables:
    """Look-ups are by exact name: the animal before its group, a cut before any cut; None is not published."""

    refuse: Mapping[tuple[str, str, str], RefuseShare]
    "Share of the raw piece, by part, kind and cut."
    losses: Mapping[tuple[str, str], Loss]
    "Weight left, as a share, by stage and what went before."
    meat_water: Mapping[tuple[str, str], MeatWater]
    "Share of water in the raw meat, by kind and cut."
    sodium: Mapping[str, Sodium]
    "[mg per 100 g] by the name of a salt or of a salted food."
    salty_words: frozenset[str]
    "Words in the name of a food that say it is salted, though nobody knows how much."

    def refuse_of(self, part: str, animal: Animal | None, cut: str) -> PublishedRange | None:
        """The share of bone or of skin in a raw piece."""
        found = (self.refuse.get((part, kind, normal(cut))) for kind in _kinds(animal))
        return next(filter(None, found), None)

    def loss_of(self, stage: str, after: str = ANY) -> PublishedRange | None:
        """The share of the weight that a stage leaves."""
        return self.losses.get((stage, after)) or self.losses.get((stage, ANY))

    def water_of(self, animal: Animal | None, cut: str) -> PublishedRange:
        """The share of water in raw meat; that of lean meat where nothing else is published."""
        places = product((*_kinds(animal), ANY), (normal(cut), ANY))
        return next(self.meat_water[place] for place in places if place in self.meat_water)

    def sodium_of(self, name: str) -> PublishedRange | None:
        """Sodium of a salt or a salted food [mg per 100 g]."""
        return self.sodium.get(normal(name))

    def is_salty(self, name: str) -> bool:
        """True for a name with a word that says salted, and none that says without salt."""
        words = normal(name).split()
        return "unsalted" not in words and not self.salty_words.isdisjoint(words)


def _kinds(animal: Animal | None) -> tuple[str, ...]:
    return () if animal is None else (animal.key, animal.group)


def read_carry(shelf: Shelf, animals: Collection[str]) -> CarryTables:
    """All five tables; a row speaks of kinds of animals by their keys or by their groups."""
    kinds = {*animals, *GROUPS, ANY}
    no_meat = never("refuse of 100 % or more", lambda share: share.high >= 1)
    nothing = never("nothing is left", lambda left: left.low == 0)
    # Salt is in proportion to water and to lean: with none of either there is nothing to divide by.
    no_lean = never("meat is neither dry nor water alone", lambda share: share.low == 0 or share.high >= 1)
    by_part, by_kind, by_stage = ("part", "kinds", "cuts"), ("kinds", "cuts"), ("stage", "after")
    return CarryTables(
        refuse=shelf.by(by_part, "refuse.csv", RefuseShare, is_range, no_meat, part=PARTS, kinds=kinds),
        losses=shelf.by(by_stage, "losses.csv", Loss, is_range, nothing, after=AFTER),
        meat_water=shelf.by(by_kind, "meat_water.csv", MeatWater, is_range, no_lean, kinds=kinds),
        sodium=shelf.by("names", "sodium.csv", Sodium, is_range, partial(own_name, "food")),
        salty_words=frozenset(shelf.by("word", "salty_words.csv", SaltyWord)),
    )
