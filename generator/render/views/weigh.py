"""A cure in, the table to weigh by and its figures out; or, where the cure is refused, only the reasons."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from generator.model.quantity import Span
from generator.model.recipe import Meat
from generator.model.results import ComputedRecipe, CureResult, SaltInPiece
from generator.model.shown import grams_shown, percent_shown, show_decimal
from generator.problems import Problem
from generator.render.brines import brine_words
from generator.render.context import Context, LinkView
from generator.render.figures import (
    BLEND,
    METHOD,
    NITRITE,
    SCALE,
    SHARES,
    CureFigure,
    Words,
    cure_reader,
    figures_of,
    meat_weights,
    range_of,
    rubbed_on,
)

OF_IT = "of it "
"Before one of several meats, under the weight of all of them."


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighRow:
    """One thing for the scale."""

    id: str
    what: str
    grams: str
    other: str
    "In another kitchen's units; empty for curing salt, which is weighed in grams only."


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureView:
    """One figure of a cure."""

    label: str
    value: str
    note: str = ""
    source: LinkView | None = None
    key: str = ""
    "By which a page's script finds what it follows; its label unless told otherwise."
    stays: bool = False
    "Does not follow the scale on a page."


@dataclass(frozen=True, slots=True, kw_only=True)
class WeighView:
    """A cure on its page."""

    method: str
    count: str
    "How many pieces, at this scale; empty where that is no whole number or not told."
    pieces: str
    "What else the weights were worked out for."
    rows: tuple[WeighRow, ...]
    "Empty where the cure is refused."
    only_for: str
    "The curing salt that the grams are for."
    figures: tuple[FigureView, ...]
    more: tuple[FigureView, ...]
    "What a reader looks up rather than needs at the scale; stands behind the method."
    refusals: tuple[Problem, ...]
    "Why nothing is weighed out."


def weigh_view(context: Context, recipe: ComputedRecipe) -> WeighView | None:
    """None for a recipe without a cure."""
    cure = recipe.cure
    if cure is None:
        return None
    refused = cure.weigh is None
    written = recipe.recipe.cure
    has_nitrite = written is not None and written.curing_salt is not None
    pumped = cure.pump_brine is not None and cure.pump_brine.curing_salt_g > 0
    return WeighView(
        method=cure.method,
        count=_count(recipe),
        pieces=_pieces_words(context, recipe.recipe.meats),
        rows=() if refused else _rows(context, recipe, cure),
        only_for=cure.kind.title if has_nitrite and not refused else "",
        figures=() if refused else tuple(_figures(context, recipe, cure, has_nitrite or pumped)),
        more=() if refused else tuple(_more(cure, stays=_follows(context, cure))),
        refusals=tuple(one for one in cure.problems if one.is_error) if refused else (),
    )


def _follows(context: Context, cure: CureResult) -> bool:
    """True on a page whose script weighs again."""
    return not context.is_sheet and cure.contract is not None


def _count(recipe: ComputedRecipe) -> str:
    told = [meat.pieces for meat in recipe.recipe.meats if meat.pieces is not None]
    pieces = sum(told) * recipe.scale.batches
    is_told = bool(told) and len(told) == len(recipe.recipe.meats)
    return _pieces(int(pieces)) if is_told and pieces.denominator == 1 else ""


def _pieces(count: int) -> str:
    return "1 piece" if count == 1 else f"{count} pieces"


def _pieces_words(context: Context, meats: tuple[Meat, ...]) -> str:
    """Without the count; of several meats each by its name."""
    words = [(meat, meat_words(context, meat, with_count=False)) for meat in meats]
    return "; ".join(f"{meat.name} {said}" if len(meats) > 1 else said for meat, said in words if said)


def meat_words(context: Context, meat: Meat, *, with_count: bool = True) -> str:
    """`4 pieces, 3 in (76 mm) at the thickest, bone in, silverskin on`; of a line what stands behind its name."""
    words = [meat.preparation] if meat.preparation else []
    if with_count and meat.pieces is not None:
        words.append(_pieces(meat.pieces))
    if meat.thickness is not None:
        words.append(f"{context.amounts.quantity(meat.thickness).plain} at the thickest")
    # What a line says itself is said in its words.
    by_key = (("bone", meat.bone), ("skin", meat.skin)) if not meat.called else ()
    for part, state in (*by_key, ("silverskin", meat.silverskin)):
        if state is not None:
            words.append(f"{part} {state}")
    return ", ".join(words)


def _rows(context: Context, recipe: ComputedRecipe, cure: CureResult) -> tuple[WeighRow, ...]:
    written, weigh = recipe.recipe.cure, cure.weigh
    assert written is not None
    assert weigh is not None
    system = "imperial" if context.amounts.system == "imperial" else "us"
    meat_other = recipe.meat_line.shown if recipe.meat_line else None
    water_other = recipe.cure_lines.get("water")

    def ounces(grams: Fraction, name: str) -> str:
        span = range_of(cure, name) or Span.of(grams)
        return context.amounts.shower.base(span, use="cure weight", system=system)

    sugar = (written.sugar.name if written.sugar else "") or "sugar"
    rows = (
        ("meat", _meat_named(recipe), "green_weight",
         meat_other.in_units(system) if meat_other else ""),
        ("water", "water", "water", water_other.in_units(system) if water_other else ""),
        ("salt", "salt", "salt", ounces(weigh.salt_g, "salt_g")),
        ("sugar", sugar, "sugar", ounces(weigh.sugar_g, "sugar_g")),
        ("curing-salt", cure.kind.title, "curing_salt", ""),
        ("nitrate", written.nitrate_kind or "nitrate", "nitrate", ""),
        ("accelerator", written.accelerator.name if written.accelerator else "", "accelerator", ""),
    )  # fmt: skip
    found = [
        WeighRow(
            id=f"i-{id}", what=what, grams=cure.shown[key], other="" if other == cure.shown[key] else other
        )
        for id, what, key, other in rows
        if cure.shown.get(key)
    ]
    return (*found[:1], *_each_meat(context, recipe, cure, system), *found[1:])


def _meat_named(recipe: ComputedRecipe) -> str:
    name = "all the meat" if recipe.recipe.several_meats else recipe.recipe.meat_name or "meat"
    return f"{name}, green weight"


def _each_meat(context: Context, recipe: ComputedRecipe, cure: CureResult, system: str) -> Iterator[WeighRow]:
    """Under the sum of several meats, each by the same expression as on the page's script."""
    reader, shown = cure_reader(cure, context.amounts.shower), meat_weights(recipe)
    for line in recipe.meat_lines if shown else ():
        id, grams = line.ingredient.id, reader.text(shown[line.ingredient.id])
        other = line.shown.in_units(system) if line.shown is not None else ""
        name = f"{OF_IT}{line.ingredient.name}"
        yield WeighRow(id=f"i-{id}", what=name, grams=grams, other="" if other == grams else other)


