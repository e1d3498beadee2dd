"""What lies in the pot in, where the salt starts and where it ends out: the balance comes before the kinetics.

All levels are relative to the even level, the one at which meat and brine would come to rest:

    even level = (salt of bath + salt of pump) / (water of bath + water of meat)   [g salt per g water]

Sugar counts only as weight of the brine that is injected. Nitrite has the same balance with its own weights.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.compute.transfer.diffuse import Boundary, Limited, Reservoir
from generator.compute.transfer.parameters import Parameters
from generator.problems import OutOfRange

INFINITE = float("inf")
MOST_PUMP = 0.5
"Of the green weight: above it nothing stays in. Source: house choice."


@dataclass(frozen=True, slots=True, kw_only=True)
class CoverBrine:
    """Meat under a brine of a given weight."""

    meat_g: float
    water_g: float
    salt_g: float
    "All salt, that of the curing salt with it."
    sugar_g: float = 0.0
    nitrite_g: float | None = None
    "Asked for only where the pump is a separate brine."


@dataclass(frozen=True, slots=True, kw_only=True)
class DryCure:
    """Meat rubbed with a weighed cure."""

    salt_share: float
    "Of the green weight, that of the curing salt with it."
    nitrite_share: float | None = None
    "Asked for only where the meat is pumped too."


@dataclass(frozen=True, slots=True, kw_only=True)
class PumpBrine:
    """A separately mixed brine for the needle; only its ratios count."""

    water_g: float
    salt_g: float
    sugar_g: float = 0.0
    nitrite_g: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pump:
    """Brine injected before the cure."""

    share: float
    "Of the green weight."
    along_bone: bool = False
    pitch_mm: float | None = None
    "Distance between stitches; None: not told, the table's range is taken."
    brine: PumpBrine | None = None
    "None: drawn from the cover brine."


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """Start of one solute, levels relative to the even level."""

    even_level: float
    "g per g of water; for nitrite and salt alike."
    start: float
    "Mean level in the meat, from the pump."
    boundary: Boundary
    ratio: float
    "Water outside / water of the meat."
    meat_water: float
    "g per g of green weight, pumped water with it."


@dataclass(frozen=True, slots=True)
class _Amounts:
    """Per gram of green weight: water and solute inside and outside."""

    water_in: float
    solute_in: float
    water_out: float
    solute_out: float


def salt_balance(
    cure: CoverBrine | DryCure, pump: Pump | None, parameters: Parameters, *, case: str
) -> Balance:
    """Where salt starts and ends, in one case of the parameters.

    Cover brine: a bath of its own size. Dry cure: a film of at most 0.36 g salt per g water in the exuded brine
    until the salt is gone. What the needle brings starts inside; what leaks out again joins the bath or the film.
    Weights in g; levels in g per g of water. Valid for: brines up to saturation, pumps up to half the green weight.
    Raises OutOfRange outside. Source: conservation of salt and water; saturation by the table.
    Example (derived): 2 kg meat (72 % water), 2 kg water, 150 g salt: even level 0.0436, 3.0 % salt in the meat.
    """
    amounts = _amounts(cure, pump, parameters, case, salt=True)
    saturation = parameters.saturation.of(case)
    even = (amounts.solute_in + amounts.solute_out) / (amounts.water_in + amounts.water_out)
    if isinstance(cure, CoverBrine):
        return _balance(amounts, even)
    even = min(even, saturation)  # no brine in the meat is stronger, however much salt lies outside
    film = Reservoir(
        amount=amounts.solute_out / amounts.water_in / even,
        ratio=amounts.water_out / amounts.water_in,
        saturation=saturation / even,
    )
    if amounts.solute_out > saturation * amounts.water_out:
        return _balance(amounts, even, film)
    return _balance(amounts, even)


def nitrite_balance(
    cure: CoverBrine | DryCure, pump: Pump | None, parameters: Parameters, *, case: str
) -> Balance | None:
    """Where nitrite starts and ends, without loss; None where its weights would be needed and were not told.

    In one brine, pumped or not, nitrite and salt stand in one ratio and its weight does not matter. In a dry cure
    all of it dissolves in the exuded brine at once: its weight is small against what the film can hold.
    Weights in g; levels in g per g of water. Source: conservation of nitrite and water.
    """
    if pump is not None and pump.brine is not None:
        outside = cure.nitrite_g if isinstance(cure, CoverBrine) else cure.nitrite_share
        if outside is None or pump.brine.nitrite_g is None or outside + pump.brine.nitrite_g <= 0:
            return None
        amounts = _amounts(cure, pump, parameters, case, salt=False)
    else:
        amounts = _amounts(cure, pump, parameters, case, salt=True)
    even = (amounts.solute_in + amounts.solute_out) / (amounts.water_in + amounts.water_out)
    return _balance(amounts, even)


def _balance(amounts: _Amounts, even: float, film: Reservoir | None = None) -> Balance:
    ratio = amounts.water_out / amounts.water_in
    bath = Limited(level=amounts.solute_out / amounts.water_out / even, ratio=ratio)
    return Balance(
        even_level=even,
        start=amounts.solute_in / amounts.water_in / even,
        boundary=film or bath,
        ratio=ratio,
        meat_water=amounts.water_in,
    )


def _amounts(
    cure: CoverBrine | DryCure, pump: Pump | None, parameters: Parameters, case: str, *, salt: bool
) -> _Amounts:
    _check(cure, pump, parameters.saturation.of(case))
    meat_water = parameters.meat_water.of(case)
    if isinstance(cure, CoverBrine):
        water = cure.water_g / cure.meat_g
        solute = (cure.salt_g if salt else cure.nitrite_g or 0.0) / cure.meat_g
    else:
        water = parameters.exudate.of(case)
        solute = cure.salt_share if salt else cure.nitrite_share or 0.0
    if pump is None:
        return _Amounts(meat_water, 0.0, water, solute)
    stays = parameters.pump_retained.of(case)
    pumped_water, pumped_solute = _pumped(cure, pump, salt)
    # drawn from the cover brine: that holds less by what stays in the meat
    leaks = -stays if pump.brine is None else 1.0 - stays
    return _Amounts(
        meat_water + stays * pumped_water,
        stays * pumped_solute,
        water + leaks * pumped_water,
        solute + leaks * pumped_solute,
    )


def _pumped(cure: CoverBrine | DryCure, pump: Pump, salt: bool) -> tuple[float, float]:
    """Water and solute that the needle brings, per gram of green weight."""
    brine = pump.brine or cure
    assert not isinstance(brine, DryCure)
    whole = brine.water_g + brine.salt_g + brine.sugar_g
    solute = brine.salt_g if salt else brine.nitrite_g or 0.0
    return pump.share * brine.water_g / whole, pump.share * solute / whole


def _check(cure: CoverBrine | DryCure, pump: Pump | None, saturation: float) -> None:
    if isinstance(cure, DryCure):
        if not 0 < cure.salt_share <= 1:
            raise OutOfRange(f"the salt of a dry cure is a share of the meat, not {cure.salt_share}")
    else:
        _check_brine(cure, saturation)
        if not 0 < cure.meat_g < INFINITE:
            raise OutOfRange(f"the meat must weigh something, not {cure.meat_g} g")
    if pump is not None:
        _check_pump(cure, pump, saturation)


def _check_brine(brine: CoverBrine | PumpBrine, saturation: float) -> None:
    if not (0 < brine.water_g < INFINITE and 0 < brine.salt_g < INFINITE and 0 <= brine.sugar_g < INFINITE):
        raise OutOfRange("a brine must hold some water and some salt")
    if brine.salt_g > saturation * brine.water_g:
        raise OutOfRange(f"{brine.salt_g} g of salt do not dissolve in {brine.water_g} g of water")


def _check_pump(cure: CoverBrine | DryCure, pump: Pump, saturation: float) -> None:
    if not 0 < pump.share <= MOST_PUMP:
        raise OutOfRange(f"a pump is above 0 and up to {MOST_PUMP:g} of the meat, not {pump.share:g}")
    if pump.pitch_mm is not None and not 5 <= pump.pitch_mm <= 100:
        raise OutOfRange(f"stitches are 5 to 100 mm apart, not {pump.pitch_mm}")
    if pump.brine is not None:
        _check_brine(pump.brine, saturation)
    elif isinstance(cure, DryCure):
        raise OutOfRange("with a dry cure the brine for the pump must be told")
    elif pump.share * cure.meat_g >= cure.water_g + cure.salt_g + cure.sugar_g:
        raise OutOfRange("the pump takes all of the cover brine")
