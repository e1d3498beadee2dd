"""The commands at the table, without a book: cure brine, cure dry, cure correct."""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import Any

import click

from generator.build import (
    kitchen,
)
from generator.cli.amounts import (
    TYPED,
    UNITS,
    amount_of,
    length_mm,
    number,
    one_above_0,
    percent,
    share_of_meat,
    temperature_of,
    volume_ml,
    water_weight_g,
    weight_g,
)
from generator.cli.output import BOOK_HAS_ERRORS, fail, print_json, print_problems, say
from generator.compute.cure import CureInput
from generator.compute.cure.amounts import Scales, has_unmeasured_ice, to_make_ml, water_g
from generator.compute.cure.case import PumpBrineInput
from generator.compute.cure.correct import correct_brine, refuse_used_brine
from generator.compute.cure.ice import Heat
from generator.compute.cure.table import AtTable, CannotAsk, work_out_at_table
from generator.compute.reach import PieceInCure, add_reach
from generator.model.published import Animal, CuringSalt
from generator.model.quantity import Dimension, Quantity
from generator.model.recipe import CureLine, Target
from generator.model.results import Correction
from generator.problems import OutOfRange, ProblemLog
from generator.read import (
    AmountError,
    nitrate_kind,
    parse_cure_value,
    parse_strength,
    parse_water,
)
from generator.render.data import correction_data, cure_data, problem_data
from generator.render.table_words import correction_words
from generator.render.text import cure_text


@click.group()
def cure() -> None:
    """Work out a cure at the table, without a book."""


CURE_OPTIONS: tuple[Callable[[Any], Any], ...] = (
    click.option("--meat", help="Green weight: 2.4kg, 5lb."),
    click.option("--salt", help="3%, or an amount: 500g."),
    click.option("--sugar", help="1.5%, or an amount."),
    click.option("--curing-salt", help="150ppm, or an amount: 22g."),
    click.option("--nitrate", help="300ppm, or a weight and its kind: '2oz saltpetre'."),
    click.option("--accelerator", help="'500ppm sodium erythorbate', or a weight and its kind."),
    click.option("--fish", help="Where the meat is a fish: salmon, trout ..."),
    click.option(
        "--cut", type=click.Choice(["whole", "ground", "belly"]), default="whole", show_default=True
    ),
    click.option("--kind", help="Curing salt by its number or name.  [default: no. 1]"),
    click.option("--nitrite", help="Or by its share of sodium nitrite: 6.25%."),
    click.option(
        "--units", type=UNITS, default="us", show_default=True, help="Whose cups, pints and gallons."
    ),
    click.option("--thickness", help="How far has it reached? The thickest part, whole: 3in, 76mm."),
    click.option(
        "--shape", type=click.Choice(["round", "slab", "lump"]), help="Shape of the thickest piece."
    ),
    click.option("--days", help="Days in the cure."),
    click.option("--temperature", help="Of the cure: 4C, 38F.  [default: 5C, a fridge]"),
    click.option("--bone", type=click.Choice(["in", "out"])),
    click.option("--skin", type=click.Choice(["on", "off"])),
    click.option("--silverskin", type=click.Choice(["on", "off"])),
    click.option("--json", "as_json", is_flag=True, help="Print JSON and nothing else."),
)


def _cure_options(command: Callable[..., None]) -> Callable[..., None]:
    for option in reversed(CURE_OPTIONS):
        command = option(command)
    return command


