"""One computed recipe in, a page that stands alone out: its own sheet, its smoker's sheet, its labels for bags.

The context is that of a sheet, in its units.

A plan in, all pages of its gathering in one document out, where no id of one page meets that of another. Only our own
pages are bound, and their attributes are in double quotes, as the templates write them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from markupsafe import Markup

from generator.model.moment import StageTime
from generator.model.plan import Plan
from generator.model.results import ComputedRecipe
from generator.render import paths
from generator.render.context import Context, LinkView
from generator.render.label_grid import LabelGrid
from generator.render.theme import fill_template, make_environment
from generator.render.views.gathering import fetch_view, gathering_view
from generator.render.views.labels import labels_view
from generator.render.views.recipe import recipe_view
from generator.render.views.shell import View, fill_page, set_in, style_sum
from generator.render.views.smoker import smoker_view
from generator.render.views.wall import wall_view

NAMES = re.compile(r' (id|for|headers|aria-labelledby|aria-describedby)="([^"]*)"')
MATTER = re.compile(r'<main id="main" tabindex="-1">\n(.*)</main>', re.DOTALL)
TAG = re.compile(r"(<[^<>]*>)")
LINKS = re.compile(r'(href="#|fill="url\(#)([^")]*)')


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundView:
    """Several pages in one document."""

    title: str
    description: str
    parts: tuple[Markup, ...]


def render_sheet(context: Context, recipe: ComputedRecipe) -> str:
    """One recipe at its scale: styles set in, no links to pages it does not have."""
    at = context.at(paths.recipe_path(recipe.recipe.slug))
    return _alone("recipe", at, recipe_view(at, recipe))


def render_smoker(context: Context, recipe: ComputedRecipe, times: Sequence[StageTime] = ()) -> str | None:
    """The smoker's sheet of a cured recipe at its scale; None for one without a cure."""
    at = context.at(paths.smoker_path(recipe.recipe.slug))
    view = smoker_view(at, recipe, times)
    return None if view is None else _alone("smoker", at, view, "smoker.css")


def render_labels(context: Context, recipe: ComputedRecipe, grid: LabelGrid, count: int) -> str:
    """Sheets of labels. Raises LabelError for a number that cannot be meant, and for words that do not fit."""
    view = labels_view(context, recipe, grid, count)
    style = set_in(context.theme, view.css, ("labels.css",))
    return fill_template(
        make_environment(context.theme),
        "labels",
        view=view,
        language=context.config.language,
        style=style,
        style_sum=style_sum(style),
    )


def render_gathering(context: Context, plan: Plan) -> str:
    """A gathering in one document: its page, the wall sheet, the list, and a card for each recipe."""
    one = plan.invited.gathering
    at = context.at(paths.gathering_path(one.slug))
    parts = tuple(
        _with_own_ids(_matter_of(_alone(template, at, view)), f"part-{number}-")
        for number, (template, view) in enumerate(_parts_of(at, plan), start=1)
    )
    bound = BoundView(title=one.name, description=one.summary or one.name, parts=parts)
    return _alone("bound", at, bound, "gathering.css", "wall.css")


def _alone(template: str, at: Context, view: View, *also: str) -> str:
    """A page with its styles set in, the named style sheets behind those of every page."""
    return fill_page(make_environment(at.theme), template, at, view, also=also)


def _parts_of(at: Context, plan: Plan) -> Iterator[tuple[str, View]]:
    """Template and view of each page of a gathering, in the order in which they lie on the table."""
    yield "gathering", gathering_view(at, plan)
    yield "wall", wall_view(at, plan)
    yield "fetch", fetch_view(at, plan)
    for making in plan.makings:
        yield "recipe", recipe_view(at, making.recipe, gathering=LinkView(text=plan.invited.gathering.name))


def _with_own_ids(html: str, prefix: str) -> Markup:
    """A page's matter with the prefix before every id and before whatever names one."""
    pieces = TAG.split(html)
    return Markup("".join(_tag(piece, prefix) if piece.startswith("<") else piece for piece in pieces))


def _matter_of(page: str) -> str:
    """What stands between head and foot of a page. One without it is a bug and raises."""
    found = MATTER.search(page)
    assert found is not None, "a page has no main"
    return found[1]


def _tag(tag: str, prefix: str) -> str:
    tag = NAMES.sub(
        lambda match: f' {match[1]}="{" ".join(prefix + name for name in match[2].split())}"', tag
    )
    return LINKS.sub(lambda match: f"{match[1]}{prefix}{match[2]}", tag)
