"""Computed records in, plain data for `--json` out: unknown is null, a range is [low, high], numbers are numbers."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction
from typing import Any

from generator.model.quantity import Span
from generator.model.results import (
    BrineFigures,
    Caution,
    ComponentNeed,
    ComputedLine,
    ComputedRecipe,
    Correction,
    CureResult,
    DishSalt,
    Dose,
    IceShare,
    PumpBrineResult,
    ReachResult,
    SaltInPiece,
    Vessel,
)
from generator.model.rounding import round_nearest
from generator.problems import Problem
from generator.render.figures import FIGURES, named

HUNDREDTH = Fraction(1, 100)
"Source: house choice, the step of every weight and concentration in JSON."

THOUSANDTH = Fraction(1, 1000)
"Source: house choice, the step of the brine tables."

Data = dict[str, Any]


def number(value: Fraction | None, step: Fraction = HUNDREDTH) -> float | int | None:
    """A number to a step, whole numbers without a point; unknown is null."""
    if value is None:
        return None
    rounded = round_nearest(value, step)
    return int(rounded) if rounded.denominator == 1 else float(rounded)


def exact(value: Fraction | None) -> float | int | None:
    """A number as near as a float can be: for batches and servings, which have no step."""
    if value is None:
        return None
    return int(value) if value.denominator == 1 else float(value)


def span(value: Span | None) -> float | int | list[float | int | None] | None:
    """A single number, or [low, high] for a range; unknown is null."""
    if value is None:
        return None
    return [number(value.low), number(value.high)] if value.is_range else number(value.low)


def problem_data(problem: Problem) -> Data:
    """One problem with its place; a problem of the command line has none."""
    place = problem.position
    return {
        "file": place.file if place else None,
        "line": place.line if place else None,
        "column": place.column if place else None,
        "severity": problem.severity.value,
        "slug": problem.slug,
        "message": problem.message,
        "hint": problem.hint,
    }


def cure_data(cure: CureResult) -> Data:
    """A cure at one setting: weights to 0.01 g or null, every figure that could be worked out, problems."""
    weigh = cure.weigh
    return {
        "method": cure.method,
        "cut": cure.cut,
        "curing_salt": cure.kind.key,
        "green_weight_g": number(cure.green_weight_g),
        "water_g": number(cure.water_g),
        "ice_unmeasured": cure.ice_unmeasured,
        "weigh": None
        if weigh is None
        else {
            "salt_g": number(weigh.salt_g),
            "sugar_g": number(weigh.sugar_g),
            "curing_salt_g": number(weigh.curing_salt_g),
        },
        "shown": {key: text or None for key, text in cure.shown.items()} or None,
        **_figures(cure),
        "problems": [problem_data(problem) for problem in cure.problems],
    }


def _figures(cure: CureResult) -> Data:
    found: Data = {}
    for told in (one for figure in FIGURES for one in figure.json):
        key, _, name = told.partition(" = ")
        outer, _, inner = key.rpartition(".")
        within = found.setdefault(outer, {}) if outer else found
        within[inner] = _plain(named(cure, name or key))
    if cure.limit is None:
        found["judged_ppm"] = None
    if cure.weigh is None and found["pump_brine"] is not None:
        found["pump_brine"] |= dict.fromkeys(("water_g", "salt_g", "sugar_g", "curing_salt_g"))
    return found


def _plain(value: Any) -> Any:
    """What a figure holds, as JSON has it; unknown is null."""
    for kind, plain in PLAIN.items():
        if isinstance(value, kind):
            return plain(value)
    return value


def _brine(brine: BrineFigures) -> Data:
    """The brine table's figures of salt and water, before the sugar; percent and degrees are of the whole brine."""
    return {
        "percent": number(brine.percent),
        "degrees_60F": number(brine.degrees_60f),
        "salt_and_water_percent": number(brine.plain_percent),
        "specific_gravity": number(brine.specific_gravity, THOUSANDTH),
        "lb_salt_per_us_gal_water": number(brine.lb_salt_per_us_gal_water, THOUSANDTH),
        "lb_salt_per_us_gal_brine": number(brine.lb_salt_per_us_gal_brine, THOUSANDTH),
        "g_salt_per_l_water": number(brine.g_salt_per_l_water),
        "g_salt_per_l_brine": number(brine.g_salt_per_l_brine),
        "salometer": None
        if brine.at_f is None
        else {"at_F": number(brine.at_f), "reads_degrees": number(brine.reading_at)},
    }


