"""Stage 4: a computed book and a theme in, the pages of a site out. Reads no file but the theme's."""

from __future__ import annotations

from generator.render.context import make_context
from generator.render.label_grid import PAPERS, LabelError, label_grid
from generator.render.sheets import render_gathering, render_labels, render_sheet, render_smoker
from generator.render.site import PAGE_KINDS, PageKind, render_book
from generator.render.theme import Theme, ThemeError, load_theme

__all__ = [
    "PAGE_KINDS",
    "PAPERS",
    "LabelError",
    "PageKind",
    "Theme",
    "ThemeError",
    "label_grid",
    "load_theme",
    "make_context",
    "render_book",
    "render_gathering",
    "render_labels",
    "render_sheet",
    "render_smoker",
]
