"""One computed recipe in, its page out, in reading order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from generator.model.recipe import Recipe
from generator.model.results import ComponentNeed, ComputedLine, ComputedRecipe, UsedBy
from generator.render import paths
from generator.render.amounts import AmountView, amount_behind, preparation_in, preparation_parts, second_key
from generator.render.bench import BenchView, bench_view
from generator.render.cautions import BoxView, box_ids, box_views
from generator.render.context import TAKEN, Context, LinkView
from generator.render.course import StageView, stage_views
from generator.render.encode import script_text
from generator.render.jsonld import recipe_data
from generator.render.prose import Prose
from generator.render.reach import REACH_IDS, ReachView, reach_view
from generator.render.season import season_words
from generator.render.views.weigh import OF_IT, WeighRow, WeighView, meat_words, weigh_view
from generator.render.wholes import wholes_of
from generator.render.yields import batches_words, makes_view, serves_words, written_for, yield_words

IN_THE_BATCH = " in the batch"
"Words of a fact that is told of the whole batch: it does not follow the scale on a page."
PLACES = {"fridge": "In the fridge", "freezer": "In the freezer", "shelf": "On the shelf"}


@dataclass(frozen=True, slots=True, kw_only=True)
class LineView:
    """One ingredient."""

    id: str
    line: ComputedLine
    amount: AmountView | None
    name: LinkView
    preparation: str
    parts: tuple[str | AmountView, ...]
    "The preparation, its second amounts apart."
    share: str
    "Of what the title of its group says: 2.25 %, 3 parts; empty for what is no share."

    @property
    def plain(self) -> str:
        """In one string, for machine readers."""
        amount = f"{self.amount.plain} " if self.amount else ""
        return f"{amount}{self.name.text}" + (f", {self.preparation}" if self.preparation else "")


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedView:
    """A component that this recipe takes, however deep."""

    number: int
    "Its place among the needs, from 0."
    need: ComponentNeed
    link: LinkView
    batches: str
    amount: AmountView | None
    green: AmountView | None
    by_way_of: tuple[LinkView, ...]
    "The recipes between this one and the component."


@dataclass(frozen=True, slots=True, kw_only=True)
class TakerView:
    """A dish that takes some of this recipe."""

    link: LinkView
    batches: str
    amount: AmountView | None


@dataclass(frozen=True, slots=True, kw_only=True)
class RecipeView:
    """A recipe's page."""

    recipe: Recipe
    title: str
    description: str
    scaled: str
    "How many batches this is; empty for the recipe as written."
    plate: str
    serves: str
    written_for: str
    "Of a range of eaters: `4–6, counted as 4`."
    makes: AmountView | None
    season: str
    origin: LinkView | None
    "Whose recipe it is; to the others that are theirs."
    chapter: LinkView | None
    tags: tuple[LinkView, ...]
    facts: tuple[tuple[str, bool], ...]
    "Quiet lines, and whether each does not follow the scale on a page."
    boxes: tuple[BoxView, ...]
    weigh: WeighView | None
    smoker: str
    "Link to its smoker's sheet; empty without a cure, and where the page stands alone."
    reach: ReachView | None
    stages: tuple[StageView, ...]
    is_course_read: bool
    "From the method, not from lines of the author's."
    wholes: dict[str, tuple[str, AmountView, str]]
    "Of what the lines under a title are shares, where that is an amount: its words before, it, and its words behind."
    groups: dict[str, list[LineView]]
    "Ingredients under their headings; the first heading may be empty."
    method: Markup
    needs: tuple[NeedView, ...]
    takers: tuple[TakerView, ...]
    keeps: tuple[tuple[str, str], ...]
    "Place and time, as written."
    sources: tuple[LinkView, ...]
    data: Markup
    "Structured data, ready to stand in a script element."
    bench: BenchView | None
    "The controls that weigh the page again; none on a sheet by itself, and none on a gathering's card."
    gathering: LinkView | None
    "The gathering that it is scaled for; none on its own page."