@cure.command()
@_cure_options
@click.option("--water", help="All the water: 4L, '1qt hot + 2qt cold + 1lb ice'.")
@click.option("--pump", help="Brine to inject, of the green weight: 8%.")
@click.option("--pump-water", help="Water of a separately mixed pump brine: 1qt.")
@click.option("--pump-salt", help="Salt of the pump brine: '12%' of it, or an amount.")
@click.option("--pump-curing-salt", help="Curing salt of the pump brine: an amount, or ppm by the needle.")
@click.option("--pick-up", help="A short cure: weight gained, 8%. Needs --thickness and --days.")
@click.option("--pot", help="Room for meat and brine, to the brim: 12qt. Works out the water, or checks it.")
@click.option("--hot", help="How much of the water is hot: 1qt.")
@click.option("--hot-at", help="Its temperature: 180F. With --cold-at: how much of the water to take as ice.")
@click.option("--cold-at", help="Temperature of the cold water: 50F.")
@click.option("--salometer-at", help="What a salometer reads in the brine at 60 to 100 °F: 75F.")
@click.option("--used", is_flag=True, help="The brine has held meat before (refused).")
def brine(
    pot: str | None,
    hot: str | None,
    hot_at: str | None,
    cold_at: str | None,
    salometer_at: str | None,
    used: bool,
    **options: Any,
) -> None:
    """Meat left in a brine until salt and nitrite are even, or taken out before (--pick-up)."""
    units, water = options["units"], options["water"]
    if used or (water is not None and _is_used_brine(water, units)):
        _refuse_used_brine(options["as_json"])
    asked = AtTable(
        pot_ml=None if pot is None else volume_ml("--pot", pot, units),
        heat=_heat(hot, hot_at, cold_at, water, units),
        salometer_f=None
        if salometer_at is None
        else temperature_of("--salometer-at", salometer_at).fahrenheit,
    )
    try:
        _cure("brine", asked=asked, **options)
    except CannotAsk as error:
        raise click.UsageError(f"{error}.") from error


def _is_used_brine(water: str, units: str) -> bool:
    try:
        parse_water(water, system=units, language=TYPED, tables=kitchen().tables)
    except AmountError as error:
        return error.slug == "reused-brine"
    return False


def _refuse_used_brine(as_json: bool) -> None:
    log = ProblemLog()
    refuse_used_brine(log)
    if as_json:
        print_json({"weigh": None, "problems": [problem_data(problem) for problem in log]})
        sys.exit(BOOK_HAS_ERRORS)
    fail(log.sorted())


def _heat(
    hot: str | None, hot_at: str | None, cold_at: str | None, water: str | None, units: str
) -> Heat | None:
    """How warm the water is poured; the hot part as told, or as `--water` has it."""
    if hot is None and hot_at is None and cold_at is None:
        return None
    if hot_at is None or cold_at is None:
        raise click.UsageError("Ice cannot be worked out without --hot-at and --cold-at.")
    if hot is not None:
        hot_g = water_weight_g("--hot", hot, units, takes="one amount of water above 0, such as 1qt")
    else:
        poured = _water("--water", water, units).measures if water else ()
        hot_g = sum((one.base.high for one in poured if one.state == "hot"), Fraction(0))
        if not hot_g:
            raise click.UsageError("Which part of the water is hot? Write --hot 1qt.")
    return Heat(
        hot_g=hot_g,
        hot_c=temperature_of("--hot-at", hot_at).celsius,
        cold_c=temperature_of("--cold-at", cold_at).celsius,
    )


@cure.command()
@click.option("--brine", "amount", required=True, help="How much brine there is: 4L, 2gal, 4.3kg.")
@click.option("--is", "measured", required=True, help="What it measures: 40deg (salometer) or 10.5%.")
@click.option("--want", required=True, help="What it should be: 60deg or 15.8%.")
@click.option("--at", help="Temperature it was measured at, 60 to 100 °F: 75F.  [default: 60F]")
@click.option("--used", is_flag=True, help="The brine has held meat before (refused).")
@click.option("--units", type=UNITS, default="us", show_default=True, help="Whose cups, pints and gallons.")
@click.option("--json", "as_json", is_flag=True, help="Print JSON and nothing else.")
def correct(
    amount: str, measured: str, want: str, at: str | None, used: bool, units: str, as_json: bool
) -> None:
    """Salt or water to add to a fresh brine that is too weak or too strong."""
    log = ProblemLog()
    found = None
    if used or "brine" in amount.lower():
        refuse_used_brine(log)
    else:
        found = _correct(amount, measured, want, at, units, log)
    if as_json:
        print_json(correction_data(found, log.sorted()))
    elif found is not None:
        say(correction_words(found))
    if log.has_errors:
        if not as_json:
            print_problems(log.sorted())
        sys.exit(BOOK_HAS_ERRORS)


