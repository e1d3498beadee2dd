"""Ingredient lines at a scale in, computed lines out: scaled, weighed, shown, and marked where scaling is not all."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.weight.measures import Weighed, is_liquid, weigh_measures
from generator.model.book import BookConfig
from generator.model.quantity import Dimension, Quantity, Span
from generator.model.recipe import Ingredient, Recipe, Stage
from generator.model.results import CHECK_BEYOND, ComputedLine, Shown
from generator.model.shown import SYSTEMS, Shower
from generator.tables import Tables


def compute_line(
    line: Ingredient, batches: Fraction, tables: Tables, config: BookConfig, shower: Shower
) -> ComputedLine:
    """One ingredient line at a scale. A fixed line and a vague amount stay as written."""
    if line.quantity is None:
        return ComputedLine(ingredient=line, scaled=None, grams=None, millilitres=None, shown=None)
    scaled = line.quantity.times(line.batches(batches))
    second = [one.quantity.times(line.batches(batches)) for one in line.second]
    weighed = None if scaled.is_vague else _weigh(line, scaled, tables, config)
    check = _check(line, tables)
    return ComputedLine(
        ingredient=line,
        scaled=scaled,
        grams=weighed.grams if weighed else None,
        millilitres=scaled.total(Dimension.VOLUME),
        shown=Shown(**{system: shower.weighed_out(scaled, system) for system in SYSTEMS})
        if line.is_weighed_out
        else show_line(scaled, weighed.grams if weighed else None, line.name, tables, shower),
        second=tuple(
            (one, Shown(**{system: shower.line(one, system) for system in SYSTEMS})) for one in second
        ),
        check=check if batches > CHECK_BEYOND else "",
        check_beyond=check,
        weighed_in_metric=weighed is not None and _weighs(scaled, line.name, tables),
        weight_source=weighed.source if weighed else "",
    )


def weigh_line(line: Ingredient, tables: Tables, config: BookConfig) -> Span | None:
    """The weight [g] of a line as written, or None."""
    if line.quantity is None or line.quantity.is_vague:
        return None
    weighed = _weigh(line, line.quantity, tables, config)
    return weighed.grams if weighed else None


def _weigh(line: Ingredient, scaled: Quantity, tables: Tables, config: BookConfig) -> Weighed | None:
    """Weighed by name and preparation together first: a cup of chopped onions is not a cup of sliced ones."""
    for name in (f"{line.name}, {line.preparation}", line.name):
        weighed = weigh_measures(scaled, name, tables, config.house_weights)
        if weighed is not None:
            return weighed
    return None


def show_line(scaled: Quantity, grams: Span | None, name: str, tables: Tables, shower: Shower) -> Shown:
    """In each system: as that kitchen measures it. A metric kitchen weighs what is dry and of known weight."""
    shown = {system: shower.line(scaled, system) for system in SYSTEMS}
    written_in_metric = bool(scaled.written) and all(
        measure.unit.system == "metric" for measure in scaled.measures
    )
    if grams is not None and not written_in_metric and _weighs(scaled, name, tables):
        shown["metric"] = shower.base(grams, use="ingredient weight", system="metric")
    return Shown(**shown)


def _weighs(scaled: Quantity, name: str, tables: Tables) -> bool:
    """A metric kitchen weighs what is dry, where others measure it."""
    by_volume = scaled.dimension is Dimension.VOLUME and not scaled.alternative
    return by_volume and not is_liquid(name, tables)


def _check(line: Ingredient, tables: Tables) -> str:
    """Why a line wants a second look beyond twice the recipe; it is scaled all the same."""
    # A share holds at every scale: a ferment with part of its salt would spoil.
    if line.share is not None and not line.fixed:
        return ""
    if line.fixed:
        return "Does not scale; check whether it should."
    if line.quantity is not None and line.quantity.is_vague and any(map(str.isdigit, line.quantity.vague)):
        return "So much to each, whatever is made of it."
    if line.quantity is not None and line.quantity.is_vague:
        return "Stays as written; check by taste."
    return tables.scaling_check(line.name)


def check_stages(recipe: Recipe, tables: Tables) -> tuple[str, ...]:
    """For each stage, why its time or pan wants a second look beyond twice the recipe."""
    return tuple(_check_stage(stage, tables) for stage in recipe.stages)


def _check_stage(stage: Stage, tables: Tables) -> str:
    if not tables.stages.get(stage.name, False):
        return ""
    if stage.place in ("pan", "pot", "oven"):
        return "Check the time, and keep the depth: more or wider pans, not a deeper one."
    return "Check the time." if stage.minutes is not None else ""