def recipe_view(context: Context, recipe: ComputedRecipe, *, gathering: LinkView | None = None) -> RecipeView:
    """Everything a page of a recipe says. With a gathering it is a card: as scaled for it, and not to be scaled."""
    one, amounts = recipe.recipe, context.amounts
    weigh = weigh_view(context, recipe)
    groups = _groups(context, recipe, with_meat=weigh is None or not weigh.rows)
    stages = stage_views(amounts, recipe)
    lines = tuple(line for group in groups.values() for line in group)
    weighed = weigh.rows if weigh else ()
    rows = {line.id for line in lines} | {row.id for row in weighed}
    shown = frozenset(row.removeprefix("i-") for row in rows)
    prose = Prose(context=context, file=one.file, recipe=recipe, rows=shown, stages=stages)
    data = recipe_data(
        context,
        recipe,
        ingredients=[
            *_weighed_once(weighed, recipe),
            *(line.plain for line in lines if not _is_sum(line.id, recipe)),
        ],
        stages=stages,
        method=prose.steps(one.body.text),
    )
    return RecipeView(
        recipe=one,
        title=one.name if gathering is None else f"{one.name}, for {gathering.text}",
        description=one.summary or ": ".join(filter(None, (one.name, yield_words(amounts, recipe)))) + ".",
        scaled="" if recipe.scale.batches == 1 else batches_words(recipe.scale.batches),
        plate=context.plate_for((recipe,)),
        serves=serves_words(recipe),
        written_for=written_for(recipe),
        makes=makes_view(amounts, recipe),
        season=season_words(one.season),
        origin=_origin(context, one.origin) if one.origin else None,
        chapter=_chapter(context, one.chapter) if one.chapter else None,
        tags=_tags(context, one.tags),
        facts=tuple((fact, IN_THE_BATCH in fact) for fact in recipe.facts if not fact.startswith("Keeps ")),
        boxes=box_views(recipe, None),
        weigh=weigh,
        smoker=context.href(paths.smoker_path(one.slug)) if weigh and gathering is None else "",
        reach=reach_view(recipe.cure.reach if recipe.cure else None),
        stages=stages,
        is_course_read=one.course_read,
        wholes={
            title: (one.before, replace(amounts.quantity(one.scaled), key=one.key), one.after)
            for title, one in wholes_of(recipe).items()
        },
        groups=groups,
        method=prose.html(
            one.body.text,
            top=3,
            taken=frozenset({*TAKEN, *REACH_IDS, *rows, *box_ids(recipe), *(stage.id for stage in stages)}),
        ),
        needs=tuple(_need(context, number, need) for number, need in enumerate(recipe.needs)),
        takers=_takers(context, recipe),
        keeps=tuple((PLACES.get(keep.place, keep.place.capitalize()), keep.written) for keep in one.keep),
        sources=tuple(context.source_link(key, place) for key, place in source_keys(recipe).items()),
        bench=bench_view(context, recipe) if gathering is None else None,
        gathering=gathering,
        data=script_text(data, indent=1),
    )


def _is_sum(row: str, recipe: ComputedRecipe) -> bool:
    """The row of all of several meats, which stand below it."""
    return bool(recipe.meat_lines) and row == "i-meat"


def _weighed_once(rows: Sequence[WeighRow], recipe: ComputedRecipe) -> Iterator[str]:
    """What is weighed for a cure, for machine readers: several meats each, and not their sum besides."""
    for row in rows:
        if not _is_sum(row.id, recipe):
            yield f"{row.grams} {row.what.removeprefix(OF_IT)}"


def _chapter(context: Context, chapter: str) -> LinkView:
    slug = context.chapters.get(chapter)
    return LinkView(text=chapter, href=context.href(paths.chapter_path(slug)) if slug else "")


def _tags(context: Context, tags: tuple[str, ...]) -> tuple[LinkView, ...]:
    ids = context.tags
    return tuple(
        LinkView(text=tag, href=context.href(f"{paths.BY_TAG}#{ids[tag]}") if tag in ids else "")
        for tag in dict.fromkeys(tags)
    )


def _origin(context: Context, origin: str) -> LinkView:
    id = context.origins.get(origin)
    return LinkView(text=origin, href=context.href(f"{paths.BY_TAG}#{id}") if id else "")


