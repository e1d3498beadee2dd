"""The page of rules: every caution this book can print, its words and sources, and where sources differ."""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.published import CautionText, Difference
from generator.render import paths
from generator.render.context import Context, rule_id

SIGNALS = ("DANGER", "WARNING", "CAUTION", "NOTICE")
"The gravest first, as on every page. Source: ANSI Z535."
NO_HELP_LINE = (
    "If someone may be poisoned, call your country's poison information centre or emergency number."
)
"Where book.yaml names no line."


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
        title="Rules and where they come from",
        description="Every caution that this book can print, its sources, and where sources differ.",
        help=context.config.poison_help or NO_HELP_LINE,
        rules={rule_id(rule.slug): rule for rule in rules},
        differences=context.tables.differences,
        all_sources=context.href(paths.SOURCES),
        is_read=context.config.is_english,
    )
