"""The boxes of all rules in, the boxes of a page out: one for each slug, the gravest first, then in the given order."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from generator.model.results import Caution
from generator.tables.words import SIGNALS


def merge(cautions: Iterable[Caution]) -> tuple[Caution, ...]:
    """Boxes with the same words are one box with all its reasons; sorting is stable: among equals the order given stands."""
    by_slug: dict[str, list[Caution]] = {}
    for caution in cautions:
        by_slug.setdefault(caution.slug, []).append(caution)
    boxes = (_together(same) for same in by_slug.values())
    return tuple(sorted(boxes, key=lambda box: SIGNALS.index(box.signal)))


def _together(same: list[Caution]) -> Caution:
    """One box for several: it stands where the earliest is needed, and what one of them cannot tell stays untold."""
    stages = [one.stage for one in same if one.stage is not None]
    return replace(
        same[0],
        because="; ".join(_each_once(one.because for one in same)),
        sources=_each_once(key for one in same for key in one.sources),
        stage=min(stages) if len(stages) == len(same) else None,
        missing=_each_once(key for one in same for key in one.missing),
        accepted="; ".join(_each_once(one.accepted for one in same)),
        causes=tuple(dict.fromkeys(cause for one in same for cause in one.causes)),
    )


def _each_once(words: Iterable[str]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(word for word in words if word))
