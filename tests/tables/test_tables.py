"""Every table: a source and a place in it for each row, no key twice, and a refusal for each kind of wrong row."""

from __future__ import annotations

import re
from dataclasses import fields
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from generator.model.published import CuringSalt
from generator.tables import TableError, Tables, load_tables, read_tables
from generator.tables.carry import CarryTables
from generator.tables.csvfile import Shelf
from generator.tables.garden import GardenTables
from generator.tables.heat import HeatTables
from generator.tables.load import FOLDER
from tests.gaps import GENERATOR, names_taken
from tests.tables.conftest import spoil
from tests.tables.gaps import TablePlaces, table_gaps

TABLES = load_tables()
COLOURS = ("pink", "red", "blue", "white cure", "tinted", "dyed")


def test_every_table_stands_wherever_it_is_needed(monkeypatch: pytest.MonkeyPatch) -> None:
    rows, parts = Shelf.rows, (Tables, CarryTables, GardenTables, HeatTables)

    def read(folder: Path) -> list[str]:
        found: list[str] = []

        def noted(shelf: Shelf, file: str, *rest: Any, **lists: Any) -> Any:
            found.append(file)
            return rows(shelf, file, *rest, **lists)

        monkeypatch.setattr(Shelf, "rows", noted)
        tables = read_tables(folder)
        # These two are read once they are asked for; the thousands of names are read as bare lines.
        assert tables.acts().rows
        assert tables.lexicon.poisons
        return [*found, "names.csv"]

    named = [field.name for part in parts for field in fields(part)]
    asked = names_taken(*GENERATOR.rglob("*.py"))
    assert table_gaps(TablePlaces(folder=FOLDER, read=read, fields=named, asked=asked)) == []


def test_every_source_says_how_certain_it_is() -> None:
    for source in TABLES.sources.values():
        assert source.certainty in (
            "seen",
            "second-hand",
            "from memory",
            "common practice",
            "house choice",
        )


def test_tables_are_read_once() -> None:
    assert load_tables() is TABLES


# refusals


