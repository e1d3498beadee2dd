"""The size of a label, a paper and an offset in, where each label stands on its sheet out [mm]; or why it cannot.

The grid is as large as the paper allows and stands in its middle; the offset moves all of it, for a printer that
pulls its paper askew.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

PAPERS = {"a4": (Fraction(210), Fraction(297)), "letter": (Fraction("215.9"), Fraction("279.4"))}
"[mm] Source: ISO 216, A4; ANSI/ASME Y14.1, size A (8 1/2 by 11 in)."
MOST_LABELS = 500
"Source: house choice: more bags than a family packs in a day are a slip of the finger."
PADDING_MM = Fraction(2)
"Free space inside the edge of a label. Source: house choice."
UNPRINTED_MM = Fraction(5)
"What a home printer leaves white at the edge of the paper. Source: common practice, no source."

Pair = tuple[Fraction, Fraction]


class LabelError(ValueError):
    """Labels that cannot be printed: what is wrong, and what to do."""

    def __init__(self, option: str, message: str, hint: str = "") -> None:
        super().__init__(f"{option}: {message} {hint}".strip())


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelGrid:
    """A sheet of labels [mm]: the left edge of every column, the upper edge of every row."""

    paper: str
    paper_size: Pair
    size: Pair
    columns: tuple[Fraction, ...]
    rows: tuple[Fraction, ...]
    padding: Pair
    "Left and right, above and below: more where a label lies at the edge of the paper."

    @property
    def a_sheet(self) -> int:
        """Labels on one sheet."""
        return len(self.columns) * len(self.rows)

    @property
    def inner(self) -> Pair:
        """Width and height of what can be printed on."""
        width, height = (side - 2 * pad for side, pad in zip(self.size, self.padding, strict=True))
        return width, height


def label_grid(*, size: Pair, gap: Pair, offset: Pair, paper: str) -> LabelGrid:
    """Raises LabelError where not one label fits, and where the offset pushes labels off the paper."""
    sides = PAPERS[paper]
    columns, rows = (
        _places(side, length, between, shift, paper)
        for side, length, between, shift in zip(sides, size, gap, offset, strict=True)
    )
    return LabelGrid(
        paper=paper,
        paper_size=sides,
        size=size,
        columns=columns,
        rows=rows,
        padding=(_padding(columns, size[0], sides[0]), _padding(rows, size[1], sides[1])),
    )


def _places(
    side: Fraction, length: Fraction, gap: Fraction, shift: Fraction, paper: str
) -> tuple[Fraction, ...]:
    """Where labels begin along one side of the paper."""
    count = (side + gap) // (length + gap)
    if count < 1:
        message = f"a label of {_mm(length)} does not fit on {_mm(side)} of {paper} paper."
        raise LabelError("--label-size", message)
    taken = count * length + (count - 1) * gap
    first = (side - taken) / 2 + shift
    if first < 0 or first + taken > side:
        message = f"{_mm(shift)} push labels off the paper; {_mm((side - taken) / 2)} are free on that side."
        raise LabelError("--label-offset", message)
    return tuple(first + number * (length + gap) for number in range(int(count)))


def _padding(places: tuple[Fraction, ...], length: Fraction, side: Fraction) -> Fraction:
    margin = min(places[0], side - places[-1] - length)
    return max(PADDING_MM, UNPRINTED_MM - margin)


def _mm(length: Fraction) -> str:
    return f"{float(length):g} mm"
