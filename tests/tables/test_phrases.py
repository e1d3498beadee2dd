"""The notation of phrases: what each sign of it stands for, and what is refused."""

from __future__ import annotations

import pytest

from generator.tables.csvfile import Wrong
from generator.tables.phrases import Notation, WordClass, finder, several, spoken

NOTATION = Notation(
    {
        "leave": WordClass(name="leave", words=("leave", "let stand"), plural=False, source="", locator=""),
        "place": WordClass(name="place", words=("porch", "bench"), plural=True, source="", locator=""),
    }
)


@pytest.mark.parametrize(
    ("phrase", "text", "found"),
    [
        (
            "[leave] … [place]",
            "Let stand, covered, on the cold porch.",
            "Let stand, covered, on the cold porch",
        ),
        ("[leave] … [place]", "Leave it on the benches.", "Leave it on the benches"),
        (
            "[leave] … [place]",
            "Leave one two three four five six porch.",
            "Leave one two three four five six porch",
        ),
        ("[leave] … [place]", "Leave one two three four five six seven eight porch.", None),
        ("[leave] … [place]", "Leave it; the porch is cold.", None),
        ("[leave] … [place]", "Leave it, not on the porch.", None),
        ("[leave] … [place]", "Leave it, then sweep the porch.", None),
        ("open-kettle", "Open-kettle", None),
        ("open kettle", "The open-kettle way", "open-kettle"),
        ("(in|on top of) the? oven", "On top of oven", "On top of oven"),
        ("(in|on top of) the? oven", "in the oven", "in the oven"),
        ("(in|on top of) the? oven", "over the oven", None),
        ("# hours", "for 3 hours", "3 hours"),
        ("# hours", "a couple of hours", "a couple of hours"),
        ("# hours", "the hours", None),
        ("don't bother", "Don’t bother", "Don’t bother"),
        ("out", "without", None),
    ],
)
def test_each_sign(phrase: str, text: str, found: str | None) -> None:
    spans = list(NOTATION.phrase(phrase).find(spoken(text)))
    assert [text[start:end] for start, end in spans] == ([found] if found is not None else [])


@pytest.mark.parametrize(
    ("phrase", "why"),
    [
        ("…", "holds no word that must be there"),
        ("the?", "holds no word that must be there"),
        ("(a|b", "is no phrase near"),
        ("[leave", "is no phrase near"),
        ("[stay] out", "unknown class of words 'stay'"),
    ],
)
def test_what_is_no_phrase_is_refused(phrase: str, why: str) -> None:
    with pytest.raises(Wrong, match=why.replace("[", r"\[")):
        NOTATION.phrase(phrase)


def test_finder_says_what_each_phrase_means_once() -> None:
    found = finder([(NOTATION.phrase("(porch|bench)"), "place"), (NOTATION.phrase("left out"), "act")])
    text = "Left out on the porch bench"
    said = [(meant, text[start:end]) for meant, start, end in found.find(spoken(text))]
    assert sorted(said) == [("act", "Left out"), ("place", "bench"), ("place", "porch")]


@pytest.mark.parametrize(
    ("one", "more"),
    [("berry", "berries"), ("day", "days"), ("potato", "potatoes"), ("bass", "basses"), ("fish", "fishes")],
)
def test_plurals(one: str, more: str) -> None:
    assert several(one) == more
