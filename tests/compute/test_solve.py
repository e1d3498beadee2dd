"""The solver by itself: weights of any targets, put on the scale and added up by hand, meet each target exactly."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.compute import Kitchen
from generator.compute.cure.solve import CureProblem, Needle, NoSolution, Part, solve_cure
from generator.model.form import NOTHING, Form, Setting
from generator.model.recipe import Target, TargetKind
from generator.model.results import CureForms

MILLION = 1_000_000
SATURATED = Fraction("26.395")
"Per cent salt at 100 degrees salometer: salometer sheet, 60 °F."
SETTING = Setting(batches=Fraction(1), meat_g=Fraction(2400), water_g=Fraction(4000))
NAMES = ("salt", "sugar", "curing_salt", "nitrate", "accelerator")


def target(kind: TargetKind, least: int, most: int) -> st.SearchStrategy[Part]:
    values = st.integers(least * 4, most * 4).map(lambda quarters: Fraction(quarters, 4))
    return values.map(lambda value: Part(target=Target(kind=kind, value=value)))


def weight(most: int) -> st.SearchStrategy[Part]:
    return st.integers(0, most).map(lambda grams: Part(weight=Form(cb=Fraction(grams))))


shares = st.one_of(
    target(TargetKind.PERCENT, 1, 5),
    target(TargetKind.PERCENT_OF_BRINE, 1, 12),
    target(TargetKind.DEGREES, 4, 60),
    weight(300),
)
doses = target(TargetKind.PPM, 10, 300)
needles = st.builds(
    Needle,
    share=st.just(Fraction(1, 10)),
    nitrite=st.just(Fraction(1, 4000)),
    nitrate=st.just(Fraction(1, 8000)),
    salt=st.just(Fraction(1, 8)),
)


@st.composite
def problems(draw: st.DrawFn, kinds: tuple[str, ...] = ("no. 1", "no. 2")) -> tuple[str, CureProblem]:
    from generator.build import kitchen

    name = draw(st.sampled_from(kinds))
    kind = kitchen().tables.curing_salt(name)
    assert kind is not None
    is_brine = draw(st.booleans())
    needle = draw(st.none() | needles)
    own = shares if is_brine else target(TargetKind.PERCENT, 1, 5) | weight(300)
    problem = CureProblem(
        is_brine=is_brine,
        salt=draw(own),
        sugar=draw(own),
        curing_salt=draw(doses | weight(30)),
        nitrate=draw(doses | weight(3)),
        accelerator=draw(doses | weight(3)),
        kind=kind,
        nitrate_share=draw(st.sampled_from([Fraction(1), Fraction(1, 2)])),
        lean_share=draw(st.sampled_from([Fraction(1), Fraction(9, 10)])),
        pick_up=draw(st.sampled_from([None, Fraction(1, 10)])) if is_brine and needle is None else None,
        needle=needle,
        saturated_percent=SATURATED,
    )
    return name, problem


COMPOSITION = {"no. 1": (Fraction(1, 16), Fraction(0)), "no. 2": (Fraction(1, 16), Fraction(1, 25))}
"Nitrite and nitrate by the labels of the two salts; the rest is salt."


class Scale:
    """All that lies on the table, from the weights alone."""

    def __init__(self, name: str, problem: CureProblem, forms: CureForms) -> None:
        nitrite, nitrate = COMPOSITION[name]
        weighed = {key: getattr(forms, key).at(SETTING) for key in NAMES}
        cured, meat, needle = weighed["curing_salt"], SETTING.meat_g, problem.needle
        self.weighed = weighed
        self.salt = weighed["salt"] + (1 - nitrite - nitrate) * cured
        self.brine = sum(weighed.values(), SETTING.water_g) if problem.is_brine else Fraction(0)
        self.base = meat + (SETTING.water_g if problem.is_brine else 0)
        pumped = meat * needle.share if needle else Fraction(0)
        self.spread = meat * problem.lean_share + pumped + self.brine
        self.nitrite = cured * nitrite + (pumped * needle.nitrite if needle else 0)
        own = weighed["nitrate"] * problem.nitrate_share
        self.nitrate = own + cured * nitrate + (pumped * needle.nitrate if needle else 0)
        self.all_salt = self.salt + (pumped * needle.salt if needle else 0)
        self.all_base = self.base + pumped
        self.cured_nitrite = cured * nitrite

    def share(self, key: str, kind: TargetKind) -> Fraction:
        grams = self.salt if key == "salt" else self.weighed[key]
        if kind is TargetKind.PERCENT:
            return 100 * grams / self.base
        percent = 100 * grams / self.brine
        return percent if kind is TargetKind.PERCENT_OF_BRINE else 100 * percent / SATURATED


@settings(max_examples=40)
@given(drawn=problems())
def test_every_target_and_every_amount_is_met_by_the_weights(drawn: tuple[str, CureProblem]) -> None:
    name, problem = drawn
    forms = solve_cure(problem)
    scale = Scale(name, problem, forms)
    for key in NAMES:
        part: Part = getattr(problem, key)
        if part.target is None:
            assert scale.weighed[key] == part.weight.at(SETTING)
        elif key in ("salt", "sugar"):
            assert scale.share(key, part.target.kind) == part.target.value
    wanted = {key: getattr(problem, key).target for key in NAMES[2:]}
    if wanted["curing_salt"] and problem.pick_up is None:
        assert MILLION * scale.nitrite / scale.spread == wanted["curing_salt"].value
    if wanted["curing_salt"] and problem.pick_up is not None:
        assert MILLION * scale.cured_nitrite * problem.pick_up / scale.brine == wanted["curing_salt"].value
    if wanted["nitrate"]:
        assert MILLION * scale.nitrate / scale.spread == wanted["nitrate"].value
    if wanted["accelerator"]:
        assert MILLION * scale.weighed["accelerator"] / scale.spread == wanted["accelerator"].value


@settings(max_examples=40)
@given(drawn=problems())
def test_every_figure_is_that_of_the_weights(drawn: tuple[str, CureProblem]) -> None:
    """Ingoing figures by FSIS Directive 7620.3, chapter 3 (second-hand): a substance over all it is spread over."""
    name, problem = drawn
    forms = solve_cure(problem)
    scale = Scale(name, problem, forms)
    assert forms.total_salt.at(SETTING) == scale.salt
    assert forms.brine.at(SETTING) == scale.brine
    assert forms.nitrite_ppm.at(SETTING) == MILLION * scale.nitrite / scale.spread
    assert forms.nitrate_ppm.at(SETTING) == MILLION * scale.nitrate / scale.spread
    assert forms.accelerator_ppm.at(SETTING) == MILLION * scale.weighed["accelerator"] / scale.spread
    assert forms.salt_percent.at(SETTING) == 100 * scale.all_salt / scale.all_base
    strength = None if forms.strength_percent is None else forms.strength_percent.at(SETTING)
    assert strength == (100 * scale.salt / scale.brine if problem.is_brine else None)
    taken_up = None if forms.pick_up_ppm is None else forms.pick_up_ppm.at(SETTING)
    if problem.pick_up is None:
        assert taken_up is None
    else:
        assert taken_up == MILLION * scale.cured_nitrite * problem.pick_up / scale.brine


def test_what_is_not_written_is_not_there(kitchen: Kitchen) -> None:
    kind = kitchen.tables.curing_salt("no. 1")
    assert kind is not None
    forms = solve_cure(CureProblem(is_brine=True, kind=kind, saturated_percent=SATURATED))
    assert all(getattr(forms, key) == NOTHING for key in NAMES)
    plain = Needle(share=Fraction(1, 10), nitrite=Fraction(1, 4000))
    pumped = CureProblem(is_brine=True, kind=kind, needle=plain, saturated_percent=SATURATED)
    forms = solve_cure(pumped)
    # A needle of nitrite alone: 240 g of it carry 0.06 g into 2400 + 240 + 4000 g, and neither nitrate nor salt.
    assert forms.nitrite_ppm.at(SETTING) == Fraction(6, 100) * MILLION / 6640
    assert (forms.nitrate_ppm.at(SETTING), forms.salt_percent.at(SETTING)) == (0, 0)
    nitrate = CureProblem(is_brine=False, kind=kind, nitrate=Part(weight=Form(cb=Fraction(1))), saturated_percent=SATURATED)  # fmt: skip
    # 1 g of it, all nitrate where nothing else is told, on 2400 g of meat, all of it lean.
    assert solve_cure(nitrate).nitrate_ppm.at(SETTING) == Fraction(MILLION, 2400)


@pytest.mark.parametrize("other", ["sugar", "accelerator"])
def test_targets_that_leave_no_water_have_no_weights(kitchen: Kitchen, other: str) -> None:
    """60 % and 40 % of one brine are all of it, 600,000 and 400,000 ppm likewise: nothing is left for the water."""
    kind = kitchen.tables.curing_salt("no. 1")
    assert kind is not None
    sixty = Part(target=Target(kind=TargetKind.PERCENT_OF_BRINE, value=Fraction(60)))
    forty = Part(target=Target(kind=TargetKind.PERCENT_OF_BRINE, value=Fraction(40)))
    problem = CureProblem(is_brine=True, kind=kind, salt=sixty, sugar=forty, saturated_percent=SATURATED)
    if other == "accelerator":
        doses = {"accelerator": 600_000, "nitrate": 400_000}
        parts = {
            key: Part(target=Target(kind=TargetKind.PPM, value=Fraction(ppm))) for key, ppm in doses.items()
        }
        problem = replace(problem, salt=Part(), sugar=Part(), **parts)  # type: ignore[arg-type]  # by name
    with pytest.raises(NoSolution):
        solve_cure(problem)
