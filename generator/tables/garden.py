"""plants, blanching, jars, canning, boiling_water, canner_pressure, food_words, allergens (.csv) in; what they ask, out."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated

from generator.model.published import Cited, Sourced
from generator.tables.csvfile import Shelf, is_range, never, normal
from generator.tables.words import CERTAINTIES, GROUPS

KINDS = ("plant", "fungus")
FORAGED = ("always", "said", "no")
"Gathered wild whatever is said; only where the recipe says so; a plant of the garden."
PLANT_RULES = (
    *("elderberry", "elder-leaf", "fiddlehead", "ramps-lookalike", "pokeweed", "nettle", "watercress-fluke"),
    *("oxalate", "nitrate", "rhubarb-stalk", "rhubarb-leaf", "morel", "wild-mushrooms"),
)
WAYS = ("water", "steam", "cook")
PACKS = ("hot", "raw")
CANNERS = ("dial gauge", "weighted gauge")
PUBLISHED = tuple(word for word in CERTAINTIES if word != "house choice")
"Minutes in boiling water and in a canner are tested by others; this book chooses none."
IN_THE_JAR = ("ground", "soup", "smoked fish")
"Kinds of food with a tested time of their own, told from more than a word in a name."
NOT_AN_ALLERGEN = "none"
"Rows of names that only sound like an allergen: they take their words away before the others look."
LISTS = ("us", "eu")


@dataclass(frozen=True, slots=True, kw_only=True)
class Plant(Cited):
    """A plant or fungus that an ingredient line can name, by names of names.csv."""

    key: Annotated[str, "plant"]
    kind: str
    foraged: str
    is_mistaken: Annotated[bool, "mistaken"]
    "Something that poisons gravely passes for it."
    rules: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Blanching(Sourced):
    """Published minutes of blanching before freezing, counted from the return of the boil."""

    vegetable: str
    names: tuple[str, ...]
    size: str = ""
    "small, large, sliced ..., or empty."
    low_min: Fraction | None
    "None: not blanched but cooked."
    high_min: Fraction | None
    way: str
    says: str = ""
    certainty: str


@dataclass(frozen=True, slots=True, kw_only=True)
class JarSize(Sourced):
    """A jar by the words that a stage calls it."""

    size: str
    spellings: tuple[str, ...]
    pints: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class CanningTime(Cited):
    """Tested minutes in a pressure canner, by jar."""

    food: str
    title: str
    kinds: tuple[str, ...] = ()
    "Groups of animals, or words of what is in the jar."
    names: tuple[str, ...] = ()
    "Of a plant, or of a dish."
    packs: tuple[str, ...]
    "hot, raw, or both."
    pint_min: Fraction | None
    quart_min: Fraction | None
    "None: not tested."
    certainty: str
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class BoilingTime(Cited):
    """Tested minutes in boiling water for a jar of acid food, by the height of the kitchen."""

    food: str
    title: str
    names: tuple[str, ...] = ()
    packs: tuple[str, ...]
    size: str
    to_1000_ft: Fraction
    to_3000_ft: Fraction
    to_6000_ft: Fraction
    above_6000_ft: Fraction
    certainty: str
    note: str = ""

    def minutes(self, feet: Fraction) -> Fraction:
        """At a height [ft]."""
        bands = ((1000, self.to_1000_ft), (3000, self.to_3000_ft), (6000, self.to_6000_ft))
        return next((minutes for top, minutes in bands if feet <= top), self.above_6000_ft)


@dataclass(frozen=True, slots=True, kw_only=True)
class CannerPressure(Sourced):
    """Pounds on a canner at an altitude."""

    canner: str
    above_ft: Fraction
    to_ft: Fraction
    pounds: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class FoodWords(Sourced):
    """Words in the names of foods, and what they say of a food."""

    kind: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Allergen(Cited):
    """Names of foods that contain an allergen."""

    allergen: str
    names: tuple[str, ...]
    lists: tuple[str, ...]
    note: str = ""


@dataclass(frozen=True, slots=True, eq=False)
class Names:
    """Spellings that are looked for in a name as whole words: from the left, the longest that fits."""

    pattern: re.Pattern[str]
    spellings: Mapping[str, str]
    "As the table has them, by the words that are compared."

    @classmethod
    def of(cls, names: Collection[str]) -> Names:
        """Spellings of a table, normal; none of them may be empty."""
        by_words = {spaced(name).strip(): name for name in names}
        longest = sorted(by_words, key=lambda words: (-len(words), words))
        return cls(re.compile(f" (?:{'|'.join(map(re.escape, longest))})(?= )"), by_words)

    def all_in(self, name: str) -> list[str]:
        """Every spelling in a name; no word is counted twice."""
        return [self.spellings[found.group().strip()] for found in self.pattern.finditer(spaced(name))]

    def first_in(self, name: str) -> str:
        """The first spelling in a name, or nothing."""
        return next(iter(self.all_in(name)), "")

    def cut_from(self, name: str) -> str:
        """A name without them."""
        return " ".join(self.pattern.sub(" ", spaced(name)).split())


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class GardenTables:
    """Look-ups are by whole words of a name, never by a near one."""

    plants: Mapping[str, Plant]
    "By key; their names stand in names.csv."
    blanching: tuple[Blanching, ...]
    blanching_names: Names
    jars: Mapping[str, JarSize]
    "By each spelling, the longest first."
    canning: Mapping[str, CanningTime]
    canned_by_name: Mapping[str, CanningTime]
    "Plants and dishes that have a time, by name."
    canned_plants: Names
    "Those, and every other plant that is low in acid."
    boiling: tuple[BoilingTime, ...]
    pressures: tuple[CannerPressure, ...]
    words: Mapping[str, Names]
    "Words of foods by what they say: stock, cured, thickener ..."
    allergens: Mapping[str, tuple[str, ...]]
    allergen_names: Names

    def says(self, name: str, kind: str) -> str:
        """The first word of a kind in a name, or nothing."""
        return self.words[kind].first_in(name)

    def blanched(self, name: str) -> tuple[Blanching, ...]:
        """Every row of the vegetable that a name speaks of, all sizes."""
        found = self.blanching_names.first_in(name)
        return tuple(row for row in self.blanching if found in row.names)

    def allergens_in(self, name: str) -> tuple[str, ...]:
        """What a name says it contains, each once."""
        found = [one for spelling in self.allergen_names.all_in(name) for one in self.allergens[spelling]]
        return tuple(allergen for allergen in dict.fromkeys(found) if allergen != NOT_AN_ALLERGEN)


def spaced(name: str) -> str:
    """A name as it is compared: words with one space between and around, hyphens and signs gone."""
    plain = "".join(sign if sign.isalnum() or sign == "'" else " " for sign in normal(name))
    return f" {' '.join(plain.split())} "


def read_garden(shelf: Shelf) -> GardenTables:
    """All tables of plants and jars. Raises TableError for a wrong row."""
    words = {kind: row.words for kind, row in shelf.by("kind", "food_words.csv", FoodWords).items()}
    plants = shelf.by("key", "plants.csv", Plant, kind=KINDS, foraged=FORAGED, rules=PLANT_RULES)
    blanching, allergens = _read_blanching(shelf), _read_allergens(shelf)
    in_jars = {*GROUPS, *words, *IN_THE_JAR}
    sinks = never("above_ft is not below to_ft", lambda row: row.above_ft >= row.to_ft)
    by_height = ("canner", "to_ft")
    jars: dict[str, JarSize] = shelf.by("spellings", "jars.csv", JarSize)
    pressures = shelf.by(by_height, "canner_pressure.csv", CannerPressure, sinks, canner=CANNERS)
    lists = {"kinds": in_jars, "packs": PACKS, "certainty": PUBLISHED}
    canning: dict[str, CanningTime] = shelf.by("food", "canning.csv", CanningTime, **lists)
    by_name = {name: row for row in canning.values() for name in row.names}
    return GardenTables(
        plants=plants,
        blanching=blanching,
        blanching_names=Names.of([name for row in blanching for name in row.names]),
        jars=dict(sorted(jars.items(), key=lambda pair: -len(pair[0]))),
        canning=canning,
        canned_by_name=by_name,
        canned_plants=Names.of([*dict.fromkeys((*by_name, *words["low acid"], *words["greens"]))]),
        boiling=_read_boiling(shelf),
        pressures=tuple(pressures.values()),
        words={kind: Names.of(names) for kind, names in words.items()},
        allergens=allergens,
        allergen_names=Names.of(allergens),
    )


def _read_blanching(shelf: Shelf) -> tuple[Blanching, ...]:
    half = never(
        "low_min and high_min are no range", lambda row: (row.low_min is None) != (row.high_min is None)
    )
    key, lists = ("vegetable", "size"), {"way": WAYS, "certainty": PUBLISHED}
    return tuple(shelf.by(key, "blanching.csv", Blanching, half, is_range, **lists).values())


def _read_boiling(shelf: Shelf) -> tuple[BoilingTime, ...]:
    falls = never(
        "the minutes fall with the height",
        lambda row: not row.to_1000_ft <= row.to_3000_ft <= row.to_6000_ft <= row.above_6000_ft,
    )
    lists = {"packs": PACKS, "size": ("pint", "quart"), "certainty": PUBLISHED}
    return tuple(shelf.by(("food", "size"), "boiling_water.csv", BoilingTime, falls, **lists).values())


def _read_allergens(shelf: Shelf) -> dict[str, tuple[str, ...]]:
    """The allergens of each name: one may contain two, as egg noodles do."""
    key, lists = ("allergen", "names"), (*LISTS, NOT_AN_ALLERGEN)
    found: dict[str, tuple[str, ...]] = {}
    for allergen, name in shelf.by(key, "allergens.csv", Allergen, lists=lists):
        found[name] = (*found.get(name, ()), allergen)
    return found
