"""book.yaml in, the settings of a book out; what cannot be read is a problem and keeps its default."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import partial
from urllib.parse import urlsplit

from generator.model.book import BookConfig, HouseWeight
from generator.model.gathering import Capacity
from generator.model.published import CuringSalt
from generator.model.quantity import Dimension
from generator.problems import ProblemLog
from generator.read.accept import accept_key
from generator.read.front_matter import read_front_matter
from generator.read.grammar import Grammar
from generator.read.keys import Behind, Block, Holds, Key
from generator.read.number import AmountError, plain, read_number
from generator.read.quantity import parse_amount
from generator.read.shapes import check_keys
from generator.read.text import FrontMatter
from generator.read.values import Value, base_units, count, of_text, one_of, words, wrong, yes_no
from generator.tables import Tables

LOWEST_M, HIGHEST_M = Fraction(-450), Fraction(6000)
"[m] Common knowledge, no source: the lowest shore and the highest village."

_LANGUAGE = re.compile(r"[a-z]{2,3}(?:-[A-Za-z0-9]{2,8})*")
_THEME = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_SHARE = re.compile(r"(?:sodium )?(nitrite|nitrate) (.+?) ?%", re.IGNORECASE)
_WEIGHT_HINT = "Write a weight and a measure: 240 g per cup."
_SALT_HINT = "Write nitrite 6 %, nitrate 1 %; the rest is salt."


@of_text
def _language(text: str, _: Value) -> str:
    if not _LANGUAGE.fullmatch(text):
        raise wrong(f"'{text}' is not the code of a language.", "Write en, en-GB, de, fr ...")
    return text


@of_text
def _theme(text: str, _: Value) -> str:
    if not _THEME.fullmatch(text):
        raise wrong(f"'{text}' is not the name of a theme.", "Write the name of a folder in themes/.")
    return text


@of_text
def _address(text: str, value: Value) -> str:
    """The address of the site, with one slash at its end."""
    try:
        parts = urlsplit(text)
        host = parts.hostname
    except ValueError:
        host, parts = None, urlsplit("")
    if parts.scheme not in ("http", "https") or not host or parts.query or parts.fragment or " " in text:
        raise wrong(f"'{text}' is not the address of a site.", f"Write it as {value.example}.")
    return text.rstrip("/") + "/"


@of_text
def _altitude(text: str, value: Value) -> Fraction:
    """The height of the kitchen [m]; an `m` behind the number is metres here, as in no other amount."""
    hint = "Write 5200 ft or 1600 m."
    number = text.removesuffix("m").rstrip()
    written = f"{number} metres" if number != text and number[-1:].isdigit() else text
    total = parse_amount(written, value.grammar).total(Dimension.LENGTH)
    if total is None or total.is_range:
        raise AmountError("wrong-dimension", f"'{text}' is not one height.", hint)
    metres = total.low / 1000
    if not LOWEST_M <= metres <= HIGHEST_M:
        raise wrong(f"'{text}' is no height of a kitchen.", hint)
    return metres


def _house_weights(value: Value) -> tuple[HouseWeight, ...]:
    """What one measure of a food weighs, by the author's own scale."""
    weights = []
    for one in value.items():
        read = one.read(lambda text: _weight_per_measure(text, value.grammar))
        if read is not None:
            weights.append(HouseWeight(name=one.name, grams=read[0], unit=read[1], position=one.position))
    return tuple(weights)


def _weight_per_measure(value: str, grammar: Grammar) -> tuple[Fraction, str]:
    """Grams and the key of the measure in `240 g per cup`."""
    weight, per, measure = value.partition(" per ")
    if not per:
        raise wrong(f"'{value}' is not a weight per measure.", _WEIGHT_HINT)
    total = parse_amount(weight, grammar).total(Dimension.WEIGHT)
    if total is None or total.is_range:
        raise AmountError("wrong-dimension", f"'{weight}' is not one weight.", _WEIGHT_HINT)
    at = value.index(per) + len(per)
    unit = grammar.unit(measure.strip().removeprefix("1 "), at)
    if unit is None:
        raise AmountError("unknown-unit", f"'{measure}' is not a unit.", _WEIGHT_HINT, at)
    if unit.dimension is not Dimension.VOLUME:
        raise AmountError("wrong-dimension", f"'{measure}' is not a volume.", _WEIGHT_HINT, at)
    return total.low, unit.key


def _curing_salts(value: Value) -> tuple[CuringSalt, ...]:
    salts = []
    for one in value.items():
        shares = one.read(lambda text: _shares(text, value.grammar.language))
        name = " ".join(one.name.lower().split())
        if value.grammar.tables.curing_salt(name) is not None:
            message = f"'{one.name}' is a published curing salt already."
            value.log.add("wrong-value", one.position, message, "Give yours another name.")
        elif shares is not None:
            salts.append(_curing_salt(one.name, name, *shares))
    return tuple(salts)


def _shares(value: str, language: str) -> tuple[Fraction, Fraction]:
    """Nitrite and nitrate, as shares, of `nitrite 6 %, nitrate 1 %`."""
    shares: dict[str, Fraction] = {}
    offset = 0
    for part in value.split(", "):
        found = _SHARE.fullmatch(part.strip())
        if found is None or found.group(1).lower() in shares:
            raise wrong(f"'{part.strip()}' is not a share of nitrite or nitrate.", _SALT_HINT, offset)
        number = read_number(plain(found.group(2)), 0, language)
        if number is None or number[1] != len(found.group(2)):
            raise wrong(f"'{found.group(2)}' is not a number.", _SALT_HINT, offset)
        shares[found.group(1).lower()] = number[0] / 100
        offset += len(part) + 2
    nitrite, nitrate = shares.get("nitrite", Fraction(0)), shares.get("nitrate", Fraction(0))
    if not nitrite > 0 or nitrite + nitrate > 1:
        raise wrong(f"'{value}' is no composition of a curing salt.", _SALT_HINT)
    return nitrite, nitrate