SPOILT = [
    # file, text that is there, text put in its place, words of the refusal
    ("foods.csv", 'yes,sr28,"NDB 14411, 8', 'yes,,"NDB 14411, 8', "source is empty"),
    ("foods.csv", '"NDB 19296, 1 tbsp"', "", "locator is empty"),
    ("foods.csv", 'sr28,"NDB 19296, 1 tbsp"', 'sr82,"NDB 19296, 1 tbsp"', "unknown source 'sr82'"),
    ("foods.csv", "honey,honey,us_tbsp", "honey,honey,us_spoon", "unknown unit 'us_spoon'"),
    ("foods.csv", "honey,honey,us_tbsp", "honey,honey,gram", "gram is not a volume"),
    ("foods.csv", "honey,honey,us_tbsp", "honey,honey,us_cup", "stands twice"),
    ("foods.csv", "honey,honey,us_cup,339", "honey,honey,us_cup,-339", "grams is negative"),
    ("foods.csv", "honey,honey,us_cup,339", "honey,honey,us_cup,0", "honey weighs nothing"),
    ("foods.csv", "honey,honey,us_cup,339", "honey,honey,us_cup,339 g", "grams '339 g' is not a number"),
    ("foods.csv", "honey,honey,us_cup", "honey,honey;Molasses,us_cup", "not written as names are compared"),
    ("foods.csv", "honey,honey,us_tbsp", "honey,honey;mead,us_tbsp", "the rows of honey have different names"),
    ("foods.csv", "molasses,molasses,us_cup", "molasses,molasses;honey,us_cup", "'honey' is the name of two foods"),
    ("foods.csv", "molasses,molasses,us_cup", "molasses,treacle,us_cup", "molasses is not among its own names"),
    ("foods.csv", "honey,honey,us_cup,339,no", "honey,honey,us_cup,339,perhaps", "unknown liquid 'perhaps'"),
    ("foods.csv", "honey,honey,us_cup,339,no", "honey,honey,us_cup,339", "7 cells, not 8"),
    ("pieces.csv", "leek,leek;leeks,,89,56", "leek,leek;leeks,,89,100", "refuse of 100 % or more"),
    ("pieces.csv", "leek,leek;leeks,,89", "leek,leek;onion,small,89", "stands twice"),
    ("pieces.csv", "leek,leek;leeks,,89", "leek,leek;leeks,huge,89", "unknown size 'huge'"),
    ("salts.csv", "us_cup,134,292", "us_cup,293,292", "low_g is above high_g"),
    ("salts.csv", "coarse sea salt,coarse sea salt", "coarse sea salt,sea salt", "'sea salt' is the name of two salts"),
    ("salts.csv", "gnu-units;fdc", "gnu-units;label", "unknown source 'label'"),
    ("spoons.csv", "us_tsp,5.6,7.08738078125", "us_tsp,5.6,5.5", "low_g is above high_g"),
    ("spoons.csv", "us_tbsp,", "us_tsp,", "us_tsp stands twice"),
    ("curing_salts.csv", "0.0625,0,0.9375", "0.0625,0.04,0.9375", "the shares are more than the whole"),
    ("curing_salts.csv", "no. 2;no.2", "no. 1;no.2", "not among its own names"),
    ("limits.csv", "belly,brine,120", "bacon,brine,120", "unknown cut 'bacon'"),
    ("limits.csv", "whole,dry,200", "whole,brine,200", "stands twice"),
    ("fish_nitrite.csv", "salmon,200", "mermaid,200", "unknown animal 'mermaid'"),
    ("constants.csv", "165,degF", "165,degR", "unknown unit 'degR'"),
    ("constants.csv", "preservative_minimum_ppm", "policy_minimum_ppm", "policy_minimum_ppm stands twice"),
    ("animals.csv", "\nelk,", "\nmoose,", "moose stands twice"),
    ("animals.csv", "\nelk,deer family", "\nelk,cattle", "unknown group 'cattle'"),
    ("animals.csv", "\nelk,deer family,yes,,", "\nelk,deer family,yes,salt,", "and nothing else has one"),
    ("stages.csv", "thaw,no", "thaw,", "heats is empty"),
    ("stages.csv", "thaw,no", "trim,no", "trim stands twice"),
    ("stage_words.csv", ",rinse,,", ",rins,,", "unknown stage 'rins'"),
    ("stage_words.csv", ",jar,pressure canner", ",jar,canner", "unknown place 'canner'"),
    ("stage_words.csv", "wash,", "wash;brine,", "'brine' is known already"),
    ("places.csv", "fridge;refrigerator", "fridge;oven", "oven stands twice"),
    ("differences.csv", "Bird flu,", "Pokeweed,", "Pokeweed stands twice"),
    ("differences.csv", "Do not eat it.", "", "takes is empty"),
    ("cautions.csv", "fish-advice,NOTICE", "fish-advice,BEWARE", "unknown signal 'BEWARE'"),
    ("named_boxes.csv", "pokeweed,plant", "poke,plant", "unknown slug 'poke'"),
    ("named_boxes.csv", "pokeweed,plant", "pokeweed,animal", "unknown name 'pokeweed'"),
    ("named_boxes.csv", "waterfowl,yes,yes", "ducks,yes,yes", "unknown name 'ducks'"),
    ("named_boxes.csv", "group,fish,no", "group,waterfowl,no", "('group', 'waterfowl') stands twice"),
    ("named_boxes.csv", "fish,no,yes,,", "fish,no,yes,Fish.,", "a message needs a hint"),
    ("named_boxes.csv", "plant,ramps-lookalike,yes", "plant,ramps-lookalike,no", "a plant stands in a line"),
    ("cautions.csv", "below-40,", "below-120,", "below-120 stands twice"),
    ("sources.csv", "salt-suppliers", "sr28", "sr28 stands twice"),
    ("sources.csv", "common practice,No source", "rumour,No source", "unknown certainty 'rumour'"),
    ("scaling.csv", "cornstarch;corn", "salt;corn", "salt stands twice"),
    ("transfer.csv", "exudate,0.02,0.03", "exudate,0.02,0.06", "central is not between low and high"),
    ("transfer.csv", "exudate,0.02,0.03", "exudate,0.02,three", "central 'three' is not a number"),
    ("transfer.csv", "exudate,0.02,0.03", "saturation,0.02,0.03", "saturation stands twice"),
    ("transfer.csv", "4.0e-10,m2/s", "4.0e-10,cm2/s", "unknown unit 'cm2/s'"),
    ("transfer.csv", "picouet-2013,frozen", "picouet-2031,frozen", "unknown source 'picouet-2031'"),
    ("transfer.csv", "fresh ones,seen", "fresh ones,rumour", "unknown certainty 'rumour'"),
    ("scaling.csv", "cornstarch;corn", "cornstarch;;corn", "names has an empty or a double word"),
    ("vague.csv", "pinch;pinches", "dash;pinches", "dash stands twice"),
    ("counted_units.csv", "clove;cloves", "clove;heads", "heads stands twice"),
    ("unit_names.csv", "oz,ounce", "oz,ons", "unknown us 'ons'"),
    ("unit_names.csv", "oz,ounce", "lb,ounce", "lb stands twice"),
    ("unit_names.csv", "US pint;imperial pint", "", "nothing to write instead"),
    ("unit_titles.csv", "peck,us", "pocket,us", "unknown unit 'pocket'"),
    ("rounding.csv", "weight,metric,0,1,gram", "weight,metric,0,1,grain", "unknown unit 'grain'"),
    ("rounding.csv", "gram,gram,0.05", "gram,gram;grain,0.05", "unknown unit 'grain'"),
    ("rounding.csv", "gram,gram,0.05", "gram,millilitre,0.05", "units of different dimensions"),
    ("rounding.csv", "ounce,pound;ounce,1/2", "ounce,ounce;pound,1/2", "do not stand largest first"),
    ("rounding.csv", "gram,gram,0.05", "gram,gram,0", "a step of nothing"),
    ("rounding.csv", "weight,metric,0,1,gram", "weight,metric,0,0,gram", "not above the beginning"),
    ("day_rules.csv", "cfr-ham-1,", "cfr-coppa,", "cfr-coppa stands twice"),
    ("day_rules.csv", 'Method 3",ham,dry', 'Method 3",gammon,dry', "unknown product 'gammon'"),
    ("day_rules.csv", 'Method 3",ham,dry,no', 'Method 3",ham,dry,perhaps', "unknown pumped 'perhaps'"),
    ("day_rules.csv", ",14,,,equalise,50,60", ",,,,equalise,50,60", "the rule asks for no days"),
    ("day_rules.csv", ",40,,,contact,36,,no,", ",40,,,contact,,,no,", "no temperature says which they are"),
    ("day_rules.csv", ",contact,35,45,no,", ",contact,46,45,no,", "low_f is above high_f"),
    ("day_rules.csv", ",contact,35,45,no,", ",resting,35,45,no,", "unknown counts 'resting'"),
    ("cut_products.csv", "coppa,coppa", "coppa,ham", "ham stands twice"),
    ("cut_products.csv", "coppa,coppa", "brisket,coppa", "unknown product 'brisket'"),
    ("blanching.csv", "spears,small,2,2", "spears,small,2,", "low_min and high_min are no range"),
    ("blanching.csv", "spears,small,2,2", "spears,small,2,1", "low_min is above high_min"),
    ("blanching.csv", "spears,medium,3", "spears,small,3", "('asparagus', 'small') stands twice"),
    ("blanching.csv", "3,3,water", "3,3,oil", "unknown way 'oil'"),
    ("canning.csv", "meat\",bear;deer", "meat\",unicorn;deer", "unknown kind 'unicorn'"),
    ("canning.csv", "con carne\",from memory", "con carne\",house choice", "unknown certainty 'house choice'; known are seen, second-hand,"),
    ("canning.csv", "hot,30,35", "warm,30,35", "unknown pack 'warm'"),
    ("boiling_water.csv", "pint,85,90", "pint,85,80", "the minutes fall with the height"),
    ("jars.csv", "pint;pints;", "pint;quarts;", "quarts stands twice"),
    ("canner_pressure.csv", "dial gauge,0,1000", "dial gauge,1000,1000", "above_ft is not below to_ft"),
    ("canner_pressure.csv", "dial gauge,0,1000", "pot,0,1000", "unknown canner 'pot'"),
    ("plants.csv", "always,yes,nettle;nitrate", "always,yes,nettle;sting", "unknown rule 'sting'"),
    ("plants.csv", "always,yes,nettle;nitrate", "often,yes,nettle;nitrate", "unknown foraged 'often'"),
    ("plants.csv", "\nnettle,", "\nmorel,", "morel stands twice"),
    ("allergens.csv", "casein;cottage cheese,us;eu", "casein;cottage cheese,us;moon", "unknown list 'moon'"),
    ("allergens.csv", "egg,egg;eggs", "milk,milk;eggs", "('milk', 'milk') stands twice"),
    ("food_words.csv", "greens,greens;", "stock,greens;", "stock stands twice"),
    ("nitrite_names.csv", "soda;nano2", "soda;NaNO2", "not written as names are compared: 'nano2'"),
    ("nitrite_names.csv", "sodium nitrite;nitrite;", "sodium nitrite;e 249;", "e 249 stands twice"),
    ("nitrite_names.csv", "no,sodium nitrite,sodium nitrite", "no,sodium nitrite,soda", "unknown key 'soda'"),
    ("day_rules.csv", ",contact,35,45,no,", ",contact,35,45,,", "cold_days_count is empty"),
    ("rounding.csv", "0.05,nearest", "0.05,sideways", "unknown direction 'sideways'"),
    ("rounding.csv", "ingredient weight,metric,0,1", "guess,metric,0,1", "unknown use 'guess'"),
]  # fmt: skip


