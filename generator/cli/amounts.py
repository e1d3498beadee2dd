"""The words of an option in, an exact amount out; wrong words end the command with how to write them."""

from __future__ import annotations

from fractions import Fraction

import click

from generator.build import kitchen
from generator.model.quantity import Dimension, Quantity, Temperature
from generator.read import ANY, AmountError, Grammar, parse_amount, parse_temperature

TYPED = ANY
"Language of what is typed at a prompt: no book says whether 2,268 is two or two thousand, so it is refused."

UNITS = click.Choice(["us", "metric", "imperial"])
"Whose cups, pints and gallons."


def plain_number(option: str, text: str | None) -> Fraction | None:
    if text is None:
        return None
    return one_above_0(
        amount_of(option, text, "us"),
        Dimension.COUNT,
        says=f"{option} takes one number above 0, not '{text}'.",
    )


def one_above_0(amount: Quantity, *dimensions: Dimension, says: str) -> Fraction:
    """The amount in the first of the dimensions it has; a range, nothing and less than nothing are refused."""
    total = next((found for one in dimensions if (found := amount.total(one)) is not None), None)
    if total is None or total.is_range or total.low <= 0:
        raise click.UsageError(says)
    return total.low


def amount_of(option: str, text: str, units: str, language: str = TYPED) -> Quantity:
    try:
        return parse_amount(text, Grammar(system=units, language=language, tables=kitchen().tables))
    except AmountError as error:
        raise click.UsageError(f"{option} '{text}': {error.message} {error.hint}".strip()) from error


def weight_g(option: str, text: str, units: str, language: str = TYPED) -> Fraction:
    says = f"{option} takes one weight above 0, such as 2.4kg or 5lb, not '{text}'."
    return one_above_0(amount_of(option, text, units, language), Dimension.WEIGHT, says=says)


def length_mm(option: str, text: str, units: str) -> Fraction:
    says = f"{option} takes one length above 0, such as 3in or 76mm, not '{text}'."
    return one_above_0(amount_of(option, text, units), Dimension.LENGTH, says=says)


def temperature_of(option: str, text: str) -> Temperature:
    try:
        found = parse_temperature(text)
    except AmountError as error:
        raise click.UsageError(f"{option} '{text}': {error.message} {error.hint}".strip()) from error
    if found.low != found.high:
        raise click.UsageError(f"{option} takes one temperature, such as 4C or 38F, not '{text}'.")
    return found.low


def volume_ml(option: str, text: str, units: str) -> Fraction:
    says = f"{option} takes one volume above 0, such as 12qt or 10L, not '{text}'."
    return one_above_0(amount_of(option, text, units), Dimension.VOLUME, says=says)


def water_weight_g(option: str, text: str, units: str, language: str = TYPED, *, takes: str) -> Fraction:
    """Water by weight, or by volume at 1 g per mL; `takes` is what the option takes, for its refusal."""
    says = f"{option} takes {takes}, not '{text}'."
    return one_above_0(
        amount_of(option, text, units, language), Dimension.WEIGHT, Dimension.VOLUME, says=says
    )


def percent(option: str, text: str) -> Fraction:
    if not text.strip().endswith("%"):
        raise click.UsageError(f"{option} takes a share in per cent, such as 8%, not '{text}'.")
    share = plain_number(option, text.strip().removesuffix("%").strip())
    assert share is not None
    return share
