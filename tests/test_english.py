"""Sentences, clauses, and acts that are turned down. The sentences are the trade's ways of speaking: common practice, no source."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest

from generator.compute.safety.facts.acts import degrees_in
from generator.english import clause_of, is_turned_down, sentence_spans
from generator.english.degrees import degrees_at, degrees_of, scale_of, temperatures_in
from generator.english.figures import lengths_in
from generator.english.turned_down import KINDS, Row, TurnedDown, rows
from generator.model.quantity import Temperature

DOWN = (
    ("Never thaw it on the counter.", "thaw"),
    ("Do not turn the jars over.", "turn the jars over"),
    ("Thaw in the fridge, not in warm water.", "warm water"),
    ("Instead of washing the bird, pat it dry.", "washing the bird"),
    ("If it stood out overnight, throw it away.", "stood out overnight"),
    ("Check that no lily of the valley is among the ramsons.", "lily of the valley"),
    ("Don't thaw it on the porch, in the sink or in warm water.", "in warm water"),
    ("Leaving it out overnight is unsafe.", "Leaving it out overnight"),
    ("Water-bathing venison is not safe.", "Water-bathing venison"),
    ("Turning jars upside down is no process.", "Turning jars upside down"),
    ("Rather than leave it out, chill it.", "leave it out"),
    ("You must not can it in the oven.", "can it in the oven"),
    ("Throw out any piece that was left out overnight.", "left out overnight"),
)
STORIES = (
    (
        "The card in her hand wants two spoons of saltpetre.",
        "two spoons of saltpetre",
        "Leave that out: it has no business in a stew.",
    ),
    (
        "The old card calls for a handful of saltpetre, and I have crossed it out.",
        "a handful of saltpetre",
        "",
    ),
    (
        "The year we left the pot on the stove overnight half the choir was down by Sunday.",
        "left the pot on the stove overnight",
        "",
    ),
    (
        "I was raised to wash a bird in the sink, and it took a nurse to break me of it.",
        "wash a bird in the sink",
        "",
    ),
    (
        "I know of a cook who left potatoes in foil overnight and gave all his guests botulism.",
        "left potatoes in foil overnight",
        "",
    ),
    (
        "There is an old tale of a party who cut skewers of oleander and never got home.",
        "skewers of oleander",
        "",
    ),
    (
        "In 1948 they boiled the jars three hours in a kettle.",
        "boiled the jars three hours",
        "It put two cousins in the ground.",
    ),
    ("My uncle used to leave it on the porch; I no longer do.", "leave it on the porch", ""),
    ("Grandfather thawed it on the porch.", "thawed it on the porch", "Don't."),
    (
        "Grandmother canned beans in a water bath.",
        "canned beans in a water bath",
        "We know better now: that is how botulism comes.",
    ),
)
GOES_ON = (
    ("Don't rush it: leave it on the counter overnight.", "leave it on the counter overnight", ""),
    ("Don't rush, leave it on the counter overnight.", "leave it on the counter overnight", ""),
    ("Some leave it on the porch, and it works.", "leave it on the porch", "Serve with bread."),
    ("Don't forget to leave it on the counter overnight.", "leave it on the counter overnight", ""),
    ("Not only thaw it on the counter but let it get warm.", "thaw it on the counter", ""),
    ("No need to chill it, just leave it out until morning.", "leave it out until morning", ""),
    (
        "Grandmother always left the pot on the stove overnight.",
        "left the pot on the stove overnight",
        "It tastes better so.",
    ),
    ("Leave it out overnight, which is perfectly safe.", "Leave it out overnight", ""),
    ("Grandmother boiled the jars three hours, which kills the botulism.", "boiled the jars three hours", ""),
    ("My uncle ate it raw and never once took ill.", "ate it raw", ""),
    ("They left it out overnight and not one of them got sick.", "left it out overnight", ""),
    ("Steam them till they are open, and throw away those that stay shut.", "Steam them", ""),
    ("Without a lid, leave the broth on the stove overnight.", "leave the broth on the stove overnight", ""),
)


def span(text: str, act: str) -> tuple[int, int]:
    found = re.search(re.escape(act), text)
    assert found is not None, f"the test's own act is not in '{text}'"
    return found.span()


@pytest.mark.parametrize(("text", "act"), DOWN)
def test_what_is_forbidden_contrasted_or_thrown_away_is_turned_down(text: str, act: str) -> None:
    start, end = span(text, act)
    assert is_turned_down(text, start, end, is_name="lily" in act)


@pytest.mark.parametrize(("text", "act", "following"), STORIES)
def test_a_story_is_turned_down_in_its_own_or_the_next_sentence(text: str, act: str, following: str) -> None:
    start, end = span(text, act)
    assert is_turned_down(text, start, end, following=following)


@pytest.mark.parametrize(("text", "act", "following"), GOES_ON)
def test_what_only_sounds_like_a_denial_is_an_order(text: str, act: str, following: str) -> None:
    start, end = span(text, act)
    assert not is_turned_down(text, start, end, following=following)


@pytest.mark.parametrize(
    ("text", "sentences"),
    [
        ("Thaw it. Cook it.", ["Thaw it.", "Cook it."]),
        ("Add 1 qt. water and 2 tbsp. salt. Stir.", ["Add 1 qt. water and 2 tbsp. salt.", "Stir."]),
        ("Smoke at 180 °F. Rest it.", ["Smoke at 180 °F.", "Rest it."]),
        ("Use cure no. 1 here. Weigh it!", ["Use cure no. 1 here.", "Weigh it!"]),
        ("Is it done? (It is.) Eat.", ["Is it done?", "(It is.)", "Eat."]),
        ("no end", ["no end"]),
        ("  ", []),
    ],
)
def test_sentences(text: str, sentences: list[str]) -> None:
    assert [text[begin:end] for begin, end in sentence_spans(text)] == sentences


def test_a_comma_parts_clauses_only_before_an_order() -> None:
    text = "Never thaw it in the sink, on the porch or in the sun, put it in the fridge."
    begin, end = clause_of(text, text.index("on the porch"))
    assert text[begin:end] == "Never thaw it in the sink, on the porch or in the sun"
    begin, end = clause_of(text, text.index("fridge"))
    assert text[begin:end] == "put it in the fridge."


def is_down(words: TurnedDown, row: Row, text: str) -> bool:
    """Whether the act between the stars is turned down in a sentence of a row, by what stands before and behind it."""
    before, act, behind = text.split("*")
    whole, start = before + act + behind, len(before)
    spans = list(sentence_spans(whole))
    begin, end = next(one for one in spans if one[0] <= start < one[1])
    following = next((whole[first:last] for first, last in spans if first >= end), "")
    at = start - begin
    return words.says(whole[begin:end], at, at + len(act), following, is_name=row.kind == "look-alike")


ALL = TurnedDown(rows())
EACH_ROW = pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row.kind}: {row.phrase}")


@EACH_ROW
def test_a_row_turns_down_its_own_sentence_and_not_the_other(row: Row) -> None:
    assert is_down(ALL, row, row.down)
    assert not is_down(ALL, row, row.stands)


@EACH_ROW
def test_a_row_without_effect_would_not_be_there(row: Row) -> None:
    """Without it one of its sentences is heard otherwise: no other row says the same."""
    without = TurnedDown(one for one in rows() if one is not row)
    assert (is_down(without, row, row.down), is_down(without, row, row.stands)) != (True, False)


def test_every_kind_has_rows_and_each_says_on_what_it_rests() -> None:
    assert {row.kind for row in rows()} == set(KINDS)
    assert {row.basis for row in rows()} == {"common practice, no source"}


@pytest.mark.parametrize(
    ("text", "minutes"),
    [
        ("for 2 to 3 hours", [(120, 180)]),
        ("a 2- to 3-hour simmer", [(120, 180)]),
        ("an hour and a half", [(90, 90)]),
        ("two and a half hours", [(150, 150)]),
        ("two hours and a half", [(150, 150)]),
        ("1 1/2 hours, 1½ hours, 1.5 hours", [(90, 90)] * 3),
        ("half an hour", [(30, 30)]),
        ("a day or two", [(1440, 2880)]),
        ("1 hour 30 minutes", [(90, 90)]),
        ("2 hours and 15 minutes", [(135, 135)]),
        ("2 hours, 30 minutes", [(120, 120), (30, 30)]),
        ("2 days and 30 minutes", [(2880, 2880), (30, 30)]),
        ("6–8 h", [(360, 480)]),
        ("one to two weeks", [(10080, 20160)]),
        ("a month", [(28 * 1440, 31 * 1440)]),
        ("2 hours or overnight", [(120, 720)]),
        ("45 minutes to 1 hour", [(45, 60)]),
        ("20 min. each, then 90-minute rests", [(20, 20), (90, 90)]),
        ("3 to 2 hours, 0 min, 1/0 h, 2 houris, no. 4h2", []),
    ],
)
def test_lengths_are_read_from_figures_and_small_words(text: str, minutes: list[tuple[int, int]]) -> None:
    """Minutes by the definitions of hour, day and week; a month by the calendar; a night of 8 to 12 h is the house's."""
    assert [(one.minutes.low, one.minutes.high) for one in lengths_in(text)] == minutes


