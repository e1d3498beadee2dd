"""A plan in, the page of its gathering as strings out: what cannot be met first, then what is made, when and of what."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from generator.model.plan import Making, Plan
from generator.model.quantity import Span
from generator.render import paths
from generator.render.amounts import AmountView
from generator.render.context import TAKEN, Context, LinkView
from generator.render.plan_figure import PlanFigure, plan_figure
from generator.render.plan_words import guest_count, guests_words, plan_clock, servings_words
from generator.render.prose import render_prose
from generator.render.views.days import DayView, day_views
from generator.render.views.fetch import PlaceView, place_views
from generator.render.views.weigh import FigureView, WeighView, weigh_view
from generator.render.views.yields import batches_words, makes_view

FIGURES = (
    "Ingoing nitrite",
    "Entered by the last day",
    "If left until even",
    "By the spoon",
    "Ingoing nitrate",
    "Limit",
)
"Figures of a cure that stand beside its weights here; the rest are on its card."

IDS = frozenset({"plan-strip", "plan-title", "plan-description", "plan-night"})
"Ids of the page around the notes."


@dataclass(frozen=True, slots=True, kw_only=True)
class ProblemView:
    """What cannot be met, or wants a look, in plain words."""

    message: str
    hint: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DishView:
    """A dish on the table."""

    recipe: LinkView
    servings: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MakingView:
    """One recipe made for the gathering. Empty strings where there is nothing to tell."""

    recipe: LinkView
    own_page: LinkView
    "The recipe as written."
    batches: str
    servings: str
    makes: AmountView | None
    weight: AmountView | None
    green: AmountView | None
    on_hand: str
    extra: str
    used_by: tuple[LinkView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CureView:
    """What is weighed for one cure, or why nothing is."""

    recipe: LinkView
    weigh: WeighView
    figures: tuple[FigureView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GatheringView:
    """A gathering's page."""

    title: str
    description: str
    summary: str
    plate: str
    when: str
    zone: str
    guests: str
    count: str
    errors: tuple[ProblemView, ...]
    warnings: tuple[ProblemView, ...]
    dishes: tuple[DishView, ...]
    makings: tuple[MakingView, ...]
    cures: tuple[CureView, ...]
    days: tuple[DayView, ...]
    figure: PlanFigure | None
    places: tuple[PlaceView, ...]
    notes: tuple[str, ...]
    body: Markup
    wall: str
    list: str
    calendar: str
    "Links to its other pages; empty where the page stands alone."


def gathering_view(context: Context, page: str, plan: Plan) -> GatheringView:
    """Everything that the page of a gathering says; what is made for it leads to its card."""
    one, clock = plan.invited.gathering, plan_clock(plan)
    when = f"{clock.date(one.serve_at)}, {clock.time(one.serve_at)}"
    return GatheringView(
        title=one.name,
        description=one.summary or f"{one.name}: {when}, {guest_count(one.guests)}.",
        summary=one.summary,
        plate=context.plate_for(tuple(making.recipe for making in plan.makings)),
        when=when,
        zone=clock.zone,
        guests=guests_words(one.guests),
        count=guest_count(one.guests),
        **problem_views(plan),
        dishes=_dishes(context, page, plan),
        makings=tuple(_making(context, page, making) for making in plan.makings),
        cures=cure_views(context, page, plan),
        days=day_views(context, page, plan, clock),
        figure=plan_figure(plan, clock),
        places=place_views(context, page, plan),
        notes=plan.notes,
        body=render_prose(context, one.body.text, page=page, file=one.file, top=3, taken=TAKEN | IDS),
        wall=context.href(page, paths.wall_path(one.slug)),
        list=context.href(page, paths.list_path(one.slug)),
        calendar=context.href(page, paths.calendar_path(one.slug)),
    )


def problem_views(plan: Plan) -> dict[str, tuple[ProblemView, ...]]:
    """`errors`: what cannot be met; `warnings`: what wants a look."""
    views = [(one.is_error, ProblemView(message=one.message, hint=one.hint)) for one in plan.problems]
    return {
        "errors": tuple(view for is_error, view in views if is_error),
        "warnings": tuple(view for is_error, view in views if not is_error),
    }


def _dishes(context: Context, page: str, plan: Plan) -> tuple[DishView, ...]:
    return tuple(
        DishView(recipe=context.link_to(page, making.slug), servings=servings_words(making.servings))
        for making in plan.makings
        if making.servings is not None
    )


def _making(context: Context, page: str, making: Making) -> MakingView:
    amounts = context.amounts
    recipe = making.recipe.recipe
    own = context.href(page, paths.recipe_path(making.slug)) if recipe.file in context.files else ""
    return MakingView(
        recipe=context.link_to(page, making.slug),
        own_page=LinkView(text="as written", href=own),
        batches=batches_words(making.batches) if making.batches else "none",
        servings=servings_words(making.servings),
        makes=makes_view(context, making.recipe) if making.batches else None,
        weight=amounts.weight(making.amount_g) if making.amount_g and making.batches else None,
        green=amounts.weight(Span.of(making.green_weight_g)) if making.green_weight_g else None,
        on_hand=batches_words(making.on_hand) if making.on_hand else "",
        extra=batches_words(making.extra) if making.extra else "",
        used_by=tuple(context.link_to(page, slug) for slug in making.used_by),
    )


def cure_views(context: Context, page: str, plan: Plan) -> tuple[CureView, ...]:
    """Each cure that is mixed for the gathering."""
    found = []
    for making in plan.makings:
        weigh = weigh_view(context, page, making.recipe)
        if weigh is not None and making.batches:
            figures = tuple(one for one in weigh.figures if one.label in FIGURES and one.value)
            found.append(CureView(recipe=context.link_to(page, making.slug), weigh=weigh, figures=figures))
    return tuple(found)
