"""Thawing by each way: fridge, cold water, microwave, counter, warm water; each rule met, not met and not to be told."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.compute.safety.course import check, recipe

ROAST = "roast: 2 h at 325 °F to 165 °F inside"
FISH = "animal: trout; cut: fillet"


@pytest.mark.parametrize(("file", "target"), [("Trout", "Trout.md"), ("trout", "tr%6Fut.md")])
def test_a_component_is_seen_however_its_link_is_written(tmp_path: Path, file: str, target: str) -> None:
    packed = recipe("pack: vacuum", "freeze", meat=FISH, keep="freezer: 2 months", name="Trout", eat=True)
    dish = recipe("thaw: in the fridge", ROAST, meat="", lines=(f"1 [trout]({target})",))
    said = check(tmp_path, dish, **{file: packed})
    assert "Trout comes vacuum-packed" in said.boxes["thaw-vacuum-fish"]["because"]
