"""Computed records in, plain data for `--json` out: unknown is null, a range is [low, high], numbers are numbers."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from fractions import Fraction
from typing import Any

from generator.model import results
from generator.model.quantity import Span
from generator.model.recipe import Share
from generator.model.rounding import round_nearest
from generator.problems import Problem
from generator.render.figures import FIGURES, named, range_of
from generator.render.yields import made_words

HUNDREDTH = Fraction(1, 100)
"Source: house choice, the step of every weight and concentration in JSON."

PERCENT = Fraction(100)
"Source: a definition."

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


def fields(record: Any, *keys: str) -> Data:
    """Some fields of a record: `key`, or `key = name` where the record has another name; a dot goes down a step."""
    found: Data = {}
    for told in keys:
        key, _, name = told.partition(" = ")
        outer, _, inner = key.rpartition(".")
        within = found.setdefault(outer, {}) if outer else found
        within[inner] = _plain(named(record, name or key))
    return found


def _plain(value: Any) -> Any:
    """What a field holds, as JSON has it; unknown is null."""
    return next((plain(value) for kind, plain in PLAIN.items() if isinstance(value, kind)), value)


PLACE = ("file = position.file", "line = position.line", "column = position.column")
"Of a record with a position; null where it has none."


def problem_data(problem: Problem) -> Data:
    """One problem with its place; a problem of the command line has none."""
    return fields(problem, *PLACE, "severity = severity.value", "slug", "message", "hint")


def caution_data(caution: results.Caution) -> Data:
    """One box for `--json`."""
    return {
        **fields(caution, "signal", "slug", "title", "text", "because", "sources", "missing"),
        "accepted": caution.accepted or None,
        "causes": [fields(cause, "kind", "words", *PLACE) for cause in caution.causes],
    }


def cautions_data(judged: Iterable[results.ComputedRecipe | results.JudgedText]) -> list[Data]:
    """The boxes of each recipe and gathering of a book; `stage` counts from 0, null is before the method."""
    return [
        {**_page_data(page), **caution_data(caution), "stage": caution.stage}
        for page in judged
        for caution in page.cautions
    ]


def _page_data(page: results.ComputedRecipe | results.JudgedText) -> Data:
    """Whose boxes they are: `recipe` or `gathering`."""
    if isinstance(page, results.JudgedText):
        return {"file": page.gathering.file, "gathering": page.gathering.slug}
    return {"file": page.recipe.file, "recipe": page.recipe.slug}


def cure_data(cure: results.CureResult) -> Data:
    """A cure at one setting: weights to 0.01 g or null, every figure that could be worked out, problems."""
    figures = fields(cure, *(one for figure in FIGURES for one in figure.json))
    if cure.limit is None:
        figures["judged_ppm"] = None
    figures |= {key: span(found) for key, name in RANGES if (found := range_of(cure, name))}
    if cure.weigh is None and figures["pump_brine"] is not None:
        figures["pump_brine"] |= dict.fromkeys(("water_g", "salt_g", "sugar_g", "curing_salt_g"))
    return {
        **fields(cure, "method", "cut", "curing_salt = kind.key", "green_weight_g", "water_g"),
        "ice_unmeasured": cure.ice_unmeasured,
        "weigh": _weigh(cure),
        "shown": {key: text or None for key, text in cure.shown.items()} or None,
        **figures,
        "problems": [problem_data(problem) for problem in cure.problems],
    }


RANGES = (
    ("salt_percent", "salt_percent"),
    ("sugar_percent", "sugar_percent"),
    ("brine_strength_percent", "strength_percent"),
    ("salometer_degrees", "salometer_degrees"),
    ("ingoing_nitrate_ppm", "nitrate_ppm"),
)
"Figures that are [low, high] where cups or spoons leave them open: the key, and the name of the range."


def _weigh(cure: results.CureResult) -> Data | None:
    """What goes on the scale [g]; salt and sugar by the cup as [low, high]."""
    if cure.weigh is None:
        return None
    weighed: Data = _plain(cure.weigh)
    return weighed | {key: span(found) for key in ("salt_g", "sugar_g") if (found := range_of(cure, key))}


def _brine(brine: results.BrineFigures) -> Data:
    """The brine table's figures of salt and water, before the sugar; percent and degrees are of the whole brine."""
    finer = ("specific_gravity", "lb_salt_per_us_gal_water", "lb_salt_per_us_gal_brine")
    asked = fields(brine, "at_F = at_f", "reads_degrees = reading_at")
    return {
        **fields(brine, "percent", "degrees_60F = degrees_60f", "salt_and_water_percent = plain_percent"),
        **{key: number(getattr(brine, key), THOUSANDTH) for key in finer},
        **fields(brine, "g_salt_per_l_water", "g_salt_per_l_brine"),
        "salometer": None if brine.at_f is None else asked,
    }


