"""plants, blanching, canning, canner_pressure, food_words and allergens (.csv) in; what wood and jar ask for out."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from generator.tables.csvfile import Row, normal, once, read_rows

KINDS = ("plant", "fungus")
FORAGED = ("always", "said", "no")
"Gathered wild whatever is said; only where the recipe says so; a plant of the garden."
PLANT_RULES = (
    *("elderberry", "elder-leaf", "fiddlehead", "ramps-lookalike", "pokeweed", "nettle", "watercress-fluke"),
    *("oxalate", "nitrate", "rhubarb-stalk", "rhubarb-leaf", "morel", "wild-mushrooms"),
)
WAYS = ("water", "steam", "cook")
CANNERS = ("dial gauge", "weighted gauge")
CERTAINTIES = ("seen", "second-hand", "from memory", "common practice")
NOT_AN_ALLERGEN = "none"
"Rows of names that only sound like an allergen: they take their words away before the others look."
LISTS = ("us", "eu")


@dataclass(frozen=True, slots=True, kw_only=True)
class Plant:
    """A plant or fungus that an ingredient line can name."""

    key: str
    names: tuple[str, ...]
    kind: str
    foraged: str
    rules: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Blanching:
    """Published minutes of blanching before freezing, counted from the return of the boil."""

    vegetable: str
    names: tuple[str, ...]
    size: str
    "small, large, sliced ..., or empty."
    low_min: Fraction | None
    "None: not blanched but cooked."
    high_min: Fraction | None
    way: str
    says: str
    source: str
    certainty: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CanningTime:
    """Tested minutes in a pressure canner, by jar."""

    food: str
    title: str
    kinds: tuple[str, ...]
    "Groups of animals, or words of what is in the jar."
    pint_min: Fraction | None
    quart_min: Fraction | None
    "None: not tested."
    source: tuple[str, ...]
    certainty: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CannerPressure:
    """Pounds on a canner at an altitude."""

    canner: str
    above_ft: Fraction
    to_ft: Fraction
    pounds: Fraction


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
    plant_names: Names
    long_plant_names: Names
    "Those of several words."
    blanching: tuple[Blanching, ...]
    blanching_names: Names
    canning: Mapping[str, CanningTime]
    pressures: tuple[CannerPressure, ...]
    words: Mapping[str, Names]
    "Words of foods by what they say: stock, cured, thickener ..."
    allergens: Mapping[str, tuple[str, ...]]
    allergen_names: Names

    def plant_in(self, name: str) -> Plant | None:
        """The plant that a name speaks of."""
        found = self.plant_names.first_in(name)
        return self.plants[found] if found else None

    def without_plants(self, name: str) -> str:
        """A name without plants whose own name has more than one word: bear garlic is no bear."""
        return self.long_plant_names.cut_from(name)

    def says(self, name: str, kind: str) -> str:
        """The first word of a kind in a name, or nothing."""
        return self.words[kind].first_in(name)

    def blanched(self, name: str) -> tuple[Blanching, ...]:
        """Every row of the vegetable that a name speaks of, all sizes."""
        found = self.blanching_names.first_in(name)
        return tuple(row for row in self.blanching if found in row.names)

    def allergens_in(self, name: str) -> tuple[str, ...]:
        """What a name says it contains, each once."""
        found = (
            allergen for spelling in self.allergen_names.all_in(name) for allergen in self.allergens[spelling]
        )
        return tuple(allergen for allergen in dict.fromkeys(found) if allergen != NOT_AN_ALLERGEN)


def spaced(name: str) -> str:
    """A name as it is compared: words with one space between and around, hyphens and signs gone."""
    plain = "".join(sign if sign.isalnum() or sign == "'" else " " for sign in normal(name))
    return f" {' '.join(plain.split())} "


def read_garden(folder: Path, groups: Collection[str], sources: Collection[str]) -> GardenTables:
    """All tables of plants and jars. Raises TableError for a wrong row."""
    words = _read_words(folder, sources)
    plants, allergens = _read_plants(folder, sources), _read_allergens(folder, sources)
    blanching = _read_blanching(folder, sources)
    return GardenTables(
        plants=plants,
        plant_names=Names.of(plants),
        long_plant_names=Names.of([name for name in plants if " " in name]),
        blanching=blanching,
        blanching_names=Names.of([name for row in blanching for name in row.names]),
        canning=_read_canning(folder, {*groups, *words, "ground", "soup", "smoked fish"}, sources),
        pressures=_read_pressures(folder, sources),
        words={kind: Names.of(names) for kind, names in words.items()},
        allergens=allergens,
        allergen_names=Names.of(allergens),
    )


def _read_plants(folder: Path, sources: Collection[str]) -> dict[str, Plant]:
    columns = ("plant", "names", "kind", "foraged", "rules", "source", "locator", "note")
    plants: dict[str, Plant] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "plants.csv", columns):
        row.sources(sources)
        plant = Plant(
            key=row.text("plant"),
            names=row.names("names"),
            kind=row.one_of("kind", KINDS),
            foraged=row.one_of("foraged", FORAGED),
            rules=_rules(row),
        )
        for name in plant.names:
            once(seen, name, row)
            plants[name] = plant
    return plants


def _rules(row: Row) -> tuple[str, ...]:
    rules = row.words("rules") if row.optional("rules") else ()
    for rule in rules:
        if rule not in PLANT_RULES:
            raise row.error(f"unknown rule '{rule}'")
    return rules


def _minutes(row: Row, column: str) -> Fraction | None:
    return row.amount(column) if row.optional(column) else None


def _read_blanching(folder: Path, sources: Collection[str]) -> tuple[Blanching, ...]:
    columns = ("vegetable", "names", "size", "low_min", "high_min", "way", "says")
    found = []
    seen: set[object] = set()
    for row in read_rows(folder / "blanching.csv", (*columns, "source", "locator", "certainty")):
        one = Blanching(
            vegetable=row.text("vegetable"),
            names=row.names("names"),
            size=row.optional("size"),
            low_min=_minutes(row, "low_min"),
            high_min=_minutes(row, "high_min"),
            way=row.one_of("way", WAYS),
            says=row.optional("says"),
            source=row.source(sources),
            certainty=row.one_of("certainty", CERTAINTIES),
        )
        once(seen, (one.vegetable, one.size), row)
        if (one.low_min is None) != (one.high_min is None) or (one.low_min or 0) > (one.high_min or 0):
            raise row.error("low_min and high_min are no range")
        found.append(one)
    return tuple(found)


def _read_canning(folder: Path, kinds: Collection[str], sources: Collection[str]) -> dict[str, CanningTime]:
    columns = ("food", "title", "kinds", "pint_min", "quart_min", "source", "locator", "certainty", "note")
    found: dict[str, CanningTime] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "canning.csv", columns):
        once(seen, row.text("food"), row)
        for kind in row.words("kinds"):
            if kind not in kinds:
                raise row.error(f"unknown kind '{kind}'")
        found[row.text("food")] = CanningTime(
            food=row.text("food"),
            title=row.text("title"),
            kinds=row.words("kinds"),
            pint_min=_minutes(row, "pint_min"),
            quart_min=_minutes(row, "quart_min"),
            source=row.sources(sources),
            certainty=row.one_of("certainty", CERTAINTIES),
        )
    return found


def _read_pressures(folder: Path, sources: Collection[str]) -> tuple[CannerPressure, ...]:
    columns = ("canner", "above_ft", "to_ft", "pounds", "source", "locator")
    found = []
    seen: set[object] = set()
    for row in read_rows(folder / "canner_pressure.csv", columns):
        row.source(sources)
        one = CannerPressure(
            canner=row.one_of("canner", CANNERS),
            above_ft=row.amount("above_ft"),
            to_ft=row.amount("to_ft"),
            pounds=row.amount("pounds"),
        )
        once(seen, (one.canner, one.to_ft), row)
        if one.above_ft >= one.to_ft:
            raise row.error("above_ft is not below to_ft")
        found.append(one)
    return tuple(found)


def _read_words(folder: Path, sources: Collection[str]) -> dict[str, tuple[str, ...]]:
    words: dict[str, tuple[str, ...]] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "food_words.csv", ("kind", "words", "source", "locator")):
        row.source(sources)
        once(seen, row.text("kind"), row)
        words[row.text("kind")] = row.names("words")
    return words


def _read_allergens(folder: Path, sources: Collection[str]) -> dict[str, tuple[str, ...]]:
    columns = ("allergen", "names", "lists", "source", "locator", "note")
    found: dict[str, tuple[str, ...]] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "allergens.csv", columns):
        row.sources(sources)
        for known in row.words("lists"):
            if known not in (*LISTS, NOT_AN_ALLERGEN):
                raise row.error(f"unknown list '{known}'")
        for name in row.names("names"):
            once(seen, (row.text("allergen"), name), row)
            found[name] = (*found.get(name, ()), row.text("allergen"))
    return found
