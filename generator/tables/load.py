"""The tables folder in, one frozen `Tables` out. A wrong row raises `TableError` with its file and line."""

from __future__ import annotations

import functools
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from generator.model import published
from generator.model.quantity import Dimension, Quantity, Span, Unit
from generator.model.rounding import RoundingRow
from generator.tables import curing, foods, measures, words
from generator.tables.acts import Acts, read_acts
from generator.tables.carry import CarryTables, read_carry
from generator.tables.csvfile import Shelf, is_range, normal
from generator.tables.garden import PLANT_RULES, GardenTables, read_garden
from generator.tables.heat import HeatTables, Keeping, read_heat
from generator.tables.names import Lexicon, read_lexicon
from generator.tables.nitrite_names import NitriteNames, read_nitrite_names
from generator.tables.poisons import read_poisons

FOLDER = Path(__file__).parent
"Where the tables lie: beside their loader."


@dataclass(frozen=True, slots=True, kw_only=True, eq=False, repr=False)
class Tables:
    """All published values. Look-ups are by exact name, never by a near one; None or nothing is unknown."""

    folder: Path
    "Where they were read; the lexicon is read from there when it is first asked for."
    units: dict[str, Unit]
    unit_names: measures.UnitNames
    counted_names: dict[str, Unit]
    cans: dict[str, measures.CanSize]
    "By the number of a can, in each of its spellings."
    vague: tuple[str, ...]
    "Spellings of amounts without a size; longest first, as all spellings are."
    food_names: dict[str, tuple[published.FoodWeight, ...]]
    piece_names: dict[tuple[str, str], published.PieceWeight]
    salts: foods.Salts
    scaling: dict[str, foods.Scaling]
    curing_salt_names: dict[str, published.CuringSalt]
    nitrite_names: NitriteNames
    "What an ingredient line can call a nitrite or nitrate salt."
    spoons: dict[str, published.SpoonWeight]
    limits: dict[tuple[str, str], published.NitriteLimit]
    fish_limits: dict[str, curing.FishLimit]
    constants: dict[str, curing.SingleValue]
    animals_by_key: dict[str, published.Animal]
    stages: dict[str, bool]
    "True: can bring the middle of a piece to a temperature."
    stage_words: dict[str, words.CalledStage]
    "Every word for a stage of a course."
    place_names: dict[str, measures.Spellings]
    method_verbs: dict[str, words.MethodVerb]
    "Orders of a method that are stages, by each of their forms."
    rounding: tuple[RoundingRow, ...]
    day_rules: tuple[published.DayRule, ...]
    cut_products: dict[str, curing.CutProduct]
    cautions: dict[str, published.CautionText]
    named_boxes: tuple[published.NamedBox, ...]
    "Names that are enough for a box."
    acts: Callable[[], Acts]
    "What words tell a cook to do; read where a recipe is first checked."
    differences: tuple[published.Difference, ...]
    "Where sources differ, and which this book follows."
    transfer: tuple[published.TransferRow, ...]
    "How salt and nitrite move in meat."
    carry: CarryTables
    "Bone, water, losses and salted foods: how salt gets from a cured piece into a dish."
    heat: HeatTables
    "How hot the middle of which meat must get, and for how long."
    garden: GardenTables
    "Plants and fungi, blanching, canning, allergens."
    sources: dict[str, published.Source]
    brine: tuple[published.BrineRow, ...]
    "Strengths at 60 °F, weakest first."
    keeping: dict[str, Keeping]
    "Days in the fridge and months in the freezer, by kind of food."
    produce: dict[str, foods.Refuse]
    "What of a vegetable as bought is not eaten, by each of its names."

    def __repr__(self) -> str:
        """Short: a message that names the tables does not print them."""
        return f"<Tables: {len(self.sources)} sources>"

    def find_unit(self, spelling: str, system: str) -> Unit | None:
        """The unit of a spelling in a book of a system; AmbiguousUnit is raised where that leaves it open."""
        return self.unit_names.find(spelling, system)

    def counted(self, spelling: str) -> Unit | None:
        """A counted thing: clove, head, dozen."""
        return self.counted_names.get(normal(spelling))

    def food(self, name: str) -> tuple[published.FoodWeight, ...]:
        """Every weight per measure of a food; nothing where the name is not exactly known."""
        return self.food_names.get(normal(name), ())

    def piece(self, name: str, size: str) -> published.PieceWeight | None:
        """The weight of one piece of a size; `garlic clove` and the like have the empty size."""
        return self.piece_names.get((normal(name), normal(size)))

    def refuse_of(self, name: str) -> foods.Refuse | None:
        """What of a vegetable as bought is not eaten; None where nothing is published under exactly that name."""
        return self.produce.get(normal(name))

    def is_bare_salt(self, name: str) -> bool:
        """True for a salt whose volume has no certain weight: no crystal is named, or sources disagree."""
        return normal(name) in self.salts.by_name

    def salt_range(self, unit_key: str, name: str = "salt") -> Span | None:
        """What one measure of such a salt can weigh [g], for words of refusal; not a range to reckon with."""
        return self.salts.span(normal(name), unit_key)

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
                total = total.plus(one.by(measure.span))
        return total if quantity.measures else None

    def loose_or_packed(self, name: str) -> tuple[str, ...]:
        """Of a sugar whose packing is not told, the foods that have its lightest and its heaviest cup; else nothing."""
        return foods.LOOSE_OR_PACKED.get(normal(name), ())

    def scaling_check(self, name: str) -> str:
        """Why an ingredient wants a second look when a recipe grows; empty for most."""
        found = self.scaling.get(normal(name))
        return found.check if found else ""

    def curing_salt(self, name: str) -> published.CuringSalt | None:
        """A curing salt by number or composition, never by colour."""
        return self.curing_salt_names.get(normal(name))

    @property
    def curing_salts(self) -> tuple[published.CuringSalt, ...]:
        """Every curing salt once, in the order of the table."""
        return tuple({salt.key: salt for salt in self.curing_salt_names.values()}.values())

    def spoon(self, unit_key: str) -> published.SpoonWeight | None:
        """The published range of one measure of curing salt no. 1 or no. 2."""
        return self.spoons.get(unit_key)

    def limit(self, cut: str, method: str) -> published.NitriteLimit:
        """The most ingoing nitrite for whole, ground or belly, in a brine or dry."""
        return self.limits[cut, method]

    def fish_limit(self, animal_key: str) -> Fraction | None:
        """The most nitrite [ppm] in a fish; None where none is allowed."""
        limit = self.fish_limits.get(animal_key)
        return None if limit is None else limit.limit_ppm

    def fish_nitrate_limit(self, animal_key: str) -> Fraction:
        """The most nitrate [ppm] in a fish; nothing where none is allowed."""
        limit = self.fish_limits.get(animal_key)
        return Fraction(0) if limit is None else limit.nitrate_ppm

    def constant(self, key: str) -> Fraction:
        """A single published number, in the unit of its row in constants.csv."""
        return self.constants[key].value

    def animal(self, name: str) -> published.Animal | None:
        """An animal by its key, or by any of its names; with words of a kind before it: black bear, bear meat."""
        return self.animals_by_key.get(normal(name)) or self._named(name)

    def _named(self, name: str) -> published.Animal | None:
        found = self.lexicon.find(name, whole=True)
        rest = name[found[-1].end :].strip().lower() if found else ""
        if len(found) != 1 or found[0].kind != "animal" or rest not in ("", "meat"):
            return None
        known = [key for key in found[0].means if key in self.animals_by_key]
        return self.animals_by_key[known[0]] if known else None

    @property
    def animals(self) -> tuple[published.Animal, ...]:
        """Every animal once, in the order of the table."""
        return tuple(self.animals_by_key.values())

    def product(self, cut: str) -> str | None:
        """The product whose published cure times speak of a cut, by whole words, the longest name first."""
        spaced = "".join(letter if letter.isalnum() else " " for letter in normal(cut))
        words_of_cut = f" {' '.join(spaced.split())} "
        # A picnic ham is a picnic, and a ham hock no ham: the longest name says which.
        found = [name for name in self.cut_products if f" {name} " in words_of_cut]
        product = self.cut_products[measures.longest_first(found)[0]].product if found else curing.NO_PRODUCT
        return None if product == curing.NO_PRODUCT else product

    @property
    def lexicon(self) -> Lexicon:
        """Names of animals, plants, fungi and foods. Read once, and only for who asks: a cure asks for none."""
        return _lexicon_of(self)

    def place(self, spelling: str) -> str | None:
        """A place where a stage happens: `the fridge`, `a rack`."""
        found = self.place_names.get(words.without_article(spelling))
        return found.word if found else None


