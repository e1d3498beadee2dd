"""Stage 3: a book in, a computed book out. Pure: no files, no clock, no environment; tables are passed in."""

from generator.compute.recipe import Kitchen, compute_book, compute_recipe
from generator.compute.safety import judge_text
from generator.compute.scale.wish import NotScalable, Wish

__all__ = ["Kitchen", "NotScalable", "Wish", "compute_book", "compute_recipe", "judge_text"]
