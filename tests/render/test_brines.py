"""The brine's figures and the step of the scale on a recipe's page: what was worked out, in its words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from generator.model.page import Site
from generator.model.results import BrineFigures, ComputedBook, CureResult, Dose, PreBlend
from tests.render import sample
from tests.render.helpers import SHANK, parse, words

Render = Callable[[ComputedBook], Site]

BRINE = BrineFigures(
    percent=Fraction("5.279"),
    degrees_60f=Fraction(20),
    plain_percent=Fraction("5.279"),
    specific_gravity=Fraction("1.038"),
    lb_salt_per_us_gal_water=Fraction("0.464"),
    lb_salt_per_us_gal_brine=Fraction("0.456"),
    g_salt_per_l_water=Fraction("55.6"),
    g_salt_per_l_brine=Fraction("54.6"),
)
"20 degrees, US table at 60 F and the metric table of UK training material on smoking fish."

BLEND = PreBlend(
    carrier="salt",
    curing_salt_g=Fraction(50),
    carrier_g=Fraction(450),
    weigh_g=Fraction(48),
    carrier_left_g=Fraction("12.3"),
)
DOSE = Dose(
    tenth_gram_ppm=Fraction("3.125"), gram_ppm=Fraction("31.25"), use_finer_scale=True, pre_blend=BLEND
)


def figures(render: Render, cure: CureResult) -> dict[str, str]:
    page = parse(render(sample.book(sample.shank(cure=cure), sample.beans())), SHANK)
    return {words(row.dt): words(row.dd) for row in page.select(".figures > div")}


def test_figures_of_the_brine_are_on_the_page(render: Render) -> None:
    said = figures(render, replace(sample.CURE, brine=BRINE))
    assert said["Specific gravity"].startswith("1.038 at 60 °F salt and water, before the sugar")
    assert said["Salt to water"] == (
        "0.46 lb per US gal of water, 55.6 g per L of water 0.46 lb per US gal of brine, 54.6 g per L of brine"
    )


def test_coarse_scale_is_told_with_its_blend(render: Render) -> None:
    said = figures(render, replace(sample.CURE, dose=DOSE))
    assert said["The scale"].startswith("0.1 g of curing salt is 3.2 ppm, 1 g is 31.3 ppm")
    assert "Use a scale that reads 0.1 g" in said["The scale"]
    assert (
        "weigh 48 g of that instead of the curing salt, and 12.3 g of salt besides" in said["Or as a blend"]
    )


@pytest.mark.parametrize("coarse", [False, True])
def test_without_a_blend_no_blend_is_named(render: Render, coarse: bool) -> None:
    said = figures(render, replace(sample.CURE, dose=replace(DOSE, use_finer_scale=coarse, pre_blend=None)))
    assert "Or as a blend" not in said
    assert ("Use a scale that reads 0.1 g" in said["The scale"]) is coarse


def test_refused_cure_shows_none_of_it(render: Render) -> None:
    assert figures(render, replace(sample.REFUSED, brine=BRINE, dose=DOSE)) == {}
