"""The parts of a recipe's page: ingredients by group, what it uses, who uses it, how it keeps."""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.results import ComponentNeed, ComputedLine, ComputedRecipe, UsedBy
from generator.render.amounts import AmountView, amount_behind, keyed
from generator.render.context import Context, LinkView
from generator.render.views.weigh import meat_words
from generator.render.views.yields import batches_words

PLACES = {"fridge": "In the fridge", "freezer": "In the freezer", "shelf": "On the shelf"}


@dataclass(frozen=True, slots=True, kw_only=True)
class LineView:
    """One ingredient."""

    id: str
    amount: AmountView | None
    name: LinkView
    preparation: str
    check: str
    check_beyond: str
    "Beyond twice the recipe; the page's script shows it there."


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupView:
    """The ingredients under one heading; the first may have none."""

    title: str
    lines: tuple[LineView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class NeedView:
    """A component that this recipe takes, however deep."""

    number: int
    "Its place among the needs."
    link: LinkView
    batches: str
    amount: AmountView | None
    green: AmountView | None
    meat: str
    by_way_of: tuple[LinkView, ...]
    "The recipes between this one and the component."


@dataclass(frozen=True, slots=True, kw_only=True)
class TakerView:
    """A dish that takes some of this recipe."""

    link: LinkView
    batches: str
    amount: AmountView | None


@dataclass(frozen=True, slots=True, kw_only=True)
class KeepView:
    """How long it keeps in one place."""

    place: str
    time: str


def group_views(
    context: Context, page: str, recipe: ComputedRecipe, *, with_meat: bool
) -> tuple[GroupView, ...]:
    """Ingredients by group in the order written; the raw meat first, unless it is weighed with the cure."""
    groups: dict[str, list[LineView]] = {}
    if recipe.meat_line is not None and with_meat:
        words = meat_words(context, recipe.recipe.meat)
        groups[""] = [_line(context, page, recipe.meat_line, words)]
    for line in recipe.lines:
        view = _line(context, page, line, line.ingredient.preparation)
        groups.setdefault(line.ingredient.group, []).append(view)
    return tuple(GroupView(title=title, lines=tuple(lines)) for title, lines in groups.items())


def _line(context: Context, page: str, line: ComputedLine, preparation: str) -> LineView:
    one = line.ingredient
    name = LinkView(text=one.name)
    uses = context.computed.book.uses if one.link is not None else ()
    used = next((use for use in uses if use.line is one), None)
    if used is not None:
        name = LinkView(text=one.name, href=context.link_to(page, used.component).href)
    behind = amount_behind(line)
    return LineView(
        id=f"i-{one.id}",
        amount=None if behind else keyed(context.amounts.shown(line.shown), f"i-{one.id}"),
        name=name,
        preparation=", ".join(words for words in (behind, preparation) if words),
        check=line.check,
        check_beyond=line.check_beyond,
    )


def need_views(context: Context, page: str, recipe: ComputedRecipe) -> tuple[NeedView, ...]:
    """Every component with the batches, the weight and the raw meat it takes."""
    return tuple(_need(context, page, number, need) for number, need in enumerate(recipe.needs))


def _need(context: Context, page: str, number: int, need: ComponentNeed) -> NeedView:
    return NeedView(
        number=number,
        link=context.link_to(page, need.recipe),
        batches=batches_words(need.batches),
        amount=keyed(context.amounts.shown(need.amount_shown), f"n-{number}"),
        green=keyed(context.amounts.shown(need.green_weight_shown), f"n-{number}-green"),
        meat=need.meat_name,
        by_way_of=tuple(context.link_to(page, slug) for slug in need.path[1:-1]),
    )


def taker_views(context: Context, page: str, recipe: ComputedRecipe) -> tuple[TakerView, ...]:
    """Every dish that takes from this recipe, by name."""
    takers = tuple(_taker(context, page, recipe, used) for used in recipe.used_by)
    return tuple(sorted(takers, key=lambda taker: (taker.link.text.casefold(), taker.link.href)))


def _taker(context: Context, page: str, recipe: ComputedRecipe, used: UsedBy) -> TakerView:
    makes = recipe.recipe.makes
    amount = context.amounts.made(makes.quantity.times(used.batches), makes.noun) if makes else None
    return TakerView(
        link=context.link_to(page, used.dish), batches=batches_words(used.batches), amount=amount
    )


def keep_views(recipe: ComputedRecipe) -> tuple[KeepView, ...]:
    """Fridge, freezer and shelf, as written."""
    return tuple(
        KeepView(place=PLACES.get(keep.place, keep.place.capitalize()), time=keep.written)
        for keep in recipe.recipe.keep
    )
