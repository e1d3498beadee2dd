"""Each figure of a cure is one entry, and each of its readers takes it from there."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from generator.compute import Kitchen
from generator.compute.cure import CureInput, Scales, work_out_cure
from generator.compute.cure.case import PumpBrineInput
from generator.model.quantity import Measure, Quantity, Span
from generator.model.recipe import CureLine, Target, TargetKind
from generator.model.results import CureResult
from generator.render.data import RANGES, cure_data
from generator.render.figures import (
    FIGURES,
    METHOD,
    NITRITE,
    SCALE,
    SHARES,
    cure_reader,
    figures_of,
    named,
    range_of,
)
from generator.render.text import cure_text


def target(kind: TargetKind, value: int) -> CureLine:
    return CureLine(target=Target(kind=kind, value=Fraction(value)), written=str(value), position=None)


@pytest.fixture(scope="module")
def cures(kitchen: Kitchen) -> tuple[CureResult, ...]:
    """Cures that have, between them, every figure that follows the scale."""
    kind, fine = kitchen.tables.curing_salt("no. 1"), kitchen.tables.curing_salt("potassium nitrate")
    assert kind is not None
    brine = CureInput(
        method="brine",
        cut="whole",
        kind=kind,
        salt=target(TargetKind.PERCENT, 3),
        sugar=target(TargetKind.PERCENT, 1),
        curing_salt=target(TargetKind.PPM, 150),
        meat_g=Fraction(2000),
        water_g=Fraction(3000),
    )
    spoon = Quantity(measures=(Measure(Span.of(2), kitchen.tables.units["us_tsp"]),), written="2 tsp")
    by_spoon = CureLine(amount=spoon, written="2 tsp", position=None)
    cups = Quantity(measures=(Measure(Span.of(1), kitchen.tables.units["us_cup"]),), written="1 cup")
    by_cup: dict[str, Any] = {
        "salt": CureLine(amount=cups, name="kosher salt", written="1 cup kosher salt", position=None),
        "sugar": CureLine(amount=cups, name="brown sugar", written="1 cup brown sugar", position=None),
    }
    more: dict[str, Any] = {
        "pump_percent": Fraction(8),
        "nitrate": target(TargetKind.PPM, 200),
        "nitrate_kind": fine,
        "accelerator": target(TargetKind.PPM, 400),
    }
    needle = PumpBrineInput(
        water_g=Fraction(1000),
        salt=target(TargetKind.PERCENT_OF_BRINE, 10),
        sugar=None,
        curing_salt=target(TargetKind.PPM, 60),
        kind=kind,
    )
    short: dict[str, Any] = {
        "pick_up_percent": Fraction(30),
        "days": Fraction(1),
        "thickness_mm": Fraction(60),
    }
    asked = (
        replace(brine, **more),
        replace(brine, **more, pump_brine=needle),
        replace(brine, curing_salt=by_spoon),
        replace(brine, **by_cup),
        replace(brine, **by_cup, curing_salt=by_spoon, meat_g=Fraction(4000), ice_unmeasured=True),
        replace(brine, **more | by_cup, meat_g=Fraction(5000)),
        replace(brine, **short),
        replace(brine, method="dry", water_g=None),
    )
    return tuple(work_out_cure(one, Scales(tables=kitchen.tables), kitchen.shower) for one in asked)


def test_what_is_worked_out_and_what_follows_the_scale_read_alike(
    cures: tuple[CureResult, ...], kitchen: Kitchen
) -> None:
    """At the setting itself the script's sentence is the page's own."""
    seen = set()
    for cure in cures:
        reader = cure_reader(cure, kitchen.shower)
        for figure in figures_of(SHARES, NITRITE, METHOD, SCALE):
            told = reader.text(figure.told(cure))
            if told and figure.label != "Ice":
                assert reader.text(figure.following(cure)) == told, figure.label
                note = reader.text(figure.note_follows(cure))
                assert note in ("", figure.note(cure)), figure.label
                seen.add(figure.key or figure.label)
    unseen = {figure.key or figure.label for figure in FIGURES} - seen
    assert unseen == {"Ice"}, "what ice thrown in unweighed does follows nothing"


def test_each_key_of_the_json_stands_in_one_figure_and_in_the_answer(cures: tuple[CureResult, ...]) -> None:
    told = [one.partition(" = ") for figure in FIGURES for one in figure.json]
    keys = [key for key, _, _ in told]
    assert len(keys) == len(set(keys))
    for cure in cures:
        data = cure_data(cure)
        for key, _, name in told:
            found = data
            for part in key.split("."):
                found = found[part]
            known = named(cure, name or key)
            if key in dict(RANGES) and (span := range_of(cure, dict(RANGES)[key])):
                assert abs(Fraction(str(found[0])) - span.low) <= Fraction(1, 200), key
                assert abs(Fraction(str(found[1])) - span.high) <= Fraction(1, 200), key
            elif isinstance(known, Fraction):
                assert abs(Fraction(str(found)) - known) <= Fraction(1, 200), key


def test_the_terminal_has_the_words_of_the_list(cures: tuple[CureResult, ...], kitchen: Kitchen) -> None:
    for cure in cures:
        text = cure_text(cure, kitchen.tables)
        for figure in FIGURES:
            if figure.at_table is not None and figure.told(cure):
                label, words = figure.at_table
                assert f"  {label:<22} {words(cure)}\n" in text
