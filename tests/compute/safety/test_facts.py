"""What the rules ask of a recipe, each on both sides of what decides it; figures by hand from the constants named."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest

from generator.build import load_book
from generator.compute import Kitchen
from generator.compute.safety.facts.acid import Sour, how_sour, low_acid_lines
from generator.compute.safety.facts.blanching import asked_of, length_words, minutes_told
from generator.compute.safety.facts.doses import doses_in
from generator.compute.safety.facts.gather import Facts, gather_facts
from generator.compute.safety.facts.heat import Heat, Reached, is_hot, is_hot_jar, reached
from generator.compute.safety.facts.jar import jar_of
from generator.compute.safety.facts.jar_food import tested as canning_time
from generator.compute.safety.facts.keeping import keeping_of
from generator.compute.safety.facts.meats import is_ground
from generator.compute.safety.facts.oil import is_acidified
from generator.compute.safety.facts.pieces import pieces
from generator.compute.safety.facts.pot import (
    FAST_C,
    FAST_H,
    FAST_START_C,
    from_frozen,
    from_thawed,
    pot_minutes,
)
from generator.compute.transfer.heat import FAST_MM2_S, Body, Surround, from_fahrenheit, minutes_to
from generator.model.quantity import Span
from generator.problems import ProblemLog
from generator.tables import Tables
from tests.compute.safety.case_rows import recipe_of

Read = Callable[..., Facts]
BOOK = "title: A tiny book\nchapters: [Pots]\n"


@pytest.fixture
def read(tmp_path: Path, kitchen: Kitchen) -> Read:
    """The facts of a recipe by its keys, written as in the cases; `beside` is the keys of recipes that it uses."""

    def facts(beside: dict[str, dict[str, str]] | None = None, **keys: str) -> Facts:
        recipes = {"dinner": keys, **(beside or {})}
        (tmp_path / "recipes").mkdir(exist_ok=True)
        (tmp_path / "book.yaml").write_text(BOOK, encoding="utf-8")
        for slug, of in recipes.items():
            (tmp_path / "recipes" / f"{slug}.md").write_text(recipe_of(of), encoding="utf-8")
        log = ProblemLog()
        book = load_book(tmp_path, kitchen, log)
        assert book is not None, log.sorted()
        assert not [one for one in log if one.is_error], log.sorted()
        return gather_facts(book, book.recipes["dinner"], None, kitchen.tables)

    return facts


# sour: 0.20 mL a gram is enough, under 0.10 too little, under 60 mL a spoon (constants of acid.py)


@pytest.mark.parametrize(
    ("name", "lines", "sour"),
    [
        ("Pickled beans", "green beans; 3 tbsp vinegar, 5 %", Sour.NO),
        ("Pickled beans", "green beans; 1 cup vinegar, 5 %", Sour.UNTOLD),
        ("Beans", "green beans; 1 cup vinegar, 5 %", Sour.NO),
        ("Pickled beans", "1000 g green beans; 200 ml vinegar, 5 %", Sour.YES),
        ("Pickled beans", "1000 g green beans; 199 ml vinegar, 5 %", Sour.UNTOLD),
        ("Pickled beans", "1000 g green beans; 100 ml vinegar, 5 %", Sour.UNTOLD),
        ("Pickled beans", "1000 g green beans; 99 ml vinegar, 5 %", Sour.NO),
    ],
)
def test_how_sour(read: Read, tables: Tables, name: str, lines: str, sour: Sour) -> None:
    facts = read(name=name, ingredients=lines)
    assert how_sour(facts, low_acid_lines(facts.recipe, tables), tables) is sour


# blanching: NCHFP and MSU, as in blanching.csv


def told(facts: Facts, tables: Tables) -> list[str]:
    return [minutes_told(one) for one in asked_of(facts, tables)]


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ("mushrooms, sliced", "mushrooms sliced 3 min in steam by common advice"),
        ("small asparagus", "asparagus small 2 min"),
        ("asparagus", "asparagus 2 to 4 min"),
        ("small and large asparagus", "asparagus 2 to 4 min"),
    ],
)
def test_blanching_in_words(read: Read, tables: Tables, line: str, words: str) -> None:
    assert told(read(ingredients=f"4 lb {line}"), tables) == [words]


def test_blanching_is_longer_above_5000_feet(read: Read, tables: Tables) -> None:
    """Extension advice: one minute more above 5,000 ft, which are 1,524 m."""
    facts = read(ingredients="4 lb collards")
    for height, minutes in (("1524", 3), ("1524.1", 4)):
        high = replace(facts, config=replace(facts.config, altitude_m=Fraction(height)))
        assert [one.minutes for one in asked_of(high, tables)] == [Span.of(minutes)]


MOST_TIMES = 9
"So often an act may be turned down in a sentence (MOST_LOOKS)."


@pytest.mark.parametrize(("times", "heard"), [(MOST_TIMES - 1, 0), (MOST_TIMES, 1), (MOST_TIMES + 1, 1)])
def test_an_act_that_is_turned_down_again_and_again_counts(read: Read, times: int, heard: int) -> None:
    facts = read(
        ingredients="1 chicken",
        method=", and ".join(["Do not wash the chicken under the tap"] * times) + ".",
    )
    found = [act for act in facts.words.acts if act.row.slug == "washed-bird" and act.told.kind == "sentence"]
    assert len(found) == heard


def test_the_words_of_a_length() -> None:
    assert length_words(Span.of(3)) == "3 min"
    assert length_words(Span(Fraction(3, 2), Fraction(3))) == "1.5 to 3 min"


def test_a_salt_without_an_amount_is_told_where_its_sentence_begins(read: Read, tables: Tables) -> None:
    facts = read(ingredients="2 lb pork", method="Cut it up. Rub it with pink curing salt.")
    (dose,) = doses_in(facts.recipe, tables)
    assert dose.line.quantity is None
    assert dose.line.position == dose.sentence.at(0) != dose.sentence.at(1)


@pytest.mark.parametrize(
    ("name", "line", "wild"),
    [
        ("Elk stew", "2 lb elk, diced", True),
        ("Farmed elk stew", "2 lb elk, diced", False),
        ("Farmed elk stew", "2 lb wild elk, diced", True),
        ("Farmed rabbit stew", "2 lb elk, diced", True),
    ],
)
def test_a_name_tells_what_its_line_does_not(read: Read, name: str, line: str, wild: bool) -> None:
    (meat,) = read(name=name, ingredients=line).meats
    assert meat.is_wild is wild


# heat


@pytest.mark.parametrize(
    ("course", "reach"),
    [
        ("dry: 12 h at 99 °F", Reached(heat=Heat.RAW)),
        ("dry: 12 h at 100 °F", Reached(heat=Heat.NOT_MET, inside_f=Fraction(100), stage=0, by_air=True)),
        (
            "roast: 1 h at 140 °F; roast: 1 h at 150 °F",
            Reached(heat=Heat.NOT_MET, inside_f=Fraction(150), stage=1, by_air=True),
        ),
        (
            "jar: 90 min in the pressure canner",
            Reached(heat=Heat.MET, inside_f=Fraction(240), stage=0),
        ),
        ("jar: in the pressure canner", Reached(heat=Heat.UNKNOWN, stage=0)),
        (
            "roast: 1 h to 165 °F inside; rest: 10 min to 150 °F inside",
            Reached(heat=Heat.MET, inside_f=Fraction(165), stage=0),
        ),
        (
            "roast: 1 h to 160 °F inside; rest: 10 min to 165 °F inside",
            Reached(heat=Heat.MET, inside_f=Fraction(165), stage=1),
        ),
        (
            "roast: 1 h to 165 °F inside; fry: 10 min to 150 °F inside",
            Reached(heat=Heat.NOT_MET, inside_f=Fraction(150), stage=1),
        ),
    ],
)
def test_how_hot_the_middle_gets(read: Read, tables: Tables, course: str, reach: Reached) -> None:
    """Against 165 °F (CDC, wild game)."""
    facts = read(ingredients="2 lb venison", course=course)
    assert reached(facts.recipe, Fraction(165), tables) == reach
    hot = any(is_hot(stage, facts.recipe, tables) for stage in facts.recipe.stages)
    assert hot is (reach.heat is not Heat.RAW)


@pytest.mark.parametrize(
    ("keep", "hot"),
    [
        ("fridge: 3 days", False),
        ("fridge: 3 days; freezer: 2 months", False),
        ("fridge: 3 days; shelf: 1 year", True),
        ("shelf: 1 year", True),
    ],
)
def test_a_jar_that_is_kept_in_the_cold_alone_is_not_heated(read: Read, keep: str, hot: bool) -> None:
    recipe = read(ingredients="2 lb cabbage", course="jar", keep=keep).recipe
    assert is_hot_jar(recipe.stages[0], recipe) is hot


# jars


def test_what_is_smoked_in_a_jar_by_way_of_a_component(read: Read, tables: Tables) -> None:
    line = "1 lb [side](side.md)"
    canned = {"ingredients": line, "course": "jar: 90 min in the pressure canner", "makes": "4 pt"}
    for smoked in (
        {"meat": "animal: elk; cut: loin; weight: 2 lb"},
        {"ingredients": "2 lb elk", "makes": "2 lb"},
    ):
        side = {"name": "Side", "makes": "2 lb", "course": "hot smoke: 4 h at 225 °F to 165 °F inside"}
        jar = jar_of(read(beside={"side": {**side, **smoked}}, **canned), tables)
        assert jar is not None
        assert (jar.cured is not None) is ("meat" in smoked)


def test_dried_in_a_jar_only_where_nothing_wet_is(read: Read, tables: Tables) -> None:
    for course, is_low in (("jar", True), ("dry: 12 h at 125 °F; pack: in jars", False)):
        jar = jar_of(
            read(ingredients="1 lb dried green beans", course=course, keep="shelf: 1 year"),
            tables,
        )
        assert jar is not None
        assert (jar.low_acid is not None) is is_low


@pytest.mark.parametrize(("line", "soft"), [("asparagus", True), ("green beans", False)])
def test_a_time_from_memory_is_called_so(read: Read, tables: Tables, line: str, soft: bool) -> None:
    time = canning_time(read(ingredients=f"4 lb {line}"), tables)
    assert time is not None
    assert time.is_from_memory is soft


# keeping: rows of the cold storage chart

SAUSAGE = {"meat": "animal: elk; cut: sausage; weight: 2 lb; form: ground"}
DRY_CURE = {"cure": "method: dry; salt: 2.5 %; curing salt: 150 ppm"}
HOT = {"course": "roast: 2 h at 325 °F to 165 °F inside"}


@pytest.mark.parametrize(
    ("keys", "title"),
    [
        ({"ingredients": "2 lb carrots", **HOT}, None),
        ({"ingredients": "2 lb elk", **HOT}, "cooked meat"),
        ({"ingredients": "2 lb trout", **HOT}, "cooked fish"),
        ({"ingredients": "2 lb elk", "course": "jar: 90 min in the pressure canner"}, None),
        ({"ingredients": "2 lb elk", "name": "Elk jerky", **HOT}, None),
        (
            {**SAUSAGE, **DRY_CURE, "course": "cure: 3 days in the fridge; dry: 7 days at 55 °F"},
            "hard sausage",
        ),
        (
            {**SAUSAGE, **DRY_CURE, "course": "cure: 3 days in the fridge; dry: 6 days at 55 °F"},
            "raw sausage",
        ),
        ({**SAUSAGE, **DRY_CURE, "course": "cure: 3 days in the fridge; dry: at 55 °F"}, "raw sausage"),
        ({"meat": "animal: mallard; weight: 2 lb", "makes": "2 lb"}, "raw game birds"),
        ({"meat": "animal: chicken; weight: 2 lb", "makes": "2 lb"}, "raw poultry"),
        ({"meat": "animal: mallard; source: farmed; weight: 2 lb", "makes": "2 lb"}, "raw poultry"),
    ],
)
def test_the_row_of_the_keeping_table(
    read: Read, tables: Tables, keys: dict[str, str], title: str | None
) -> None:
    row = keeping_of(read(**keys), tables)
    assert (row.title if row is not None else None) == title


def test_only_the_meat_of_the_recipe_has_its_form(read: Read) -> None:
    facts = read(meat="animal: elk; weight: 2 lb; form: ground", ingredients="1 lb rabbit; 1 lb ground pork")
    assert [is_ground(meat, facts.recipe) for meat in facts.meats] == [True, False, True]


# oil: Abo et al. 2014, citric acid of 3 % in three times the weight of garlic


@pytest.mark.parametrize(
    ("garlic", "water", "acid", "met"),
    [
        ("11", "33", "1", True),
        ("11", "33", "0.9", False),
        ("12", "33", "1", False),
        ("100", "300", "9", True),
        ("100", "299", "9", False),
        ("100", "300", "8", False),
    ],
)
def test_garlic_that_was_soured_for_oil(
    read: Read, tables: Tables, garlic: str, water: str, acid: str, met: bool
) -> None:
    facts = read(
        ingredients=f"{garlic} g garlic cloves; {water} g water; {acid} g citric acid; 2 cups olive oil",
        course="soak: 24 h in the fridge",
    )
    assert is_acidified(facts, tables) is met


# the pot

SHANK = "animal: elk; cut: shank{}; weight: 6 lb; pieces: 4; thickness: 3 in{}"


def test_the_minutes_of_a_pot_are_those_of_its_stages(read: Read, tables: Tables) -> None:
    recipe = read(ingredients="2 lb elk", course="brown: 10 min; boil: 10 min; simmer: 20 to 30 min").recipe
    assert pot_minutes(recipe, tables) == Span(Fraction(30), Fraction(40))


def test_a_halved_round_is_as_long_as_it_is_thick(read: Read, tables: Tables) -> None:
    """The fast case of the estimate: boiling water, and heat from the ends too."""
    (piece,) = pieces(read(meat=SHANK.format(", halved", "; shape: round")), tables)
    around = Surround(outside_c=FAST_C, h=FAST_H, diffusivity_mm2_s=FAST_MM2_S)
    body = Body(thickness_mm=76.2, shape="round", length_mm=76.2)
    fast = minutes_to(body, around, start_c=FAST_START_C, target_c=from_fahrenheit(Fraction(165)))
    assert from_thawed(piece, tables)[0] == pytest.approx(fast)


def test_an_untold_shape_is_latest_as_a_slab_and_soonest_as_a_lump(read: Read, tables: Tables) -> None:
    untold, slab, lump = (
        from_frozen(pieces(read(meat=SHANK.format("", shape)), tables)[0], tables)
        for shape in ("", "; shape: slab", "; shape: lump")
    )
    assert untold == (lump[0], slab[1])
    assert lump[1] != slab[1]
