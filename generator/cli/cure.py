"""The commands at the table, without a book: cure brine, cure dry, cure correct."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterable
from dataclasses import replace
from fractions import Fraction
from typing import Any

import click

from generator.build import kitchen
from generator.cli.amounts import (
    TYPED,
    UNITS,
    amount_of,
    length_mm,
    one_above_0,
    percent,
    plain_number,
    temperature_of,
    volume_ml,
    water_weight_g,
    weight_g,
)
from generator.cli.output import BOOK_HAS_ERRORS, fail, print_json, print_problems, say
from generator.compute.cure import Scales
from generator.compute.cure.correct import correct_brine, refuse_used_brine
from generator.compute.cure.ice import PouredWater
from generator.compute.cure.table import AtTable, CannotAsk, work_out_at_table
from generator.compute.cure.written import CuredMeat, cure_input
from generator.compute.reach.estimate import PieceInCure, add_reach
from generator.model.published import Animal, CuringSalt
from generator.model.quantity import Dimension, Quantity
from generator.model.recipe import Cure, Target
from generator.model.results import Correction
from generator.problems import OutOfRange, Problem, ProblemLog
from generator.read import AmountError, Grammar, parse_strength, read_typed_cure
from generator.render.brines import correction_words
from generator.render.data import correction_data, cure_data, problem_data
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
def brine(used: bool, **options: Any) -> None:
    """Meat left in a brine until salt and nitrite are even, or taken out before (--pick-up)."""
    if used:
        _refuse_used_brine(options["as_json"])
    _cure("brine", **options)


def _refuse_used_brine(as_json: bool) -> None:
    log = ProblemLog()
    refuse_used_brine(log)
    if as_json:
        print_json({"weigh": None, "problems": [problem_data(problem) for problem in log]})
        sys.exit(BOOK_HAS_ERRORS)
    fail(log.sorted())


def _at_table(options: dict[str, Any], water: Quantity | None) -> AtTable:
    """What stands on the table beside the cure."""
    pot, read_at = options.get("pot"), options.get("salometer_at")
    return AtTable(
        pot_ml=None if pot is None else volume_ml("--pot", pot, options["units"]),
        heat=_heat(options, water),
        salometer_f=None if read_at is None else temperature_of("--salometer-at", read_at).fahrenheit,
        skin_assumed=options["skin"] is None,
    )


def _heat(options: dict[str, Any], water: Quantity | None) -> PouredWater | None:
    """How warm the water is poured; the hot part as told, or as `--water` has it."""
    hot, hot_at, cold_at = (options.get(key) for key in ("hot", "hot_at", "cold_at"))
    if hot is None and hot_at is None and cold_at is None:
        return None
    if hot_at is None or cold_at is None:
        raise click.UsageError("Ice cannot be worked out without --hot-at and --cold-at.")
    if hot is not None:
        takes = "one amount of water above 0, such as 1qt"
        hot_g = water_weight_g("--hot", hot, options["units"], takes=takes)
    else:
        poured = () if water is None else water.measures
        hot_g = sum((one.base.high for one in poured if one.state == "hot"), Fraction(0))
        if not hot_g:
            raise click.UsageError("Which part of the water is hot? Write --hot 1qt.")
    return PouredWater(
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
    _cure("dry", **options)


KEYS = {
    "method": ("method",),
    "water": ("water",),
    "salt": ("salt",),
    "sugar": ("sugar",),
    "curing_salt": ("curing salt",),
    "kind": ("kind of curing salt",),
    "nitrate": ("nitrate",),
    "accelerator": ("accelerator",),
    "pump": ("pump",),
    "pick_up": ("pick-up",),
    "pump_water": ("pump brine", "water"),
    "pump_salt": ("pump brine", "salt"),
    "pump_curing_salt": ("pump brine", "curing salt"),
}
"The key of a `cure:` block that each option is."


def _cure(method: str, **options: Any) -> None:
    """Typed options in, the cure said; the block is read and worked out as a recipe's is."""
    units, tables, shower = options["units"], kitchen().tables, kitchen().shower
    # A short cure is judged by thickness and days alone; without a shape nobody asked how far it has reached.
    only_judged = options.get("pick_up") is not None and options["shape"] is None
    piece = None if only_judged else _piece(options)
    own = () if options["nitrite"] is None else (_by_nitrite(options["kind"], options["nitrite"]),)
    log = ProblemLog()
    block = _block(method, options, own, log)
    given = cure_input(block, _meat(options), own, tables, log)
    try:
        asked = _at_table(options, block.water)
        result = work_out_at_table(given, asked, Scales(tables=tables), shower)
    except CannotAsk as error:
        raise click.UsageError(f"{error}.") from error
    if piece is not None:
        result = add_reach(result, piece, tables, shower, units)
    result = replace(result, problems=_without_places((*log, *result.problems)))
    if options["as_json"]:
        print_json(cure_data(result))
    else:
        say(cure_text(result, tables))
        print_problems(result.problems)
    if any(problem.is_error for problem in result.problems):
        sys.exit(BOOK_HAS_ERRORS)