def _figures(
    context: Context, recipe: ComputedRecipe, cure: CureResult, has_nitrite: bool
) -> Iterator[FigureView]:
    """The shares, the nitrite with its limit and what brings it, what the method adds, the scale, how it is rubbed on."""
    yield from _figure_views(context, cure, figures_of(SHARES))
    if has_nitrite:
        yield from _figure_views(context, cure, figures_of(NITRITE))
        yield from _limit_and_salt(context, cure)
    yield from _figure_views(context, cure, figures_of(METHOD))
    if cure.dose is not None:
        yield from _figure_views(context, cure, figures_of(SCALE))
    if recipe.recipe.cure is not None:
        yield from _figure_views(context, cure, [rubbed_on(recipe.recipe.cure, cure)])


def _figure_views(context: Context, cure: CureResult, figures: Iterable[CureFigure]) -> Iterator[FigureView]:
    """What is known; the blend also where it is not, for a script that may need it at another scale."""
    reader = cure_reader(cure, context.amounts.shower)
    for figure in figures:
        value = reader.text(figure.told(cure))
        if value or (figure.label == BLEND and _follows(context, cure)):
            key = figure.key or figure.label
            yield FigureView(label=figure.label, value=value, note=figure.note(cure), key=key)


def _more(cure: CureResult, *, stays: bool) -> Iterator[FigureView]:
    """The salt that goes on, specific gravity, salt to water."""
    words = [*(_salt_carried(cure.salt_carried) if cure.salt_carried else ())]
    words += brine_words(cure.brine) if cure.brine else []
    for label, value, note in words:
        yield FigureView(label=label, value=value, note=note, stays=stays)


def _salt_carried(salt: SaltInPiece) -> Iterator[Words]:
    """The salt that the finished pieces carry into a dish, and how strong it is in their own water."""
    grams = f"{grams_shown(Span(salt.low_g, salt.high_g))} g in all"
    if salt.low_percent is not None and salt.high_percent is not None:
        of_lean = percent_shown(Span(salt.low_percent, salt.high_percent))
        grams += f", {of_lean} % of the finished lean"
    yield "Salt it carries", grams, salt.assumption
    low, high = salt.water_phase_low_percent, salt.water_phase_high_percent
    if low is not None:
        value = f"{'at least ' if high is None else ''}{percent_shown(Span(low, low if high is None else high))} %"
        yield (
            "Water-phase salt",
            value,
            "salt on the salt and water of the finished lean, on the same assumptions",
        )


def _limit_and_salt(context: Context, cure: CureResult) -> Iterator[FigureView]:
    """The limit, and what the curing salt is made of; neither follows the scale."""
    if cure.limit is not None:
        source = context.source_link(cure.limit.source, cure.limit.locator)
        value = f"{show_decimal(cure.limit.limit_ppm, places=2)} ppm"
        yield FigureView(label="Limit", key="Limit", value=value, note=cure.limit.note, source=source)
    kind = cure.kind
    parts = ((kind.nitrite, "sodium nitrite"), (kind.nitrate, "sodium nitrate"), (kind.salt, "salt"))
    made_of = ", ".join(f"{show_decimal(share * 100, places=2)} % {name}" for share, name in parts if share)
    source = context.source_link(kind.source, kind.locator)
    yield FigureView(label="Curing salt", key="Curing salt", value=made_of, source=source)
