"""One computed recipe in, a page that stands alone out: its own sheet, its smoker's sheet, its labels for bags.

A plan in, all pages of its gathering in one document out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.model.moment import StageTime
from generator.model.plan import Plan
from generator.model.results import ComputedBook, ComputedRecipe
from generator.render import paths
from generator.render.bind import matter_of, with_own_ids
from generator.render.context import Context, LinkView, make_context
from generator.render.label_grid import LabelGrid
from generator.render.templates import fill_template, make_environment
from generator.render.theme import Theme
from generator.render.views.bound import BoundView
from generator.render.views.fetch import fetch_view
from generator.render.views.gathering import gathering_view
from generator.render.views.labels import labels_view
from generator.render.views.recipe import recipe_view
from generator.render.views.shell import View, set_in, shell_view, style_sum
from generator.render.views.smoker import smoker_view
from generator.render.views.wall import wall_view
from generator.tables import Tables


def render_sheet(
    recipe: ComputedRecipe, computed: ComputedBook, *, tables: Tables, theme: Theme, units: str
) -> str:
    """One recipe at its scale: styles set in, no links to pages it does not have."""
    context = make_context(computed, tables=tables, theme=theme, sheet_units=units)
    page = paths.recipe_path(recipe.recipe.slug)
    view = recipe_view(context, page, recipe)
    shell = shell_view(context, page, view)
    return fill_template(make_environment(theme), "recipe", shell=shell, view=view)


def render_smoker(
    recipe: ComputedRecipe,
    computed: ComputedBook,
    *,
    tables: Tables,
    theme: Theme,
    units: str,
    times: Sequence[StageTime] = (),
) -> str | None:
    """The smoker's sheet of a cured recipe at its scale; None for one without a cure."""
    context = make_context(computed, tables=tables, theme=theme, sheet_units=units)
    page = paths.smoker_path(recipe.recipe.slug)
    view = smoker_view(context, page, recipe, times)
    if view is None:
        return None
    shell = shell_view(context, page, view, also=("smoker.css",))
    return fill_template(make_environment(theme), "smoker", shell=shell, view=view)


def render_labels(
    recipe: ComputedRecipe,
    computed: ComputedBook,
    *,
    tables: Tables,
    theme: Theme,
    units: str,
    grid: LabelGrid,
    count: int,
) -> str:
    """Sheets of labels. Raises LabelError for a number that cannot be meant, and for words that do not fit."""
    context = make_context(computed, tables=tables, theme=theme, sheet_units=units)
    view = labels_view(context, recipe, grid, count)
    style = set_in(theme, view.css, ("labels.css",))
    return fill_template(
        make_environment(theme),
        "labels",
        view=view,
        language=context.config.language,
        style=style,
        style_sum=style_sum(style),
    )


def render_gathering(plan: Plan, computed: ComputedBook, *, tables: Tables, theme: Theme, units: str) -> str:
    """A gathering in one document: its page, the wall sheet, the list, and a card for each recipe."""
    context = make_context(computed, tables=tables, theme=theme, plans=(plan,), sheet_units=units)
    environment = make_environment(theme)
    page = paths.gathering_path(plan.invited.gathering.slug)
    parts = []
    for number, (template, view) in enumerate(_parts_of(context, plan), start=1):
        html = fill_template(environment, template, shell=shell_view(context, page, view), view=view)
        parts.append(with_own_ids(matter_of(html), f"part-{number}-"))
    one = plan.invited.gathering
    bound = BoundView(title=one.name, description=one.summary or one.name, parts=tuple(parts))
    shell = shell_view(context, page, bound, also=("gathering.css", "wall.css"))
    return fill_template(environment, "bound", shell=shell, view=bound)


def _parts_of(context: Context, plan: Plan) -> Iterator[tuple[str, View]]:
    """Template and view of each page of a gathering, in the order in which they lie on the table."""
    one = plan.invited.gathering
    yield "gathering", gathering_view(context, paths.gathering_path(one.slug), plan)
    yield "wall", wall_view(context, paths.wall_path(one.slug), plan)
    yield "fetch", fetch_view(context, paths.list_path(one.slug), plan)
    for making in plan.makings:
        page = paths.card_path(one.slug, making.slug)
        yield "recipe", recipe_view(context, page, making.recipe, gathering=LinkView(text=one.name))
