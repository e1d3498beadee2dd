"""In: a text that a cook would read. Out: every amount in it, in grams, millilitres, millimetres or pieces.

It shares no code with the program, so that it can judge what the program shows. Factors: NIST SP 811 (2008), B.8.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

GALLON = Fraction(3785411784, 1000000)
POUND = Fraction(45359237, 100000)
INCH = Fraction(254, 10)
SIZES: dict[str, tuple[str, Fraction]] = {
    **dict.fromkeys(("gallon", "gal", "gals"), ("mL", GALLON)),
    **dict.fromkeys(("quart", "qt", "qts"), ("mL", GALLON / 4)),
    **dict.fromkeys(("pint", "pt", "pts"), ("mL", GALLON / 8)),
    **dict.fromkeys(("cup", "c"), ("mL", GALLON / 16)),
    **dict.fromkeys(("gill",), ("mL", GALLON / 32)),
    **dict.fromkeys(("floz",), ("mL", GALLON / 128)),
    **dict.fromkeys(("tablespoon", "tbsp"), ("mL", GALLON / 256)),
    **dict.fromkeys(("teaspoon", "tsp"), ("mL", GALLON / 768)),
    **dict.fromkeys(("ml", "millilitre", "milliliter"), ("mL", Fraction(1))),
    **dict.fromkeys(("l", "litre", "liter"), ("mL", Fraction(1000))),
    **dict.fromkeys(("peck", "pk"), ("mL", Fraction(880976754, 100000))),
    **dict.fromkeys(("bushel", "bu"), ("mL", Fraction(3523907016, 100000))),
    **dict.fromkeys(("pound", "lb", "lbs"), ("g", POUND)),
    **dict.fromkeys(("ounce", "oz"), ("g", POUND / 16)),
    **dict.fromkeys(("gram", "g"), ("g", Fraction(1))),
    **dict.fromkeys(("kilogram", "kilo", "kg"), ("g", Fraction(1000))),
    **dict.fromkeys(("inch", "inches", "in"), ("mm", INCH)),
    **dict.fromkeys(("cm",), ("mm", Fraction(10))),
    **dict.fromkeys(("mm",), ("mm", Fraction(1))),
    **dict.fromkeys(("dozen", "doz"), ("count", Fraction(12))),
}
SIGNS = {
    "½": (1, 2), "⅓": (1, 3), "⅔": (2, 3), "¼": (1, 4), "¾": (3, 4), "⅕": (1, 5), "⅖": (2, 5), "⅗": (3, 5),
    "⅘": (4, 5), "⅙": (1, 6), "⅚": (5, 6), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8),
}  # fmt: skip
NUMBER = r"\d+(?:,\d{3})+(?:\.\d+)?|\d+ \d+[/⁄]\d+|\d+[/⁄]\d+|\d+\.\d+|\d+ ?[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]|\d+|[½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞]"
AMOUNT = re.compile(
    rf"(?P<low>{NUMBER})(?:\s?(?:–|-|to|or)\s?(?P<high>{NUMBER}))?[\s-]*(?P<unit>fl\.? ?oz|[A-Za-z]+)?"
)


@dataclass(frozen=True, kw_only=True)
class Amount:
    """From low to high, in g, mL, mm or pieces; a range where it is one."""

    low: float
    high: float
    kind: str

    def near(self, other: Amount, share: float) -> bool:
        """The same within a share of the larger, and never nearer than half a unit of the last digit that JSON has."""
        return self.kind == other.kind and all(
            abs(a - b) <= max(share * max(abs(a), abs(b)), 0.006)
            for a, b in ((self.low, other.low), (self.high, other.high))
        )

    def times(self, factor: float) -> Amount:
        """The same, so many times."""
        return Amount(low=self.low * factor, high=self.high * factor, kind=self.kind)


def amounts(text: str) -> list[Amount]:
    """Every amount of a text in its order; two of one kind that stand together (2 lb 3 oz) are their sum."""
    found: list[Amount] = []
    end = -1
    for match in AMOUNT.finditer(text.replace(" ", " ").replace("\N{NARROW NO-BREAK SPACE}", " ")):
        amount = _amount(match)
        joined = bool(found) and match.start() - end <= 1 and found[-1].kind == amount.kind != "count"
        found.append(amount)
        if joined:
            before = found[-2]
            total = Amount(low=before.low + amount.low, high=before.high + amount.high, kind=amount.kind)
            found[-2:] = [total]
        end = match.end()
    return found


def _amount(match: re.Match[str]) -> Amount:
    unit = re.sub(r"[ .]", "", match["unit"] or "")
    kind, size = SIZES.get(unit.lower(), SIZES.get(unit.lower().rstrip("s"), ("count", Fraction(1))))
    low = _number(match["low"])
    high = _number(match["high"]) if match["high"] else low
    return Amount(low=float(low * size), high=float(high * size), kind=kind)


def _number(text: str) -> Fraction:
    text = text.replace(",", "").replace("⁄", "/")
    if text[-1] in SIGNS:
        return Fraction(text[:-1].strip() or 0) + Fraction(*SIGNS[text[-1]])
    return sum((Fraction(part) for part in text.split(" ")), Fraction(0))
