"""A cure with its weights and its recipe in, the salt that stays in the finished piece out: always from low to high.

    salt in the meat = salt x X / (W + X) x uptake x left        X = water share x lean      (brine)
    salt in the meat = salt x kept x uptake x left                                           (dry cure)

W is the water outside the meat. The high end takes meat and brine as even (or all of a dry cure as kept); a short
cure is taken at the fast case of the transfer estimate. The low end takes the slow case of the mean uptake by the
recipe's own day, or nothing where that is not estimated. Low and high each take one whole set of bone, water and
losses. Salt in grams and salt in per cent of the lean are worked out apart, because bone moves them opposite ways.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from generator.compute.cure.amounts import transfer_parameters
from generator.compute.cure.days import percent_brine
from generator.compute.cure.formulas import PER_CENT
from generator.compute.meat.cured import days_in_cure
from generator.compute.meat.cut import is_mixed_through
from generator.compute.reach.estimate import reach_input
from generator.compute.reach.recipe import is_measured_otherwise, piece_of
from generator.compute.salt.bath import left_in_pot, soak_hours
from generator.compute.transfer import Parameters, ReachInput, estimate_reach, soak, state_after_cure
from generator.compute.weight.losses import course_after, finished_yield
from generator.model.form import Setting
from generator.model.published import Animal
from generator.model.quantity import Span
from generator.model.recipe import Meat, Recipe
from generator.model.results import CureForms, CureResult, SaltInPiece
from generator.problems import OutOfRange
from generator.tables import Tables

ONE = Span.of(1)
WIDEST_WATER = Fraction(15, 100)
"Water of the raw meat known no better than this gives no water-phase salt. Source: house choice."
FINEST = 1_000_000
"Denominator of a share from the transfer estimate. Source: house choice, far finer than the estimate."
NO_BONE = frozenset({"ground", "sliced"})
"Forms of meat that have no bone in them."

SLOW_CASE = "At the least it is the slow case of the transfer estimate on the recipe's own day."
NO_OPEN_FACE = (
    "In the slow case of the transfer estimate no face of it is open, so at the least there is none."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cured:
    """A cure with all that decides what of its salt stays in the piece."""

    is_brine: bool
    meat_g: Fraction
    salt_g: Span
    "All of it, that of the curing salt and of the needle with it."
    water_g: Fraction
    "Outside the meat."
    lean: Span
    "Share of the raw piece."
    water_share: Span
    "Of the raw lean."
    kept: Span
    "Of a dry cure: the share that brine drawn out of the meat does not carry off."
    uptake: Span
    "Mean over the piece, relative to the even level."
    left: Span
    "After soaks and pots."

    @property
    def fate(self) -> Span:
        """Share [1] that time in the cure, soaks and pots leave of the even level."""
        return self.uptake.by(self.left)

    @property
    def grams(self) -> Span:
        """Salt in all pieces [g]: from the least water that the lean can hold to the most."""
        water_g = self.water_share.by(self.lean).times(self.meat_g)
        return self._inside(water_g).by(self.fate).by(self.salt_g)

    def per_lean(self, water_share: Span) -> Span | None:
        """Salt per gram of raw lean [g/g], at either end of the share of water in it; None where it may be all bone.

        Bone moves it the other way than the grams: the most lean has the least salt each.
        """
        if self.lean.low == 0:
            return None
        lean_g = Span(self.lean.high, self.lean.low).times(self.meat_g)
        inside = self._inside(water_share.by(lean_g)).by(self.fate).by(self.salt_g)
        return Span(inside.low / lean_g.low, inside.high / lean_g.high)

    def _inside(self, meat_water_g: Span) -> Span:
        """Share of all salt that is in the meat when even."""
        if not self.is_brine:
            return self.kept
        low, high = (salt_share_inside(end, self.water_g) for end in (meat_water_g.low, meat_water_g.high))
        return Span(low, high)


def salt_share_inside(meat_water_g: Fraction, bath_water_g: Fraction) -> Fraction:
    """Share of all salt that is in the meat once meat and brine are even: X / (W + X).

    Parameters: meat_water_g, bath_water_g [g], not both nothing. Returns a share.
    Errors: takes salt as dissolved in the meat's water alone.
    Example (derived): 2 kg meat of 72 % water in 2 kg water with 150 g salt: 62.8 g, 3.0 % of meat and salt.
    Source: even level, salt / (bath water + meat water), the balance behind Crank 1975, ch. 4 (limited bath).
    """
    whole = meat_water_g + bath_water_g
    return meat_water_g / whole if whole else Fraction(0)


def salt_in_piece(cure: CureResult, recipe: Recipe, batches: Fraction, tables: Tables) -> SaltInPiece | None:
    """Salt in what a cured recipe makes; None where the cure gives no weights."""
    if cure.weigh is None or cure.setting is None or cure.forms is None or recipe.meat is None:
        return None
    said: list[str] = []
    sources: list[str] = []
    cured = _cured(cure, recipe, batches, tables, said, sources)
    done = finished_yield(recipe, cured.meat_g, batches, tables, said, sources)
    lean_left = None if done is None else _lean_left(done, cured.lean)
    percent = _percent(cured, lean_left)
    phase = _water_phase(cured, lean_left)
    if percent is not None:
        said.append("After the cure nothing but water is lost.")
    lean = cured.lean if done is None else _finished_lean(done, cured.lean)
    return SaltInPiece(
        low_percent=percent.low if percent else None,
        high_percent=percent.high if percent else None,
        lean_share_low=lean.low,
        lean_share_high=lean.high,
        assumption=" ".join(said),
        water_phase_low_percent=phase[0],
        water_phase_high_percent=phase[1],
        low_g=cured.grams.low,
        high_g=cured.grams.high,
        sources=tuple(dict.fromkeys(sources)),
    )


def _cured(
    cure: CureResult, recipe: Recipe, batches: Fraction, tables: Tables, said: list[str], sources: list[str]
) -> Cured:
    assert cure.setting is not None
    assert cure.forms is not None
    parameters = transfer_parameters(tables)
    water, water_sources = _water(recipe, tables)
    injected_salt, injected_water = _injected(cure)
    is_brine, meat_g = cure.method == "brine", cure.setting.meat_g
    said.append(
        "At the most the brine is even with the meat." if is_brine else "At the most all of the salt stays."
    )
    if is_brine or water.high - water.low <= WIDEST_WATER:
        said.append(f"The raw lean is taken as {_percents(water.low, water.high)} water.")
        sources.extend(water_sources)
    lean = _lean_of_all(recipe, tables, said, sources)
    uptake, soaked = _uptake_and_soak(cure, recipe, tables, said)
    raw_water_g = water.low * lean.low * meat_g
    pot = left_in_pot(recipe, raw_water_g=raw_water_g, meat_g=meat_g, batches=batches, said=said)
    carried_off = _share(parameters.exudate.high / parameters.meat_water.low)
    return Cured(
        is_brine=is_brine,
        meat_g=meat_g,
        salt_g=_all_salt(cure, cure.forms, cure.setting).plus(Span.of(injected_salt)),
        water_g=(cure.setting.water_g if is_brine else Fraction(0)) + injected_water,
        lean=lean,
        water_share=water,
        kept=ONE if is_mixed_through(recipe) else Span(1 - carried_off, Fraction(1)),
        uptake=uptake,
        left=soaked.by(pot),
    )


def _all_salt(cure: CureResult, forms: CureForms, setting: Setting) -> Span:
    """Salt of the cover or the rub [g], from end to end where a cup leaves it open."""
    weak, strong = (cure.ends.weakest, cure.ends.strongest) if cure.ends else (forms, forms)
    return Span(weak.total_salt.at(setting), strong.total_salt.at(setting))


def _injected(cure: CureResult) -> tuple[Fraction, Fraction]:
    """Salt and water [g] of a separate brine for the needle; plain pumping takes both from the cover brine."""
    brine, pump_g = cure.pump_brine, cure.pump_g
    if brine is None or pump_g is None:
        return Fraction(0), Fraction(0)
    share = pump_g / brine.whole_g
    return share * (brine.salt_g + brine.curing_salt_g), share * brine.water_g


def _water(recipe: Recipe, tables: Tables) -> tuple[Span, tuple[str, ...]]:
    """Share of the raw lean that is water, and where that is published: of several meats from the driest to the wettest."""
    found = [tables.carry.water_of(tables.animal(meat.animal), meat.cut) for meat in recipe.meats]
    sources = tuple(dict.fromkeys(key for one in found for key in one.sources))
    return _around(one.span for one in found), sources


def _around(spans: Iterable[Span]) -> Span:
    """From the least to the most of several."""
    found = list(spans)
    return Span(min(one.low for one in found), max(one.high for one in found))


def _lean_of_all(recipe: Recipe, tables: Tables, said: list[str], sources: list[str]) -> Span:
    """Of several meats anything between that of the leanest and that of the boniest."""
    if recipe.several_meats and is_mixed_through(recipe):
        return ONE  # nobody grinds bones
    leans = [_lean(meat, tables.animal(meat.animal), tables, said, sources) for meat in recipe.meats]
    said[:] = dict.fromkeys(said)
    return _around(leans)


def _lean(meat: Meat, animal: Animal | None, tables: Tables, said: list[str], sources: list[str]) -> Span:
    """Share of the raw piece that is lean; from nothing to all where it is not told and not published."""
    refuse = Span.of(0)
    for part, state, told in (("bone", meat.bone, "in"), ("skin", meat.skin, "on")):
        if state not in (None, told) or meat.form in NO_BONE:
            continue
        row = tables.carry.refuse_of(part, animal, meat.cut)
        if row is None:
            if part == "bone":
                what = f"how much of {meat.name} is bone" if state else f"whether a bone is in {meat.name}"
                said.append(f"It is not known {what}: anything from none to all.")
                return Span(Fraction(0), Fraction(1))
            continue
        note = f" ({row.note[:1].lower()}{row.note[1:]})" if row.note else ""
        low = row.low if state else Fraction(0)
        said.append(f"It is taken as {_percents(low, row.high)} {part}{note}.")
        sources.extend(row.sources)
        refuse = refuse.plus(Span(low, row.high))
    return Span(max(Fraction(0), 1 - refuse.high), max(Fraction(0), 1 - refuse.low))


def _uptake_and_soak(cure: CureResult, recipe: Recipe, tables: Tables, said: list[str]) -> tuple[Span, Span]:
    """Mean uptake by the recipe's own days, and what a soak leaves of it."""
    if is_mixed_through(recipe):
        return ONE, ONE
    hours = soak_hours(recipe)
    soaks = any(stage.name == "soak" for stage in course_after(recipe))
    given = _reach_input(cure, recipe, tables)
    if given is None:
        said.append("How far the salt has got is not estimated, so at the least there is none.")
        return Span(Fraction(0), Fraction(1)), ONE
    try:
        # A thinner piece of several is even sooner than the slowest one, which this is worked out for.
        is_short = cure.whole_limit_is_worst_case and not recipe.several_meats
        uptake = _uptake(given, _longest(recipe), is_short, transfer_parameters(tables))
        said.append(SLOW_CASE if uptake.low > 0 else NO_OPEN_FACE)
        if not soaks:
            return uptake, ONE
        if hours is None:
            said.append("How long it is soaked is not told, so at the least nothing is left.")
            return uptake, Span(Fraction(0), Fraction(1))
        left = _soaked(given, hours, transfer_parameters(tables))
    except OutOfRange:
        said.append("The transfer estimate is not valid for it, so at the least there is none.")
        return Span(Fraction(0), Fraction(1)), ONE
    said.append(f"The soak leaves {_percents(left.low, left.high)} of the salt, by the transfer estimate.")
    return uptake, left


