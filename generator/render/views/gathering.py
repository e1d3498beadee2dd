"""A plan in, the page of its gathering and its list to fetch by out: what cannot be met first, then what is made."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from generator.model.plan import Making, Plan
from generator.model.quantity import Span
from generator.model.results import JudgedText
from generator.render import paths, plans
from generator.render.amounts import AmountView
from generator.render.cautions import BoxView, box_ids, text_box_views
from generator.render.context import TAKEN, Context, LinkView
from generator.render.plan_figure import PlanFigure, plan_figure
from generator.render.prose import Prose
from generator.render.views.weigh import FigureView, WeighView, weigh_view
from generator.render.yields import batches_words, makes_view, servings_words

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
class PlanView(plans.PlanTold):
    """What every page of a gathering can show of its plan."""

    title: str
    description: str
    whole: str
    "Link to the gathering's page; empty where a page stands alone."


@dataclass(frozen=True, slots=True, kw_only=True)
class MakingView:
    """One recipe made for the gathering. Empty strings where there is nothing to tell."""

    making: Making
    own_page: LinkView
    "The recipe as written."
    batches: str
    servings: str
    makes: AmountView | None
    weight: AmountView | None
    green: AmountView | None
    on_hand: str
    extra: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CureView:
    """What is weighed for one cure, or why nothing is."""

    recipe: LinkView
    weigh: WeighView
    figures: tuple[FigureView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GatheringView(PlanView):
    """A gathering's page."""

    plate: str
    guests: str
    makings: tuple[MakingView, ...]
    cures: tuple[CureView, ...]
    figure: PlanFigure | None
    boxes: tuple[BoxView, ...]
    "What its own text tells that is dangerous."
    body: Markup
    sheets: tuple[LinkView, ...]
    "Its other pages; none where the page stands alone."


def gathering_view(context: Context, plan: Plan) -> GatheringView:
    """Everything that the page of a gathering says; what is made for it leads to its card."""
    one, clock = plan.invited.gathering, plans.plan_clock(plan)
    served = f"{clock.date(one.serve_at)}, {clock.time(one.serve_at)}"
    prose = Prose(context=context, file=one.file)
    text = context.computed.texts.get(one.slug, JudgedText(gathering=one))
    return GatheringView(
        title=one.name,
        description=one.summary or f"{one.name}: {served}, {plans.guest_count(one.guests)}.",
        plan=plan,
        whole="",
        plate=context.plate_for(tuple(making.recipe for making in plan.makings)),
        guests=plans.guests_words(one.guests),
        makings=tuple(_making(context, making) for making in plan.makings),
        cures=_cures(context, plan),
        figure=plan_figure(plan, clock),
        boxes=text_box_views(text),
        body=prose.html(one.body.text, top=3, taken=TAKEN | IDS | box_ids(text)),
        sheets=() if context.is_sheet else _sheets(context, one.slug),
    )


def fetch_view(context: Context, plan: Plan) -> PlanView:
    """The shopping and gathering list as a page for paper."""
    one = plan.invited.gathering
    return PlanView(
        title=f"{one.name}: what to fetch",
        description=f"What to fetch and to buy for {one.name}, by place.",
        plan=plan,
        whole=context.href(paths.gathering_path(one.slug)),
    )


def _sheets(context: Context, slug: str) -> tuple[LinkView, ...]:
    return (
        LinkView(text="Wall sheet", href=context.href(paths.wall_path(slug))),
        LinkView(text="What to fetch, on paper", href=context.href(paths.list_path(slug))),
        LinkView(text="Calendar file", href=context.href(paths.calendar_path(slug))),
    )


def _making(context: Context, making: Making) -> MakingView:
    amounts = context.amounts
    has_page = making.recipe.recipe.file in context.files
    own = context.href(paths.recipe_path(making.slug)) if has_page else ""
    return MakingView(
        making=making,
        own_page=LinkView(text="as written", href=own),
        batches=batches_words(making.batches) if making.batches else "none",
        servings=servings_words(making.servings),
        makes=makes_view(amounts, making.recipe) if making.batches else None,
        weight=amounts.weight(making.amount_g) if making.amount_g and making.batches else None,
        green=amounts.weight(Span.of(making.green_weight_g)) if making.green_weight_g else None,
        on_hand=batches_words(making.on_hand) if making.on_hand else "",
        extra=batches_words(making.extra) if making.extra else "",
    )


def _cures(context: Context, plan: Plan) -> tuple[CureView, ...]:
    """Each cure that is mixed for the gathering."""
    found = []
    for making in plan.makings:
        weigh = weigh_view(context, making.recipe)
        if weigh is not None and making.batches:
            figures = tuple(one for one in weigh.figures if one.label in FIGURES and one.value)
            found.append(CureView(recipe=context.link_to(making.slug), weigh=weigh, figures=figures))
    return tuple(found)
