"""The page of sources: what the book's numbers rest on, how sure that is, and how amounts are rounded."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from generator.model.quantity import Span
from generator.model.results import ComputedLine
from generator.model.rounding import RoundingRow
from generator.model.shown import show_decimal, show_number
from generator.render import paths
from generator.render.context import Context, LinkView, source_id
from generator.render.prose import lines_of
from generator.render.views.recipe import source_keys

CERTAINTY = {
    "seen": "Read in the publication itself.",
    "second-hand": "Second-hand: known only as others quote it.",
    "from memory": "From memory: not looked up again.",
    "common practice": "Common practice: no publication stands behind it.",
    "house choice": "Decided for this book.",
}
ROUNDED = ("ingredient weight", "ingredient volume", "cure base", "cure weight", "curing salt", "length")
"Uses of the rounding table that the page shows, in this order; temperatures are told in a sentence."


@dataclass(frozen=True, slots=True, kw_only=True)
class SourceView:
    """One publication."""

    id: str
    citation: str
    certainty: str
    note: str
    carries: tuple[str, ...]
    "What in this book rests on it."


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitView:
    """A greatest ingoing nitrite."""

    cut: str
    method: str
    limit: str
    note: str
    source: LinkView


@dataclass(frozen=True, slots=True, kw_only=True)
class SaltView:
    """A curing salt and what it is made of."""

    title: str
    nitrite: str
    nitrate: str
    salt: str
    note: str
    source: LinkView


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundingView:
    """How amounts of one use are rounded."""

    use: str
    direction: str
    steps: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightView:
    """What one measure or one piece of a food was taken to weigh."""

    food: str
    measure: str
    grams: str
    source: LinkView


@dataclass(frozen=True, slots=True, kw_only=True)
class SourcesView:
    """The page of sources."""

    title: str
    description: str
    rules: str
    "Address of the page of rules."
    limits: tuple[LimitView, ...]
    salts: tuple[SaltView, ...]
    rounding: tuple[RoundingView, ...]
    weights: tuple[WeightView, ...]
    sources: tuple[SourceView, ...]


def sources_view(context: Context, page: str) -> SourcesView:
    """Everything the book's pages cite, each publication once."""
    carries = _carries(context)
    return SourcesView(
        title="Sources",
        description="Where the numbers and the cautions of this book come from, and how amounts are rounded.",
        rules=context.href(page, paths.RULES),
        limits=tuple(_limits(context, page)),
        salts=tuple(_salts(context, page)),
        rounding=tuple(_rounding(context)),
        weights=_weights(context, page),
        sources=tuple(_source(context, key, carries[key]) for key in sorted(carries)),
    )


def _carries(context: Context) -> dict[str, tuple[str, ...]]:
    """By key of a source, what rests on it: limits, curing salts, rules, weights of foods, pages."""
    found: dict[str, dict[str, None]] = {}

    def note(key: str, what: str) -> None:
        found.setdefault(key, {})[what] = None

    for limit in context.tables.limits.values():
        note(limit.source, f"Nitrite limit for {limit.cut} meat, {limit.method} cure")
    for kind in (*context.tables.curing_salts, *context.config.curing_salts):
        note(kind.source, f"What {kind.title} is made of")
    for row in _rows(context):
        note(row.source, "How amounts are rounded")
    for rule in context.tables.cautions.values():
        for key in rule.sources:
            note(key, f"Caution: {rule.title}")
    for difference in context.tables.differences:
        for key in difference.sources:
            note(key, f"Where sources differ: {difference.topic}")
    for one in context.published:
        for caution in one.cautions:
            for key in caution.sources:
                note(key, f"Caution: {caution.title}")
        for line in lines_of(one):
            if line.weight_source:
                note(line.weight_source, f"Weight of {line.ingredient.name}")
        for key in source_keys(one):
            found.setdefault(key, {})
    return {key: tuple(what) for key, what in found.items()}


def _source(context: Context, key: str, carries: tuple[str, ...]) -> SourceView:
    source = context.source(key)
    return SourceView(
        id=source_id(key),
        citation=source.citation,
        certainty=CERTAINTY.get(source.certainty, source.certainty.capitalize()),
        note=source.note,
        carries=carries,
    )


def _limits(context: Context, page: str) -> Iterator[LimitView]:
    for limit in context.tables.limits.values():
        yield LimitView(
            cut=limit.cut.capitalize(),
            method=limit.method,
            limit=f"{show_decimal(limit.limit_ppm, places=2)} ppm",
            note=limit.note,
            source=context.source_link(page, limit.source, limit.locator),
        )


def _salts(context: Context, page: str) -> Iterator[SaltView]:
    for kind in (*context.tables.curing_salts, *context.config.curing_salts):
        yield SaltView(
            title=kind.title,
            nitrite=f"{show_decimal(kind.nitrite * 100, places=2)} %",
            nitrate=f"{show_decimal(kind.nitrate * 100, places=2)} %",
            salt=f"{show_decimal(kind.salt * 100, places=2)} %",
            note=kind.note,
            source=context.source_link(page, kind.source, kind.locator),
        )


def _rows(context: Context) -> list[RoundingRow]:
    systems = (context.amounts.system, context.amounts.other)
    return [row for row in context.tables.rounding if row.use in ROUNDED and row.system in systems]


def _rounding(context: Context) -> Iterator[RoundingView]:
    """One line for each use and system: its steps from the smallest amount up."""
    rows = _rows(context)
    for use in ROUNDED:
        for system in (context.amounts.system, context.amounts.other):
            steps = [row for row in rows if (row.use, row.system) == (use, system)]
            if steps:
                yield RoundingView(
                    use=f"{use.capitalize()}, {system if system == 'metric' else system.upper()}",
                    direction=" and ".join(dict.fromkeys(row.direction for row in steps)),
                    steps="; ".join(_step(context, row) for row in steps),
                )


def _step(context: Context, row: RoundingRow) -> str:
    unit = context.tables.units[row.units[-1]]
    step = f"{show_number(row.step, row.style)} {unit.singular}"
    if row.low == 0:
        return step
    first = context.tables.units[row.units[0]]
    return f"from {show_decimal(row.low / first.factor, places=2)} {first.plural}: {step}"


def _weights(context: Context, page: str) -> tuple[WeightView, ...]:
    """Each food that a recipe measures by volume or by piece, with what one measure was taken to weigh."""
    views = {
        view: None
        for one in context.published
        for line in lines_of(one)
        if (view := _weight(context, page, line)) is not None
    }
    return tuple(sorted(views, key=lambda view: (view.food, view.measure)))


def _weight(context: Context, page: str, line: ComputedLine) -> WeightView | None:
    measures = line.scaled.measures if line.scaled else ()
    if not line.weight_source or line.grams is None or len(measures) != 1:
        return None
    measure = measures[0]
    grams = line.grams.low / measure.span.low
    return WeightView(
        food=line.ingredient.name,
        measure=f"1 {measure.unit.singular}".strip(),
        grams=context.amounts.shower.base(Span.of(grams), use="ingredient weight", system="metric"),
        source=context.source_link(page, line.weight_source),
    )