def _reach_input(cure: CureResult, recipe: Recipe, tables: Tables) -> ReachInput | None:
    if not recipe.meats or is_measured_otherwise(recipe, tables):
        return None
    piece = piece_of(recipe, tables)
    if piece is None:
        return None
    try:
        return reach_input(cure, piece)
    except OutOfRange:  # told where the reach is: a thickness that no piece has
        return None


def _longest(recipe: Recipe) -> float:
    days = days_in_cure(recipe)
    return 0.0 if days is None else float(days.high)


def _share(value: float) -> Fraction:
    # A float as it is would bring all its binary digits into every exact product behind it.
    return Fraction(value).limit_denominator(FINEST)


@lru_cache(maxsize=256)
def _uptake(given: ReachInput, longest: float, is_short: bool, parameters: Parameters) -> Span:
    """Low: the slow case on the shortest day. High: even, or of a short cure the fast case on the longest."""
    days = (given.days[0], max(given.days[0], longest))
    reach = estimate_reach(replace(given, days=days), parameters)
    high = max(day.salt_mean.high for day in reach.days)
    return Span(
        min(_share(reach.days[0].salt_mean.low), Fraction(1)), _share(high if is_short else max(1.0, high))
    )


@lru_cache(maxsize=256)
def _soaked(given: ReachInput, hours: Span, parameters: Parameters) -> Span:
    """Share of the salt left: the longest soak in the fast case, the shortest in the slow one."""
    state = state_after_cure(given, parameters, day=given.days[0])
    return Span(
        _share(soak(state, hours=float(hours.high)).left.low),
        _share(min(1.0, soak(state, hours=float(hours.low)).left.high)),
    )