def _dose(dose: results.Dose) -> Data:
    return {
        "per_0.1_g_ppm": number(dose.tenth_gram_ppm),
        **fields(dose, "per_1_g_ppm = gram_ppm", "use_finer_scale", "pre_blend"),
    }


def correction_data(found: results.Correction | None, problems: tuple[Problem, ...]) -> Data:
    """What to add to a brine [g]; null where it is refused."""
    keys = (
        "brine_g",
        "is_percent",
        "want_percent",
        "is_degrees",
        "want_degrees",
        "add_salt_g",
        "add_water_g",
    )
    return {**fields(found, *keys), "problems": [problem_data(problem) for problem in problems]}


def _reach(reach: results.ReachResult) -> Data:
    """How far salt has probably reached: shares of the even level to 0.01, null for what a cure has none of."""
    return {
        "days": exact(reach.day),
        **fields(reach, "low", "central", "high", "words"),
        "nitrite_words": reach.nitrite_words or None,
        **fields(reach, "day_even_low", "day_even_high", "worked_out_for", "caveats"),
    }


def _salt_carried(salt: results.SaltInPiece) -> Data:
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


def _fields_of(*keys: str) -> Callable[[Any], Data]:
    return lambda record: fields(record, *keys)


PLAIN: dict[type, Callable[[Any], Any]] = {
    Fraction: number,
    float: lambda value: number(Fraction(value)),
    Span: span,
    tuple: list,
    results.CureWeights: _fields_of("salt_g", "sugar_g", "curing_salt_g"),
    results.PumpBrineResult: _fields_of(
        *("water_g", "salt_g", "sugar_g", "curing_salt_g", "strength_percent"),
        "ingoing_nitrite_ppm = nitrite_ppm",
    ),
    results.ReachResult: _reach,
    results.BrineFigures: _brine,
    results.Dose: _dose,
    results.PreBlend: _fields_of("with = carrier", "curing_salt_g", "carrier_g", "weigh_g", "carrier_left_g"),
    results.Vessel: _fields_of(
        "pot_ml", "meat_ml", "brine_ml", "cover_g", "left_for_pump_g", "water_from_pot"
    ),
    results.IceShare: _fields_of("ice_g", "hot_g", "cold_g", "water_g", "target_F = target_f"),
    results.SaltInPiece: _salt_carried,
}
"How JSON has what a field may hold; all else as it is."


def sheet_data(computed: results.ComputedRecipe, units: str) -> Data:
    """One recipe at one scale."""
    return {
        "name": computed.recipe.name,
        "season": list(computed.recipe.season),
        "from": computed.recipe.origin or None,
        "questions": [fields(question, "words", *PLACE) for question in computed.recipe.questions],
        "holes": [fields(hole, "key", "words", "message", "hint", *PLACE) for hole in computed.recipe.holes],
        "batches": exact(computed.scale.batches),
        "serves": exact(computed.serves),
        "makes": made_words(computed, units) or None,
        "ingredients": [_line(line, units) for line in computed.all_lines],
        "cure": cure_data(computed.cure) if computed.cure else None,
        "components": [_need(need) for need in computed.needs],
        "salt": _salt(computed.salt) if computed.salt else None,
        "cautions": [caution_data(caution) for caution in computed.cautions],
        "problems": [problem_data(problem) for problem in computed.problems],
    }


def _salt(salt: results.DishSalt) -> Data:
    """A serving, or the batch where the dish does not say how many it serves; salt as [low, high]."""

    def both(one: Span | None) -> list[float | int | None] | None:
        return None if one is None else _ends(one.low, one.high)

    by_serving = both(salt.portion(salt.total_g))
    return {
        "per": "batch" if salt.serves is None else "serving",
        "per_serving_g": None if salt.serves is None else by_serving,
        "per_batch_g": both(salt.total_g),
        "sodium_mg": both(salt.sodium_mg(salt.portion(salt.total_g))),
        "from_components_g": both(salt.portion(salt.carried_g)),
        "own_g": both(salt.portion(salt.own_g)),
        "components": [
            {"recipe": one.recipe, "salt_g": both(salt.portion(one.grams))} for one in salt.shares
        ],
        "not_counted": list(salt.not_counted),
    }


def _line(line: results.ComputedLine, units: str) -> Data:
    return {
        **fields(line, "id = ingredient.id", "name = ingredient.name"),
        "shown": line.shown.in_units(units) if line.shown else None,
        **fields(line, "grams", "millilitres"),
        **_share(line.ingredient.share),
        "check": line.check or None,
    }


def _share(share: Share | None) -> Data:
    """Of a line that was written as one, in per cent of its base."""
    if share is None:
        return {}
    return {"share": {**fields(share, "written", "of"), "percent": span(share.part.times(PERCENT))}}


def _need(need: results.ComponentNeed) -> Data:
    return {
        **fields(need, "recipe", "path", "amount_g"),
        "batches": exact(need.batches),
        "green_weight_g": number(need.green_weight_g),
    }
