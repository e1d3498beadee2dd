"""poisons.csv in; plants and fungi that poison, or are food only in part or after a treatment, out."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated

from generator.model.published import Cited
from generator.tables.csvfile import Shelf, never
from generator.tables.garden import KINDS

SIGNALS = {
    **{"X": "DANGER", "P": "DANGER", "FX": "DANGER", "FG+": "DANGER", "look-alike": "DANGER"},
    **{"T": "WARNING", "D": "WARNING", "FG": "WARNING", "FC": "WARNING", "ask": "WARNING"},
    **{"L": "CAUTION", "K": "CAUTION", "FA": "CAUTION", "FL": "CAUTION", "N": "NOTICE"},
}
"""By class. X no part is food; P one part is; T after treatment; D advised against; L a limit; K burns the skin; N for
babies; look-alike of a plant that kills; ask: one name of a food and of a poison. Fungi: FX deadly; FG poisonous, + with
the gravest; FC cooked through; FA not with alcohol; FL disputed."""
NEVER_FOOD = frozenset({"X", "FX", "FG", "FG+"})
CERTAINTIES = ("seen", "second-hand", "from memory")
STAGES = ("boil", "soak", "fry")


@dataclass(frozen=True, slots=True, kw_only=True)
class Poison(Cited):
    """A plant or fungus, and what a reader must know of it."""

    key: str
    row: str
    kind: str
    cls: Annotated[str, "class"]
    title: str
    says: str
    met: tuple[str, ...] = ()
    "Words of a part, state or product with which it is food."
    unmet: tuple[str, ...] = ()
    "Words with which it is not."
    stage: str = ""
    "The stage that makes it food, or nothing."
    minutes: Fraction | None
    "The least of that stage; None where no figure is published."
    plant: str = ""
    "The row of plants.csv whose rules it keeps, or nothing."
    certainty: str

    @property
    def signal(self) -> str:
        """DANGER, WARNING, CAUTION or NOTICE, by class."""
        return SIGNALS[self.cls]

    @property
    def is_never_food(self) -> bool:
        """True where no part and no treatment makes it food."""
        return self.cls in NEVER_FOOD


def read_poisons(shelf: Shelf, plants: Collection[str]) -> dict[str, Poison]:
    """By key. Raises TableError for a wrong row."""
    timeless = never("minutes without a stage", lambda row: row.minutes is not None and not row.stage)
    lists: dict[str, Collection[str]] = {
        **{"kind": KINDS, "class": SIGNALS, "stage": STAGES, "plant": plants, "certainty": CERTAINTIES}
    }
    return shelf.by("key", "poisons.csv", Poison, timeless, **lists)
