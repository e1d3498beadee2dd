"""The shape of a piece and what covers it in, the way salt has to go out.

The way L is the greatest distance from any lean to the nearest open lean face. Weight says nothing about it.
What is taken, and why, always to the side on which salt arrives later:

* A slab is wetted on both broad faces, L = half its thickness; its edges are not counted on.
* A round is an endless cylinder, its ends not counted on; a lump is a sphere; L = half the thickness.
* Skin (with its fat) or silverskin lets through 100 to 10,000 times less than lean, so a covered face is sealed:
  L is then the whole thickness, from the open side through to the covered one. A covered round or lump is taken as
  such a slab, too, because its curved sides help only where they are bare.
* Two covers (skin on one side, silverskin on the other) leave no open face in the low case: nothing comes in
  there. In the central case the second cover is taken as open, since cut edges and gaps never close all round.
* Bone. In a slab it lies along one face (ribs, blade, plate) and seals it. In a round or a lump it lies in the
  middle, and its surface is where salt from all sides meets: no flux passes there anyway, the radius stays. The
  meat that the bone replaces is not taken off the way, although it makes it shorter.
* In the high case every face is open. A cover that was not told (None) is sealed in the low case alone.

Sources: skin and fat layer, Journal of Cookery Science Japan 25(4):283, 1992; fat as a barrier, Gallart-Jornet
et al. 2007; the rest is judgement.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.problems import OutOfRange

SHAPES = {"slab": 1, "round": 2, "lump": 3}
"Shapes of a piece, by the number of ways in which salt comes in."
MOST_MM = 300.0
"Thicker than any piece of game cured whole. Source: house choice."


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """The thickest piece of the batch. None: it was not told."""

    shape: str
    "slab, round, lump"
    thickness_mm: float
    "Whole thickness at the thickest part; of a round or a lump its diameter."
    bone_in: bool | None = False
    skin_on: bool | None = False
    silverskin_on: bool | None = False

    def __post_init__(self) -> None:
        if self.shape not in SHAPES:
            raise OutOfRange(f"a piece is a slab, a round or a lump, not '{self.shape}'")
        if not 0 < self.thickness_mm <= MOST_MM:
            raise OutOfRange(f"thickness must be above 0 and up to {MOST_MM:g} mm, not {self.thickness_mm:g}")

    @property
    def covers(self) -> tuple[bool | None, ...]:
        """What may seal a side, each True, False or None (not told)."""
        bone = (self.bone_in,) if self.shape == "slab" else ()
        return (self.skin_on, self.silverskin_on, *bone)


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """What the equations need of a piece."""

    shape: int
    "1 slab, 2 cylinder, 3 sphere"
    length_mm: float
    "L"
    is_open: bool = True
    "False: no open face is left, nothing comes in."


def way_of(piece: Piece, *, case: str) -> Way:
    """The way of a piece in the low, central or high case (see the head of this module for what is taken).

    Returns L [mm] and the shape to reckon with. Valid for: thickness above 0 up to 300 mm. Source: see the head.
    """
    sealed = _sealed_sides(piece, case)
    if sealed == 0:
        return Way(shape=SHAPES[piece.shape], length_mm=piece.thickness_mm / 2)
    return Way(shape=1, length_mm=piece.thickness_mm, is_open=sealed == 1)


def _sealed_sides(piece: Piece, case: str) -> int:
    told = sum(cover is True for cover in piece.covers)
    untold = sum(cover is None for cover in piece.covers)
    # above one sealed side no face is open; the central case takes one as open all the same (see the head)
    return {"low": told + untold, "central": min(1, told), "high": 0}[case]


def halved(way: Way, share: float) -> Way:
    """The way where brine was injected along the bone: L x share.

    A line of brine at the bone is a second face for the salt to come from, so the farthest lean lies midway, at
    L / 2 (share 0.5), and time falls fourfold. That holds only as long as the line stays as strong as the cover
    brine. A pump of 8 to 10 % of ordinary brine holds a tenth to a third of the even level, so the table gives
    0.5 to the high case alone; the other two count what was injected, and no more (share 1).
    """
    if not 0.5 <= share <= 1:
        raise OutOfRange(f"the way along the bone is from 0.5 to 1 of the whole, not {share}")
    return Way(shape=way.shape, length_mm=way.length_mm * share, is_open=way.is_open)


def farthest_mm(piece: Piece, *, along_bone: bool, pitch_mm: float | None) -> float:
    """Greatest distance [mm] from any lean to an open face or a line of injected brine, in the low case.

    Open faces: L, endless where no face is open. Along the bone: midway, L / 2. Stitches in a square pitch s: the
    middle of four is s / sqrt 2 away. The least of these counts. Source: geometry of a square.
    """
    way = way_of(piece, case="low")
    distances = [way.length_mm if way.is_open else float("inf")]
    if along_bone:
        distances.append(way.length_mm / 2)
    if pitch_mm is not None:
        distances.append(pitch_mm / 2**0.5)
    return min(distances)
