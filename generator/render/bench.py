"""A recipe as written in, what its page weighs it again with out: controls, shown by script, and plain data for them.

`amounts` holds, by key, the strings of the recipe as written (`one`, for us, metric and imperial) and what they are
worked out from at any other scale; `cure` is the contract. The script rounds and words; it decides nothing.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from markupsafe import Markup

from generator.model.contract import CureContract, Guard, Weight, constant
from generator.model.form import MEAT, WATER
from generator.model.quantity import (
    TO_MAKE,
    Dimension,
    Measure,
    Quantity,
    Span,
    Temperature,
    TemperatureRange,
)
from generator.model.recipe import Ingredient, Makes, Meat
from generator.model.results import (
    CHECK_BEYOND,
    ComponentNeed,
    ComputedLine,
    ComputedRecipe,
    CureResult,
    Shown,
)
from generator.model.shown import SYSTEMS, USES, WEIGHED_OUT, is_dry, says_in_all, shows_behind
from generator.problems import Position
from generator.render.amounts import MINIMUM, PLAIN, Amounts, AmountView, second_key
from generator.render.context import Context
from generator.render.encode import Encoder, script_text
from generator.render.figures import METHOD, NITRITE, SCALE, SHARES, figures_of, meat_weights, rubbed_on
from generator.render.wholes import wholes_of

Data = dict[str, Any]
TOTAL = "total"
"Name of a whole whose title has no other words."
ASKED = "*"
"Stands for the system of units that the reader has chosen."
ROWS = {"green_weight": "i-meat"} | {
    key: f"i-{key.replace('_', '-')}"
    for key in ("water", "salt", "sugar", "curing_salt", "nitrate", "accelerator")
}
"The row of a page for each string of a cure."
SHARED = (("salt", "cure weight"), ("sugar", "cure weight"), ("curing-salt", "curing salt"))
"Lines of a cure that a body may take a share of, with the use by which that is rounded."


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchView:
    """The controls, and the data that they work with."""

    by: dict[str, str]
    "What one may scale by, in words."
    units: dict[str, str]
    takes_water: bool
    "A brine whose water may be another than written."
    is_short: bool
    "A short cure: its water may not be changed on a page."
    measures: str
    "Whose quarts and gallons the book means."
    data: Markup


UNITS = {"us": "US", "metric": "Metric", "imperial": "Imperial"}


def bench_view(context: Context, recipe: ComputedRecipe) -> BenchView | None:
    """None where a page cannot weigh again."""
    data = bench_data(context, recipe)
    if data is None:
        return None
    written, cure = recipe.recipe.cure, recipe.cure
    is_brine = cure is not None and cure.method == "brine" and cure.water_g is not None
    is_short = written is not None and written.pick_up_percent is not None
    return BenchView(
        by=_by(recipe),
        units=UNITS,
        takes_water=is_brine and not is_short,
        is_short=is_brine and is_short,
        measures="imperial" if context.config.units == "imperial" else "US",
        data=script_text(data, separators=(",", ":"), sort_keys=True),
    )


def _by(recipe: ComputedRecipe) -> dict[str, str]:
    """What the recipe says enough of: the meat first where there is a cure, as it lies on the scale."""
    meat = {"meat": "the meat on my scale"} if recipe.green_weight_g else {}
    choices = {"serves": "servings"} if recipe.serves is not None else {}
    if recipe.recipe.makes is not None:
        choices["makes"] = f"{recipe.recipe.makes.noun or 'amount'} made"
    choices = meat | choices if recipe.cure is not None else choices | meat
    return choices | {"batches": "batches"} | _by_line(recipe)


def _by_line(recipe: ComputedRecipe) -> dict[str, str]:
    """Beside shares and several meats, whatever has an amount: the whole on hand, or what there is least of."""
    wholes = {
        one.key: "the total" if one.name == TOTAL else f"{one.name} in all"
        for one in wholes_of(recipe).values()
    }
    meats = {f"i-{meat.id}": f"the {meat.name}" for meat in _meats_by(recipe)}
    return wholes | meats | {f"i-{id}": f"the {line.name}" for id, line in _lines_by(recipe).items()}


def _meats_by(recipe: ComputedRecipe) -> tuple[Meat, ...]:
    """Of several meats each by itself; all of them are another choice."""
    return recipe.recipe.several_meats if recipe.green_weight_g is not None else ()


def _lines_by(recipe: ComputedRecipe) -> dict[str, Ingredient]:
    has_shares = any(line.share is not None for line in recipe.recipe.ingredients)
    return recipe.recipe.scalable_lines if has_shares else {}


def bench_data(context: Context, recipe: ComputedRecipe) -> Data | None:
    """None for a sheet by itself, and for a cure that was not worked out."""
    cure = recipe.cure
    if context.is_sheet or (cure is not None and (cure.weigh is None or cure.contract is None)):
        return None
    encoder = Encoder()
    data = {
        "slug": recipe.recipe.slug,
        "units": context.amounts.system,
        "pointed": context.config.language.partition("-")[0] == "en",
        "beyond": str(CHECK_BEYOND),
        "serves": _text(recipe.serves),
        "makes": _makes_by(recipe.recipe.makes),
        "meat": _text(recipe.green_weight_g),
        "water": _water(recipe),
        "amounts": _amounts(context, recipe, encoder),
        "needs": [{"batches": str(need.batches), "fixed": need.fixed} for need in recipe.needs],
        "cure": None if cure is None else _cure(context, recipe, cure, encoder),
    }
    lines = _lines_asked(recipe)
    return data | {"values": encoder.values} | ({"lines": lines} if lines else {})


def _text(value: Fraction | None) -> str | None:
    return None if value is None else str(value)


def _water(recipe: ComputedRecipe) -> Data | None:
    """Water of one batch; `fixed` where what may enter by a last day depends on it, which a page cannot work out."""
    cure, written = recipe.cure, recipe.recipe.cure
    if cure is None or written is None or cure.water_g is None:
        return None
    return {"grams": str(cure.water_g), "fixed": written.pick_up_percent is not None}


def _makes_by(makes: Makes | None) -> Data | None:
    """The measures by which one may ask for so much of it."""
    if makes is None:
        return None
    return {"noun": makes.noun, **_asked_in(makes.quantity)}


def _asked_in(quantity: Quantity) -> dict[str, str]:
    """An amount in each dimension in which one may ask for so much of it."""
    found = {
        kind.value: quantity.total(kind) for kind in (Dimension.COUNT, Dimension.WEIGHT, Dimension.VOLUME)
    }
    return {kind: str(span.high) for kind, span in found.items() if span is not None}


def _lines_asked(recipe: ComputedRecipe) -> Data:
    """The lines and wholes by which one may scale; a line also by the weight that is known of it."""
    found: Data = {one.key: _asked_in(one.written) for one in wholes_of(recipe).values()}
    found |= {f"i-{meat.id}": {"weight": str(meat.green_g)} for meat in _meats_by(recipe)}
    weights = {line.ingredient.id: line.grams for line in recipe.lines}
    for id, line in _lines_by(recipe).items():
        assert line.quantity is not None
        grams = weights[id]
        known = {} if grams is None else {"weight": str(grams.high / recipe.scale.batches)}
        found[f"i-{id}"] = known | _asked_in(line.quantity)
    return found


def _amounts(context: Context, recipe: ComputedRecipe, encoder: Encoder) -> Data:
    found: Data = {}
    for line in recipe.lines:
        if line.scaled is not None and not line.scaled.is_vague:
            found[f"i-{line.ingredient.id}"] = _line(context, line)
        for number, (quantity, shown) in enumerate(line.second):
            found[second_key(line.ingredient.id, number)] = _second(context, line, quantity, shown)
    for whole in wholes_of(recipe).values():
        shown = context.amounts.shower.everywhere(whole.scaled)
        found[whole.key] = {"one": _shown(context, shown), **_measured(whole.written)}
    for line in (*((recipe.meat_line,) if recipe.meat_line is not None else ()), *recipe.meat_lines):
        if line.scaled is not None:
            found[f"i-{line.ingredient.id}"] = _line(context, line)
    if recipe.makes is not None and recipe.recipe.makes is not None:
        found["makes"] = _made(context, recipe.recipe.makes)
    for number, need in enumerate(recipe.needs):
        found |= _need(context, number, need, context.computed.book.recipes[need.recipe].makes)
    for number, stage in enumerate(recipe.recipe.stages):
        for name, at, use in (("at", stage.at, PLAIN), ("inside", stage.inside, MINIMUM)):
            if at is not None:
                found[f"s-{number}-{name}"] = {"one": _temperature(context, at, use)}
    if recipe.cure is not None and recipe.cure.contract is not None:
        found |= _cure_amounts(context, recipe, recipe.cure.contract, encoder)
    return found


def _in_each(context: Context, show: Callable[[Amounts], AmountView | None]) -> list[list[str]]:
    """Both strings of an amount, in each system first."""
    shower = context.amounts.shower
    views = (show(Amounts(shower, system)) for system in SYSTEMS)
    return [[view.first, view.other] if view is not None else ["", ""] for view in views]


def _shown(context: Context, shown: Shown | None) -> list[list[str]]:
    return _in_each(context, lambda amounts: amounts.shown(shown))


def _temperature(context: Context, at: Temperature | TemperatureRange, use: str) -> list[list[str]]:
    return _in_each(context, lambda amounts: amounts.temperature(at, use=use))


def _line(context: Context, line: ComputedLine) -> Data:
    assert line.scaled is not None
    data: Data = {"one": _shown(context, line.shown)}
    if line.ingredient.fixed:
        return data | {"fixed": True, **_measured(line.scaled), **_inside(context, line.scaled)}
    data |= _measured(line.scaled) | _inside(context, line.scaled)
    if line.ingredient.is_weighed_out:
        data["of"] = [[*one[:-1], WEIGHED_OUT] for one in data["of"]]
    if line.weighed_in_metric and line.grams is not None:
        data["grams"] = _span(line.grams)
    return data


def _second(context: Context, line: ComputedLine, quantity: Quantity, shown: Shown) -> Data:
    fixed = {"fixed": True} if line.ingredient.fixed else {}
    return {"one": _shown(context, shown), **fixed, **_measured(quantity), **_inside(context, quantity)}


def _inside(context: Context, quantity: Quantity) -> Data:
    """What stands in the brackets of a count: the size of one, as it is shown, and what all of them come to."""
    found: Data = {}
    if quantity.each:
        found["each"] = [context.amounts.shower.size_of_one(quantity, system) for system in SYSTEMS]
    if shows_behind(quantity):
        found["of"] = _items(Quantity(measures=quantity.alternative))
        found["all"] = says_in_all(quantity)
    return {"inside": found} if found else {}


def _measured(quantity: Quantity) -> Data:
    """What is added up: counts where either writing is one, else one weight, volume or length, else each by itself."""
    found: Data = {"of": _items(quantity)}
    if quantity.about:
        found["about"] = True
    return found


def _items(quantity: Quantity) -> list[list[Any]]:
    if quantity.in_jars:
        return [_said(measure) for measure in quantity.measures]
    for measures in (quantity.measures, quantity.alternative):
        if measures and all(measure.unit.dimension is Dimension.COUNT for measure in measures):
            return [_said(measure) for measure in measures]
    kinds = {measure.unit.dimension for measure in quantity.measures}
    kind = kinds.pop() if len(kinds) == 1 else None
    total = quantity.total(kind) if kind in USES and kind is not None else None
    if kind is not None and total is not None:
        return [["base", *_span(total), USES[kind], *_kept(quantity.measures)]]
    return [
        ["base", *_span(one.base), USES[one.unit.dimension]] if one.unit.dimension in USES else _said(one)
        for one in quantity.measures
    ]


def _kept(measures: tuple[Measure, ...]) -> list[str]:
    """Pecks and bushels: the system of units in which they stay what they are, and how many."""
    if not is_dry(measures):
        return []
    (measure,) = measures
    return [measure.unit.system, *_span(measure.span), measure.unit.singular, measure.unit.plural]


def _said(measure: Measure) -> list[Any]:
    """A count, or another measure that is not converted."""
    kind = "count" if measure.unit.dimension is Dimension.COUNT else "said"
    return [
        kind,
        *_span(measure.span),
        measure.unit.singular,
        measure.unit.plural,
        "" if measure.state == TO_MAKE else measure.state,
    ]


def _span(span: Span) -> list[str]:
    return [str(span.low), str(span.high)]


def _made(context: Context, makes: Makes) -> Data:
    """What the recipe makes, with what stands in its brackets behind it."""
    behind = Quantity(measures=makes.quantity.alternative)

    def show(amounts: Amounts) -> AmountView | None:
        return amounts.made(makes.quantity, makes.noun_for(makes.quantity))

    data: Data = {"one": _in_each(context, show), **_measured(replace(makes.quantity, alternative=()))}
    data["noun"] = _noun(makes, makes.quantity)
    if behind.measures:
        data["behind"] = _items(behind)
    return data


def _noun(makes: Makes, quantity: Quantity) -> list[str | None]:
    """The word for one, for more, and the count that decides."""
    count = quantity.total(Dimension.COUNT)
    one = Quantity(measures=tuple(m.times(1 / count.high) for m in quantity.measures)) if count else quantity
    return [makes.noun_for(one), makes.noun, _text(count.high if count else None)]


def _need(context: Context, number: int, need: ComponentNeed, makes: Makes | None) -> Data:
    found: Data = {}
    fixed: Data = {"fixed": True} if need.fixed else {}
    if need.amount_shown is not None and makes is not None:
        taken = makes.quantity.times(need.batches)
        found[f"n-{number}"] = {
            "one": _shown(context, need.amount_shown),
            **_measured(taken),
            "noun": _noun(makes, taken),
            **fixed,
        }
    if need.green_weight_shown is not None and need.green_weight_g is not None:
        weight = str(need.green_weight_g)
        found[f"n-{number}-green"] = {
            "one": _shown(context, need.green_weight_shown),
            "of": [["base", weight, weight, "ingredient weight"]],
            **fixed,
        }
    return found


def _cure_amounts(context: Context, recipe: ComputedRecipe, contract: CureContract, encoder: Encoder) -> Data:
    """Water, salt, sugar, curing salt and the meat, as the body and the ingredients name them."""
    found: Data = {}
    if recipe.meat_line is not None and recipe.meat_line.scaled is not None:
        line = _line(context, recipe.meat_line)
        found["i-meat"] = line | {"text": encoder.text((Weight(value=MEAT, use="cure base", system=ASKED),))}
    weights = meat_weights(recipe, system=ASKED)
    for one in recipe.meat_lines if weights else ():
        id = one.ingredient.id
        found[f"i-{id}"] = _line(context, one) | {"text": encoder.text(weights[id])}
    for id, use in SHARED:
        key = id.replace("-", "_")
        if id in recipe.cure_lines:
            high = [encoder.value(contract.heaviest[key])] if key in contract.heaviest else []
            found[f"i-{id}"] = {
                "text": encoder.text(contract.shown[key]),
                "share": [encoder.value(contract.weigh[key]), use, "metric", *high],
            }
    if "water" in recipe.cure_lines:
        found["i-water"] = {
            "one": _shown(context, recipe.cure_lines["water"]),
            "text": encoder.text((Weight(value=WATER, use="cure base", system=ASKED),)),
            "share": [encoder.value(WATER), "cure base", ASKED],
        }
    return found


def _cure(context: Context, recipe: ComputedRecipe, cure: CureResult, encoder: Encoder) -> Data:
    contract, written = cure.contract, recipe.recipe.cure
    assert contract is not None
    assert written is not None
    figures = (*figures_of(SHARES, NITRITE, METHOD), rubbed_on(written, cure), *figures_of(SCALE))
    told = ((figure, figure.following(cure)) for figure in figures)
    return {
        "shown": {ROWS[key]: encoder.text(text) for key, text in contract.shown.items()}
        | {f"i-{id}": encoder.text(text) for id, text in meat_weights(recipe).items()},
        "ounces": _ounces(recipe, contract, encoder),
        "figures": {
            figure.key or figure.label: [encoder.text(value), encoder.text(figure.note_follows(cure))]
            for figure, value in told
            if value
        },
        "guards": _guards(contract.guards, encoder),
        "watch": [encoder.guard(guard) for guard in _watch(context, cure, contract)],
    }


def _guards(guards: tuple[Guard, ...], encoder: Encoder) -> list[Data]:
    """In the order in which they are looked at; `rank` is the order in which those that speak are listed."""
    listed = sorted(guards, key=lambda guard: (guard.position or Position("", 0, 0), guard.slug))
    ranks = {id(guard): rank for rank, guard in enumerate(listed)}
    return [encoder.guard(guard) | {"rank": ranks[id(guard)]} for guard in guards]


def _watch(context: Context, cure: CureResult, contract: CureContract) -> tuple[Guard, ...]:
    """What another amount of water may bring about that the boxes of the page do not say yet: too little nitrite.

    A belly in a brine may not have more than the policy's minimum, so there only the preservative level counts.
    """
    if cure.limit is None or cure.forms is None:
        return ()
    tables, figure = context.tables, contract.lightest or cure.forms.pick_up_ppm or cure.forms.nitrite_ppm
    policy = tables.constant("policy_minimum_ppm")
    levels = [("below-40", tables.constant("preservative_minimum_ppm"))]
    if policy < cure.limit.limit_ppm:
        levels.append(("below-120", policy))
    return tuple(
        Guard(
            slug=slug,
            group="too little",
            value=constant(level),
            limit=figure,
            message=(
                f"{tables.cautions[slug].signal}: {tables.cautions[slug].title}. {tables.cautions[slug].text}",
            ),
            hint=(),
        )
        for slug, level in levels
    )


def _ounces(recipe: ComputedRecipe, contract: CureContract, encoder: Encoder) -> Data:
    """The column of other units: as written at one batch for meat and water, else by weight."""

    def weight(value: Any, use: str, high: Any = None) -> list[Any]:
        return encoder.text((Weight(value=value, use=use, system=ASKED, high=high),))

    def salted(key: str) -> list[Any]:
        return weight(contract.weigh[key], "cure weight", contract.heaviest.get(key))

    meat = recipe.meat_line.shown if recipe.meat_line is not None else None
    water = recipe.cure_lines.get("water")
    weights = meat_weights(recipe, system=ASKED)
    each = {
        f"i-{line.ingredient.id}": {
            "one": _pair(line.shown),
            "text": encoder.text(weights[line.ingredient.id]),
        }
        for line in recipe.meat_lines
        if weights
    }
    return each | {
        "i-meat": {"one": _pair(meat), "text": weight(MEAT, "cure base")},
        "i-water": {"one": _pair(water), "text": weight(WATER, "cure base")},
        "i-salt": {"text": salted("salt")},
        "i-sugar": {"text": salted("sugar")},
    }


def _pair(shown: Shown | None) -> list[str] | None:
    return None if shown is None else [shown.us, shown.imperial]