def _dose(dose: Dose) -> Data:
    blend = dose.pre_blend
    return {
        "per_0.1_g_ppm": number(dose.tenth_gram_ppm),
        "per_1_g_ppm": number(dose.gram_ppm),
        "use_finer_scale": dose.use_finer_scale,
        "pre_blend": None
        if blend is None
        else {
            "with": blend.carrier,
            "curing_salt_g": number(blend.curing_salt_g),
            "carrier_g": number(blend.carrier_g),
            "weigh_g": number(blend.weigh_g),
            "carrier_left_g": number(blend.carrier_left_g),
        },
    }


def _vessel(vessel: Vessel) -> Data:
    return {
        "pot_ml": number(vessel.pot_ml),
        "meat_ml": number(vessel.meat_ml),
        "brine_ml": number(vessel.brine_ml),
        "cover_g": number(vessel.cover_g),
        "left_for_pump_g": number(vessel.left_for_pump_g),
        "water_from_pot": vessel.water_from_pot,
    }


def _ice(ice: IceShare) -> Data:
    """`water_g` is all the water, the ice counted."""
    return {
        "ice_g": number(ice.ice_g),
        "hot_g": number(ice.hot_g),
        "cold_g": number(ice.cold_g),
        "water_g": number(ice.water_g),
        "target_F": number(ice.target_f),
    }


def correction_data(found: Correction | None, problems: tuple[Problem, ...]) -> Data:
    """What to add to a brine [g]; null where it is refused."""
    return {
        "brine_g": number(found.brine_g) if found else None,
        "is_percent": number(found.is_percent) if found else None,
        "want_percent": number(found.want_percent) if found else None,
        "is_degrees": number(found.is_degrees) if found else None,
        "want_degrees": number(found.want_degrees) if found else None,
        "add_salt_g": number(found.add_salt_g) if found else None,
        "add_water_g": number(found.add_water_g) if found else None,
        "problems": [problem_data(problem) for problem in problems],
    }


def reach_data(reach: ReachResult) -> Data:
    """How far salt has probably reached: shares of the even level to 0.01, null for what a cure has none of."""
    return {
        "days": exact(reach.day),
        "low": number(Fraction(reach.low)),
        "central": number(Fraction(reach.central)),
        "high": number(Fraction(reach.high)),
        "words": reach.words,
        "nitrite_words": reach.nitrite_words or None,
        "day_even_low": reach.day_even_low,
        "day_even_high": reach.day_even_high,
        "worked_out_for": reach.worked_out_for,
        "caveats": list(reach.caveats),
    }


def _pump_brine(brine: PumpBrineResult) -> Data:
    return {
        "water_g": number(brine.water_g),
        "salt_g": number(brine.salt_g),
        "sugar_g": number(brine.sugar_g),
        "curing_salt_g": number(brine.curing_salt_g),
        "strength_percent": number(brine.strength_percent),
        "ingoing_nitrite_ppm": number(brine.nitrite_ppm),
    }


PLAIN: dict[type, Callable[[Any], Any]] = {
    Fraction: number,
    Span: span,
    PumpBrineResult: _pump_brine,
    ReachResult: reach_data,
    BrineFigures: _brine,
    Dose: _dose,
    Vessel: _vessel,
    IceShare: _ice,
    SaltInPiece: lambda salt: _salt_carried(salt),
}


