"""Boxes of one slug are one box with its reasons; the gravest stand first (ANSI Z535: DANGER, WARNING, CAUTION, NOTICE)."""

from __future__ import annotations

from dataclasses import replace

from generator.compute.safety.check import merge
from generator.model.results import Caution

SHANK = Caution(
    slug="wild-game-165",
    signal="WARNING",
    title="Cook it",
    text="Measure it.",
    because="the meat is elk shank",
    sources=("mmwr-73-20",),
    stage=3,
)


def other(slug: str, signal: str) -> Caution:
    return replace(SHANK, slug=slug, signal=signal)


def test_gravest_first_and_the_order_of_rules_among_equals() -> None:
    given = [other("a", "NOTICE"), other("b", "WARNING"), other("c", "DANGER"), other("d", "WARNING")]
    given += [other("e", "CAUTION"), other("f", "DANGER")]
    assert [caution.slug for caution in merge(given)] == ["c", "f", "b", "d", "e", "a"]


def test_same_slug_is_one_box_with_every_reason_source_and_missing_key() -> None:
    second = replace(
        SHANK,
        because="rabbit is an ingredient",
        sources=("cdc-trichinellosis", "mmwr-73-20"),
        stage=1,
        missing=("meat.form",),
        accepted="tested",
    )
    (one,) = merge([SHANK, second, SHANK])
    assert one.because == "the meat is elk shank; rabbit is an ingredient"
    assert one.sources == ("mmwr-73-20", "cdc-trichinellosis")
    assert one.missing == ("meat.form",)
    assert one.accepted == "tested"
    assert one.stage == 1


def test_a_box_that_is_needed_before_the_method_stands_there() -> None:
    (one,) = merge([SHANK, replace(SHANK, stage=None)])
    assert one.stage is None


def test_nothing_stays_nothing() -> None:
    assert merge([]) == ()