def _curing_salt(title: str, name: str, nitrite: Fraction, nitrate: Fraction) -> CuringSalt:
    parts = [f"{float(nitrite * 100):g} % sodium nitrite"]
    parts += [f"{float(nitrate * 100):g} % sodium nitrate"] if nitrate else []
    return CuringSalt(
        key=name,
        names=(name,),
        title=f"{title} ({', '.join(parts)})",
        nitrite=nitrite,
        nitrate=nitrate,
        salt=1 - nitrite - nitrate,
        source="own-label",
        locator="book.yaml",
    )


def _pots_ml(value: Value) -> tuple[Fraction, ...]:
    """The volume of each pot, in the order of the file."""
    volumes = (base_units(one, Dimension.VOLUME) for one in value.items())
    return tuple(volume for volume in volumes if volume is not None)


def _chapters(value: Value) -> tuple[str, ...]:
    """The chapters in order; one that stands twice is a problem."""
    chapters: dict[str, None] = {}
    for one in value.items():
        name = words(one)
        if name in chapters:
            at = value.found.place(*one.path)
            value.log.add("wrong-value", at, f"The chapter '{name}' stands twice.", "Delete one of the two.")
        elif name:
            chapters[name] = None
    return tuple(chapters)


UNITS = Key("units", one_of("us", "metric", "imperial"), "us (if not told), metric, imperial", "metric")
LANGUAGE = Key("language", _language, "its code; en if not told", "en-GB")

BOOK = Block(
    BookConfig,
    Key("title", words, "a line", "The larder book", required=True, holds=Holds.PROSE),
    Key("family", words, "whose book it is", "The Wetherings of Tamsel Ridge", holds=Holds.PROSE),
    Key("address", _address, "where the site will stand", "https://example.org/book/"),
    LANGUAGE,
    UNITS,
    Key("altitude", _altitude, "height of the kitchen", "5200 ft", fills="altitude_m"),
    Key("poison help", words, "whom to call", "Call your local poison center.", holds=Holds.PROSE),
    Key(
        "deer disease area",
        yes_no,
        "yes or no: chronic wasting disease is known where the deer was shot",
        "yes",
    ),
    Key("shot", one_of("lead", "copper", "none"), "", "copper"),
    Key(
        "densities",
        _house_weights,
        "what a measure of a food weighs in this house",
        "acorn flour: 110 g per cup",
        fills="house_weights",
        behind=Behind.MAPPING,
    ),
    Key(
        "weighings",
        _house_weights,
        "the same, by name",
        "dense-flake salt: 240 g per cup",
        fills="house_weights",
        behind=Behind.MAPPING,
    ),
    Key(
        "curing salts",
        _curing_salts,
        "those of a label: name and shares of nitrite and nitrate, the rest is salt",
        "house cure: nitrite 6 %, nitrate 1 %",
        behind=Behind.MAPPING,
    ),
    Key(
        "chapters",
        _chapters,
        "a list, in the order of the book",
        "Smokehouse",
        behind=Behind.LIST,
        holds=Holds.PROSE,
    ),
    accept_key("for every recipe of the book"),
    Key(
        "theme",
        _theme,
        "`larder`, warm paper and green ink; `slate`, black and white in large letters for poor light",
        "slate",
    ),
    Key(
        "paper",
        one_of("letter", "a4", "a5"),
        "letter, a4, a5: of its sheets, PDFs and labels; letter where `units` are us, else a4",
        "a4",
    ),
)

_grams = partial(base_units, kind=Dimension.WEIGHT)

KITCHEN = Block(
    Capacity,
    Key("smoker capacity", _grams, "the weight that it holds", "30 lb", fills="smoker_g"),
    Key("ovens", count, "how many", "1"),
    Key("burners", count, "how many", "4"),
    Key("pots", _pots_ml, "a list of their volumes", "15 L", fills="pots_ml", behind=Behind.LIST),
)
"What the kitchen has; what is not told stays unknown."

BOOK_FILE_KEYS = Block(BookConfig, *BOOK.keys, *KITCHEN.keys)
"Both stand in book.yaml side by side."


def read_config(text: str, file: str, tables: Tables, log: ProblemLog) -> BookConfig:
    """The settings; where book.yaml has an error, the defaults stand in so that recipes can still be checked."""
    found = read_front_matter(text, 1, file, log, BOOK_FILE_KEYS.holds)
    if found is None:
        return BookConfig(title="", file=file)
    check_keys(BOOK_FILE_KEYS, found, log)
    at = Value(found=found, grammar=_grammar(found, tables), log=log)
    paper = "letter" if at.grammar.system == "us" else "a4"
    return BookConfig(**BOOK.told(at, file=file, paper=paper, capacity=KITCHEN.read(at)))


def _grammar(found: FrontMatter, tables: Tables) -> Grammar:
    """How the amounts of the book, those of book.yaml too, are written; what is wrong in it is told later."""
    us = Grammar(system="us", language="en", tables=tables)
    at = Value(found=found, grammar=us, log=ProblemLog())
    system = UNITS.read(at.under(UNITS.name)) or us.system
    language = LANGUAGE.read(at.under(LANGUAGE.name)) or us.language
    return Grammar(system=system, language=language, tables=tables)
