"""A cure with its weights, a piece and its days in, how far salt and nitrite have probably reached out.

Only ratios reach the estimate, each per gram of meat, so that every scale of a recipe asks the same question once.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from generator.compute.cure.amounts import transfer_parameters
from generator.compute.cure.formulas import PER_MILLION
from generator.compute.transfer import (
    CoverBrine,
    DryCure,
    Parameters,
    Piece,
    Point,
    Pump,
    PumpBrine,
    Reach,
    ReachInput,
    estimate_reach,
)
from generator.compute.transfer.balance import MOST_PUMP
from generator.compute.transfer.caveats import NITRITE
from generator.compute.transfer.course import LONGEST_DAYS
from generator.compute.transfer.geometry import MOST_MM
from generator.compute.transfer.reach import COLDEST_C, FRIDGE_C, WARMEST_C
from generator.model.quantity import Span, Temperature
from generator.model.results import CureResult, PumpBrineResult, ReachResult
from generator.model.shown import Shower, show_decimal
from generator.problems import OutOfRange, Problem
from generator.tables import Tables

FRIDGE = Temperature(Fraction(FRIDGE_C), "C")
"Taken where no temperature is told."
VALID = (
    f"An estimate is given for a thickness above 0 to {MOST_MM:g} mm (11.8 in), for 0 to {LONGEST_DAYS:g} days, from "
    f"{COLDEST_C:g} to {WARMEST_C:g} °C (30.2 to 59 °F), and for a pump up to {100 * MOST_PUMP:g} % of the meat."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceInCure:
    """The thickest piece and its time in the cure. None: it was not told."""

    thickness_mm: Fraction
    shape: str
    "round, slab, lump"
    days: Fraction
    temperature: Temperature | None = None
    bone_in: bool | None = None
    skin_on: bool | None = None
    silverskin_on: bool | None = None
    frozen_before: bool | None = None


def add_reach(
    cure: CureResult, piece: PieceInCure, tables: Tables, shower: Shower, system: str
) -> CureResult:
    """The cure with its reach, or with a problem where it lies outside what the estimate is valid for."""
    try:
        return replace(cure, reach=work_out_reach(cure, piece, tables, shower, system))
    except OutOfRange as error:
        problem = Problem(slug="out-of-range", message=_sentence(str(error)), hint=VALID)
        return replace(cure, problems=(*cure.problems, problem))


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}."


def work_out_reach(
    cure: CureResult, piece: PieceInCure, tables: Tables, shower: Shower, system: str
) -> ReachResult | None:
    """The estimate for one cure and one piece; None where the cure itself gives no weights.

    Valid for what `VALID` says; raises OutOfRange outside. Units and sources: `compute/transfer`.
    """
    if cure.weigh is None or cure.setting is None or cure.forms is None:
        return None
    if cure.cut == "ground":
        raise OutOfRange("ground meat is mixed with its cure, which has no way to go")
    given = reach_input(cure, piece)
    parameters = transfer_parameters(tables)
    found = estimate_reach(given, parameters)
    return _result(found, cure, piece, parameters, _worked_out_for(cure, piece, shower, system))


def reach_input(cure: CureResult, piece: PieceInCure) -> ReachInput:
    """What the estimate is asked for: a cure with weights, and a piece in it."""
    return ReachInput(
        piece=Piece(
            shape=piece.shape,
            thickness_mm=float(piece.thickness_mm),
            bone_in=piece.bone_in,
            skin_on=piece.skin_on,
            silverskin_on=piece.silverskin_on,
        ),
        cure=_cover(cure),
        days=(float(piece.days),),
        temperature_c=float((piece.temperature or FRIDGE).celsius),
        pump=_pump(cure),
        frozen_before=piece.frozen_before,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Grams:
    """What the cure around the meat holds [g], its salt with that of the curing salt."""

    meat: Fraction
    water: Fraction
    salt: Fraction
    sugar: Fraction
    nitrite: Fraction


def _grams(cure: CureResult) -> _Grams:
    assert cure.setting is not None
    assert cure.forms is not None
    # Where a cup leaves the salt open: in shares of its own even level the strongest cure is the slowest.
    forms = cure.ends.strongest if cure.ends else cure.forms
    curing_salt = forms.curing_salt.at(cure.setting)
    return _Grams(
        meat=cure.setting.meat_g,
        water=cure.setting.water_g,
        salt=forms.salt.at(cure.setting) + cure.kind.salt * curing_salt,
        sugar=forms.sugar.at(cure.setting),
        nitrite=cure.kind.nitrite * curing_salt,
    )


def _cover(cure: CureResult) -> CoverBrine | DryCure:
    """Per gram of meat."""
    grams = _grams(cure)
    if cure.method != "brine":
        return DryCure(
            salt_share=float(grams.salt / grams.meat), nitrite_share=float(grams.nitrite / grams.meat)
        )
    return CoverBrine(
        meat_g=1.0,
        water_g=float(grams.water / grams.meat),
        salt_g=float(grams.salt / grams.meat),
        sugar_g=float(grams.sugar / grams.meat),
        nitrite_g=float(grams.nitrite / grams.meat),
    )


def _pump(cure: CureResult) -> Pump | None:
    """What is injected. Whether it went along the bone is not read: the slower case is taken."""
    assert cure.setting is not None
    if cure.pump_g is None:
        return None
    share = float(cure.pump_g / cure.setting.meat_g)
    return Pump(share=share, brine=_pump_brine(cure.pump_brine, share) if cure.pump_brine else None)


def _pump_brine(brine: PumpBrineResult, share: float) -> PumpBrine:
    """A separately mixed brine, per gram of its water; all of its curing salt that is not nitrite counts as salt."""
    nitrite = float(brine.nitrite_ppm / PER_MILLION * brine.whole_g) / share
    return PumpBrine(
        water_g=1.0,
        salt_g=(float(brine.salt_g + brine.curing_salt_g) - nitrite) / float(brine.water_g),
        sugar_g=float(brine.sugar_g / brine.water_g),
        nitrite_g=nitrite / float(brine.water_g),
    )


def _result(
    found: Reach, cure: CureResult, piece: PieceInCure, parameters: Parameters, worked_out_for: str
) -> ReachResult:
    """The estimate as pages and commands need it; of a cure without nitrite nothing is said of nitrite."""
    day = found.days[0]
    nitrite = day.nitrite if _has_nitrite(cure) else None
    without = found.series_without_pump
    return ReachResult(
        day=piece.days,
        low=day.salt.low,
        central=day.salt.central,
        high=day.salt.high,
        words=day.salt_word,
        nitrite_low=nitrite.low if nitrite else None,
        nitrite_high=nitrite.high if nitrite else None,
        nitrite_words=day.nitrite_word if _has_nitrite(cure) else "",
        day_even_low=found.day_even_low,
        day_even_high=found.day_even_high,
        series=_series(found.series),
        series_without_pump=None if without is None else _series(without),
        caveats=tuple(one for one in found.caveats if one != NITRITE or _has_nitrite(cure)),
        worked_out_for=worked_out_for,
        sources=_sources(parameters),
    )


def _has_nitrite(cure: CureResult) -> bool:
    return _grams(cure).nitrite > 0 or (cure.pump_brine is not None and cure.pump_brine.curing_salt_g > 0)


def _series(points: tuple[Point, ...]) -> tuple[tuple[int, float, float, float], ...]:
    return tuple((one.day, one.salt.low, one.salt.central, one.salt.high) for one in points)


def _sources(parameters: Parameters) -> tuple[str, ...]:
    """The publications behind the rates at which salt and nitrite move, each once."""
    rows = (
        parameters.salt_diffusivity,
        parameters.nitrite_diffusivity,
        parameters.nitrite_half_life,
        parameters.freeze_thaw_factor,
    )
    return tuple(dict.fromkeys(row.source for row in rows))


def _worked_out_for(cure: CureResult, piece: PieceInCure, shower: Shower, system: str) -> str:
    """`6 lb (2.725 kg) of meat in 1.4 times its weight of water, 3 in (7.5 cm) thick, round, at 41 °F (5 °C)`."""
    grams = _grams(cure)

    def both(value: Fraction, use: str) -> str:
        other = "us" if system == "metric" else "metric"
        first, second = (shower.base(Span.of(value), use=use, system=one) for one in (system, other))
        return f"{first} ({second})"

    if cure.method == "brine":
        ratio = f"in {show_decimal(grams.water / grams.meat, places=2)} times its weight of water"
    else:
        up_to = "up to " if cure.ends is not None and "salt" in cure.ends.open else ""
        ratio = f"with {up_to}{show_decimal(100 * grams.salt / grams.meat, places=2)} % of its weight of salt"
    at = piece.temperature or FRIDGE
    scales = ("C", "F") if system == "metric" else ("F", "C")
    first, second = (shower.temperature(at, scale) for scale in scales)
    taken = "at" if piece.temperature else "taken as lying at"
    return ", ".join(
        (
            f"{both(grams.meat, 'cure base')} of meat {ratio}",
            f"{both(piece.thickness_mm, 'length')} thick",
            piece.shape,
            *_covers(piece),
            f"{taken} {first} ({second})",
        )
    )


def _covers(piece: PieceInCure) -> list[str]:
    told = (
        ("bone", piece.bone_in, "in", "out"),
        ("skin", piece.skin_on, "on", "off"),
        ("silverskin", piece.silverskin_on, "on", "off"),
    )
    return [f"{name} {yes if state else no}" for name, state, yes, no in told if state is not None]
