"""A thick cure in, the box that tells to cut the thickest piece and look out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.pieces import thickness_in
from generator.compute.safety.facts.times import last_stage
from generator.model.recipe import Meat
from generator.model.results import Caution
from generator.model.shown import show_decimal
from generator.problems import ProblemLog
from generator.tables import Tables

THICK_IN = Fraction(2)
"Source: common practice, no source; from this thickness [in] a cure may leave its middle behind."
SMOKE = ("cold smoke",)
"Stages besides the heating ones after which a piece is packed. Source: words of the trade."


def grey_middle(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Met where a piece is thick or on the bone; where nobody told, it may be. Never for ground or sliced meat."""
    meat = facts.recipe.meat
    if facts.recipe.cure is None or meat is None or meat.form in ("ground", "sliced"):
        return []
    because = _thick(meat, tables)
    if not because:
        return []
    if not facts.nitrite:
        because += "; without a curing salt the meat is grey all through, so all of it is cooked through now"
    return [box("grey-middle", because, tables, stage=_where(facts, tables))]


def _thick(meat: Meat, tables: Tables) -> str:
    """Why a piece counts as thick; empty for one that does not."""
    thickness = thickness_in(meat, tables)
    if meat.bone == "in":
        return "the bone is in, and a cure may not have reached it"
    if thickness is None:
        return "the thickness is not told, and a thick piece may be cured outside only"
    if thickness >= THICK_IN:
        return (
            f"the piece is {show_decimal(thickness, places=2)} in thick; from {THICK_IN} in (5 cm) on the "
            "middle is looked at, by common practice"
        )
    return ""


def _where(facts: Facts, tables: Tables) -> int | None:
    """Beside the packing of a piece that was smoked or heated before it, else beside the last stage of the cure."""
    stages = facts.recipe.stages
    packed = last_stage(facts.recipe, ("pack",))
    if packed is not None and any(
        tables.stages.get(stage.name, False) or stage.name in SMOKE for stage in stages[:packed]
    ):
        return packed - 1  # the stage before: a piece is looked at, then packed
    return last_stage(facts.recipe, ("cure", "equalise"))