@pytest.mark.parametrize(("file", "old", "new", "words"), SPOILT, ids=lambda value: value[:40])
def test_a_wrong_row_is_refused_with_its_place(
    folder: Path, file: str, old: str, new: str, words: str
) -> None:
    line = spoil(folder, file, old, new)
    with pytest.raises(TableError) as caught:
        read_tables(folder)
    assert words in str(caught.value)
    assert caught.value.file == file
    assert caught.value.line >= line
    assert str(caught.value).startswith(f"{file}:{caught.value.line}: ")


def test_the_place_of_a_wrong_row_is_its_line(folder: Path) -> None:
    line = spoil(folder, "limits.csv", "belly,brine,120,", "belly,brine,much,")
    with pytest.raises(TableError, match=rf"limits.csv:{line}: limit_ppm 'much' is not a number"):
        read_tables(folder)


def test_unknown_columns_are_refused(folder: Path) -> None:
    spoil(folder, "spoons.csv", "low_g", "low")
    with pytest.raises(TableError, match=r"spoons.csv:1: the columns are not .*unit, low_g"):
        read_tables(folder)


def test_a_unit_without_a_title_is_refused(folder: Path) -> None:
    spoil(folder, "units.txt", "# Time, in minutes", "score = 20 * pound")
    with pytest.raises(TableError, match=r"unit_titles.csv:1: no row for score"):
        read_tables(folder)