@pytest.mark.parametrize(
    ("text", "fahrenheit"),
    [
        ("165 °F, 165 F, 165 degrees, 350F", [(165, 165)] * 3 + [(350, 350)]),
        ("180–200 °F or 34 to 38 °F", [(180, 200), (34, 38)]),
        ("at -4 °F, at minus 4 F, at −4 °F", [(-4, -4)] * 3),
        ("100 °C (212 °F)", [(212, 212)] * 2),
        ("165, 2 cups, no. 4, 1500 Frames", []),
    ],
)
def test_temperatures_are_read_with_their_scale_or_sign(text: str, fahrenheit: list[tuple[int, int]]) -> None:
    """Water boils at 212 °F = 100 °C at the sea: a definition of the scales."""
    found = [(heat.low.fahrenheit, heat.high.fahrenheit) for heat, _, _ in temperatures_in(text)]
    assert found == fahrenheit


def test_degrees_at_a_place_have_the_scale_of_the_book_where_they_name_none() -> None:
    found = degrees_at("to 165 °F inside", 3, scale="C")
    assert found is not None
    assert (found.at.low, found.end) == (Temperature(Fraction(165), "F"), 9)
    oven = degrees_at("180° oven", 0, scale="C")
    assert oven is not None
    assert oven.at.high == Temperature(Fraction(180), "C")
    falling = degrees_at("400 to 350 °F", 0, scale="F")
    assert falling is not None
    assert falling.falls
    assert degrees_at("hot", 0, scale="F") is None


