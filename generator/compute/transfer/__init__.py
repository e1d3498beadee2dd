"""A piece of meat and its cure in, an estimate of how far salt has reached and of what a soak takes out."""

from generator.compute.transfer.balance import CoverBrine, DryCure, Pump, PumpBrine
from generator.compute.transfer.geometry import Piece
from generator.compute.transfer.parameters import Parameters, parameters_from
from generator.compute.transfer.reach import (
    EVEN,
    NOT_REACHED,
    UNCERTAIN,
    DayReach,
    Estimate,
    Point,
    Reach,
    ReachInput,
    estimate_reach,
    nitrite_means,
)
from generator.compute.transfer.soak import (
    PieceState,
    Soaked,
    rest,
    soak,
    state_after_cure,
    state_when_even,
)

__all__ = [
    "EVEN",
    "NOT_REACHED",
    "UNCERTAIN",
    "CoverBrine",
    "DayReach",
    "DryCure",
    "Estimate",
    "Parameters",
    "Piece",
    "PieceState",
    "Point",
    "Pump",
    "PumpBrine",
    "Reach",
    "ReachInput",
    "Soaked",
    "estimate_reach",
    "nitrite_means",
    "parameters_from",
    "rest",
    "soak",
    "state_after_cure",
    "state_when_even",
]