def _groups(context: Context, recipe: ComputedRecipe, *, with_meat: bool) -> dict[str, list[LineView]]:
    """Ingredients by group in the order written; the raw meat first, unless it is weighed with the cure."""
    groups: dict[str, list[LineView]] = {}
    if with_meat and recipe.meat_line is not None:
        words = [meat_words(context, meat) for meat in recipe.recipe.meats]
        whole = [(recipe.meat_line, "in all")] if recipe.meat_lines else []
        each = zip(recipe.meat_lines or (recipe.meat_line,), words, strict=True)
        groups[""] = [_line(context, line, said) for line, said in (*whole, *each)]
    for line in recipe.lines:
        view = _line(context, line, preparation_in(line, context.amounts.system))
        groups.setdefault(line.ingredient.group, []).append(view)
    return groups


def _line(context: Context, line: ComputedLine, preparation: str) -> LineView:
    one = line.ingredient
    uses = context.computed.book.uses if one.link is not None else ()
    used = next((use for use in uses if use.line is one), None)
    behind = amount_behind(line)
    stays = line.scaled is not None and line.scaled.is_vague
    preparation = ", ".join(filter(None, (behind, preparation)))
    return LineView(
        id=f"i-{one.id}",
        line=line,
        # What has no size stays as it is at every scale, and a page's script need not find it.
        amount=None if behind else context.amounts.shown(line.shown, key="" if stays else f"i-{one.id}"),
        name=LinkView(text=one.name, href=context.link_to(used.component).href if used else ""),
        preparation=preparation,
        parts=_parts(context, line) if line.second else (preparation,),
        share=one.share.written if one.share else "",
    )


def _parts(context: Context, line: ComputedLine) -> tuple[str | AmountView, ...]:
    """The words of a preparation as they stand, and its amounts, to be found by a page's script."""
    found: list[str | AmountView] = []
    for part in preparation_parts(line):
        if isinstance(part, str):
            found.append(part)
            continue
        view = context.amounts.shown(line.second[part][1], key=second_key(line.ingredient.id, part))
        assert view is not None
        found.append(view)
    return tuple(found)


def _need(context: Context, number: int, need: ComponentNeed) -> NeedView:
    """A component with the batches, the weight and the raw meat it takes."""
    return NeedView(
        number=number,
        need=need,
        link=context.link_to(need.recipe),
        batches=batches_words(need.batches),
        amount=context.amounts.shown(need.amount_shown, key=f"n-{number}"),
        green=context.amounts.shown(need.green_weight_shown, key=f"n-{number}-green"),
        by_way_of=context.links_to(need.path[1:-1]),
    )


def _takers(context: Context, recipe: ComputedRecipe) -> tuple[TakerView, ...]:
    """Every dish that takes from this recipe, by name."""
    takers = (_taker(context, recipe, used) for used in recipe.used_by)
    return tuple(sorted(takers, key=lambda taker: (taker.link.text.casefold(), taker.link.href)))


def _taker(context: Context, recipe: ComputedRecipe, used: UsedBy) -> TakerView:
    makes = recipe.recipe.makes
    amount = context.amounts.made(makes.quantity.times(used.batches), makes.noun) if makes else None
    return TakerView(link=context.link_to(used.dish), batches=batches_words(used.batches), amount=amount)


def source_keys(recipe: ComputedRecipe) -> dict[str, str]:
    """The publications behind the numbers and boxes of a page, each once, with the place in it if known."""
    found = {key: "" for caution in recipe.cautions for key in caution.sources}
    cure = recipe.cure
    if cure is not None and cure.weigh is not None and cure.limit is not None:
        for published in (cure.limit, cure.kind):
            if published.source:
                found[published.source] = found.get(published.source) or published.locator
    reach = cure.reach.sources if cure is not None and cure.reach is not None else ()
    weighed = (line.weight_source for line in recipe.all_lines if line.weight_source)
    for key in (*reach, *salt_sources(recipe), *weighed):
        found.setdefault(key, "")
    return found


def salt_sources(recipe: ComputedRecipe) -> tuple[str, ...]:
    """The publications behind the salt of a dish or of a cured piece."""
    salt = recipe.salt if recipe.cure is None else recipe.cure.salt_carried
    return salt.sources if salt is not None else ()
