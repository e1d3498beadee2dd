"""Stage 4: a computed book and a theme in, the pages of a site out. Reads no file but the theme's."""

from __future__ import annotations

from generator.render.site import PAGE_KINDS, PageKind, render_book, render_sheet
from generator.render.theme import Theme, load_theme

__all__ = ["PAGE_KINDS", "PageKind", "Theme", "load_theme", "render_book", "render_sheet"]
