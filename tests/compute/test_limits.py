"""The most and the least of each thing at a limit: put on the scale, its figure is the limit itself, to the last digit.

The figures are those of the definition (FSIS Directive 7620.3, chapter 3, second-hand): added up and divided by hand.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.compute import Kitchen
from generator.compute.cure.case import NitriteForms
from generator.compute.cure.limits import (
    least_meat,
    least_water,
    least_water_by_pick_up,
    most_curing_salt,
    most_curing_salt_by_pick_up,
    most_nitrate,
)
from generator.compute.cure.solve import Needle
from generator.model.contract import Value, constant
from generator.model.form import Figure, Form, Setting
from generator.model.reader import Reader
from generator.model.results import CureForms

MILLION = 1_000_000


@dataclass(frozen=True)
class Weighed:
    """What lies on the table [g], and the limit [ppm]."""

    meat: Fraction
    water: Fraction
    salt: Fraction
    sugar: Fraction
    other: Fraction
    curing_salt: Fraction
    share: Fraction
    lean: Fraction
    limit: Fraction
    needle: Needle | None = None

    @property
    def injected(self) -> Fraction:
        return self.meat * self.needle.share * self.needle.nitrite if self.needle else Fraction(0)

    @property
    def pumped(self) -> Fraction:
        return self.meat * self.needle.share if self.needle else Fraction(0)

    @property
    def brine(self) -> Fraction:
        """The cover brine, curing salt and all."""
        return self.water + self.salt + self.sugar + self.other + self.curing_salt

    @property
    def whole_ppm(self) -> Fraction:
        nitrite = self.curing_salt * self.share + self.injected
        return nitrite * MILLION / (self.meat * self.lean + self.pumped + self.brine)

    @property
    def dry_ppm(self) -> Fraction:
        nitrite = self.curing_salt * self.share + self.injected
        return nitrite * MILLION / (self.meat * self.lean + self.pumped)

    def pick_up_ppm(self, pick_up: Fraction) -> Fraction:
        return self.curing_salt * self.share * pick_up * MILLION / self.brine

    def forms(self, *, is_brine: bool = True) -> NitriteForms:
        return NitriteForms(
            nitrite_share=self.share,
            lean_share=self.lean,
            needle=self.needle,
            is_brine=is_brine,
            curing_salt=Form(c0=self.curing_salt),
            salt=Form(c0=self.salt),
            sugar=Form(c0=self.sugar),
            other=Form(c0=self.other),
        )

    def grams(self, kitchen: Kitchen, value: Value) -> Fraction:
        setting = Setting(batches=Fraction(1), meat_g=self.meat, water_g=self.water)
        return Reader(setting=setting, shower=kitchen.shower).value(value)


grams = st.integers(1, 5000).map(Fraction)
needles = st.builds(
    Needle,
    share=st.fractions(Fraction(1, 50), Fraction(1, 5), max_denominator=50),
    nitrite=st.fractions(Fraction(1, 10_000), Fraction(1, 2000), max_denominator=10_000),
)
weighed = st.builds(
    Weighed,
    meat=grams,
    water=grams,
    salt=grams,
    sugar=grams,
    other=grams,
    curing_salt=grams,
    share=st.sampled_from([Fraction(1, 16), Fraction(1, 200), Fraction(1)]),
    lean=st.sampled_from([Fraction(1), Fraction(9, 10)]),
    limit=st.sampled_from([Fraction(120), Fraction(625, 4), Fraction(200)]),
    needle=st.none(),
)
shares = st.fractions(Fraction(1, 20), Fraction(1, 2), max_denominator=40)


@given(one=weighed, needle=st.none() | needles)
def test_most_curing_salt_comes_to_the_limit(kitchen: Kitchen, one: Weighed, needle: Needle | None) -> None:
    one = replace(one, needle=needle)
    most = one.grams(kitchen, most_curing_salt(one.forms(), one.limit))
    assert replace(one, curing_salt=most).whole_ppm == one.limit
    most = one.grams(kitchen, most_curing_salt(one.forms(is_brine=False), one.limit))
    assert replace(one, curing_salt=most).dry_ppm == one.limit


@given(one=weighed, pick_up=shares)
def test_pick_up_comes_to_the_limit(kitchen: Kitchen, one: Weighed, pick_up: Fraction) -> None:
    if one.share * pick_up * MILLION > one.limit:
        most = one.grams(kitchen, most_curing_salt_by_pick_up(one.forms(), pick_up, one.limit))
        assert replace(one, curing_salt=most).pick_up_ppm(pick_up) == one.limit
    water = one.grams(kitchen, least_water_by_pick_up(one.forms(), pick_up, one.limit))
    assert replace(one, water=water).pick_up_ppm(pick_up) == one.limit


@given(one=weighed, needle=st.none() | needles)
def test_least_meat_and_water_come_to_the_limit(
    kitchen: Kitchen, one: Weighed, needle: Needle | None
) -> None:
    meat = one.grams(kitchen, least_meat(one.forms(), one.limit))
    assert replace(one, meat=meat).whole_ppm == one.limit
    meat = one.grams(kitchen, least_meat(one.forms(is_brine=False), one.limit))
    assert replace(one, meat=meat).dry_ppm == one.limit
    one = replace(one, needle=needle)
    water = one.grams(kitchen, least_water(one.forms(), one.limit))
    assert replace(one, water=water).whole_ppm == one.limit


@pytest.mark.parametrize("is_brine", [True, False])
@given(rest=grams, weight=grams, others=st.integers(0, 100).map(lambda mg: Fraction(mg, 1000)))
def test_most_nitrate_comes_to_the_limit(
    is_brine: bool, rest: Fraction, weight: Fraction, others: Fraction
) -> None:
    share, limit, none = Fraction(1, 25), Fraction(500), Form()
    under = rest + weight if is_brine else rest
    figure = Figure(factor=Fraction(MILLION), over=Form(c0=weight * share + others), under=Form(c0=under))
    ratio = Figure(factor=Fraction(1), over=none, under=none)
    forms = CureForms(
        **dict.fromkeys(
            ("salt", "sugar", "curing_salt", "nitrate", "accelerator", "total_salt", "brine"), none
        ),
        **dict.fromkeys(("nitrite_ppm", "accelerator_ppm", "salt_percent"), ratio),
        nitrate_ppm=figure,
        pick_up_ppm=None,
        strength_percent=None,
    )  # type: ignore[arg-type]  # by name
    most = most_nitrate(Form(c0=weight), share, forms, limit, is_brine=is_brine)
    assert isinstance(most, Form)
    spread = rest + most.c0 if is_brine else rest
    assert (most.c0 * share + others) * MILLION / spread == limit


def test_a_curing_salt_weaker_than_the_limit_is_never_too_much() -> None:
    """Of a salt with less nitrite than the limit itself no amount passes it: it is left as it is, in a brine alone."""
    one = Weighed(*(Fraction(100),) * 6, share=Fraction(200, MILLION), lean=Fraction(1), limit=Fraction(200))
    assert most_curing_salt(one.forms(), one.limit) == constant(100)
    assert most_curing_salt(one.forms(is_brine=False), one.limit) != constant(100)
    assert most_curing_salt_by_pick_up(one.forms(), Fraction(1), one.limit) == constant(100)
    stronger = replace(one, share=Fraction(2005, 10 * MILLION))
    assert most_curing_salt(stronger.forms(), one.limit) != constant(100)
    assert most_curing_salt_by_pick_up(stronger.forms(), Fraction(1), one.limit) != constant(100)
