"""Hostile recipes are stopped or boxed as demanded, and leaving a fact out never makes a box vanish without a word."""

from __future__ import annotations

import tempfile
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.compute.safety.case_rows import FILE, SafetyCase
from tests.compute.safety.hostile import Outcome, collect, facts_of, outcome

CASES = collect()
MUST_STOP = (
    "smoked shank in a sealed jar",
    "bear roast to 140",
    "raw elderberries",
    "jerky at 120",
    "thaw on the counter",
    "vacuum-packed smoked fish at 45 °F",
)

CARRIERS = frozenset({"name", "ingredients", "meat", "course"})
"Keys that carry the hazard itself: without the bear there is no bear. Every other key is a fact about it."

SAID_BY = {"simmer-too-short": "wild-game-165"}
"""Rules that are about two facts contradicting each other, and the rule that still speaks where only one of them is left:
without a length, the thermometer decides."""


@pytest.mark.parametrize("hostile", CASES, ids=[case.name for case in CASES])
def test_hostile_recipe_is_stopped_or_boxed(hostile: SafetyCase, tmp_path: Path) -> None:
    found = outcome(tmp_path / "content", hostile.files)
    row = hostile.rows[0]
    assert found.answers(row), f"{row.slug} is neither in {found.errors} nor in {found.boxes}"


def test_the_gravest_stop_the_site() -> None:
    demanded = {case.name.split(": ", 1)[1]: case.rows[0].outcome for case in CASES}
    for name in MUST_STOP:
        assert demanded[name] == "error", name


def test_there_are_many_and_each_has_its_own_name() -> None:
    names = [case.name for case in CASES]
    assert len(names) == len(set(names))
    assert len(names) >= 40


FACTS = tuple(
    (case, name, text)
    for case in CASES
    if FILE in case.files
    for name, text in facts_of(case.files[FILE])
    if name not in CARRIERS
)


@cache
def whole(name: str) -> Outcome:
    """What comes of a case as it is written."""
    case = next(case for case in CASES if case.name == name)
    with tempfile.TemporaryDirectory() as folder:
        return outcome(Path(folder) / "content", case.files)


def silent(case: SafetyCase, text: str) -> Outcome | None:
    """What comes of a case with a poorer text, where neither its rule speaks nor anything new does."""
    with tempfile.TemporaryDirectory() as folder:
        found = outcome(Path(folder) / "content", {**case.files, FILE: text})
    before = whole(case.name)
    speaks = {case.rows[0].slug, SAID_BY.get(case.rows[0].slug)} & (found.boxes | found.errors)
    is_new = bool(found.untold - before.untold) or bool(found.errors - before.errors)
    return None if speaks or is_new else found


@pytest.mark.parametrize("case", [case for case in CASES if FILE in case.files], ids=lambda case: case.name)
def test_leaving_one_fact_out_never_silences_the_rule(case: SafetyCase) -> None:
    """The rule speaks still, or something new does: a box that says what cannot be told, or a reason not to read it."""
    quiet = {name: silent(case, text) for one, name, text in FACTS if one is case}
    assert {name: found for name, found in quiet.items() if found is not None} == {}


@settings(max_examples=60)
@given(st.data())
def test_leaving_several_facts_out_never_silences_the_rule(data: st.DataObject) -> None:
    """Facts are left out one after the other, in any order, up to four."""
    case, name, text = data.draw(st.sampled_from(FACTS))
    left_out = [name]
    for _ in range(data.draw(st.integers(0, 3))):
        rest = [fact for fact in facts_of(text) if fact[0] not in CARRIERS]
        if rest:
            name, text = data.draw(st.sampled_from(rest))
            left_out.append(name)
    found = silent(case, text)
    assert found is None, f"{case.name} without {left_out} is silent: {found}"


def test_facts_are_left_out_one_at_a_time() -> None:
    text = (
        "---\nname: Trout\nmeat:\n  animal: trout\n  form: whole\ncourse:\n  - hot smoke: 2 h at 140 °F to 120 °F inside\n"
        "keep:\n  fridge: 9 days\n---\n\nEat.\n"
    )
    left = dict(facts_of(text))
    assert list(left) == [
        "name",
        "meat",
        "animal",
        "form",
        "course",
        "length",
        "at",
        "inside",
        "keep",
        "fridge",
    ]
    assert "form: whole" not in left["form"]
    assert "animal" not in left["meat"]
    assert "hot smoke: 2 h to 120 °F inside" in left["at"]
    assert "hot smoke: 2 h at 140 °F\n" in left["inside"]
    assert left["keep"].endswith("inside\n---\n\nEat.\n")
