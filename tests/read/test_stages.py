"""Stages: `name: [LENGTH] [at T] [to T inside] [in|on PLACE] [until WORDS] [hands LENGTH]`."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.model.quantity import Span, Temperature, TemperatureRange
from generator.model.recipe import Stage
from generator.problems import Position
from generator.read import AmountError
from generator.read.grammar import Grammar
from generator.read.stage import parse_stage
from generator.read.stage_name import StageName, read_stage_name
from generator.tables import load_tables

GRAMMAR = Grammar(system="us", language="en", tables=load_tables())
AT = Position("recipes/dish.md", 9, 5)


def stage(name: str, text: str) -> Stage:
    named = read_stage_name(name, GRAMMAR, alone=False)
    return parse_stage(named, text, GRAMMAR, written=f"{name}: {text}", position=AT)


def heat(low: int, high: int | None = None, scale: str = "F") -> TemperatureRange:
    return TemperatureRange(
        Temperature(Fraction(low), scale), Temperature(Fraction(low if high is None else high), scale)
    )


def minutes(low: int, high: int | None = None) -> Span:
    return Span(Fraction(low), Fraction(low if high is None else high))


CANNED: dict[str, object] = {
    "minutes": minutes(75),
    "length_written": "75 min",
    "place": "pressure canner",
    "place_written": "in the pressure canner",
}

# name, text, fields that differ from nothing said
STAGES: list[tuple[str, str, dict[str, object]]] = [
    ("rinse", "", {}),
    ("thaw", "in the fridge", {"place": "fridge", "place_written": "in the fridge"}),
    (
        "cure",
        "5 days in the fridge",
        {
            "minutes": minutes(7200),
            "length_written": "5 days",
            "place": "fridge",
            "place_written": "in the fridge",
        },
    ),
    ("dry", "1 h until tacky", {"minutes": minutes(60), "length_written": "1 h", "until": "tacky"}),
    (
        "hot smoke",
        "6 h at 180–200 °F to 150 °F inside",
        {"minutes": minutes(360), "length_written": "6 h", "at": heat(180, 200), "inside": heat(150).low},
    ),
    (
        "hot smoke",
        "2 to 3 h at 180 to 200 °F to 165 °F inside",
        {
            "minutes": minutes(120, 180),
            "length_written": "2 to 3 h",
            "at": heat(180, 200),
            "inside": heat(165).low,
        },
    ),
    (
        "braise",
        "2 h at 325 °F to 165 °F inside in the oven",
        {
            "minutes": minutes(120),
            "length_written": "2 h",
            "at": heat(325),
            "inside": heat(165).low,
            "place": "oven",
            "place_written": "in the oven",
        },
    ),
    (
        "simmer",
        "35 min to 165 °F inside in the pot until it falls from the bone, at last",
        {
            "minutes": minutes(35),
            "length_written": "35 min",
            "inside": heat(165).low,
            "place": "pot",
            "place_written": "in the pot",
            "until": "it falls from the bone, at last",
        },
    ),
    ("pack", "vacuum", {"place": "vacuum", "place_written": "vacuum"}),
    ("pack", "in bags", {"place": "bag", "place_written": "in bags"}),
    (
        "cool",
        "1 h in cold water",
        {
            "minutes": minutes(60),
            "length_written": "1 h",
            "place": "cold water",
            "place_written": "in cold water",
        },
    ),
    (
        "dry",
        "2 h on a rack hands 10 min",
        {
            "minutes": minutes(120),
            "length_written": "2 h",
            "place": "rack",
            "place_written": "on a rack",
            "hands_minutes": minutes(10),
        },
    ),
    ("trim", "until clean hands 45 min", {"until": "clean", "hands_minutes": minutes(45)}),
    (
        "freeze",
        "at -18 °C in the freezer",
        {"at": heat(-18, scale="C"), "place": "freezer", "place_written": "in the freezer"},
    ),
    ("rest", "for 90 min", {"minutes": minutes(90), "length_written": "90 min"}),
    (
        "jar",
        "pints, raw pack, 75 min at 12 psi on the dial gauge in the pressure canner",
        {**CANNED, "jar_size": "pint", "pack": "raw", "pounds": Fraction(12), "gauge": "dial gauge"},
    ),
    (
        "jar",
        "75 min in the pressure canner with a weighted gauge at 15 lb, quarts, hot pack",
        {**CANNED, "jar_size": "quart", "pack": "hot", "pounds": Fraction(15), "gauge": "weighted gauge"},
    ),
    (
        "jar",
        "75 min at 10.5 pounds of pressure weighted gauge in the pressure canner, 1 1/2-pints",
        {**CANNED, "jar_size": "1 1/2-pint", "pounds": Fraction(21, 2), "gauge": "weighted gauge"},
    ),
    (
        "jar",
        "8 oz jars, 10 min in the water bath",
        {
            "jar_size": "half-pint",
            "minutes": minutes(10),
            "length_written": "10 min",
            "place": "water bath",
            "place_written": "in the water bath",
        },
    ),
]


# name, text; the stage that it is, and fields that differ from nothing said. Words of published methods; by hand.
AS_COOKS_WRITE: list[tuple[str, str, str, dict[str, object]]] = [
    ("roast", "1h30", "roast", {"minutes": minutes(90), "length_written": "1h30"}),
    ("roast", "1 h 30", "roast", {"minutes": minutes(90), "length_written": "1 h 30"}),
    ("roast", "1:30", "roast", {"minutes": minutes(90), "length_written": "1:30"}),
    (
        "roast",
        "1 hour and 30 minutes",
        "roast",
        {"minutes": minutes(90), "length_written": "1 hour and 30 minutes"},
    ),
    ("roast", "90 min.", "roast", {"minutes": minutes(90), "length_written": "90 min."}),
    ("rest", "half an hour", "rest", {"minutes": minutes(30), "length_written": "half an hour"}),
    (
        "cure",
        "3 days to a week",
        "cure",
        {"minutes": minutes(4320, 10080), "length_written": "3 days to a week"},
    ),
    ("cure", "at least 3 days", "cure", {"minutes": minutes(4320), "length_written": "at least 3 days"}),
    ("age", "1 year", "age", {"minutes": minutes(525600), "length_written": "1 year"}),
    ("cure", "overnight", "cure", {"minutes": minutes(480, 720), "length_written": "overnight"}),
    (
        "simmer",
        "2 hours, or until tender",
        "simmer",
        {"minutes": minutes(120), "length_written": "2 hours", "until": "tender"},
    ),
    (
        "simmer",
        "gently for 2 h",
        "simmer",
        {"minutes": minutes(120), "length_written": "2 h", "words": "gently"},
    ),
    (
        "simmer",
        "2 h at a bare simmer",
        "simmer",
        {"minutes": minutes(120), "length_written": "2 h", "words": "at a bare simmer"},
    ),
    ("grind", "twice through the fine plate", "grind", {"words": "twice through the fine plate"}),
    ("bake", "350 °F for 1 h", "bake", {"at": heat(350), "minutes": minutes(60), "length_written": "1 h"}),
    ("cool", "to room temperature", "cool", {"until": "at room temperature"}),
    ("rest", "at room temperature", "rest", {"place": "counter", "place_written": "at room temperature"}),
    (
        "marinate",
        "12 h in buttermilk in the fridge",
        "marinate",
        {
            "minutes": minutes(720),
            "length_written": "12 h",
            "place": "fridge",
            "place_written": "in the fridge",
            "words": "in buttermilk",
        },
    ),
    (
        "cure",
        "in a crock in the cellar",
        "cure",
        {"place": "cellar", "place_written": "in a crock in the cellar"},
    ),
    ("pack", "in bags in the freezer", "pack", {"place": "bag", "place_written": "in bags in the freezer"}),
    ("pack", "in quart jars", "pack", {"place": "jar", "place_written": "in quart jars"}),
    ("pack", "pints", "pack", {"place": "jar", "place_written": "pints"}),
    ("age", "in the tractor shed", "age", {"place": "shed", "place_written": "in the tractor shed"}),
    (
        "age",
        "in the cold tractor shed",
        "age",
        {"place": "cool place", "place_written": "in the cold tractor shed"},
    ),
    ("cure", "in the walk-in", "cure", {"place": "fridge", "place_written": "in the walk-in"}),
    (
        "cure",
        "in a cooler with ice",
        "cure",
        {"place": "iced cooler", "place_written": "in a cooler with ice"},
    ),
    ("dry", "in the dehydrator", "dry", {"place": "dehydrator", "place_written": "in the dehydrator"}),
    ("sear", "2 min", "brown", {"called": "sear", "minutes": minutes(2), "length_written": "2 min"}),
    (
        "grill",
        "12 min",
        "cook",
        {"called": "grill", "place": "grill", "minutes": minutes(12), "length_written": "12 min"},
    ),
    ("Saute", "", "fry", {"called": "saute"}),
    ("steam", "", "cook", {"called": "steam"}),
    ("render", "", "render", {}),
    ("vacuum pack", "", "pack", {"called": "vacuum pack", "place": "vacuum"}),
    ("roast", "until it reaches 165 °F", "roast", {"inside": heat(165).low}),
    ("roast", "to an internal temperature of 165 °F", "roast", {"inside": heat(165).low}),
    ("roast", "until the thermometer reads 165 °F", "roast", {"inside": heat(165).low}),
    ("roast", "until 165 °F inside", "roast", {"inside": heat(165).low}),
    (
        "fry",
        "3 min a side on the griddle",
        "fry",
        {"words": "3 min a side", "place": "pan", "place_written": "on the griddle"},
    ),
    ("roast", "20 min per pound at 325 °F", "roast", {"words": "20 min per pound", "at": heat(325)}),
    ("cook", "to 160 °F inside, held 30 min", "cook", {"words": "held 30 min", "inside": heat(160).low}),
    *(
        (
            "hot smoke",
            f"4 h at 180-200F to 160F inside{held}",
            "hot smoke",
            {
                "minutes": minutes(240),
                "length_written": "4 h",
                "at": heat(180, 200),
                "inside": heat(160).low,
                "words": words,
            },
        )
        for held, words in (
            (" for 30 min", "held 30 min"),
            (", held 30 min", "held 30 min"),
            (" and hold 30 min", "hold 30 min"),
            (" and held for 30 min", "held for 30 min"),
        )
    ),
    (
        "hold",
        "30 min at 160F inside",
        "rest",
        {"called": "hold", "minutes": minutes(30), "length_written": "30 min", "inside": heat(160).low},
    ),
    ("roast", "at 350 °F, basting every 20 min", "roast", {"words": "basting every 20 min", "at": heat(350)}),
    ("strain", "through a jelly bag", "strain", {"words": "through a jelly bag"}),
    (
        "soak",
        "in cold water changed twice",
        "soak",
        {"words": "changed twice", "place": "cold water", "place_written": "in cold water"},
    ),
    ("hang", "in the wind", "age", {"called": "hang", "words": "in the wind"}),
    ("smoke", "at 200 °F", "hot smoke", {"at": heat(200)}),
    ("smoke", "at 70–80 °F", "cold smoke", {"at": heat(70, 80)}),
    ("smoke", "to 160 °F inside", "hot smoke", {"inside": heat(160).low}),
    ("can", "at 11 psi", "jar", {"called": "can", "pounds": Fraction(11), "place": "pressure canner"}),
    (
        "pressure can",
        "75 min",
        "jar",
        {
            "called": "pressure can",
            "place": "pressure canner",
            "minutes": minutes(75),
            "length_written": "75 min",
        },
    ),
    (
        "water bath",
        "15 min",
        "jar",
        {"called": "water bath", "place": "water bath", "minutes": minutes(15), "length_written": "15 min"},
    ),
]


@pytest.mark.parametrize(("name", "text", "kind", "said"), AS_COOKS_WRITE)
def test_stage_in_a_cooks_own_words(name: str, text: str, kind: str, said: dict[str, object]) -> None:
    expected = Stage(name=kind, written=f"{name}: {text}", position=AT, **said)  # type: ignore[arg-type]  # any field
    assert stage(name, text) == expected


@pytest.mark.parametrize(("name", "text", "kind", "said"), AS_COOKS_WRITE[:2])
def test_a_stage_is_shown_as_its_author_calls_it(
    name: str, text: str, kind: str, said: dict[str, object]
) -> None:
    assert stage(name, text).title == name
    assert stage("sear", "").title == "sear"


@pytest.mark.parametrize("text", ["6 h until dark", "6 h", "in the smoker"])
def test_both_lines_that_an_open_smoke_is_asked_with_are_read(text: str) -> None:
    with pytest.raises(AmountError) as caught:
        stage("smoke", text)
    hot, cold = caught.value.hint.removeprefix("Write ").split("; ")[:2]
    assert stage("hot smoke", hot.removeprefix("hot smoke: ")).at == heat(180, 200)
    assert stage("cold smoke", cold.removeprefix("or cold smoke: ")).at == heat(70, 80)


@pytest.mark.parametrize("text", ["20 min", "", "half-pints, 20 min"])
def test_both_lines_that_an_open_canner_is_asked_with_are_read(text: str) -> None:
    with pytest.raises(AmountError) as caught:
        stage("can", text)
    pressure, bath = caught.value.hint.removeprefix("Write ").rstrip(".").split("; or ")
    assert stage("jar", pressure.removeprefix("jar: ")).place == "pressure canner"
    assert stage("jar", bath.removeprefix("jar: ")).place == "water bath"


@pytest.mark.parametrize(("name", "text", "said"), STAGES)
def test_stage_is_read(name: str, text: str, said: dict[str, object]) -> None:
    expected = Stage(name=name, written=f"{name}: {text}", position=AT, **said)  # type: ignore[arg-type]  # any field
    assert stage(name, text) == expected


# name, text, slug, offset, words of message or hint
REFUSED = [
    ("cure", "5 dayz", "unreadable-time", 0, "5 dayz"),
    ("cure", "5", "unreadable-time", 0, "90 min"),
    ("cure", "5 days in the fridgee", "unknown-place", 14, "'fridge'"),
    ("cure", "in the moon", "unknown-place", 7, "Known are"),
    ("cure", "5 days in", "unreadable-stage", 7, "Nothing"),
    ("dry", "2 h on a rack 3 h", "unreadable-stage", 14, "twice"),
    ("roast", "at 350 °F at 400 °F", "unreadable-stage", 10, "twice"),
    ("roast", "at 350", "unreadable-temperature", 3, "at 350 °F, or at 350 °C"),
    ("roast", "at 180 degrees for 1 h", "unreadable-temperature", 3, "at 180 °F, or at 180 °C"),
    ("roast", "180 °F", "unreadable-stage", 0, "at 180 °F"),
    ("cure", "up to 2 days", "unreadable-time", 0, "1–2 days"),
    ("cure", "5 days in the fridge or the porch", "unknown-place", 14, "one place by its own name"),
    ("cure", "5 days in the fridge and the porch", "unreadable-stage", 21, "'and the porch' names a place"),
    ("cure", "5 days on top of the fridge", "unknown-place", 10, "not one place"),
    ("cure", "in the fridge in the freezer", "unreadable-stage", 14, "twice"),
    ("rest", "a few days", "unreadable-time", 0, "'a few'"),
    (
        "smoke",
        "6 h until dark",
        "unreadable-stage",
        0,
        "hot smoke: at 180–200 °F, 6 h until dark; or cold smoke: at",
    ),
    ("smoke", "6 h at 95 °F", "unreadable-stage", 0, "between the two"),
    (
        "can",
        "20 min",
        "unreadable-stage",
        0,
        "in the pressure canner, 20 min; or jar: pints, in a water bath, 20 min",
    ),
    ("roast", "1 h to 165 °F", "unreadable-stage", 4, "inside"),
    ("roast", "1 h to 165 inside", "unreadable-temperature", 7, "165"),
    ("roast", "1 h at 165 °F inside", "unreadable-stage", 4, "to 165 °F inside"),
    ("roast", "to 150–165 °F inside", "unreadable-stage", 3, "one number"),
    ("fry", "until the oil reaches 350 °F", "unreadable-stage", 6, "to 165 °F inside"),
    ("roast", "until the oven reaches 165 °F", "unreadable-stage", 6, "to 165 °F inside"),
    ("roast", "until the meat reads 150–165 °F", "unreadable-stage", 6, "to 165 °F inside"),
    ("roast", "at 325 °F to 165 °F", "unreadable-temperature", 3, "165 °F"),
    ("roast", "1 h at 180 °F (82 °C)", "unreadable-stage", 14, "both scales"),
    ("soak", "until", "unreadable-stage", 0, "until"),
    ("soak", "hands", "unreadable-time", 5, "length"),
    ("dry", "rack", "unreadable-stage", 0, "'rack'"),
    ("jar", "pints, quarts", "unreadable-stage", 7, "size of the jar stands twice"),
    ("jar", "raw pack, hot pack", "unreadable-stage", 10, "pack stands twice"),
    ("jar", "at 11 lb at 0 lb", "unreadable-stage", 9, "pressure stands twice"),
    ("jar", "dial gauge, weighted gauge", "unreadable-stage", 12, "gauge stands twice"),
    ("jar", "litres, 75 min", "unreadable-stage", 0, "raw pack, 75 min at 12 psi on the dial gauge"),
]


@pytest.mark.parametrize(("name", "text", "slug", "offset", "words"), REFUSED)
def test_uncertain_stage_is_refused_at_the_word(
    name: str, text: str, slug: str, offset: int, words: str
) -> None:
    with pytest.raises(AmountError) as caught:
        stage(name, text)
    error = caught.value
    assert (error.slug, error.offset) == (slug, offset)
    assert words in f"{error.message} {error.hint}"


def test_stage_names_are_known_in_any_case() -> None:
    assert read_stage_name("Hot  Smoke", GRAMMAR, alone=True) == StageName(name="hot smoke")


NAMES = [
    ("simer", True, "unknown-stage", "'simmer'"),
    ("zap", True, "unknown-stage", "Known are thaw, trim"),
    ("cure 5 days", True, "unreadable-stage", "Write cure: 5 days"),
    ("cure:5 days", True, "unreadable-stage", "Write cure: 5 days"),
    ("hot smoke 6 h", True, "unreadable-stage", "Write hot smoke: 6 h"),
    ("cure 5 days", False, "unknown-stage", "Known are"),
    ("salt", False, "unknown-stage", "Write cure: 5 days in the fridge where meat lies in salt"),
    ("store", True, "unknown-stage", "under keep: fridge: 4 days"),
]


@pytest.mark.parametrize(("name", "alone", "slug", "hint"), NAMES)
def test_unknown_stage_name_is_refused(name: str, alone: bool, slug: str, hint: str) -> None:
    with pytest.raises(AmountError) as caught:
        read_stage_name(name, GRAMMAR, alone=alone)
    assert caught.value.slug == slug
    assert hint in caught.value.hint


WORDS = st.sampled_from(
    (
        *(
            "at",
            "to",
            "in",
            "on",
            "until",
            "hands",
            "for",
            "5 days",
            "6–8 h",
            "165 °F",
            "150",
            "inside",
            "°F",
        ),
        *("the fridge", "a rack", "tacky", "½", "overnight", "(82 °C)", "-", "vacuum", "moon", ","),
    )
)


@given(st.one_of(st.text(max_size=40), st.lists(WORDS, max_size=9).map(" ".join)))
def test_any_text_is_a_stage_or_refused(text: str) -> None:
    place = 0
    try:
        found = stage("pack", text)
    except AmountError as refused:
        place = refused.offset
    else:
        assert found.name == "pack"
    assert 0 <= place <= len(text)
