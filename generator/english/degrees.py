# ruff: noqa: E501
"""Words of English in; the temperatures that they tell out, and by how many degrees something changes.

What is told in degrees may be a point (`at 350 °F`), or a change, margin or rate (`by 10 °F`, `15 °F hotter`, `within
5 °F`), which has no 32 in it. Degrees of an angle, of a brine or of a syrup are no temperature. All words are words of
the trade: common practice, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from generator.model.quantity import Temperature, TemperatureRange

NEAR = 80
"Characters on either side of a number whose words say what it is. Source: house; a clause is shorter."
SMALL_F, MARGIN_F = Fraction(100), Fraction(30)
"[degF] A change and a margin that need no other word to tell them from a point are no larger. Source: house choice."
SURE_F, SURE_C, HOTTEST_F, HOTTEST_C = Fraction(100), Fraction(60), Fraction(600), Fraction(300)
"From here degrees without a scale need no word before them, up to what ovens reach. Source: house choice."
CUPS = Fraction(40)
"Below this `2 C` may be cups. Source: house choice."
PER_C = Fraction(9, 5)
"[degF] A change of one degree Celsius. Source: a definition."

_NUMBER = r"\d{1,3}(?:[.,]\d{1,2})?(?![\d/½¼¾⅓⅔⅛])"
_SIGN = r"(?:[\s-]?[°º˚]|[\s-]?degrees?\b|[\s-]?degs?\b(?:\.(?=\s?(?-i:[a-zFC(])))?)"
_SCALE = r"\s?(?:(?:fahrenheit|celsius|centigrade|[FC])(?![\w'’])(?:\.(?=\s(?-i:[a-z(])|[),]))?|[℉℃])"
_TO = r"(?:\s?[–—-]\s?(?:to[\s-])?|-?\s(?:up\s)?(?:to|or|and)\s(?:about\s|around\s)?)"
_TEMPERATURE = re.compile(
    rf"(?<![\w.,'’#$£€¥°º˚±–—-])(?<!\d/)(?P<below>[-−–](?=\d)|(?<!or )(?<!/)minus\s)?(?P<low>{_NUMBER})(?P<low_sign>{_SIGN})?"
    rf"(?P<low_scale>{_SCALE})?(?P<end>)(?:(?P<to>{_TO})(?P<also_below>[-−](?=\d)|minus\s)?(?P<high>{_NUMBER})"
    rf"(?P<sign>{_SIGN})?(?P<scale>{_SCALE})?)?(?![\w.,]?\d)",
    re.IGNORECASE,
)
_RANGE_ENDS = re.compile(r"\s?(?:[.,;:)]|$)|\s(?:for|until|till?|oven)\b")

_FILL = (
    r"(?:(?:no|not) more than |more than |less than |at most |at least |as much as |up to |only |about |around |roughly |some |"
    r"just |another |the |an? |full |nearly |almost |over |maybe |perhaps )?(?:about |an? |some )?$"
)
_SURELY_CHANGE_BEFORE = re.compile(
    r"(?:\b(?:plus or minus|plus-or-minus|plus ?/ ?minus|give or take|another|additional|extra|(?:drop|rise|fall|increase|decrease|change|"
    r"difference|differential|swing|variation|gap|jump|loss|gain|climb|lag|error|margin|tolerance|leeway|rate|carry-?over|"
    r"accuracy|steps?|jumps?|increments?|intervals?)(?: in temperature)? of)|(?:\+|plus )/-|\+/−|\+-|±) ?"
    + _FILL
)
_CHANGE_BEFORE = re.compile(
    r"(?:\w,? by|\b(?:every|each|per|apart|off|out|differs?|differed|var(?:y|ies|ied)|varying|swings?|fluctuates?|drifts?|wanders?|"
    r"up|down|accurate to|true to|allow|expect)) " + _FILL
)
_CHANGE_VERB = re.compile(
    r"\b(?:rais(?:e|es|ed|ing)|lower(?:s|ed|ing)?|drop(?:s|ped|ping)?|reduc(?:e|es|ed|ing)|increas(?:e|es|ed|ing)|"
    r"decreas(?:e|es|ed|ing)|ris(?:e|es|en|ing)|rose|climb(?:s|ed|ing)?|f[ae]ll(?:s|en|ing)?|gain(?:s|ed|ing)?|los(?:e|es|t|ing)|"
    r"jump(?:s|ed|ing)?|coast(?:s|ed|ing)?|creep(?:s|ing)?|dip(?:s|ped)?|go(?:es)? (?:up|down)|carr(?:y|ies) over|add(?:s|ed|ing)?|subtract(?:s|ed|ing)?|compensate|bump(?:s|ed)?|nudge|deduct|knock off)"
    r"(?: (?!(?:to|at|until|till?|from|between|above|below|over|under|past|of|is|reads?|reach(?:es)?|into?|on|onto|near|for|with|"
    r"within|and|or|than)\b)[\w'’-]{1,20}){0,5} ((?:by )?(?:no more than |not more than |more than |as much as |up to |about |at most ))?$"
)
_AT_FIRST_BY = re.compile(r"^by " + _FILL)
_WITHIN = re.compile(r"\bwithin (?:about |around |an? )?$")
_RUNS = re.compile(r"\b(?:runs?|running|ran|reads?|cooks?|is|was|be|it's|comes? out)(?: \w{1,12}){0,2} $")
_BOTH = re.compile(r"\b(?:between|within)\s(?:about\s)?$")
_BOUND = re.compile(r"\b(?:below|above|under|over) (?:about )?$")
_AT = re.compile(r"(?:\b(?:at|to|until|till|between|reach(?:es)?)|@) (?:about |around |an? )?$")

_OR_SO = r"^[ -]?(?: ?or (?:so|more|two))?[ -]?"
_SURELY_CHANGE_BEHIND = re.compile(
    _OR_SO
    + r"(?:(?:hotter|warmer|cooler|colder)\b|(?:higher|lower|more|less|above|below) than\b|(?:difference|differential)\b)"
)
_CHANGE_BEHIND = re.compile(
    _OR_SO
    + r"(?:(?:higher|lower(?! (?:the|it|your|them|heat))|more(?! or less)|less|off|apart|short|shy|early|too (?:hot|cold|warm|cool|high|low))\b|"
    r"(?:above|below) (?:the|that|this|its?|your|my|what|where|normal|boiling|freezing|body|room|target|outside|air|done|[1-9])|"
    r"(?:over|under|past|from) (?:that|the (?:target|setting|mark|goal|boiling|freezing|set|right|true)|your|boiling|freezing|target)|"
    r"at a time\b|at once\b|either (?:way|side)|in either|on either|up or down|a side\b|per\b|of (?:carry|leeway|slack|play|drop|rise|warming)|"
    r"(?:rise|drop|swing|margin|leeway|change|increase|decrease|steps?|increments?|intervals?|jumps?|gap|spread|variation|tolerance|"
    r"cushion|carry)\b)"
)
_SHORT_OF = re.compile(_OR_SO + r"(?:before|under|over|past|shy|short|between)\b")
_RATE_BEHIND = re.compile(
    _OR_SO
    + r"(?:/ ?(?:h|hr|hour|min|minute|day)\b|(?:an?|(?:for )?every|(?:for )?each|per) (?:half )?(?:hour|minute|day|\d))"
)
_OUT_BEHIND = re.compile(_OR_SO + r"(?:hot|cold|high|low|slow|fast|out)\b")
_BELOW_ZERO = re.compile(r"^ ?below (?:zero|0)\b")

_ANGLE_BEFORE = re.compile(
    r"\b(?:turn|rotat|tilt|twist|swing|spin|flip|bend|lean|slant|slope|pivot|bevel|angle)\w{0,4}"
    r"(?: (?!(?:to|at|up|down|heat|oven|burner|dial|thermostat)\b)[\w'’-]{1,20}){0,5} $|"
    r"\b(?:angle|arc|turn|slope|slant|latitude|knife|blade|edge) (?:of|at|about|is) (?:about )?$|\bthrough $|"
    r"\b(?:cut|slice|score|carve|saw|sharpen|hone)(?: (?!(?:and|then|or)\b)[\w'’-]{1,20}){0,5} at (?:about |an? )?$|"
    r"\b(?:(?:brine|pickle|syrup)(?: of| testing)|strength(?: of)?|tests?|testing|density(?: of)?) (?:about |an? )?$"
)
_NO_HEAT = re.compile(
    r"\b(?:salometer|salinometer|salimeter|hydrometer|saccharometer|baum[eé]|brix|plato|balling|oechsle|salinity|latitude|"
    r"protractor)\b"
)
_NO_HEAT_BEHIND = re.compile(
    r"^[ -]*(?:angle|turn|arc|rotation|slant|bend|bevel|slope|twist|tilt|brine|pickle|syrup|sal\b|(?:of )?strength|"
    r"of (?:salt|arc|freedom|doneness|smoke)|all (?:a?round|the way)|from (?:vertical|horizontal|level|the (?:vertical|horizontal))|(?:north|south|east|west)\b)"
)
_LEAD = re.compile(
    r"(?:\b(?:at|to|of|is|are|be|was|were|reads?|reading|reach(?:es|ed)?|hits?|registers?|shows?|between|from|about|around|above|"
    r"below|under|over|exceeds?|than|least|most|near|stays?|until|till|an?|the|set|keep|hold|held|within|by|as|another|every|each|"
    r"temperature|thermometer|and|or)|[(~@:]) ?$|"
    r"\b(?:keep|kept|hold|held|store|stored|chill|room|cellar|cooler|fridge|refrigerator|smokehouse|water|oven)\b[^,:()]{0,24}$"
)
_MAYBE_C = re.compile(
    r"(?:\b(?:at|to|until|till|between|reach(?:es)?|below|under|above|over|and|than|by) |[@(/=] ?)(?:about |around )?$"
)
_NO_CUPS = re.compile(r" ?(?:$|[,):]|(?:or|and|to|for|until|in|overnight)\b)")
_NUMBERED = re.compile(r"(?:\b(?:page|no|nos|number|step|size|table|type|figure|grade)\.? |#)$")


@dataclass(frozen=True, slots=True, kw_only=True)
class Degrees:
    """What a text tells in degrees, and where it stands; the ends are as they are written, one after the other."""

    ends: tuple[Fraction, Fraction]
    scale: str
    "F or C"
    is_change: bool
    "How much hotter or colder, not how hot."
    start: int
    end: int

    @property
    def falls(self) -> bool:
        """`from 400 to 350 °F`"""
        return self.ends[1] < self.ends[0]

    @property
    def at(self) -> TemperatureRange:
        """From the lower to the higher, as points."""
        low, high = sorted(self.ends)
        return TemperatureRange(Temperature(low, self.scale), Temperature(high, self.scale))


def degrees_of(text: str, *, scale: str = "F") -> Iterator[Degrees]:
    """All that a text tells in degrees of heat, in order; `scale` is that of degrees without one."""
    for found in _TEMPERATURE.finditer(text):
        for one in _parts(text, found):
            read = _read(text, one, scale)
            if read is not None:
                yield read


def scale_of(units: str) -> str:
    """The scale of degrees without one, by the units of a book: us, metric or imperial."""
    return "C" if units == "metric" else "F"


def temperatures_in(text: str, *, scale: str = "F") -> Iterator[tuple[TemperatureRange, int, int]]:
    """Every temperature of a text, and where it stands; `scale` is that of degrees without one. Changes are left out."""
    for one in degrees_of(text, scale=scale):
        if not one.is_change:
            yield one.at, one.start, one.end


def degrees_at(text: str, start: int, *, scale: str) -> Degrees | None:
    """What is told in degrees at an offset, `scale` that of degrees without one; None where nothing is."""
    found = _TEMPERATURE.match(text, start)
    one = next(_parts(text, found), None) if found is not None else None
    return None if one is None else _read(text, one, scale)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Written:
    """One or two numbers that stand together."""

    ends: tuple[Fraction, Fraction]
    scale: str
    "Empty where none is written."
    is_bare: bool
    "A letter without a sign of degrees: `350 F`."
    letter: str
    start: int
    end: int


def _parts(text: str, found: re.Match[str]) -> Iterator[_Written]:
    """A match as one temperature, one range, or two that only stand beside each other."""
    first = bool(found["low_sign"] or found["low_scale"])
    last = bool(found["sign"] or found["scale"])
    if found["high"] and (last or (first and _is_open_range(text, found))) and _is_one_range(text, found):
        yield _written(found, ("low", "high"), found.start(), found.end())
        return
    if first:
        yield _written(found, ("low",), found.start(), found.start("end"))
    if last:
        at = found.start("also_below") if found["also_below"] else found.start("high")
        yield _written(found, ("high",), at, found.end())


def _is_open_range(text: str, found: re.Match[str]) -> bool:
    """`175°-200 for an hour`: the sign stands at the first end alone."""
    is_to = found["to"].strip(" -–—").startswith("to") or found["to"] in ("-", "–", "—")
    rises = _number(found["high"]) > _number(found["low"])
    return is_to and rises and _RANGE_ENDS.match(text, found.end()) is not None


def _is_one_range(text: str, found: re.Match[str]) -> bool:
    scales = {(found[name] or "").strip()[:1].upper() for name in ("low_scale", "scale")} - {""}
    if len(scales) > 1:
        return False
    if found["to"].strip().startswith("and"):
        return _BOTH.search(text[max(found.start() - 16, 0) : found.start()].lower()) is not None
    falls = _value(found, "high") < _value(found, "low")
    return not (falls and (found["low_sign"] or found["low_scale"]))


def _written(found: re.Match[str], which: tuple[str, ...], start: int, end: int) -> _Written:
    scale, sign = {"low": ("low_scale", "low_sign"), "high": ("scale", "sign")}[which[-1]]
    letter = (
        (found[scale] or (found["low_scale"] if len(which) > 1 else found["scale"]) or "").strip().rstrip(".")
    )
    named = {"℉": "F", "℃": "C"}.get(letter, letter[:1].upper())
    has_sign = found[sign] or found["low_sign"] or letter in ("℉", "℃")
    is_bare = not has_sign and len(letter) == 1
    ends = (_value(found, which[0]), _value(found, which[-1]))
    glued = f" {letter}" if (found[scale] or " ").startswith(" ") else letter
    return _Written(ends=ends, scale=named, is_bare=is_bare, letter=glued, start=start, end=end)


def _value(found: re.Match[str], which: str) -> Fraction:
    below = found["below" if which == "low" else "also_below"]
    return -_number(found[which]) if below else _number(found[which])


def _number(written: str) -> Fraction:
    return Fraction(written.replace(",", "."))


def _read(text: str, one: _Written, scale: str) -> Degrees | None:
    """What is written, judged by the words around it; None where it is no heat, or may be something else."""
    before, behind = _before(text, one.start), _behind(text, one.end)
    own = one.scale or scale
    is_change = _is_change(before, behind, max(map(abs, one.ends)), own)
    if one.is_bare and not _is_letter_of_heat(one, before, behind):
        return None
    if not one.scale and not is_change and not _is_heat(one, own, before, behind):
        return None
    ends = one.ends
    if not is_change and _BELOW_ZERO.match(behind):
        ends = (-abs(ends[0]), -abs(ends[1]))
    return Degrees(ends=ends, scale=own, is_change=is_change, start=one.start, end=one.end)


def _before(text: str, start: int) -> str:
    """The words of the clause before a number, small, one space between them and behind them."""
    near = text[max(start - NEAR, 0) : start]
    clause = re.split(r"(?<!deg)[.;!?]\s", near)[-1].lower()
    words = " ".join(clause.split())
    return f"{words} " if clause[-1:].isspace() else words


def _behind(text: str, end: int) -> str:
    near = text[end : end + NEAR]
    clause = re.split(r"[.;!?](?:\s|$)", near)[0].lower()
    space = " " if clause[:1].isspace() else ""
    return space + " ".join(clause.split())


def _is_change(before: str, behind: str, size: Fraction, scale: str) -> bool:
    """A change is told by the words right before it or right behind it."""
    if _BELOW_ZERO.match(behind):
        return False
    if _SURELY_CHANGE_BEFORE.search(before) or _SURELY_CHANGE_BEHIND.match(behind):
        return True
    in_f = size if scale == "F" else size * PER_C
    if in_f > SMALL_F:
        return False
    if _WITHIN.search(before):
        return in_f <= MARGIN_F or behind.startswith(" of ")
    if in_f <= MARGIN_F and (
        _AT_FIRST_BY.search(before) or (_SHORT_OF.match(behind) and not _AT.search(before))
    ):
        return True
    if _CHANGE_BEFORE.search(before) or _CHANGE_VERB.search(before) or _CHANGE_BEHIND.match(behind):
        return True
    if (
        _RATE_BEHIND.match(behind)
        and not _AT.search(before)
        and (in_f <= MARGIN_F or not _BOUND.search(before))
    ):
        return True
    return _OUT_BEHIND.match(behind) is not None and _RUNS.search(before) is not None


def _is_letter_of_heat(one: _Written, before: str, behind: str) -> bool:
    """`350 F` and `350f`, but neither `2 C flour`, which is cups, nor `2 c`."""
    high = max(one.ends)
    is_small = one.letter.strip().islower()
    if is_small and high >= SURE_F:
        return one.letter == "f" or _LEAD.search(before) is not None
    if is_small and one.scale == "F":
        return _LEAD.search(before) is not None
    if one.scale == "C" and (is_small or abs(high) < CUPS):
        return _MAYBE_C.search(before) is not None and _NO_CUPS.match(behind) is not None
    return _NUMBERED.search(before) is None


def _is_heat(one: _Written, scale: str, before: str, behind: str) -> bool:
    """Degrees without a scale: hot enough to be nothing else, or behind a word that leads to a temperature."""
    if _ANGLE_BEFORE.search(before) or _NO_HEAT_BEHIND.match(behind) or _NO_HEAT.search(before + behind):
        return False
    high = max(one.ends)
    sure, hottest = (SURE_F, HOTTEST_F) if scale == "F" else (SURE_C, HOTTEST_C)
    return high <= hottest and (high >= sure or _LEAD.search(before) is not None)
