"""Text in, exact fractions and ranges of them out: `1 1/2`, `1½`, `1-1/2`, `1–2`, `1,5`. Never a guess.

Offsets count characters of the text as typed: `plain` keeps its length.
"""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction

from generator.model.quantity import Span

VULGAR = {
    "¼": Fraction(1, 4),
    "½": Fraction(1, 2),
    "¾": Fraction(3, 4),
    "⅐": Fraction(1, 7),
    "⅑": Fraction(1, 9),
    "⅒": Fraction(1, 10),
    "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3),
    "⅕": Fraction(1, 5),
    "⅖": Fraction(2, 5),
    "⅗": Fraction(3, 5),
    "⅘": Fraction(4, 5),
    "⅙": Fraction(1, 6),
    "⅚": Fraction(5, 6),
    "⅛": Fraction(1, 8),
    "⅜": Fraction(3, 8),
    "⅝": Fraction(5, 8),
    "⅞": Fraction(7, 8),
    "↉": Fraction(0),
}
"Unicode's vulgar fractions by hand: NFKC would turn 1½ into eleven halves, and numeric() gives floats."

NUMBER_WORDS = {
    word: Fraction(value)
    for value, word in enumerate(
        ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"),
        start=1,
    )
}

_PLAIN = str.maketrans(
    {
        **dict.fromkeys("‐‑﹣－", "-"),
        **dict.fromkeys("‒–—―−", "–"),
        **dict.fromkeys("⁄∕／", "/"),
        **dict.fromkeys("\u00a0\u2007\u2009\u202f\u200a\u2002\u2003\u3000\t\n", " "),
        "．": ".",
        "，": ",",
        "＋": "+",
        "✕": "×",
        "～": "~",
    }
)

_TOKEN = re.compile(r"[0-9]+(?:[.,][0-9]+)*|\.[0-9]+")
_FRACTION = re.compile(r"([0-9]+) ?/ ?([0-9]+)")
_GOES_ON = re.compile(r"[0-9/⅟]| ?/ ?[0-9]|[.,][0-9]")
"What a number may not be followed by."
_SIGN = re.compile("[" + "".join(VULGAR) + "]|⅟([0-9]+)")
_JOINTS = tuple(re.compile(joint) for joint in (r" *+(?=[^0-9])", r" +", r"-", r" and "))
"Between a whole number and its fraction: nothing before a sign, else a space, a hyphen, `and`."
TO = re.compile(r" ?[-–] ?| (?:to|or|up to) ", re.IGNORECASE)
"Between the two ends of a range."
_THOUSANDS = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")
_DECIMAL_COMMA = re.compile(r"[0-9]+,(?:[0-9]{1,2}|[0-9]{4,})")
_DOTTED_THOUSANDS = re.compile(r"[1-9][0-9]{0,2}\.[0-9]{3}")
_LONGEST = 9
"Digits: more than any kitchen weighs, and few enough for exact arithmetic to stay quick."


class AmountError(ValueError):
    """A piece of text that cannot be read for certain: slug, sentence, hint, and where in the text."""

    def __init__(self, slug: str, message: str, hint: str = "", offset: int = 0) -> None:
        super().__init__(message)
        self.slug = slug
        self.message = message
        self.hint = hint
        self.offset = offset

    def moved(self, by: int) -> AmountError:
        """The same, in a text that begins `by` characters earlier."""
        return AmountError(self.slug, self.message, self.hint, self.offset + by)


def unreadable(message: str, hint: str, offset: int) -> AmountError:
    """The usual refusal."""
    return AmountError("unreadable-amount", message, hint, offset)


def plain(text: str) -> str:
    """The text with look-alike dashes, slashes, spaces and digits of other scripts as one plain sign each."""
    translated = text.translate(_PLAIN)
    if translated.isascii():
        return translated
    return "".join(
        str(unicodedata.decimal(sign)) if not sign.isascii() and sign.isdecimal() else sign
        for sign in translated
    )