def test_a_unit_of_no_known_dimension_is_refused(folder: Path) -> None:
    spoil(folder, "units.txt", "# Time, in minutes", "acre = foot ** 2")
    with pytest.raises(TableError, match=r"units.txt:\d+: acre has no known dimension"):
        read_tables(folder)


def test_an_unspoilt_copy_is_read(folder: Path) -> None:
    assert read_tables(folder).rounding == TABLES.rounding


# curing


def curing_salt(name: str) -> CuringSalt:
    found = TABLES.curing_salt(name)
    assert found is not None
    return found


def test_curing_salts_have_their_published_shares() -> None:
    # Labels, and Washington State University's Kitsap column of 1992: 6.25 %; 6.25 + 4 + 89.75 = 100 %.
    first, second = curing_salt("no. 1"), curing_salt("no. 2")
    assert (first.nitrite, first.nitrate, first.salt) == (Fraction(1, 16), Fraction(0), Fraction(15, 16))
    assert (second.nitrite, second.nitrate) == (Fraction(1, 16), Fraction(4, 100))
    assert second.salt == Fraction("0.8975")
    # oekolandbau.de, 2017: 0.4 to 0.5 %; the stronger is taken.
    assert curing_salt("European nitrite salt").nitrite == Fraction(1, 200)
    assert curing_salt("sodium nitrite").nitrite == 1


def test_shares_of_each_curing_salt_are_the_whole() -> None:
    assert len(TABLES.curing_salts) == 8
    for salt in TABLES.curing_salts:
        assert salt.nitrite + salt.nitrate + salt.salt == 1
        assert salt.nitrite > 0 or salt.nitrate > 0


@pytest.mark.parametrize("name", ["6.25 %", "No.1", "number 1", "no 1", "6.25%"])
def test_names_of_curing_salt_number_one(name: str) -> None:
    assert curing_salt(name).key == "no. 1"


def test_curing_salt_is_never_named_by_colour() -> None:
    for salt in TABLES.curing_salts:
        for name in (*salt.names, salt.title):
            assert not any(colour in name.lower() for colour in COLOURS)
    for name in ("pink salt", "pink curing salt", "curing salt", "saltpetre", ""):
        assert TABLES.curing_salt(name) is None


