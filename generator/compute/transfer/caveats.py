"""What an estimate of reach takes for granted in, sentences to print beside it out."""

from __future__ import annotations

from generator.compute.transfer.balance import CoverBrine, DryCure, Pump
from generator.compute.transfer.geometry import Piece

NITRITE = (
    "Nitrite is used up by the meat on its way, and lags behind the salt; "
    "a pink middle says little about its amount."
)
"Left out where a cure has none."
ALWAYS = (
    "An estimate for planning, in days, not in hours; a published rule that asks for longer prevails.",
    "It takes the meat as even, lean and raw, without brine channels, and counts no tumbling or vacuum.",
    "It takes the cold as constant, and that nothing spoils before the cure arrives.",
    "Its range comes from measurements on domestic pork and beef; none were found for game.",
    "Faces that touch each other or the pot take up less than it says.",
    NITRITE,
)
"Stand beside every estimate. Source: assumptions of the model."
UNTOLD = "It was not told whether {what}; the low case takes it as {taken}."


def caveats_for(
    piece: Piece, cure: CoverBrine | DryCure, pump: Pump | None, frozen_before: bool | None
) -> tuple[str, ...]:
    """Sentences for one estimate, the general ones first."""
    return (*ALWAYS, *_of_piece(piece, frozen_before), *_of_cure(cure), *_of_pump(pump))


def _of_piece(piece: Piece, frozen_before: bool | None) -> list[str]:
    found = []
    if any(cover is True for cover in piece.covers):
        found.append("A covered side (skin, silverskin or bone) counts as sealed, but in the high case.")
    for cover, name in ((piece.skin_on, "skin"), (piece.silverskin_on, "silverskin")):
        if cover is None:
            found.append(UNTOLD.format(what=f"the {name} is on", taken="on and sealed"))
    if piece.bone_in is None and piece.shape == "slab":
        found.append(UNTOLD.format(what="a bone is in", taken="in, along one side"))
    if frozen_before is None:
        found.append(UNTOLD.format(what="the meat was frozen before", taken="fresh, which is slower"))
    return found


def _of_cure(cure: CoverBrine | DryCure) -> list[str]:
    if isinstance(cure, CoverBrine):
        return ["It takes the brine as stirred now and then, and all round the piece."]
    return [
        "It takes the cure as rubbed over every bare face, and what it draws out as staying with the meat."
    ]


def _of_pump(pump: Pump | None) -> list[str]:
    if pump is None:
        return []
    found = ["Injected brine stays in pockets at first; the spot farthest from the needle is what counts."]
    if pump.pitch_mm is None:
        found.append("How far apart the stitches were was not told; it takes 50, 30 and 20 mm.")
    if pump.along_bone:
        found.append(
            "Only the high case counts the line of brine along the bone as a second side to come from."
        )
    return found
