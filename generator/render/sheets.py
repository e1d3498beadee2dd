"""One computed recipe in, a page that stands alone out: its own sheet, its smoker's sheet, its labels for bags."""

from __future__ import annotations

from collections.abc import Sequence

from generator.model.moment import StageTime
from generator.model.results import ComputedBook, ComputedRecipe
from generator.render import paths
from generator.render.context import make_context
from generator.render.label_grid import LabelGrid
from generator.render.templates import fill_template, make_environment
from generator.render.theme import Theme
from generator.render.views.labels import labels_view
from generator.render.views.recipe import recipe_view
from generator.render.views.shell import set_in, shell_view, style_sum
from generator.render.views.smoker import smoker_view
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