def _block(method: str, options: dict[str, Any], own: tuple[CuringSalt, ...], log: ProblemLog) -> Cure:
    """The cure that the options write; the first that cannot be read ends the command."""
    pumped = [option for option in ("pump_salt", "pump_curing_salt") if options.get(option) is not None]
    if pumped and options.get("pump_water") is None:
        raise click.UsageError("A pump brine needs --pump-water.")
    words = {**options, "method": method, "kind": own[0].key if own else options["kind"]}
    told: dict[tuple[str | int, ...], tuple[str, str]] = {
        ("cure", *key): (f"--{option.replace('_', '-')}", words[option])
        for option, key in KEYS.items()
        if words.get(option) is not None
    }
    grammar = Grammar(system=options["units"], language=TYPED, tables=kitchen().tables, own_salts=own)
    block = read_typed_cure(told, grammar, log)
    for problem in log:
        if problem.slug == "reused-brine":
            _refuse_used_brine(options["as_json"])
        if problem.is_error and problem.position is not None:
            raise click.UsageError(f"{problem.position.file}: {problem.message} {problem.hint}".strip())
    assert block is not None
    return block


def _without_places(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Problems of what was typed: there is no file to look into."""
    log = ProblemLog()
    log.extend(replace(problem, position=None) for problem in problems)
    return log.sorted()


def _meat(options: dict[str, Any]) -> CuredMeat:
    units, meat, thickness = options["units"], options["meat"], options["thickness"]
    temperature, fish = options["temperature"], options["fish"]
    return CuredMeat(
        cut=options["cut"],
        meat_g=None if meat is None else weight_g("--meat", meat, units),
        skin_on=options["skin"] == "on",
        animal=None if fish is None else _fish(fish),
        days=plain_number("--days", options["days"]),
        thickness_mm=None if thickness is None else length_mm("--thickness", thickness, units),
        temperature_c=None if temperature is None else temperature_of("--temperature", temperature).celsius,
    )


def _fish(name: str) -> Animal:
    animal = kitchen().tables.animal(name)
    if animal is None or animal.group not in ("fish", "shellfish"):
        raise click.UsageError(f"--fish '{name}' is not a fish that Potherb knows.")
    return animal


def _piece(options: dict[str, Any]) -> PieceInCure | None:
    """The piece whose reach is asked for; None where it is not asked for."""
    thickness, shape, days = options["thickness"], options["shape"], options["days"]
    temperature, bone, silverskin = options["temperature"], options["bone"], options["silverskin"]
    needed = {"--thickness": thickness, "--shape": shape, "--days": days}
    missing = [option for option, text in needed.items() if text is None]
    if missing and all(text is None for text in (*needed.values(), temperature, bone, silverskin)):
        return None
    if missing:
        raise click.UsageError(f"How far it has reached cannot be told without {' and '.join(missing)}.")
    in_cure = plain_number("--days", days)
    assert in_cure is not None
    return PieceInCure(
        thickness_mm=length_mm("--thickness", thickness, options["units"]),
        shape=shape,
        days=in_cure,
        temperature=None if temperature is None else temperature_of("--temperature", temperature),
        bone_in=None if bone is None else bone == "in",
        skin_on=None if options["skin"] is None else options["skin"] == "on",
        silverskin_on=None if silverskin is None else silverskin == "on",
    )


def _by_nitrite(kind: str | None, nitrite: str) -> CuringSalt:
    """A curing salt made up of a stated share of nitrite and the rest salt."""
    if kind is not None:
        raise click.UsageError("--kind and --nitrite cannot go together: name the salt or its nitrite.")
    share = percent("--nitrite", nitrite) / 100
    if not 0 < share <= 1:
        raise click.UsageError(f"--nitrite takes a share above 0 % and up to 100 %, not '{nitrite}'.")
    key = f"{nitrite} nitrite"
    return CuringSalt(
        key=key,
        names=(" ".join(key.lower().split()),),
        title=f"curing salt with {nitrite.replace('%', '').strip()} % sodium nitrite",
        nitrite=share,
        nitrate=Fraction(0),
        salt=1 - share,
        source="own-label",
        locator="--nitrite",
    )
