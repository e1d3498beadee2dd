"""The tables folder in, one frozen `Tables` out. A wrong row raises `TableError` with its file and line."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from generator.model.published import (
    Animal,
    BrineRow,
    CautionText,
    CuringSalt,
    DayRule,
    Difference,
    FoodWeight,
    NamedBox,
    NitriteLimit,
    PieceWeight,
    Source,
    SpoonWeight,
)
from generator.model.quantity import Dimension, Quantity, Span, Unit
from generator.model.rounding import RoundingRow
from generator.tables import curing, foods, words
from generator.tables.brine import read_brine
from generator.tables.carry import CarryTables, read_carry
from generator.tables.csvfile import normal
from generator.tables.day_rules import NO_PRODUCT, read_cut_products, read_day_rules
from generator.tables.garden import PLANT_RULES, GardenTables, read_garden
from generator.tables.heat import HeatTables, read_heat
from generator.tables.keeping import Keeping, read_keeping
from generator.tables.nitrite_names import NitriteNames, read_nitrite_names
from generator.tables.produce import Refuse, read_produce
from generator.tables.rounding import read_rounding
from generator.tables.transfer import read_transfer
from generator.tables.unit_names import UnitNames, longest_first, read_counted, read_unit_names, read_vague
from generator.tables.units import read_units

FOLDER = Path(__file__).parent
"Where the tables lie: beside their loader."


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Tables:
    """All published values. Look-ups are by exact name, never by a near one; None or nothing is unknown."""

    units: dict[str, Unit]
    unit_names: UnitNames
    counted_names: dict[str, Unit]
    counted_spellings: tuple[str, ...]
    "Longest first, as all spellings are."
    vague_words: dict[str, str]
    vague: tuple[str, ...]
    "Spellings of amounts without a size."
    food_names: dict[str, tuple[FoodWeight, ...]]
    piece_names: dict[tuple[str, str], PieceWeight]
    salts: foods.Salts
    scaling: dict[str, str]
    curing_salt_names: dict[str, CuringSalt]
    nitrite_names: NitriteNames
    "What an ingredient line can call a nitrite or nitrate salt."
    spoons: dict[str, SpoonWeight]
    limits: dict[tuple[str, str], NitriteLimit]
    fish_limits: dict[str, tuple[Fraction, Fraction]]
    constants: dict[str, Fraction]
    animal_names: dict[str, Animal]
    animal_spellings: tuple[str, ...]
    stages: dict[str, bool]
    "True: can bring the middle of a piece to a temperature."
    place_names: dict[str, str]
    rounding: tuple[RoundingRow, ...]
    day_rules: tuple[DayRule, ...]
    cut_products: dict[str, str]
    cautions: dict[str, CautionText]
    named_boxes: tuple[NamedBox, ...]
    "Names that are enough for a box."
    differences: tuple[Difference, ...]
    "Where sources differ, and which this book follows."
    transfer: tuple[Mapping[str, str], ...]
    "How salt and nitrite move in meat: the rows of transfer.csv, each checked."
    carry: CarryTables
    "Bone, water, losses and salted foods: how salt gets from a cured piece into a dish."
    heat: HeatTables
    "How hot the middle of which meat must get, and for how long."
    garden: GardenTables
    "Plants and fungi, blanching, canning, allergens."
    sources: dict[str, Source]
    brine: tuple[BrineRow, ...]
    "Strengths at 60 °F, weakest first."
    keeping: dict[str, Keeping]
    "Days in the fridge and months in the freezer, by kind of food."
    produce: dict[str, Refuse]
    "What of a vegetable as bought is not eaten, by each of its names."

    def __repr__(self) -> str:
        """Short: a message that names the tables does not print them."""
        return f"<Tables: {len(self.sources)} sources>"

    def find_unit(self, spelling: str, system: str) -> Unit | None:
        """The unit of a spelling in a book of a system; AmbiguousUnit is raised where that leaves it open."""
        return self.unit_names.find(spelling, system)

    @property
    def unit_spellings(self) -> tuple[str, ...]:
        """Spellings of units, longest first; case matters for a few (T and t)."""
        return self.unit_names.spellings

    def counted(self, spelling: str) -> Unit | None:
        """A counted thing: clove, head, dozen."""
        return self.counted_names.get(normal(spelling))

    def vague_word(self, spelling: str) -> str | None:
        """The one word for an amount without a size: pinches is pinch."""
        return self.vague_words.get(normal(spelling))

    def food(self, name: str) -> tuple[FoodWeight, ...]:
        """Every weight per measure of a food; nothing where the name is not exactly known."""
        return self.food_names.get(normal(name), ())

    def piece(self, name: str, size: str) -> PieceWeight | None:
        """The weight of one piece of a size; `garlic clove` and the like have the empty size."""
        return self.piece_names.get((normal(name), normal(size)))

    def refuse_of(self, name: str) -> Refuse | None:
        """What of a vegetable as bought is not eaten; None where nothing is published under exactly that name."""
        return self.produce.get(normal(name))

    def is_bare_salt(self, name: str) -> bool:
        """True for a salt whose volume has no certain weight: no crystal is named, or sources disagree."""
        return normal(name) in self.salts.by_name

    def salt_range(self, unit_key: str, name: str = "salt") -> Span | None:
        """What one measure of such a salt can weigh [g], for words of refusal; not a range to reckon with."""
        unit = self.units.get(unit_key)
        return None if unit is None else self.salts.span(normal(name), unit)

    def salt_grams(self, quantity: Quantity, name: str) -> Span | None:
        """What an amount of a bare salt can weigh [g], its lightest crystal to its heaviest; None for another food."""
        total = Span.of(0)
        for measure in quantity.measures:
            one = self.salt_range(measure.unit.key, name)
            if measure.unit.dimension is Dimension.WEIGHT:
                total = total.plus(measure.base)
            elif one is None:
                return None
            else:
                total = total.plus(Span(one.low * measure.span.low, one.high * measure.span.high))
        return total if quantity.measures else None

    def scaling_check(self, name: str) -> str:
        """Why an ingredient wants a second look when a recipe grows; empty for most."""
        return self.scaling.get(normal(name), "")

    def curing_salt(self, name: str) -> CuringSalt | None:
        """A curing salt by number or composition, never by colour."""
        return self.curing_salt_names.get(normal(name))

    @property
    def curing_salts(self) -> tuple[CuringSalt, ...]:
        """Every curing salt once, in the order of the table."""
        return tuple({salt.key: salt for salt in self.curing_salt_names.values()}.values())

    def spoon(self, unit_key: str) -> SpoonWeight | None:
        """The published range of one measure of curing salt no. 1 or no. 2."""
        return self.spoons.get(unit_key)

    def limit(self, cut: str, method: str) -> NitriteLimit:
        """The most ingoing nitrite for whole, ground or belly, in a brine or dry."""
        return self.limits[cut, method]

    def fish_limit(self, animal_key: str) -> Fraction | None:
        """The most nitrite [ppm] in a fish; None where none is allowed."""
        limits = self.fish_limits.get(animal_key)
        return None if limits is None else limits[0]

    def fish_nitrate_limit(self, animal_key: str) -> Fraction:
        """The most nitrate [ppm] in a fish; nothing where none is allowed."""
        return self.fish_limits.get(animal_key, (Fraction(0), Fraction(0)))[1]

    def constant(self, key: str) -> Fraction:
        """A single published number, in the unit of its row in constants.csv."""
        return self.constants[key]

    def animal(self, name: str) -> Animal | None:
        """An animal by any of its names."""
        return self.animal_names.get(normal(name))

    @property
    def animals(self) -> tuple[Animal, ...]:
        """Every animal once, in the order of the table."""
        return tuple({animal.key: animal for animal in self.animal_names.values()}.values())

    def product(self, cut: str) -> str | None:
        """The product whose published cure times speak of a cut, by whole words, the longest name first."""
        spaced = "".join(letter if letter.isalnum() else " " for letter in normal(cut))
        words_of_cut = f" {' '.join(spaced.split())} "
        for name in longest_first(self.cut_products):
            if f" {name} " in words_of_cut:
                product = self.cut_products[name]
                return None if product == NO_PRODUCT else product
        return None

    def place(self, spelling: str) -> str | None:
        """A place where a stage happens: `the fridge`, `a rack`."""
        return self.place_names.get(words.without_article(spelling))


def read_tables(folder: Path) -> Tables:
    """All tables of a folder."""
    sources = words.read_sources(folder)
    units = read_units(folder, sources)
    animals = words.read_animals(folder, sources)
    keys = {animal.key for animal in animals.values()}
    cautions = words.read_cautions(folder, sources)
    counted = read_counted(folder, sources)
    vague = read_vague(folder, sources)
    curing_salts = curing.read_curing_salts(folder, sources)
    return Tables(
        units=units,
        unit_names=read_unit_names(folder, units, sources),
        counted_names=counted,
        counted_spellings=longest_first(counted),
        vague_words=vague,
        vague=longest_first(vague),
        food_names=foods.read_foods(folder, units, sources),
        piece_names=foods.read_pieces(folder, sources),
        salts=foods.read_salts(folder, units, sources),
        scaling=foods.read_scaling(folder, sources),
        curing_salt_names=curing_salts,
        nitrite_names=read_nitrite_names(folder, curing_salts, sources),
        spoons=curing.read_spoons(folder, units, sources),
        limits=curing.read_limits(folder, sources),
        fish_limits=curing.read_fish_limits(folder, keys, sources),
        constants=curing.read_constants(folder, sources),
        animal_names=animals,
        animal_spellings=longest_first(animals),
        stages=words.read_stages(folder, sources),
        place_names=words.read_places(folder, sources),
        rounding=read_rounding(folder, units, sources),
        day_rules=read_day_rules(folder, sources),
        cut_products=read_cut_products(folder, sources),
        cautions=cautions,
        named_boxes=words.read_named_boxes(
            folder, cautions, {"plant": PLANT_RULES, "animal": keys, "group": words.GROUPS}
        ),
        differences=words.read_differences(folder, sources),
        transfer=read_transfer(folder, sources),
        carry=read_carry(folder, keys | set(words.GROUPS), sources),
        heat=read_heat(folder, words.GROUPS, sources),
        garden=read_garden(folder, words.GROUPS, sources),
        sources=sources,
        brine=read_brine(folder, sources),
        keeping=read_keeping(folder, sources),
        produce=read_produce(folder, sources),
    )


@functools.cache
def load_tables() -> Tables:
    """The tables that come with the program, read once."""
    return read_tables(FOLDER)
