"""Rows of the transfer table in, the parameters of the estimates out: each with a slow, a central and a fast value.

The three values of a row go together: the low case takes the slow value of every row at once, the high case the
fast one, so that the range between them is wide on purpose.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, fields
from math import exp, inf, log

from generator.model.published import TransferRow

CASES = ("low", "central", "high")
"The cases of every estimate, from the one in which salt is slowest."
GAS_CONSTANT = 8.314462618e-3
"[kJ/(mol K)] Source: CODATA 2018, exact."
REFERENCE_K = 278.15
"5 degC, at which the diffusivities of the table hold."
ZERO_K = 273.15
"0 degC. Source: definition of the Celsius scale."
HALF_LIFE_AT_C = 4.0
"[degC] at which the half-lives of the table hold. Source: Nordin 1969 (from memory)."
MM2_PER_DAY = 1e6 * 86_400
"[mm2/day] in 1 m2/s."


@dataclass(frozen=True, slots=True, kw_only=True)
class Parameter:
    """One row of the transfer table."""

    key: str
    low: float
    central: float
    high: float
    unit: str
    source: str
    locator: str
    certainty: str
    "seen, second-hand, from memory, judgement"
    note: str = ""

    def of(self, case: str) -> float:
        """The value of one case: low, central or high."""
        return {"low": self.low, "central": self.central, "high": self.high}[case]


@dataclass(frozen=True, slots=True, kw_only=True)
class Parameters:
    """Every parameter of salt and nitrite in meat; units and sources are in the rows."""

    salt_diffusivity: Parameter
    nitrite_diffusivity: Parameter
    nitrite_half_life: Parameter
    nitrite_half_life_per_degree: Parameter
    activation_energy: Parameter
    freeze_thaw_factor: Parameter
    meat_water: Parameter
    exudate: Parameter
    saturation: Parameter
    needle_pitch: Parameter
    pump_retained: Parameter
    along_bone_way: Parameter
    nitrite_way: Parameter


def parameters_from(rows: Iterable[TransferRow]) -> Parameters:
    """Parameters from the rows of the table; a missing or doubled row is a bug and raises ValueError."""
    found: dict[str, Parameter] = {}
    wanted = {field.name for field in fields(Parameters)}
    for row in rows:
        if row.key in found or row.key not in wanted:
            raise ValueError(f"transfer table: row {row.key} stands twice or is not known")
        found[row.key] = _parameter(row)
    if wanted - found.keys():
        raise ValueError(f"transfer table: rows missing: {sorted(wanted - found.keys())}")
    return Parameters(**found)


def _parameter(row: TransferRow) -> Parameter:
    return Parameter(
        key=row.key,
        low=float(row.low),
        central=float(row.central),
        high=inf if row.high is None else float(row.high),
        unit=row.unit,
        source=row.source,
        locator=row.locator,
        certainty=row.certainty,
        note=row.note,
    )


def temperature_factor(*, temperature_c: float, activation_kj_mol: float) -> float:
    """How much faster than at 5 degC salt moves: exp(-Ea/R (1/T - 1/278.15 K)).

    Parameters: temperature_c [degC], activation_kj_mol [kJ/mol]. Returns a factor [1].
    Valid for: -1 to 15 degC, unfrozen meat. Errors: Ea is known only to 5 to 30 kJ/mol.
    Example (derived): 22 kJ/mol at 0 degC is 0.840.
    Source: Arrhenius; Ea by the viscosity of water.
    """
    inverse = 1 / (temperature_c + ZERO_K) - 1 / REFERENCE_K
    return exp(-activation_kj_mol / GAS_CONSTANT * inverse)


def diffusivity_mm2_day(
    solute: Parameter, parameters: Parameters, *, case: str, temperature_c: float, frozen: bool | None
) -> float:
    """D of a case [mm2/day]: D(5 C) x temperature factor x freeze-thaw factor.

    In the low case the temperature factor is the smaller of those by the two ends of Ea, in the high case the
    larger: below 5 degC these are the ends of the same name, above it they change places. `frozen` is whether the
    meat was frozen before; None is not told, and counts in the high case alone.
    """
    ends = [
        temperature_factor(temperature_c=temperature_c, activation_kj_mol=energy)
        for energy in (parameters.activation_energy.low, parameters.activation_energy.high)
    ]
    middle = temperature_factor(
        temperature_c=temperature_c, activation_kj_mol=parameters.activation_energy.central
    )
    factor = {"low": min(ends), "central": middle, "high": max(ends)}[case]
    if frozen or (frozen is None and case == "high"):
        factor *= parameters.freeze_thaw_factor.of(case)
    return solute.of(case) * MM2_PER_DAY * factor


def nitrite_loss_per_day(parameters: Parameters, *, case: str, temperature_c: float) -> float:
    """First-order loss of nitrite in the meat, k = ln 2 / half-life [1/day].

    The half-life of the table holds at 4 degC; above, log10 of it falls by the table's slope per degree; below it
    stays. Source: Nordin 1969 (from memory, not verified).
    """
    warmer = max(0.0, temperature_c - HALF_LIFE_AT_C)
    slope = parameters.nitrite_half_life_per_degree.of(case)
    half_life_days = parameters.nitrite_half_life.of(case) / 24 * 10 ** (-slope * warmer)
    return log(2) / half_life_days
