"""One computed recipe in, its page as strings out, in reading order."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from generator.model.results import ComputedRecipe
from generator.render import paths
from generator.render.amounts import AmountView
from generator.render.context import TAKEN, Context, LinkView
from generator.render.jsonld import recipe_data, script_text
from generator.render.prose import lines_of, plain_steps, render_prose
from generator.render.views.bench import BenchView, bench_view
from generator.render.views.boxes import BoxView, box_views
from generator.render.views.course import StageView, stage_views
from generator.render.views.parts import (
    GroupView,
    KeepView,
    NeedView,
    TakerView,
    group_views,
    keep_views,
    need_views,
    taker_views,
)
from generator.render.views.reach import REACH_IDS, ReachView, reach_view
from generator.render.views.weigh import WeighView, weigh_view
from generator.render.views.yields import batches_words, makes_view, serves_words, yield_words

IN_THE_BATCH = " in the batch"
"Words of a fact that is told of the whole batch."


@dataclass(frozen=True, slots=True, kw_only=True)
class FactView:
    """A quiet line."""

    text: str
    stays: bool
    "Does not follow the scale on a page."


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeView:
    """A recipe's page."""

    slug: str
    name: str
    title: str
    description: str
    summary: str
    scaled: str
    "How many batches this is; empty for the recipe as written."
    plate: str
    serves: str
    makes: AmountView | None
    chapter: LinkView | None
    tags: tuple[LinkView, ...]
    facts: tuple[FactView, ...]
    is_raw: bool
    "Not ready to eat as it is."
    boxes: tuple[BoxView, ...]
    weigh: WeighView | None
    smoker: str
    "Link to its smoker's sheet; empty without a cure, and where the page stands alone."
    reach: ReachView | None
    stages: tuple[StageView, ...]
    groups: tuple[GroupView, ...]
    method: Markup
    needs: tuple[NeedView, ...]
    takers: tuple[TakerView, ...]
    keeps: tuple[KeepView, ...]
    sources: tuple[LinkView, ...]
    data: Markup
    "Structured data, ready to stand in a script element."
    bench: BenchView | None
    "The controls that weigh the page again; none on a sheet by itself, and none on a gathering's card."
    gathering: LinkView | None
    "The gathering that it is scaled for; none on its own page."


def recipe_view(
    context: Context, page: str, recipe: ComputedRecipe, *, gathering: LinkView | None = None
) -> RecipeView:
    """Everything a page of a recipe says. With a gathering it is a card: as scaled for it, and not to be scaled."""
    one = recipe.recipe
    weigh = weigh_view(context, page, recipe)
    groups = group_views(context, page, recipe, with_meat=weigh is None or not weigh.rows)
    stages = stage_views(context, page, recipe)
    boxes = box_views(context, page, recipe, None)
    rows = {line.id for group in groups for line in group.lines}
    rows |= {row.id for row in weigh.rows} if weigh else set()
    shown = frozenset(row.removeprefix("i-") for row in rows)
    method = render_prose(
        context,
        one.body.text,
        page=page,
        file=one.file,
        recipe=recipe,
        rows=shown,
        top=3,
        taken=frozenset(
            {*TAKEN, *REACH_IDS, *rows, *(f"box-{n}" for n in range(1, len(recipe.cautions) + 1))}
        ),
    )
    steps = plain_steps(context, one.body.text, page=page, file=one.file, recipe=recipe, rows=shown)
    return RecipeView(
        slug=one.slug,
        name=one.name,
        title=one.name if gathering is None else f"{one.name}, for {gathering.text}",
        description=one.summary or f"{one.name}: {yield_words(context, recipe)}.",
        summary=one.summary,
        scaled="" if recipe.scale.batches == 1 else batches_words(recipe.scale.batches),
        plate=context.plate_for((recipe,)),
        serves=serves_words(recipe),
        makes=makes_view(context, recipe),
        chapter=_chapter(context, page, one.chapter),
        tags=_tags(context, page, one.tags),
        facts=tuple(
            FactView(text=fact, stays=IN_THE_BATCH in fact)
            for fact in recipe.facts
            if not fact.startswith("Keeps ")
        ),
        is_raw=one.eat_after_cooking,
        boxes=boxes,
        weigh=weigh,
        smoker=context.href(page, paths.smoker_path(one.slug)) if weigh and gathering is None else "",
        reach=reach_view(recipe),
        stages=stages,
        groups=groups,
        method=method,
        needs=need_views(context, page, recipe),
        takers=taker_views(context, page, recipe),
        keeps=keep_views(recipe),
        sources=_sources(context, page, recipe),
        bench=bench_view(context, recipe) if gathering is None else None,
        gathering=gathering,
        data=script_text(
            recipe_data(context, page, recipe, weigh=weigh, groups=groups, stages=stages, method=steps)
        ),
    )


def _chapter(context: Context, page: str, chapter: str) -> LinkView | None:
    if not chapter:
        return None
    slug = context.chapters.get(chapter)
    return LinkView(text=chapter, href=context.href(page, paths.chapter_path(slug)) if slug else "")


def _tags(context: Context, page: str, tags: tuple[str, ...]) -> tuple[LinkView, ...]:
    ids = context.tags
    return tuple(
        LinkView(text=tag, href=context.href(page, f"{paths.BY_TAG}#{ids[tag]}") if tag in ids else "")
        for tag in dict.fromkeys(tags)
    )


def source_keys(recipe: ComputedRecipe) -> dict[str, str]:
    """The publications behind the numbers and boxes of a page, each once, with the place in it if known."""
    found: dict[str, str] = {}
    for caution in recipe.cautions:
        found.update({key: "" for key in caution.sources if key not in found})
    cure = recipe.cure
    if cure is not None and cure.weigh is not None:
        if cure.limit is not None:
            found[cure.limit.source] = found.get(cure.limit.source) or cure.limit.locator
        if cure.limit is not None and cure.kind.source:
            found[cure.kind.source] = found.get(cure.kind.source) or cure.kind.locator
    if cure is not None and cure.reach is not None:
        found.update({key: "" for key in cure.reach.sources if key not in found})
    for key in salt_sources(recipe):
        found.setdefault(key, "")
    for line in lines_of(recipe):
        if line.weight_source:
            found.setdefault(line.weight_source, "")
    return found


def salt_sources(recipe: ComputedRecipe) -> tuple[str, ...]:
    """The publications behind the salt of a dish or of a cured piece."""
    if recipe.cure is not None:
        carried = recipe.cure.salt_carried
        return carried.sources if carried is not None else ()
    return recipe.salt.sources if recipe.salt is not None else ()


def _sources(context: Context, page: str, recipe: ComputedRecipe) -> tuple[LinkView, ...]:
    return tuple(context.source_link(page, key, place) for key, place in source_keys(recipe).items())
