"""book.yaml in, the settings of a book out; what cannot be read is a problem and keeps its default."""

from __future__ import annotations

import re
from fractions import Fraction
from urllib.parse import urlsplit

from generator.model.book import BookConfig, HouseWeight
from generator.model.gathering import Capacity
from generator.model.published import CuringSalt
from generator.model.quantity import Dimension
from generator.problems import ProblemLog
from generator.read.accept import read_accept
from generator.read.front_matter import read_front_matter
from generator.read.grammar import Grammar
from generator.read.number import AmountError, plain, read_number
from generator.read.quantity import parse_amount
from generator.read.shapes import BookShape, check_shape
from generator.read.text import FrontMatter
from generator.read.values import Values, wrong
from generator.tables import Tables

SYSTEMS = ("us", "metric", "imperial")
PAPERS = ("letter", "a4", "a5")
LOWEST_M, HIGHEST_M = Fraction(-450), Fraction(6000)
"[m] Common knowledge, no source: the lowest shore and the highest village."

_LANGUAGE = re.compile(r"[a-z]{2,3}(?:-[A-Za-z0-9]{2,8})*")
_THEME = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")
_SHARE = re.compile(r"(?:sodium )?(nitrite|nitrate) (.+?) ?%", re.IGNORECASE)
_WEIGHT_HINT = "Write a weight and a measure: 240 g per cup."
_SALT_HINT = "Write nitrite 6 %, nitrate 1 %; the rest is salt."


def read_config(text: str, file: str, tables: Tables, log: ProblemLog) -> BookConfig:
    """The settings; where book.yaml has an error, the defaults stand in so that recipes can still be checked."""
    found = read_front_matter(text, 1, file, log)
    if found is None:
        return BookConfig(title="", file=file)
    check_shape(BookShape, found, log)
    plain_values = Values(found, Grammar(system="us", language="en", tables=tables), log)
    units = plain_values.one_of(SYSTEMS, "units") or "us"
    language = plain_values.read(_language, "language") or "en"
    values = Values(found, Grammar(system=units, language=language, tables=tables), log)
    return BookConfig(
        title=values.words("title"),
        family=values.words("family"),
        address=values.read(_address, "address") or "",
        language=language,
        units=units,
        altitude_m=_altitude(values),
        poison_help=values.words("poison help"),
        deer_disease_area=values.yes_no("deer disease area"),
        shot=values.one_of(("lead", "copper", "none"), "shot"),
        house_weights=_house_weights(values),
        curing_salts=_curing_salts(values),
        chapters=_chapters(values),
        accept=read_accept(values),
        capacity=_capacity(values),
        theme=values.read(_theme, "theme") or "larder",
        paper=values.one_of(PAPERS, "paper") or ("letter" if units == "us" else "a4"),
        file=file,
    )


def _language(value: str) -> str:
    if not _LANGUAGE.fullmatch(value):
        raise wrong(f"'{value}' is not the code of a language.", "Write en, en-GB, de, fr ...")
    return value


def _theme(value: str) -> str:
    if not _THEME.fullmatch(value):
        raise wrong(f"'{value}' is not the name of a theme.", "Write the name of a folder in themes/.")
    return value


def _address(value: str) -> str:
    """The address of the site, with one slash at its end."""
    try:
        parts = urlsplit(value)
        host = parts.hostname
    except ValueError:
        host, parts = None, urlsplit("")
    if parts.scheme not in ("http", "https") or not host or parts.query or parts.fragment or " " in value:
        raise wrong(f"'{value}' is not the address of a site.", "Write it as https://example.org/book/.")
    return value.rstrip("/") + "/"


def _altitude(values: Values) -> Fraction | None:
    def parse(value: str) -> Fraction:
        number = value.removesuffix("m").rstrip()
        grammar = values.grammar
        words = f"{number} metres" if number != value and number[-1:].isdigit() else value
        found = parse_amount(words, system=grammar.system, language=grammar.language, tables=grammar.tables)
        total = found.total(Dimension.LENGTH)
        if total is None or total.is_range:
            raise AmountError("wrong-dimension", f"'{value}' is not one height.", "Write 5200 ft or 1600 m.")
        metres = total.low / 1000
        if not LOWEST_M <= metres <= HIGHEST_M:
            raise wrong(f"'{value}' is no height of a kitchen.", "Write 5200 ft or 1600 m.")
        return metres

    return values.read(parse, "altitude")


