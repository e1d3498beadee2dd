"""Cautions in, boxes out: every word of theirs reaches the page, and each leads to its rule and its sources."""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.results import Caution, ComputedRecipe
from generator.render import paths
from generator.render.caution_words import caution_sentences, missing_keys
from generator.render.context import Context, LinkView, rule_id


@dataclass(frozen=True, slots=True, kw_only=True)
class MissingView:
    """A key that is not told and decides."""

    key: str
    file: str
    "Where it belongs; empty for the recipe's own file."


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxView:
    """One caution box."""

    id: str
    level: str
    "danger, warning, caution, notice: picks the border and the symbol."
    signal: str
    title: str
    text: str
    because: str
    "Without its full stop; empty where there is none."
    missing: tuple[MissingView, ...]
    "What must be written before it can be told whether the recipe keeps to the rule."
    accepted: str
    "The author's reason to go against the rule, without its full stop; empty where none is needed."
    sources: tuple[LinkView, ...]
    rule: str
    "Address of its line on the page of rules; empty where a page stands alone."


def box_views(context: Context, page: str, recipe: ComputedRecipe, stage: int | None) -> tuple[BoxView, ...]:
    """The boxes before the method (None), or those beside one stage."""
    return tuple(
        _box(context, page, caution, number)
        for number, caution in enumerate(recipe.cautions, start=1)
        if _stage_of(caution, recipe) == stage
    )


def _stage_of(caution: Caution, recipe: ComputedRecipe) -> int | None:
    """A box whose stage does not exist stands before the method rather than nowhere."""
    stage = caution.stage
    return stage if stage is not None and 0 <= stage < len(recipe.recipe.stages) else None


def _box(context: Context, page: str, caution: Caution, number: int) -> BoxView:
    return BoxView(
        id=f"box-{number}",
        level=caution.signal.lower(),
        signal=caution.signal,
        title=caution.title,
        text=caution.text,
        because=caution.because.rstrip("."),
        missing=tuple(MissingView(key=key, file=file) for key, file in missing_keys(caution)),
        accepted=caution.accepted.rstrip("."),
        sources=tuple(context.source_link(page, key) for key in caution.sources),
        rule=context.href(page, f"{paths.RULES}#{rule_id(caution.slug)}"),
    )


def box_sentences(recipe: ComputedRecipe, stage: int | None) -> tuple[str, ...]:
    """The same boxes as plain sentences, for machine readers."""
    return tuple(
        " ".join(
            (f"{caution.signal}: {_stop(caution.title)} {_stop(caution.text)}", *caution_sentences(caution))
        )
        for caution in recipe.cautions
        if _stage_of(caution, recipe) == stage
    )


def _stop(sentence: str) -> str:
    return sentence if sentence.endswith((".", "!", "?")) else f"{sentence}."