def _correct(
    amount: str, measured: str, want: str, at: str | None, units: str, log: ProblemLog
) -> Correction | None:
    brine = amount_of("--brine", amount, units)
    says = f"--brine takes one amount above 0, such as 4L, not '{amount}'."
    one_above_0(brine, Dimension.WEIGHT, Dimension.VOLUME, says=says)
    wanted = _strength("--want", want)
    if wanted.value == 0:
        raise click.UsageError("--want takes a strength above 0.")
    try:
        return correct_brine(
            brine,
            _strength("--is", measured),
            wanted,
            kitchen().tables,
            log,
            measured_at_f=None if at is None else temperature_of("--at", at).fahrenheit,
        )
    except OutOfRange as error:
        raise click.UsageError(f"{error}.") from error


def _strength(option: str, text: str) -> Target:
    try:
        return parse_strength(text, language=TYPED)
    except AmountError as error:
        raise click.UsageError(f"{option} '{text}': {error.message} {error.hint}".strip()) from error


@cure.command()
@_cure_options
def dry(**options: Any) -> None:
    """Meat rubbed with weighed salt."""
    no_brine: dict[str, Any] = dict.fromkeys(BRINE_ONLY)
    _cure("dry", **no_brine, **options)


NOTHING_ASKED = AtTable()
"Neither pot nor ice."


BRINE_ONLY = ("water", "pump", "pump_water", "pump_salt", "pump_curing_salt", "pick_up")
"Options that a dry cure does not take."


def _cure(
    method: str,
    *,
    meat: str | None,
    water: str | None,
    salt: str | None,
    sugar: str | None,
    curing_salt: str | None,
    cut: str,
    kind: str | None,
    nitrite: str | None,
    pump: str | None,
    nitrate: str | None,
    accelerator: str | None,
    fish: str | None,
    pump_water: str | None,
    pump_salt: str | None,
    pump_curing_salt: str | None,
    pick_up: str | None,
    units: str,
    as_json: bool,
    asked: AtTable = NOTHING_ASKED,
    **of_piece: str | None,
) -> None:
    log = ProblemLog()
    only_judged = pick_up is not None and of_piece["shape"] is None
    piece = None if only_judged else _piece(units, **of_piece)
    animal = None if fish is None else _fish(fish)
    weighed_nitrate = _cure_line("nitrate", nitrate, method, units)
    poured = None if water is None else _water("--water", water, units)
    given = CureInput(
        method=method,
        cut=cut,
        kind=_kind(kind, nitrite),
        salt=_cure_line("salt", salt, method, units),
        sugar=_cure_line("sugar", sugar, method, units),
        curing_salt=_cure_line("curing salt", curing_salt, method, units),
        meat_g=None if meat is None else weight_g("--meat", meat, units),
        water_g=None if poured is None else water_g(poured, log),
        to_make_ml=None if poured is None else to_make_ml(poured),
        ice_unmeasured=poured is not None and has_unmeasured_ice(poured),
        nitrate=weighed_nitrate,
        nitrate_kind=None
        if weighed_nitrate is None
        else kitchen().tables.curing_salt(nitrate_kind(weighed_nitrate)),
        accelerator=_cure_line("accelerator", accelerator, method, units),
        pump_percent=None if pump is None else share_of_meat("--pump", pump),
        pump_brine=_pump_brine(pump_water, pump_salt, pump_curing_salt, _kind(kind, nitrite), units),
        pick_up_percent=None if pick_up is None else share_of_meat("--pick-up", pick_up),
        skin_on=of_piece["skin"] == "on",
        temperature_c=None
        if of_piece["temperature"] is None
        else temperature_of("--temperature", of_piece["temperature"]).celsius,
        fish=animal.title.lower() if animal else None,
        fish_limit_ppm=kitchen().tables.fish_limit(animal.key) if animal else None,
        fish_nitrate_ppm=kitchen().tables.fish_nitrate_limit(animal.key) if animal else Fraction(0),
        days=number("--days", of_piece["days"]),
        thickness_mm=None
        if of_piece["thickness"] is None
        else length_mm("--thickness", of_piece["thickness"], units),
    )
    asked = replace(asked, skin_assumed=of_piece["skin"] is None)
    result = work_out_at_table(given, asked, Scales(tables=kitchen().tables), kitchen().shower)
    if piece is not None:
        result = add_reach(result, piece, kitchen().tables, kitchen().shower, units)
    if as_json:
        print_json(cure_data(result))
    else:
        say(cure_text(result, kitchen().tables))
        print_problems(result.problems)
    if any(problem.is_error for problem in (*log, *result.problems)):
        sys.exit(BOOK_HAS_ERRORS)