def test_spoons_of_curing_salt_have_their_published_range() -> None:
    # Trade texts (second-hand): 5.6 g, and 4 level tsp = 1 oz; a level tbsp 0.6 oz, and 0.8 oz. 1 oz = 28.349523125 g.
    ounce = Fraction("28.349523125")
    teaspoon, tablespoon = TABLES.spoon("us_tsp"), TABLES.spoon("us_tbsp")
    assert teaspoon is not None
    assert tablespoon is not None
    assert (teaspoon.low_g, teaspoon.high_g) == (Fraction("5.6"), ounce / 4)
    assert (tablespoon.low_g, tablespoon.high_g) == (ounce * Fraction("0.6"), ounce * Fraction("0.8"))
    for unit in ("us_cup", "metric_tsp", "metric_tbsp", "au_tbsp"):
        assert TABLES.spoon(unit) is None


@pytest.mark.parametrize(
    ("cut", "method", "ppm", "source"),
    [
        ("whole", "brine", "200", "21cfr172.175"),  # 21 CFR 172.175(a)(3); 9 CFR 424.21(c)
        ("whole", "dry", "200", "21cfr172.175"),
        ("ground", "brine", "156.25", "9cfr424.21"),  # 1/4 oz for 100 lb
        ("ground", "dry", "156.25", "9cfr424.21"),
        ("belly", "brine", "120", "9cfr424.22"),  # (b)(2)
        ("belly", "dry", "200", "9cfr424.22"),  # (b)(3)
    ],
)
def test_limits(cut: str, method: str, ppm: str, source: str) -> None:
    limit = TABLES.limit(cut, method)
    assert limit.limit_ppm == Fraction(ppm)
    assert limit.source == source


def test_limit_of_ground_meat_is_a_quarter_ounce_for_a_hundred_pounds() -> None:
    # 9 CFR 424.21(c).
    pound, ounce = TABLES.units["pound"].factor, TABLES.units["ounce"].factor
    assert TABLES.limit("ground", "dry").limit_ppm == 1_000_000 * (ounce / 4) / (100 * pound)


def test_an_unknown_cut_has_no_limit() -> None:
    with pytest.raises(KeyError):
        TABLES.limit("bacon", "brine")


def test_fish_that_may_have_nitrite() -> None:
    # 21 CFR 172.175(a)(1) and (2).
    listed = {"salmon": 200, "shad": 200, "sablefish": 200, "tuna": 10}
    for animal in TABLES.animals:
        assert TABLES.fish_limit(animal.key) == listed.get(animal.key)
    assert listed.keys() <= {animal.key for animal in TABLES.animals if animal.group == "fish"}


def test_constants() -> None:
    # Salometer sheet; FSIS 7620.3 p. 12; 21 CFR 172.170(a)(2); MMWR 2024;73(20); NCHFP 2002.
    assert TABLES.constant("saturated_brine_percent") == Fraction("26.395")
    assert TABLES.constant("policy_minimum_ppm") == 120
    assert TABLES.constant("preservative_minimum_ppm") == 40
    assert TABLES.constant("nitrate_limit_ppm") == 500
    assert TABLES.constant("wild_game_minimum_f") == 165
    assert TABLES.constant("cold_holding_maximum_f") == 40
    with pytest.raises(KeyError):
        TABLES.constant("luck")


def test_sodium_in_salt_follows_from_atomic_weights() -> None:
    # Na 22.990, Cl 35.453 (IUPAC, from memory).
    share = Fraction("22.990") / (Fraction("22.990") + Fraction("35.453"))
    assert abs(TABLES.constant("sodium_share_of_salt") - share) < Fraction(1, 20000)


# animals, stages, places


@pytest.mark.parametrize(
    ("name", "key", "group", "wild"),
    [
        ("Venison", "deer", "deer family", True),
        ("white-tailed deer", "white-tailed deer", "deer family", True),
        ("elk", "elk", "deer family", True),
        ("antelope", "pronghorn", "other game", True),
        ("black bear", "bear", "bear", True),
        ("feral hog", "feral pig", "wild pig", True),
        ("rabbits", "rabbit", "small game", True),
        ("geese", "goose", "waterfowl", True),
        ("wild turkey", "wild turkey", "upland bird", True),
        ("turkey", "turkey", "poultry", False),
        ("domestic duck", "domestic duck", "poultry", False),
        ("pig", "pork", "domestic", False),
        ("buffalo", "bison", "domestic", False),
        ("black cod", "sablefish", "fish", True),
        ("mussels", "mussel", "shellfish", True),
    ],
)
def test_animal_by_name(name: str, key: str, group: str, wild: bool) -> None:
    animal = TABLES.animal(name)
    assert animal is not None
    assert (animal.key, animal.group, animal.wild) == (key, group, wild)