@pytest.mark.parametrize(
    ("text", "changes"),
    [
        ("It must not fall 5 °F in a day.", [(5, True)]),
        ("Lower the pot into 180 °F water.", [(180, False)]),
        ("Pull it 10 degrees before it is done.", [(10, True)]),
        ("Take it out at 140 °F before it is done.", [(140, False)]),
        ("The oven runs 25 °F hot.", [(25, True)]),
        ("By 140 °F the fat runs; by 10 °F it does not.", [(140, False), (10, True)]),
        ("from 140 °F to 70 °F", [(140, False), (70, False)]),
        ("140 °F ± 5 °F, or 2 °F/min", [(140, False), (5, True), (2, True)]),
        ("Ovens may be 50 °F out; compensate 25 °F.", [(50, True), (25, True)]),
        ("no more than 2 °F between them", [(2, True)]),
        ("Between 10 and 15 °F warmer", [(10, True)]),
        ("160 °F or hotter, 165 °F or more", [(160, False), (165, False)]),
    ],
)
def test_a_change_is_told_from_a_point_by_the_words_beside_it(
    text: str, changes: list[tuple[int, bool]]
) -> None:
    assert [(one.ends[0], one.is_change) for one in degrees_of(text)] == changes


@pytest.mark.parametrize(
    "text",
    [
        "Turn it 90 degrees.",
        "a brine of 60 degrees strength",
        "at a 45-degree angle",
        "add 2 C of milk",
        "2 c. milk",
    ],
)
def test_degrees_of_no_heat_are_no_temperature(text: str) -> None:
    assert list(temperatures_in(text)) == []


def test_degrees_without_a_scale_are_heard_by_the_rules_as_the_page_shows_them() -> None:
    """(20 x 9/5) + 32 = 68 and (60 x 9/5) + 32 = 140; in a book of US units they are Fahrenheit's."""
    told = "Let it stand at 20 degrees, then hold it at 60 degrees."
    assert degrees_in(told, scale_of("metric")) == (68, 140)
    assert degrees_in(told, scale_of("us")) == (20, 60)


def test_the_heat_of_a_rule_has_no_change_in_it() -> None:
    """Rules and page read one sentence alike: what is shown as a change is no temperature that meat was held at."""
    told = "Hold it at 130 °F and raise it by 40 °F."
    assert [heat.low.fahrenheit for heat, _, _ in temperatures_in(told)] == [130]
