"""What the book's numbers and cautions rest on: the page of sources, how amounts are rounded, and the page of rules."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain

from generator.model.published import CautionText, CuringSalt, Difference, NitriteLimit, Source
from generator.model.quantity import Span
from generator.model.results import ComputedLine
from generator.model.rounding import RoundingRow
from generator.model.shown import show_decimal, show_number
from generator.render import paths
from generator.render.context import Context, rule_id, source_id
from generator.render.views.recipe import source_keys

ROUNDED = ("ingredient weight", "ingredient volume", "cure base", "cure weight", "curing salt", "length")
"Uses of the rounding table that the page shows, in this order; temperatures are told in a sentence."
RULES_TITLE = "Rules and where they come from"
SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")
"The gravest first, as on every page. Source: ANSI Z535."
NO_HELP_LINE = (
    "If someone may be poisoned, call your country's poison information centre or emergency number."
)
"Where book.yaml names no line."


@dataclass(frozen=True, slots=True, kw_only=True)
class SourceView:
    """One publication."""

    id: str
    source: Source
    certainty: str
    carries: tuple[str, ...]
    "What in this book rests on it."


@dataclass(frozen=True, slots=True, kw_only=True)
class WeightView:
    """What one measure or one piece of a food was taken to weigh."""

    food: str
    measure: str
    grams: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SourcesView:
    """The page of sources."""

    title: str
    description: str
    rules: str
    "Address of the page of rules."
    limits: tuple[NitriteLimit, ...]
    salts: tuple[CuringSalt, ...]
    rounding: tuple[tuple[str, str, str], ...]
    "For each use and system the direction, and the steps from the smallest amount up."
    weights: tuple[WeightView, ...]
    sources: tuple[SourceView, ...]


def sources_view(context: Context) -> SourcesView:
    """Everything the book's pages cite, each publication once."""
    carries = _carries(context)
    return SourcesView(
        title="Sources",
        description="Where the numbers and the cautions of this book come from, and how amounts are rounded.",
        rules=context.href(paths.RULES),
        limits=tuple(context.tables.limits.values()),
        salts=_salts(context),
        rounding=tuple(_rounding(context)),
        weights=_weights(context),
        sources=tuple(
            SourceView(
                id=source_id(key),
                source=context.source(key),
                certainty=context.how_sure(key),
                carries=carries[key],
            )
            for key in sorted(carries)
        ),
    )


def _salts(context: Context) -> tuple[CuringSalt, ...]:
    return (*context.tables.curing_salts, *context.config.curing_salts)


def _carries(context: Context) -> dict[str, tuple[str, ...]]:
    """By key of a source, what rests on it: limits, curing salts, rules, weights of foods, pages."""
    found: dict[str, dict[str, None]] = {}

    def note(key: str, what: str) -> None:
        found.setdefault(key, {})[what] = None

    for limit in context.tables.limits.values():
        note(limit.source, f"Nitrite limit for {limit.cut} meat, {limit.method} cure")
    for kind in _salts(context):
        note(kind.source, f"What {kind.title} is made of")
    for row in _rows(context):
        note(row.source, "How amounts are rounded")
    for rule in context.tables.cautions.values():
        for key in rule.sources:
            note(key, f"Caution: {rule.title}")
    for difference in context.tables.differences:
        for key in difference.sources:
            note(key, f"Where sources differ: {difference.topic}")
    boxes = chain.from_iterable(one.cautions for one in context.published)
    texts = chain.from_iterable(one.cautions for one in context.computed.texts.values())
    for caution in (*boxes, *texts):
        for key in caution.sources:
            note(key, f"Caution: {caution.title}")
    for one in context.published:
        for line in one.all_lines:
            if line.weight_source:
                note(line.weight_source, f"Weight of {line.ingredient.name}")
        for key in source_keys(one):
            found.setdefault(key, {})
    return {key: tuple(what) for key, what in found.items()}


def _rows(context: Context) -> list[RoundingRow]:
    systems = (context.amounts.system, context.amounts.other)
    return [row for row in context.tables.rounding if row.use in ROUNDED and row.system in systems]


def _rounding(context: Context) -> Iterator[tuple[str, str, str]]:
    """One line for each use and system: its steps from the smallest amount up."""
    rows = _rows(context)
    for use in ROUNDED:
        for system in (context.amounts.system, context.amounts.other):
            steps = [row for row in rows if (row.use, row.system) == (use, system)]
            if steps:
                yield (
                    f"{use.capitalize()}, {system if system == 'metric' else system.upper()}",
                    " and ".join(dict.fromkeys(row.direction for row in steps)),
                    "; ".join(_step(context, row) for row in steps),
                )


def _step(context: Context, row: RoundingRow) -> str:
    unit = context.tables.units[row.units[-1]]
    step = f"{show_number(row.step, row.style)} {unit.singular}"
    if row.low == 0:
        return step
    first = context.tables.units[row.units[0]]
    return f"from {show_decimal(row.low / first.factor, places=2)} {first.plural}: {step}"


def _weights(context: Context) -> tuple[WeightView, ...]:
    """Each food that a recipe measures by volume or by piece, with what one measure was taken to weigh."""
    lines = (line for one in context.published for line in one.all_lines)
    views = dict.fromkeys(filter(None, (_weight(context, line) for line in lines)))
    return tuple(sorted(views, key=lambda view: (view.food, view.measure)))


def _weight(context: Context, line: ComputedLine) -> WeightView | None:
    measures = line.scaled.measures if line.scaled else ()
    if not line.weight_source or line.grams is None or len(measures) != 1:
        return None
    measure = measures[0]
    grams = line.grams.low / measure.span.low
    return WeightView(
        food=line.ingredient.name,
        measure=f"1 {measure.unit.singular}".strip(),
        grams=context.amounts.only_grams(Span.of(grams), use="ingredient weight").first,
        source=line.weight_source,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class RulesView:
    """The page of rules."""

    title: str
    description: str
    help: str
    rules: dict[str, CautionText]
    "By the id of its line."
    differences: tuple[Difference, ...]
    all_sources: str
    "Address of the page of sources."
    is_read: bool
    "The sentences of its recipes are read too: its language is English."


def rules_view(context: Context) -> RulesView:
    """Every rule, the gravest first, then by title."""
    rules = sorted(
        context.tables.cautions.values(), key=lambda rule: (SIGNALS.index(rule.signal), rule.title.casefold())
    )
    return RulesView(
        title=RULES_TITLE,
        description="Every caution that this book can print, its sources, and where sources differ.",
        help=context.config.poison_help or NO_HELP_LINE,
        rules={rule_id(rule.slug): rule for rule in rules},
        differences=context.tables.differences,
        all_sources=context.href(paths.SOURCES),
        is_read=context.config.is_english,
    )
