"""Text in, temperatures out, as points on the scale they were written in: `165 °F`, `180–200 °F`, `-18 C`."""

from __future__ import annotations

import re
from fractions import Fraction

from generator.model.quantity import Temperature, TemperatureRange
from generator.read.number import AmountError, plain, read_number

_MINUS = re.compile(r"[-–](?=[0-9.])")
_DEGREES = r"(?:[°º˚]|degrees?|deg\.?)"
_SCALE = re.compile(
    rf" ?(?:{_DEGREES} ?)?(?P<scale>F|C|Fahrenheit|Celsius)(?![\w'’])| ?(?P<sign>[℉℃])", re.IGNORECASE
)
_BARE_DEGREES = re.compile(rf" ?{_DEGREES}(?![\w'’])", re.IGNORECASE)
_TO = re.compile(r" ?[-–] ?| to ", re.IGNORECASE)
_NUMBER = re.compile(r"[-–]?[0-9.]")
_HINT = "Write a temperature with its scale: 165 °F, 74 °C or 180–200 °F."
_ABSOLUTE_ZERO = Fraction(-27315, 100)
_HOTTEST = Fraction(540)
"[degC] Common practice, no source: above this no kitchen and no smoker goes."


def find_temperature(text: str) -> bool:
    """True where a text holds a temperature with its scale."""
    flat = plain(text)
    return any(_SCALE.match(flat, number.end()) for number in re.finditer(r"[0-9]+(?:[.,][0-9]+)?", flat))


def parse_temperature(text: str) -> TemperatureRange:
    """The temperature or range that a whole text is, or AmountError."""
    found, end = read_temperature(plain(text), 0)
    if text[end:].strip():
        raise _unreadable(text[end:].strip(), end)
    return found


def read_temperature(flat: str, start: int) -> tuple[TemperatureRange, int]:
    """The temperature or range at an offset of plain text, and where it ends. Both ends share one scale."""
    low, end = _read_value(flat, start)
    scale, end = _read_scale(flat, end)
    between = _TO.match(flat, end)
    if between is None or not _NUMBER.match(flat, between.end()):
        if not scale:
            raise _unreadable(flat[start:end], start)
        at = _point(low, scale, start)
        return TemperatureRange(at, at), end
    high, end = _read_value(flat, between.end())
    last, end = _read_scale(flat, end)
    if not last or (scale and scale != last) or high < low:
        raise _unreadable(flat[start:end], start)
    return TemperatureRange(_point(low, last, start), _point(high, last, start)), end


def read_point(flat: str, start: int) -> tuple[Temperature, int]:
    """One temperature with its scale at an offset of plain text, and where it ends; the rest is not looked at."""
    value, end = _read_value(flat, start)
    scale, end = _read_scale(flat, end)
    if not scale:
        raise _unreadable(flat[start:end], start)
    return _point(value, scale, start), end


def _read_value(flat: str, start: int) -> tuple[Fraction, int]:
    minus = _MINUS.match(flat, start)
    begin = minus.end() if minus else start
    try:
        found = read_number(flat, begin, "en")
    except AmountError as error:
        raise AmountError("unreadable-temperature", error.message, _HINT, error.offset) from None
    if found is None:
        space = flat.find(" ", start)
        raise _unreadable(flat[start : space if space >= 0 else len(flat)], start)
    return (-found[0] if minus else found[0]), found[1]


def _read_scale(flat: str, start: int) -> tuple[str, int]:
    """F, C, or an empty string behind a bare degree sign or nothing; and where it ends."""
    found = _SCALE.match(flat, start)
    if found is None:
        bare = _BARE_DEGREES.match(flat, start)
        return "", bare.end() if bare else start
    scale = found.group("scale")
    if scale is None:
        scale = "F" if found.group("sign") == "℉" else "C"
    return scale[0].upper(), found.end()


def _point(value: Fraction, scale: str, offset: int) -> Temperature:
    at = Temperature(value, scale)
    if not _ABSOLUTE_ZERO <= at.celsius <= _HOTTEST:
        raise AmountError(
            "unreadable-temperature",
            f"{float(value):g} °{scale} is no temperature of a kitchen.",
            _HINT,
            offset,
        )
    return at


def _unreadable(words: str, offset: int) -> AmountError:
    shown = words.strip() or "nothing"
    return AmountError(
        "unreadable-temperature", f"'{shown}' is not a temperature on a named scale.", _HINT, offset
    )
