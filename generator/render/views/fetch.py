"""A plan in, its shopping and gathering list by place out: the part of a gathering's page, and a page of its own."""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.plan import Item, Plan
from generator.render import paths
from generator.render.amounts import AmountView
from generator.render.context import Context, LinkView
from generator.render.plan_words import PLACES, guest_count, plan_clock


@dataclass(frozen=True, slots=True, kw_only=True)
class ItemView:
    """One line."""

    name: str
    amount: AmountView | None
    needed_for: tuple[LinkView, ...]
    note: str
    sources: tuple[LinkView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceView:
    """What comes from one place."""

    title: str
    items: tuple[ItemView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FetchView:
    """The list as a page for paper."""

    title: str
    description: str
    name: str
    when: str
    guests: str
    gathering: str
    "Link to the gathering's page; empty where the list stands alone."
    places: tuple[PlaceView, ...]
    made: str


def place_views(context: Context, page: str, plan: Plan) -> tuple[PlaceView, ...]:
    """The places in the order in which one walks, others behind them; within one the order of the plan."""
    found: dict[str, list[Item]] = {place: [] for place in PLACES}
    for item in plan.shopping:
        found.setdefault(item.place, []).append(item)
    return tuple(
        PlaceView(
            title=PLACES.get(place, place.capitalize()),
            items=tuple(_item(context, page, item) for item in items),
        )
        for place, items in found.items()
        if items
    )


def _item(context: Context, page: str, item: Item) -> ItemView:
    return ItemView(
        name=item.name,
        amount=context.amounts.shown(item.shown),
        needed_for=tuple(context.link_to(page, slug) for slug in item.needed_for),
        note=item.note,
        sources=tuple(context.source_link(page, key) for key in item.sources),
    )


def fetch_view(context: Context, page: str, plan: Plan) -> FetchView:
    """The list alone."""
    gathering = plan.invited.gathering
    return FetchView(
        title=f"{gathering.name}: what to fetch",
        description=f"What to fetch and to buy for {gathering.name}, by place.",
        name=gathering.name,
        when=plan_clock(plan).date(gathering.serve_at),
        guests=guest_count(gathering.guests),
        gathering=context.href(page, paths.gathering_path(gathering.slug)),
        places=place_views(context, page, plan),
        made=f"From {context.config.title}.",
    )