def test_unknown_animal() -> None:
    for name in ("", "unicorn", "elks of the north", "dee"):
        assert TABLES.animal(name) is None


def test_wild_groups_are_wild_and_farm_groups_are_not() -> None:
    for animal in TABLES.animals:
        assert animal.wild == (animal.group not in ("domestic", "poultry")), animal.key
    titles = [animal.title for animal in TABLES.animals]
    assert len(set(titles)) == len(titles)


def test_stages_that_heat_the_middle() -> None:
    heating = {"hot smoke", "roast", "fry", "boil", "simmer", "braise", "bake", "cook", "reheat", "render"}
    assert {name for name, heats in TABLES.stages.items() if heats} == heating
    for name in ("thaw", "cure", "cold smoke", "dry", "brown", "blanch", "pickle", "ferment", "jar"):
        assert TABLES.stages[name] is False
    assert len(TABLES.stages) == 40


def test_words_for_a_stage_of_a_course() -> None:
    meant = {word: (one.stage, one.place) for word, one in TABLES.stage_words.items()}
    assert meant["sear"] == ("brown", "")
    assert meant["grill"] == ("cook", "grill")
    assert meant["vacuum pack"] == ("pack", "vacuum")
    assert meant["brine"] == meant["brining"] == ("cure", "")
    assert meant["water bath"] == ("jar", "water bath")
    assert meant["marinate"] == ("marinate", "")
    assert "leave" not in meant


def test_places() -> None:
    assert TABLES.place("the fridge") == TABLES.place("Refrigerator") == "fridge"
    assert TABLES.place("a rack") == "rack"
    assert TABLES.place("bags") == "bag"
    assert TABLES.place("the garage") == "garage"
    assert TABLES.place("a cold porch") == "cool place"
    assert TABLES.place("meadow") is None
    assert TABLES.place("the") is None


# cautions


def test_cautions_are_there() -> None:
    signals = {slug: caution.signal for slug, caution in TABLES.cautions.items()}
    assert (
        signals.items()
        >= {
            "nitrite-handling": "WARNING",
            "cure-cold": "WARNING",
            "wild-game-165": "WARNING",
            "eat-after-cooking": "WARNING",
            "below-120": "CAUTION",
            "below-40": "CAUTION",
            "cure-time": "CAUTION",
            "cure-time-unknown": "CAUTION",
            "grey-middle": "CAUTION",
        }.items()
    )


BOTH_SCALES = re.compile(r"(-?\d+)(?: (?:to|and) (-?\d+))? °F \((-?\d+)(?: (?:to|and) (-?\d+))? °C\)")


def printed_temperatures() -> list[tuple[str, str]]:
    """Fahrenheit and Celsius of every temperature that a box or the page of rules prints, as printed."""
    texts = [f"{caution.title} {caution.text}" for caution in TABLES.cautions.values()]
    texts += [f"{one.topic} {one.says} {one.takes} {one.why}" for one in TABLES.differences]
    found: list[tuple[str, str]] = []
    for text in texts:
        assert text.count("°F") == text.count("°C") == len(BOTH_SCALES.findall(text)), text
        for low_f, high_f, low_c, high_c in BOTH_SCALES.findall(text):
            found += [(low_f, low_c), *([(high_f, high_c)] if high_f else [])]
    return found


def test_temperatures_of_boxes_and_differences_are_the_same_in_both_scales() -> None:
    # Whole degrees: 165 °F is 73.9 °C, a minimum, printed as 74; 40 °F is 4.4 °C, a maximum, printed as 4.
    found = printed_temperatures()
    assert {("165", "74"), ("40", "4")} <= set(found)
    for fahrenheit, celsius in found:
        exact = (Fraction(fahrenheit) - 32) * 5 / 9
        assert abs(exact - Fraction(celsius)) < 1, f"{fahrenheit} °F is {float(exact):.1f} °C"
    minimums = {celsius for fahrenheit, celsius in found if fahrenheit == "165"}
    maximums = {celsius for fahrenheit, celsius in found if fahrenheit == "40"}
    assert (minimums, maximums) == ({"74"}, {"4"})


def test_cautions_promise_nothing_and_name_no_deadly_dose() -> None:
    for caution in TABLES.cautions.values():
        assert not re.search(r"\b(safe|fully cured|cured through|lethal|mg/kg|mg per kg)\b", caution.text)
        sentences = re.split(r"(?<=[.:])\s", caution.text)
        assert max(len(sentence.split()) for sentence in sentences) <= 25, caution.slug