def _house_weights(values: Values) -> tuple[HouseWeight, ...]:
    """Densities and weighings of the house; both say what one measure weighs."""
    weights = []
    for path in _children(values.found, "densities") + _children(values.found, "weighings"):
        read = values.read(lambda value: _weight_per_measure(value, values.grammar), *path)
        if read is not None:
            grams, unit = read
            at = values.found.key(*path)
            weights.append(HouseWeight(name=path[1], grams=grams, unit=unit, position=at))
    return tuple(weights)


def _children(found: FrontMatter, key: str) -> list[tuple[str, str]]:
    return [(key, str(path[1])) for path in found.texts if path[0] == key and len(path) == 2]


def _weight_per_measure(value: str, grammar: Grammar) -> tuple[Fraction, str]:
    """Grams and the key of the measure in `240 g per cup`."""
    weight, per, measure = value.partition(" per ")
    if not per:
        raise wrong(f"'{value}' is not a weight per measure.", _WEIGHT_HINT)
    found = parse_amount(weight, system=grammar.system, language=grammar.language, tables=grammar.tables)
    total = found.total(Dimension.WEIGHT)
    if total is None or total.is_range:
        raise AmountError("wrong-dimension", f"'{weight}' is not one weight.", _WEIGHT_HINT)
    at = value.index(per) + len(per)
    unit = grammar.unit(measure.strip().removeprefix("1 "), at)
    if unit is None:
        raise AmountError("unknown-unit", f"'{measure}' is not a unit.", _WEIGHT_HINT, at)
    if unit.dimension is not Dimension.VOLUME:
        raise AmountError("wrong-dimension", f"'{measure}' is not a volume.", _WEIGHT_HINT, at)
    return total.low, unit.key


def _curing_salts(values: Values) -> tuple[CuringSalt, ...]:
    salts = []
    for path in _children(values.found, "curing salts"):
        shares = values.read(lambda value: _shares(value, values.grammar.language), *path)
        name = " ".join(path[1].lower().split())
        if values.grammar.tables.curing_salt(name) is not None:
            at = values.found.key(*path)
            message = f"'{path[1]}' is a published curing salt already."
            values.log.add("wrong-value", at, message, "Give yours another name.")
        elif shares is not None:
            salts.append(_curing_salt(path[1], name, *shares))
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


def _capacity(values: Values) -> Capacity:
    """What the kitchen has; what is not told stays unknown."""
    smoker = values.amount(Dimension.WEIGHT, "smoker capacity")
    held = smoker.total(Dimension.WEIGHT) if smoker else None
    return Capacity(
        smoker_g=held.low if held else None,
        ovens=values.count("ovens"),
        burners=values.count("burners"),
        pots_ml=_pots(values),
    )


def _pots(values: Values) -> tuple[Fraction, ...]:
    """The volume of each pot, in the order of the file."""
    paths = [path for path in values.found.texts if path[0] == "pots" and len(path) == 2]
    pots = [values.amount(Dimension.VOLUME, *path) for path in paths]
    volumes = [pot.total(Dimension.VOLUME) for pot in pots if pot is not None]
    return tuple(volume.low for volume in volumes if volume is not None)


def _chapters(values: Values) -> tuple[str, ...]:
    """The chapters in order; one that stands twice is a problem."""
    chapters: dict[str, None] = {}
    for path in values.found.texts:
        if path[0] != "chapters" or len(path) != 2:
            continue
        name = values.words(*path)
        if name in chapters:
            at = values.found.place(*path)
            values.log.add("wrong-value", at, f"The chapter '{name}' stands twice.", "Delete one of the two.")
        elif name:
            chapters[name] = None
    return tuple(chapters)
