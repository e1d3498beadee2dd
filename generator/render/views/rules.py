"""The page of rules: every caution this book can print, its words and sources, and where sources differ."""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.published import CautionText, Difference
from generator.render import paths
from generator.render.context import Context, LinkView, rule_id
from generator.render.views.sources import CERTAINTY

SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")
"The gravest first, as on every page. Source: ANSI Z535."
NO_HELP_LINE = (
    "If someone may be poisoned, call your country's poison information centre or emergency number."
)
"Where book.yaml names no line."
WHAT_SIGNALS_MEAN = (
    "DANGER and WARNING name what can kill or cripple. A recipe that goes against a DANGER is not printed; one that "
    "goes against a WARNING is printed only with its author's reason. CAUTION names what can make ill or spoil the "
    "work, NOTICE what to know beforehand; neither stops a recipe."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleView:
    """One rule."""

    id: str
    level: str
    signal: str
    title: str
    text: str
    sources: tuple[LinkView, ...]
    "Each with how sure it is, in words."
    place: str
    "Where in its sources."


@dataclass(frozen=True, slots=True, kw_only=True)
class DifferenceView:
    """One matter on which sources differ."""

    topic: str
    says: str
    takes: str
    why: str
    sources: tuple[LinkView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class RulesView:
    """The page of rules."""

    title: str
    description: str
    help: str
    signals: str
    rules: tuple[RuleView, ...]
    differences: tuple[DifferenceView, ...]
    all_sources: str
    "Address of the page of sources."


def rules_view(context: Context, page: str) -> RulesView:
    """Every rule, the gravest first, then by title."""
    rules = sorted(
        context.tables.cautions.values(), key=lambda rule: (SIGNALS.index(rule.signal), rule.title.casefold())
    )
    return RulesView(
        title="Rules and where they come from",
        description="Every caution that this book can print, its sources, and where sources differ.",
        help=context.config.poison_help or NO_HELP_LINE,
        signals=WHAT_SIGNALS_MEAN,
        rules=tuple(_rule(context, page, rule) for rule in rules),
        differences=tuple(_difference(context, page, one) for one in context.tables.differences),
        all_sources=context.href(page, paths.SOURCES),
    )


def _rule(context: Context, page: str, rule: CautionText) -> RuleView:
    return RuleView(
        id=rule_id(rule.slug),
        level=rule.signal.lower(),
        signal=rule.signal,
        title=rule.title,
        text=rule.text,
        sources=tuple(
            context.source_link(page, key, CERTAINTY[context.source(key).certainty]) for key in rule.sources
        ),
        place=rule.locator,
    )


def _difference(context: Context, page: str, one: Difference) -> DifferenceView:
    return DifferenceView(
        topic=one.topic,
        says=one.says,
        takes=one.takes,
        why=one.why,
        sources=tuple(context.source_link(page, key) for key in one.sources),
    )