def _fish(name: str) -> Animal:
    animal = kitchen().tables.animal(name)
    if animal is None or animal.group not in ("fish", "shellfish"):
        raise click.UsageError(f"--fish '{name}' is not a fish that Potherb knows.")
    return animal


def _pump_brine(
    water: str | None, salt: str | None, curing_salt: str | None, kind: CuringSalt, units: str
) -> PumpBrineInput | None:
    """A separately mixed brine for the needle, of the same kind of curing salt."""
    if water is None:
        if salt is not None or curing_salt is not None:
            raise click.UsageError("A pump brine needs --pump-water.")
        return None
    return PumpBrineInput(
        water_g=water_g(_water("--pump-water", water, units), ProblemLog()),
        salt=_cure_line("salt", salt, "brine", units),
        sugar=None,
        curing_salt=_cure_line("curing salt", curing_salt, "brine", units),
        kind=kind,
    )


def _piece(
    units: str,
    *,
    thickness: str | None,
    shape: str | None,
    days: str | None,
    temperature: str | None,
    bone: str | None,
    skin: str | None,
    silverskin: str | None,
) -> PieceInCure | None:
    """The piece whose reach is asked for; None where it is not asked for."""
    needed = {"--thickness": thickness, "--shape": shape, "--days": days}
    missing = [option for option, text in needed.items() if text is None]
    others = {"--temperature": temperature, "--bone": bone, "--silverskin": silverskin}
    if missing and all(text is None for text in (*needed.values(), *others.values())):
        return None
    if thickness is None or shape is None or days is None:
        raise click.UsageError(f"How far it has reached cannot be told without {' and '.join(missing)}.")
    in_cure = number("--days", days)
    assert in_cure is not None
    return PieceInCure(
        thickness_mm=length_mm("--thickness", thickness, units),
        shape=shape,
        days=in_cure,
        temperature=None if temperature is None else temperature_of("--temperature", temperature),
        bone_in=None if bone is None else bone == "in",
        skin_on=None if skin is None else skin == "on",
        silverskin_on=None if silverskin is None else silverskin == "on",
    )


def _water(option: str, text: str, units: str) -> Quantity:
    try:
        return parse_water(text, system=units, language=TYPED, tables=kitchen().tables)
    except AmountError as error:
        raise click.UsageError(f"{option} '{text}': {error.message} {error.hint}".strip()) from error


def _cure_line(which: str, text: str | None, method: str, units: str) -> CureLine | None:
    if text is None:
        return None
    try:
        return parse_cure_value(
            text, which, method=method, system=units, language=TYPED, tables=kitchen().tables
        )
    except AmountError as error:
        option = f"--{which.replace(' ', '-')}"
        raise click.UsageError(f"{option} '{text}': {error.message} {error.hint}".strip()) from error


def _kind(kind: str | None, nitrite: str | None) -> CuringSalt:
    """A curing salt of the table, or one made up of a stated share of nitrite and the rest salt."""
    tables = kitchen().tables
    if kind is not None and nitrite is not None:
        raise click.UsageError("--kind and --nitrite cannot go together: name the salt or its nitrite.")
    if nitrite is None:
        found = tables.curing_salt(kind or "no. 1")
        if found is None:
            known = ", ".join(salt.key for salt in tables.curing_salts)
            raise click.UsageError(
                f"--kind '{kind}' is not a curing salt that Potherb knows. Known: {known}."
            )
        return found
    share = percent("--nitrite", nitrite) / 100
    if not 0 < share <= 1:
        raise click.UsageError(f"--nitrite takes a share above 0 % and up to 100 %, not '{nitrite}'.")
    return CuringSalt(
        key=f"{nitrite} nitrite",
        names=(),
        title=f"curing salt with {nitrite.replace('%', '').strip()} % sodium nitrite",
        nitrite=share,
        nitrate=Fraction(0),
        salt=1 - share,
        source="own-label",
        locator="--nitrite",
    )
