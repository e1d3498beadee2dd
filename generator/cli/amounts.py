"""The words of an option in, an exact amount out; wrong words end the command with how to write them."""

from __future__ import annotations

from fractions import Fraction

import click

from generator.build import (
    kitchen,
)
from generator.model.quantity import Dimension, Quantity, Temperature
from generator.read import (
    ANY,
    AmountError,
    parse_amount,
    parse_temperature,
)

TYPED = ANY
"Language of what is typed at a prompt: no book says whether 2,268 is two or two thousand, so it is refused."

UNITS = click.Choice(["us", "metric", "imperial"])
"Whose cups, pints and gallons."


def number(option: str, text: str | None) -> Fraction | None:
    if text is None:
        return None
    quantity = amount_of(option, text, "us")
    total = quantity.total(Dimension.COUNT)
    if total is None or total.is_range or total.low <= 0:
        raise click.UsageError(f"{option} takes one number above 0, not '{text}'.")
    return total.low


def amount_of(option: str, text: str, units: str, language: str = TYPED) -> Quantity:
    try:
        return parse_amount(text, system=units, language=language, tables=kitchen().tables)
    except AmountError as error:
        raise click.UsageError(f"{option} '{text}': {error.message} {error.hint}".strip()) from error


def weight_g(option: str, text: str, units: str, language: str = TYPED) -> Fraction:
    weight = amount_of(option, text, units, language).total(Dimension.WEIGHT)
    if weight is None or weight.is_range or weight.low <= 0:
        raise click.UsageError(f"{option} takes one weight above 0, such as 2.4kg or 5lb, not '{text}'.")
    return weight.low


def length_mm(option: str, text: str, units: str) -> Fraction:
    length = amount_of(option, text, units).total(Dimension.LENGTH)
    if length is None or length.is_range or length.low <= 0:
        raise click.UsageError(f"{option} takes one length above 0, such as 3in or 76mm, not '{text}'.")
    return length.low


def temperature_of(option: str, text: str) -> Temperature:
    try:
        found = parse_temperature(text)
    except AmountError as error:
        raise click.UsageError(f"{option} '{text}': {error.message} {error.hint}".strip()) from error
    if found.low != found.high:
        raise click.UsageError(f"{option} takes one temperature, such as 4C or 38F, not '{text}'.")
    return found.low


def volume_ml(option: str, text: str, units: str) -> Fraction:
    volume = amount_of(option, text, units).total(Dimension.VOLUME)
    if volume is None or volume.is_range or volume.low <= 0:
        raise click.UsageError(f"{option} takes one volume above 0, such as 12qt or 10L, not '{text}'.")
    return volume.low


def percent(option: str, text: str) -> Fraction:
    if not text.strip().endswith("%"):
        raise click.UsageError(f"{option} takes a share in per cent, such as 8%, not '{text}'.")
    share = number(option, text.strip().removesuffix("%").strip())
    assert share is not None
    return share