def read_tables(folder: Path) -> Tables:
    """All tables of a folder."""
    sources = Shelf(folder).by("key", "sources.csv", published.Source, certainty=words.CERTAINTIES)
    shelf = Shelf(folder, sources)  # from here on a row that names no known source is refused
    known = measures.read_units(shelf)
    animals = shelf.by(
        "key", "animals.csv", published.Animal, words.HAS_WATER, group=words.GROUPS, water=words.WATERS
    )
    keys = frozenset(animals)
    stages = {key: row.heats for key, row in shelf.by("name", "stages.csv", words.StageName).items()}
    places = shelf.by("spellings", "places.csv", measures.Spellings)
    verbs = words.read_method_verbs(shelf, stages, places)
    cautions = shelf.by("slug", "cautions.csv", published.CautionText, signal=words.SIGNALS)
    salts = curing.read_curing_salts(shelf)
    named = {"plant": PLANT_RULES, "animal": keys, "group": words.GROUPS}
    volume = functools.partial(measures.is_volume, known)
    of_cure = {"cut": curing.CUTS, "method": curing.METHODS}
    return Tables(
        folder=folder,
        units=known,
        unit_names=measures.read_unit_names(shelf, known),
        counted_names=measures.read_counted(shelf),
        cans=shelf.by("spellings", "can_sizes.csv", measures.CanSize),
        vague=measures.longest_first(shelf.by("spellings", "vague.csv", measures.Spellings)),
        food_names=foods.read_foods(shelf, known),
        piece_names=foods.read_pieces(shelf),
        salts=foods.read_salts(shelf, known),
        scaling=shelf.by("names", "scaling.csv", foods.Scaling),
        curing_salt_names=salts,
        nitrite_names=read_nitrite_names(shelf, salts),
        spoons=shelf.by("unit", "spoons.csv", published.SpoonWeight, volume, is_range, unit=known),
        limits=shelf.by(("cut", "method"), "limits.csv", published.NitriteLimit, **of_cure),
        fish_limits=shelf.by("animal", "fish_nitrite.csv", curing.FishLimit, animal=keys),
        constants=shelf.by("key", "constants.csv", curing.SingleValue, unit=curing.CONSTANT_UNITS),
        animals_by_key=animals,
        stages=stages,
        stage_words=words.read_stage_words(shelf, stages, places, verbs),
        place_names=places,
        method_verbs=verbs,
        rounding=measures.read_rounding(shelf, known),
        day_rules=curing.read_day_rules(shelf),
        cut_products=shelf.by("cuts", "cut_products.csv", curing.CutProduct, product=curing.CUT_PRODUCTS),
        cautions=cautions,
        named_boxes=words.read_named_boxes(shelf, cautions, named),
        acts=functools.cache(lambda: read_acts(shelf, cautions)),
        differences=tuple(shelf.by("topic", "differences.csv", published.Difference).values()),
        transfer=curing.read_transfer(shelf),
        carry=read_carry(shelf, keys),
        heat=read_heat(shelf),
        garden=read_garden(shelf),
        sources=sources,
        brine=curing.read_brine(shelf),
        keeping=shelf.by("kind", "keeping.csv", Keeping),
        produce=foods.read_produce(shelf),
    )


@functools.cache
def _lexicon_of(tables: Tables) -> Lexicon:
    plants = tables.garden.plants
    shelf = Shelf(tables.folder, tables.sources)
    return read_lexicon(shelf, read_poisons(shelf, plants), tables.nitrite_names.pure_or_mixed)


@functools.cache
def load_tables() -> Tables:
    """The tables that come with the program, read once."""
    return read_tables(FOLDER)