def _lean_left(done: Span, lean: Span) -> Span:
    """Finished lean per raw lean: bone keeps its weight at the one end, shrinks with the rest at the other."""
    ends = [done.low, done.high]
    if lean.low > 0 and done.low > 1 - lean.low:
        ends.append((done.low - (1 - lean.low)) / lean.low)
    return Span(min(ends), max(ends))


def _finished_lean(done: Span, lean: Span) -> Span:
    """Share of the finished piece that is lean."""
    bone_kept = 1 - (1 - lean.low) / done.low
    ends = (lean.low, lean.high, bone_kept if bone_kept > 0 else lean.low)
    return Span(min(ends), max(lean.high, Fraction(0)))


def _percent(cured: Cured, lean_left: Span | None) -> Span | None:
    per_lean = cured.per_lean(cured.water_share)
    if per_lean is None or lean_left is None:
        return None
    return Span(PER_CENT * per_lean.low / lean_left.high, PER_CENT * per_lean.high / lean_left.low)


def _water_phase(cured: Cured, lean_left: Span | None) -> tuple[Fraction | None, Fraction | None]:
    """100 x salt / (salt + water) of the finished lean, where nothing but water was lost.

    The low end is the wettest lean with the least salt, the high end the driest with the most.
    """
    wet = cured.water_share
    # Strongest in its own water is the driest lean, so the high end of the salt goes with the low end of the water.
    salt = cured.per_lean(Span(wet.high, wet.low))
    if salt is None or lean_left is None or wet.high - wet.low > WIDEST_WATER:
        return None, None
    least, most = salt.low / lean_left.high, salt.high / lean_left.low
    wettest = 1 - (1 - wet.high) / lean_left.high - least
    driest = 1 - (1 - wet.low) / lean_left.low - most
    if wettest <= 0:
        return None, None
    low = percent_brine(salt_g=least, water_g=wettest)
    return low, percent_brine(salt_g=most, water_g=driest) if driest > 0 else None


def _percents(low: Fraction, high: Fraction) -> str:
    first, second = (f"{float(PER_CENT * end):.0f}" for end in (low, high))
    return f"{first} %" if first == second else f"{first} to {second} %"
