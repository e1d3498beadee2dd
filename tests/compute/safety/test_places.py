"""Every place of the table is of one warmth, so that no new one is forgotten. House choice; hazards of a place by its words."""

from __future__ import annotations

from generator.compute.safety.facts.places import COLD, HOT, IN_WATER, ROOM, UNTOLD, VESSELS
from generator.tables import load_tables


def test_each_place_is_of_one_warmth() -> None:
    words = sorted({place.word for place in load_tables().place_names.values()})
    assert words == sorted([*COLD, *HOT, *IN_WATER, *ROOM, *UNTOLD, *VESSELS])