def read_span(text: str, start: int, language: str) -> tuple[Span, int] | None:
    """A number or a range at an offset of plain text, and where it ends; None where no number stands."""
    first = read_number(text, start, language)
    if first is None:
        return None
    low, end = first
    second = _read_high(text, end, language)
    if second is None:
        return Span.of(low), end
    high, stop = second
    if high < low:
        raise unreadable(
            f"'{text[start:stop]}' goes down.",
            "Write a range from low to high, or a mixed number with a space: 1 1/2.",
            start,
        )
    if _read_high(text, stop, language) is not None:
        raise unreadable(f"'{text[start:stop]}' is followed by another range.", "Write one range.", stop)
    return Span(low, high), stop


def _read_high(text: str, end: int, language: str) -> tuple[Fraction, int] | None:
    between = TO.match(text, end)
    return read_number(text, between.end(), language) if between else None


def read_number(text: str, start: int, language: str) -> tuple[Fraction, int] | None:
    """One number at an offset of plain text, and where it ends; None where no number stands."""
    found = _read_fraction(text, start) or _read_whole(text, start, language)
    if found is None:
        return None
    end = found[1]
    # Of 1/2/3 or 1.2.3 a part could be read, and it would be another amount than the one that was meant.
    if end < len(text) and (text[end] in VULGAR or _GOES_ON.match(text, end)):
        raise unreadable(
            f"'{text[start : end + 1]}' is not one number.", "Write a mixed number: 1 1/2.", start
        )
    return found


ANY = "any"
"Language of what is typed where no book says its language."


def _read_whole(text: str, start: int, language: str) -> tuple[Fraction, int] | None:
    token = _TOKEN.match(text, start)
    if token is None:
        return None
    value = _decimal(token.group(), start, language)
    joints = (joint.match(text, token.end()) for joint in _JOINTS)
    parts = (_read_fraction(text, joint.end()) for joint in joints if joint)
    part = next((part for part in parts if part), None)
    if part is None:
        return value, token.end()
    fraction, end = part
    if fraction >= 1 or not token.group().isdigit():
        raise unreadable(
            f"'{text[start:end]}' is not a mixed number.",
            "Write a whole number and a fraction below one: 1 1/2.",
            start,
        )
    return value + fraction, end


def _read_fraction(text: str, start: int) -> tuple[Fraction, int] | None:
    sign = _SIGN.match(text, start)
    if sign:
        below = sign.group(1)
        return (_ratio("1", below, start) if below else VULGAR[sign.group()]), sign.end()
    written = _FRACTION.match(text, start)
    if written:
        return _ratio(written.group(1), written.group(2), start), written.end()
    return None


def _ratio(above: str, below: str, offset: int) -> Fraction:
    # Its length first: turning thousands of digits into a number takes the square of them.
    if int(_short(below, offset)) == 0:
        raise unreadable(f"'{above}/{below}' divides by nothing.", "Write a fraction such as 1/2.", offset)
    return Fraction(int(_short(above, offset)), int(below))


def _decimal(token: str, offset: int, language: str) -> Fraction:
    """The value of digits with points or commas; a comma before three digits is thousands in English only.

    In the language `any` (typed at a prompt, no book to say) a point is decimal and that comma is refused.
    """
    english = language.lower().split("-")[0] == "en"
    pointed = english or language == ANY
    _short(token, offset)
    if token.isdigit() or (token.count(".") == 1 and "," not in token):
        if not pointed and _DOTTED_THOUSANDS.fullmatch(token):
            raise unreadable(
                f"'{token}' could be a thousand or a decimal number.",
                f"Write {token.replace('.', '')} or {token.replace('.', ',').rstrip('0').rstrip(',')}.",
                offset,
            )
        return Fraction(token if not token.startswith(".") else f"0{token}")
    if _DECIMAL_COMMA.fullmatch(token):
        return Fraction(token.replace(",", "."))
    if english and _THOUSANDS.fullmatch(token):
        return Fraction(token.replace(",", ""))
    raise unreadable(
        f"'{token}' cannot be read for certain.",
        "Write thousands without a sign, and decimals with a point: 1000, 1.5.",
        offset,
    )


def _short(token: str, offset: int) -> str:
    if len(token) > _LONGEST:
        raise unreadable(f"'{token[:12]}…' is too long for an amount.", "Write a shorter number.", offset)
    return token
