"""A cure in, the table to weigh by and its figures out; or, where the cure is refused, only the reasons."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from generator.model.quantity import Span
from generator.model.recipe import Meat
from generator.model.results import ComputedRecipe, CureResult, SaltInPiece
from generator.model.rounding import round_up
from generator.model.shown import grams_shown, percent_shown, show_decimal
from generator.render.context import Context, LinkView
from generator.render.method_words import method_words
from generator.render.table_words import BLEND, BLEND_NOTE, Words, brine_words, dose_words

BASES = {
    "whole system": "over meat and brine together (whole-system figure: the cure is left until it is even)",
    "pick-up": "carried in by the brine that the meat takes up (pick-up figure)",
    "dry": "of green weight",
}
"What an ingoing nitrite figure is counted over. No figure stands without it."


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
    refusals: tuple[tuple[str, str], ...]
    "Sentence and hint of each reason why nothing is weighed out."


def weigh_view(context: Context, page: str, recipe: ComputedRecipe) -> WeighView | None:
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
        pieces=meat_words(context, recipe.recipe.meat, with_count=False),
        rows=() if refused else _rows(context, recipe, cure),
        only_for=cure.kind.title if has_nitrite and not refused else "",
        figures=()
        if refused
        else tuple(
            _keyed(figure)
            for figure in (*_figures(context, page, cure, has_nitrite or pumped), *_applications(recipe))
        ),
        more=()
        if refused
        else tuple(replace(figure, stays=_follows(context, cure)) for figure in _more(cure)),
        refusals=tuple((one.message, one.hint) for one in cure.problems if one.is_error) if refused else (),
    )


def _follows(context: Context, cure: CureResult) -> bool:
    """True on a page whose script weighs again."""
    return not context.is_sheet and cure.contract is not None


def _rubbed_g(cure: CureResult) -> Fraction:
    """Salt, sugar and curing salt together, exact."""
    if cure.forms is None or cure.setting is None:
        return Fraction(0)
    return sum(
        (form.at(cure.setting) for form in (cure.forms.salt, cure.forms.sugar, cure.forms.curing_salt)),
        Fraction(0),
    )


def _keyed(figure: FigureView) -> FigureView:
    return figure if figure.key else replace(figure, key=figure.label)


def _applications(recipe: ComputedRecipe) -> tuple[FigureView, ...]:
    """A dry cure rubbed on in equal parts: how much each time, curing salt and all."""
    cure, written = recipe.cure, recipe.recipe.cure
    if cure is None or written is None or cure.weigh is None or written.applications < 2:
        return ()
    each = show_decimal(_rubbed_g(cure) / written.applications, places=1)
    value = f"{written.applications} equal parts, {each} g of the mix each time"
    return (
        FigureView(label="Rubbed on in", value=value, note="mixed well first, so that each part is alike"),
    )


def _count(recipe: ComputedRecipe) -> str:
    meat = recipe.recipe.meat
    pieces = None if meat is None or meat.pieces is None else meat.pieces * recipe.scale.batches
    return "" if pieces is None or pieces.denominator != 1 else _pieces(int(pieces))


def _pieces(count: int) -> str:
    return "1 piece" if count == 1 else f"{count} pieces"


def meat_words(context: Context, meat: Meat | None, *, with_count: bool = True) -> str:
    """`4 pieces, 3 in (76 mm) at the thickest, bone in, silverskin on`."""
    if meat is None:
        return ""
    words = []
    if with_count and meat.pieces is not None:
        words.append(_pieces(meat.pieces))
    if meat.thickness is not None:
        words.append(f"{context.amounts.quantity(meat.thickness).plain} at the thickest")
    for part, state in (("bone", meat.bone), ("skin", meat.skin), ("silverskin", meat.silverskin)):
        if state is not None:
            words.append(f"{part} {state}")
    return ", ".join(words)


def _rows(context: Context, recipe: ComputedRecipe, cure: CureResult) -> tuple[WeighRow, ...]:
    written, weigh, meat = recipe.recipe.cure, cure.weigh, recipe.recipe.meat
    assert written is not None
    assert weigh is not None
    system = "imperial" if context.amounts.system == "imperial" else "us"
    meat_other = recipe.meat_line.shown if recipe.meat_line else None
    water_other = recipe.cure_lines.get("water")

    def ounces(grams: Fraction) -> str:
        return context.amounts.shower.base(Span.of(grams), use="cure weight", system=system)

    sugar = (written.sugar.name if written.sugar else "") or "sugar"
    rows = (
        ("meat", f"{meat.name}, green weight" if meat else "meat, green weight", "green_weight",
         meat_other.in_units(system) if meat_other else ""),
        ("water", "water", "water", water_other.in_units(system) if water_other else ""),
        ("salt", "salt", "salt", ounces(weigh.salt_g)),
        ("sugar", sugar, "sugar", ounces(weigh.sugar_g)),
        ("curing-salt", cure.kind.title, "curing_salt", ""),
        ("nitrate", written.nitrate_kind or "nitrate", "nitrate", ""),
        ("accelerator", written.accelerator.name if written.accelerator else "", "accelerator", ""),
    )  # fmt: skip
    return tuple(
        WeighRow(
            id=f"i-{id}", what=what, grams=cure.shown[key], other="" if other == cure.shown[key] else other
        )
        for id, what, key, other in rows
        if cure.shown.get(key)
    )


def _figures(context: Context, page: str, cure: CureResult, has_nitrite: bool) -> list[FigureView]:
    of = "meat and water" if cure.method == "brine" else "the meat"
    figures = []
    if cure.salt_percent is not None:
        figures.append(FigureView(label="Salt", value=f"{_percent(cure.salt_percent)} of {of}"))
    if cure.sugar_percent:
        figures.append(FigureView(label="Sugar", value=f"{_percent(cure.sugar_percent)} of {of}"))
    if cure.strength_percent is not None:
        figures.append(_strength(cure.strength_percent, cure.salometer_degrees))
    if cure.pump_g is not None:
        grams = context.amounts.only_grams(cure.pump_g, use="cure base").first
        value, note = f"{grams} of this brine", "drawn before the meat goes in"
        if cure.pump_brine is not None:
            value, note = f"{grams} of the pump brine", "by the needle, all over the piece"
        figures.append(FigureView(label="Pump", value=value, note=note))
    if has_nitrite:
        figures += _nitrite(context, page, cure)
    figures += _words(method_words(cure))
    if cure.dose is not None:
        figures += _words(dose_words(cure.dose))
        if _follows(context, cure) and cure.dose.pre_blend is None:
            figures.append(FigureView(label=BLEND, value="", note=BLEND_NOTE))
    return figures


def _more(cure: CureResult) -> tuple[FigureView, ...]:
    """Specific gravity, salt to water, the salt that goes on."""
    figures: list[FigureView] = []
    if cure.salt_carried is not None:
        figures += _salt_carried(cure.salt_carried)
    if cure.brine is not None:
        figures += _words(brine_words(cure.brine))
    return tuple(figures)


def _words(words: list[Words]) -> list[FigureView]:
    return [FigureView(label=label, value=value, note=note) for label, value, note in words]


def _salt_carried(salt: SaltInPiece) -> list[FigureView]:
    """The salt that the finished pieces carry into a dish, and how strong it is in their own water."""
    grams = f"{grams_shown(Span(salt.low_g, salt.high_g))} g in all"
    if salt.low_percent is not None and salt.high_percent is not None:
        of_lean = percent_shown(Span(salt.low_percent, salt.high_percent))
        grams += f", {of_lean} % of the finished lean"
    figures = [FigureView(label="Salt it carries", value=grams, note=salt.assumption)]
    if salt.water_phase_low_percent is not None:
        high = salt.water_phase_high_percent
        value = (
            f"at least {percent_shown(Span(salt.water_phase_low_percent, salt.water_phase_low_percent))} %"
            if high is None
            else f"{percent_shown(Span(salt.water_phase_low_percent, high))} %"
        )
        figures.append(
            FigureView(
                label="Water-phase salt",
                value=value,
                note="salt on the salt and water of the finished lean, on the same assumptions",
            )
        )
    return figures


def _strength(percent: Fraction, degrees: Fraction | None) -> FigureView:
    note = f"{show_decimal(degrees, places=0)} degrees salometer" if degrees is not None else ""
    return FigureView(label="Brine strength", value=f"{_percent(percent)} salt by weight", note=note)


def _nitrite(context: Context, page: str, cure: CureResult) -> list[FigureView]:
    """Each ingoing nitrite figure with its basis, then the limit, then what the curing salt is made of."""
    known = (("whole system", cure.whole_system_ppm), ("pick-up", cure.pick_up_ppm), ("dry", cure.dry_ppm))
    figures = [
        FigureView(
            label="Ingoing nitrite", value=_ppm(ppm), note=BASES[basis], key=f"Ingoing nitrite, {basis}"
        )
        for basis, ppm in known
        if ppm is not None
    ]
    if cure.ppm_range is not None:
        low, high = (
            show_decimal(end, places=0)
            for end in (cure.ppm_range.low, round_up(cure.ppm_range.high, Fraction(1)))
        )
        figures.append(
            FigureView(
                label="By the spoon",
                value=f"{low} to {high} ppm",
                note="from the lightest to the heaviest published spoon",
            )
        )
    if cure.limit is not None:
        source = context.source_link(page, cure.limit.source, cure.limit.locator)
        figures.append(
            FigureView(
                label="Limit",
                value=f"{show_decimal(cure.limit.limit_ppm, places=2)} ppm",
                note=cure.limit.note,
                source=source,
            )
        )
    kind = cure.kind
    parts = ((kind.nitrite, "sodium nitrite"), (kind.nitrate, "sodium nitrate"), (kind.salt, "salt"))
    made_of = ", ".join(f"{_percent(share * 100)} {name}" for share, name in parts if share)
    figures.append(
        FigureView(
            label="Curing salt", value=made_of, source=context.source_link(page, kind.source, kind.locator)
        )
    )
    return figures


def _ppm(ppm: Fraction) -> str:
    """Rounded up: what is judged against a greatest value is never shown as less than it is."""
    return f"{show_decimal(round_up(ppm, Fraction(1)), places=0)} ppm"


def _percent(percent: Fraction) -> str:
    return f"{show_decimal(percent, places=2)} %"