def sheet_data(computed: ComputedRecipe, units: str) -> Data:
    """One recipe at one scale."""
    return {
        "name": computed.recipe.name,
        "batches": exact(computed.scale.batches),
        "serves": exact(computed.serves),
        "makes": _makes(computed, units),
        "ingredients": [_line(line, units) for line in all_lines(computed)],
        "cure": cure_data(computed.cure) if computed.cure else None,
        "components": [_need(need) for need in computed.needs],
        "salt": _salt(computed.salt) if computed.salt else None,
        "cautions": [_caution(caution) for caution in computed.cautions],
        "problems": [problem_data(problem) for problem in computed.problems],
    }


def _salt_carried(salt: SaltInPiece) -> Data:
    """Salt in the finished pieces; per cent are of their lean."""
    return {
        "salt_g": _ends(salt.low_g, salt.high_g),
        "percent": _ends(salt.low_percent, salt.high_percent),
        "water_phase_percent": _ends(salt.water_phase_low_percent, salt.water_phase_high_percent),
        "lean_share": _ends(salt.lean_share_low, salt.lean_share_high),
        "assumption": salt.assumption,
    }


def _ends(low: Fraction | None, high: Fraction | None) -> list[float | int | None] | None:
    return None if low is None and high is None else [number(low), number(high)]


def _salt(salt: DishSalt) -> Data:
    """A serving, or the batch where the dish does not say how many it serves; salt as [low, high]."""

    def portion(grams: Span | None) -> list[float | int | None] | None:
        one = salt.portion(grams)
        return None if one is None else _ends(one.low, one.high)

    sodium = salt.sodium_mg(salt.portion(salt.total_g))
    return {
        "per": "batch" if salt.serves is None else "serving",
        "per_serving_g": None if salt.serves is None else portion(salt.total_g),
        "per_batch_g": None if salt.total_g is None else _ends(salt.total_g.low, salt.total_g.high),
        "sodium_mg": None if sodium is None else _ends(sodium.low, sodium.high),
        "from_components_g": portion(salt.carried_g),
        "own_g": portion(salt.own_g),
        "components": [{"recipe": one.recipe, "salt_g": portion(one.grams)} for one in salt.shares],
        "not_counted": list(salt.not_counted),
    }


def all_lines(computed: ComputedRecipe) -> tuple[ComputedLine, ...]:
    """The raw meat first, then the ingredient lines."""
    first = (computed.meat_line,) if computed.meat_line else ()
    return (*first, *computed.lines)


def _makes(computed: ComputedRecipe, units: str) -> str | None:
    return made_words(computed, units) or None


def made_words(computed: ComputedRecipe, units: str) -> str:
    """`4 shanks`; empty where the recipe does not say."""
    if computed.makes_shown is None or computed.makes is None or computed.recipe.makes is None:
        return ""
    noun = computed.recipe.makes.noun_for(computed.makes)
    return f"{computed.makes_shown.in_units(units)} {noun}".strip()


def _line(line: ComputedLine, units: str) -> Data:
    return {
        "id": line.ingredient.id,
        "name": line.ingredient.name,
        "shown": line.shown.in_units(units) if line.shown else None,
        "grams": span(line.grams),
        "millilitres": span(line.millilitres),
        "check": line.check or None,
    }


def _need(need: ComponentNeed) -> Data:
    return {
        "recipe": need.recipe,
        "path": list(need.path),
        "amount_g": number(need.amount_g),
        "batches": exact(need.batches),
        "green_weight_g": number(need.green_weight_g),
    }


def _caution(caution: Caution) -> Data:
    return {
        "signal": caution.signal,
        "slug": caution.slug,
        "title": caution.title,
        "text": caution.text,
        "because": caution.because,
        "sources": list(caution.sources),
        "missing": list(caution.missing),
        "accepted": caution.accepted or None,
    }


def cautions_data(recipes: Iterable[ComputedRecipe]) -> list[Data]:
    """The boxes of each recipe of a book as they stand on its page; `stage` counts from 0, null is before the method."""
    return [
        {
            "file": computed.recipe.file,
            "recipe": computed.recipe.slug,
            **_caution(caution),
            "stage": caution.stage,
        }
        for computed in recipes
        for caution in computed.cautions
    ]
