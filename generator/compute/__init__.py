"""Stage 3: a book in, a computed book out. Pure: no files, no clock, no environment; tables are passed in."""

from generator.compute.recipe import Kitchen, compute_book, compute_recipe
from generator.compute.safety import judge_text
from generator.compute.scale.by_line import LineWish
from generator.compute.scale.not_scalable import NotScalable
from generator.compute.scale.wish import Wish

__all__ = ["Kitchen", "LineWish", "NotScalable", "Wish", "compute_book", "compute_recipe", "judge_text"]
