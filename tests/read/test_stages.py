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
from generator.read.stage import check_stage_name, parse_stage
from generator.tables import load_tables

GRAMMAR = Grammar(system="us", language="en", tables=load_tables())
AT = Position("recipes/dish.md", 9, 5)


def stage(name: str, text: str) -> Stage:
    return parse_stage(name, text, GRAMMAR, written=f"{name}: {text}", position=AT)


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


@pytest.mark.parametrize(("name", "text", "said"), STAGES)
def test_stage_is_read(name: str, text: str, said: dict[str, object]) -> None:
    expected = Stage(name=name, written=f"{name}: {text}", position=AT, **said)  # type: ignore[arg-type]  # any field
    assert stage(name, text) == expected


# name, text, slug, offset, words of message or hint
REFUSED = [
    ("cure", "overnight", "unreadable-time", 0, "length"),
    ("cure", "5 dayz", "unreadable-time", 0, "5 dayz"),
    ("cure", "5", "unreadable-time", 0, "90 min"),
    ("cure", "5 days in the fridgee", "unknown-place", 14, "'fridge'"),
    ("cure", "in the moon", "unknown-place", 7, "Known are"),
    ("cure", "5 days in", "unreadable-stage", 7, "Nothing"),
    ("simmer", "gently for 2 h", "unreadable-stage", 0, "'gently'"),
    ("simmer", "2 h gently", "unreadable-stage", 4, "'gently'"),
    ("dry", "2 h on a rack 3 h", "unreadable-stage", 14, "twice"),
    ("roast", "at 350 °F at 400 °F", "unreadable-stage", 10, "twice"),
    ("roast", "at 350", "unreadable-temperature", 3, "'350'"),
    ("roast", "at a low heat", "unreadable-temperature", 3, "165 °F"),
    ("roast", "350 °F", "unreadable-stage", 0, "at 350 °F"),
    ("roast", "1 h to 165 °F", "unreadable-stage", 4, "inside"),
    ("roast", "1 h to 165 inside", "unreadable-temperature", 7, "165"),
    ("roast", "1 h at 165 °F inside", "unreadable-stage", 4, "to 165 °F inside"),
    ("roast", "to 150–165 °F inside", "unreadable-stage", 3, "one number"),
    ("roast", "until 165 °F inside", "unreadable-stage", 6, "to 165 °F inside"),
    ("roast", "1 h at 180 °F (82 °C)", "unreadable-stage", 14, "both scales"),
    ("soak", "until", "unreadable-stage", 0, "until"),
    ("soak", "hands", "unreadable-time", 5, "length"),
    ("dry", "rack", "unreadable-stage", 0, "'rack'"),
    ("pack", "somehow", "unknown-place", 0, "'somehow'"),
    ("pack", "pints", "unknown-place", 0, "'pints'"),
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
    assert check_stage_name("Hot  Smoke", GRAMMAR, alone=True) == "hot smoke"


NAMES = [
    ("simer", True, "unknown-stage", "'simmer'"),
    ("zap", True, "unknown-stage", "Known are thaw, trim"),
    ("cure 5 days", True, "unreadable-stage", "Write cure: 5 days"),
    ("cure:5 days", True, "unreadable-stage", "Write cure: 5 days"),
    ("hot smoke 6 h", True, "unreadable-stage", "Write hot smoke: 6 h"),
    ("cure 5 days", False, "unknown-stage", "Known are"),
]


@pytest.mark.parametrize(("name", "alone", "slug", "hint"), NAMES)
def test_unknown_stage_name_is_refused(name: str, alone: bool, slug: str, hint: str) -> None:
    with pytest.raises(AmountError) as caught:
        check_stage_name(name, GRAMMAR, alone=alone)
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
