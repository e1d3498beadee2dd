"""names.csv, name_words.csv and poisons.csv in; the names of animals, plants, fungi and foods in a text out.

One pass over the words of a text: at each word the longest known name wins and takes its words away, so that a bear claw
is no bear. Plurals, hyphens, accents and words written as one are read as the name itself. A name that is an everyday
word besides counts by its company.
"""

from __future__ import annotations

import csv
import functools
import re
import unicodedata
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated

from generator.model.published import Sourced
from generator.tables.csvfile import Shelf, TableError, Words, Wrong
from generator.tables.poisons import Poison
from generator.tables.stems import IRREGULAR, SPELLINGS, stem

KINDS = ("animal", "plant", "fungus", "food", "word")
"food: takes its words away and means nothing more. word: plain English, one letter off a poison, and no slip of it."
COMPANY = ("near", "beside")
"near: a word of the company anywhere in the text; beside: right before or behind the name, or before an `of`."
WHOLE = "whole"
"A name that counts only where it is the whole food of a line or a title."
WILD, FARMED = "wild", "farmed"
SETS = (
    *("cut", WILD, FARMED, "use word", "food word"),
    *("boil word", "soak word", "fry word", "drink word", "bare cut", "bare word"),
)
"""Words in company: cuts and dishes of meat; what says that an animal was wild, or was not; what is done with food, and
words of food; what boils, soaks, cooks and holds alcohol; a line that
names a cut and no animal."""
SLIP_LETTERS = 6
"A shorter word is one letter off too many others. Source: house choice."
SHORTEST_PART = 3
"Letters of each half of a name that is written as two words: buck wheat, but no her on. Source: house choice."
SLIP_WORDS = 3
"Words of the longest name that is looked for as a slip: jack in the pulpit is not. Source: house choice."
COLUMNS = ("name", "kind", "is", "when", "source", "locator")

_TOKEN = re.compile(r"[^\W_]+(?:['’][^\W_]+)*['’]?|[^\w\s'’‐‑–-]")
_ABBREVIATION = 4
"Letters of the longest word behind which a dot may be no stop: var. amara."


@dataclass(frozen=True, slots=True)
class Name:
    """One row of the table."""

    name: str
    kind: str
    means: tuple[str, ...]
    "Keys of animals.csv, or of poisons.csv and plants.csv; several where the name is that of several things."
    when: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NameRow(Sourced):
    """The same row with all of its cells, where every one is looked at."""

    names: Annotated[tuple[str, ...], "name"]
    kind: str
    means: Annotated[Words, "is"] = ()
    when: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Company(Sourced):
    """Words that names are known by."""

    set: str
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A name in a text, and where it stands there."""

    name: str
    "As the table has it."
    kind: str
    means: tuple[str, ...]
    "Nothing: a food, or an animal or plant of no table."
    start: int
    end: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """Words that are no name, one letter off the name of a poison."""

    meant: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Word:
    """One word of a text: as it is compared, and its place."""

    stem: str
    start: int
    end: int


@dataclass(frozen=True, eq=False, repr=False)
class Lexicon:
    """Every name. Finding asks the table a bounded number of times a word, however long the text."""

    lines: Mapping[str, str]
    "Lines of the table by the words that are compared, one space between; the first that counts is meant."
    lengths: Mapping[str, Sequence[int]]
    "How many words the names have that begin with a word, longest first."
    joined: Mapping[str, str]
    "Names of several words by the one word that they are when run together."
    sets: Mapping[str, frozenset[str]]
    poisons: Mapping[str, Poison]
    salts: Collection[str]
    "Names of nitrite and nitrate, whose slips are looked for."

    def rows(self, key: str) -> tuple[Name, ...]:
        """What a name can mean, by the words that are compared."""
        found = self._rows.get(key)
        if found is None:
            found = self._rows[key] = _names_of(self.lines.get(key, ""))
        return found

    @functools.cached_property
    def _rows(self) -> dict[str, tuple[Name, ...]]:
        """A name is made of its line when a text holds it: a book knows a few hundred of the thousands."""
        return {}

    def find(self, text: str, *, whole: bool = False, company: str = "") -> tuple[Found, ...]:
        """Every name in a text, from the left.

        `whole`: the text is the name of one food, or a title. `company`: what else stands in the line or sentence.
        """
        runs = runs_of(text)
        reader = _Heard(self, runs, whole, frozenset(word.stem for run in runs_of(company) for word in run))
        return tuple(found for run in runs for found in reader.names_in(run) if found.kind != "word")

    def near(self, text: str, *, whole: bool = False) -> tuple[Slip, ...]:
        """Words of no name, one letter off the name of a poison: added, lost, changed, or two that changed places."""
        runs = runs_of(text)
        reader = _Heard(self, runs, whole, frozenset())
        return tuple(slip for run in runs for slip in self._slips_in(run, reader))

    def named(self, name: str) -> Found | None:
        """What the whole of a name is, as the food of a line or a cure; None where it is not known."""
        found = self.find(name, whole=True)
        return found[0] if len(found) == 1 and _is_all_of(name, found[0]) else None

    @property
    def names_of_animals(self) -> tuple[str, ...]:
        """Names of the animals of animals.csv, whatever their company: for a hint alone, since it looks at every row."""
        rows = (row for lines in self.lines.values() for row in _names_of(lines))
        return tuple(row.name for row in rows if row.kind == "animal" and row.means)

    def wildness(self, text: str) -> str:
        """wild or farmed where a word of the text says so, else nothing; wild where both stand there.

        A word that is part of a name says nothing of the animal: venison with wild rice.
        """
        taken = [(found.start, found.end) for found in self.find(text) if found.kind != "animal"]
        said = {
            wild_or_not
            for run in runs_of(text)
            for at, word in enumerate(run)
            if not any(start <= word.start < end for start, end in taken)
            for wild_or_not in (WILD, FARMED)
            if self._says(run, at, wild_or_not)
        }
        return WILD if WILD in said else FARMED if said else ""

    def _says(self, run: Sequence[Word], at: int, wild_or_not: str) -> bool:
        two = f"{run[at].stem} {run[at + 1].stem}" if at + 1 < len(run) else ""
        return run[at].stem in self.sets[wild_or_not] or two in self.sets[wild_or_not]

    def _slips_in(self, run: Sequence[Word], reader: _Heard) -> Iterator[Slip]:
        # Words that are near no poison are most, and then nobody asks which of them are names.
        known = functools.cache(lambda: _places(run, reader.names_in(run)))
        at = 0
        while at < len(run):
            size, meant = self._slip_at(run, at, known)
            if meant:
                yield Slip(meant=meant, start=run[at].start, end=run[at + size - 1].end)
            at += size

    def _slip_at(self, run: Sequence[Word], at: int, known: Callable[[], frozenset[int]]) -> tuple[int, str]:
        """How many words to go on, and the name that is meant; the longest first. One word of it must be of no name."""
        for size in range(min(SLIP_WORDS, len(run) - at), 0, -1):
            stems = [word.stem for word in run[at : at + size]]
            if size > 1 and self._parts.isdisjoint(stems):
                continue
            meant = self._meant_by(" ".join(stems))
            if meant and not known().issuperset(range(at, at + size)):
                return size, meant
        return 1, ""

    def _meant_by(self, written: str) -> str:
        if written in self._slips:
            return self._slips[written]
        is_word = len(written) < SLIP_LETTERS - 1 or any(
            written in known for known in (self.lines, self.joined, self.hazards)
        )
        meant = "" if is_word else next(self._one_letter_off(written), "")
        self._slips[written] = meant
        return meant

    def _one_letter_off(self, written: str) -> Iterator[str]:
        for short in (written, *_one_less(written)):
            for spelling in self._shortened.get(short, ()):
                if one_letter_off(written, spelling):
                    yield self.hazards[spelling]

    @functools.cached_property
    def hazards(self) -> dict[str, str]:
        """Names of what no kitchen makes food of and of nitrite, as words and as the one word they are run together."""
        found = {stems_of(salt): salt for salt in self.salts}
        for stems, lines in self.lines.items():
            name, *_ = _names_of(lines)
            if not name.when and any(map(self._is_never_food, name.means)):
                found[stems] = name.name
        return {**{stems.replace(" ", ""): name for stems, name in found.items()}, **found}

    def _is_never_food(self, key: str) -> bool:
        return key in self.poisons and self.poisons[key].is_never_food

    @functools.cached_property
    def _slips(self) -> dict[str, str]:
        """What words were found to mean, so that each is looked at once however often it stands in a book."""
        return {}

    @functools.cached_property
    def _parts(self) -> frozenset[str]:
        """Words of the poisons' names of several words: where none of them stands, none is meant."""
        return frozenset(part for spelling in self.hazards if " " in spelling for part in spelling.split())

    @functools.cached_property
    def _shortened(self) -> Mapping[str, tuple[str, ...]]:
        """Spellings of poisons by what they are with one letter less, and by themselves."""
        found: dict[str, tuple[str, ...]] = {}
        for spelling in sorted(self.hazards):
            if len(spelling) >= SLIP_LETTERS and spelling.count(" ") < SLIP_WORDS:
                for short in {spelling, *_one_less(spelling)}:
                    found[short] = (*found.get(short, ()), spelling)
        return found


class _Heard:
    """Names of one text: its words are gathered once, for the names that count by their company."""

    def __init__(
        self, lexicon: Lexicon, runs: Sequence[Sequence[Word]], whole: bool, company: frozenset[str]
    ) -> None:
        self.lexicon = lexicon
        self.stems = company.union(word.stem for run in runs for word in run)
        self.count = sum(map(len, runs))
        self.whole = whole

    def names_in(self, run: Sequence[Word]) -> Iterator[Found]:
        at = 0
        while at < len(run):
            size, row = self._longest(run, at, len(run) - at)
            if row is not None and size > 1:
                size, row = self._unless_overtaken(run, at, size, row)
            if row is not None:
                start, end = run[at].start, run[at + size - 1].end
                yield Found(name=row.name, kind=row.kind, means=row.means, start=start, end=end)
            at += size

    def _unless_overtaken(
        self, run: Sequence[Word], at: int, size: int, row: Name
    ) -> tuple[int, Name | None]:
        """A longer name that begins within this one wins; after `wild` one as long: wild horse chestnut."""
        least = size if run[at].stem == WILD else size + 1
        for later in range(at + 1, at + size):
            other, found = self._longest(run, later, len(run) - later)
            if found is not None and other >= least and later + other > at + size:
                return self._longest(run, at, later - at)
        return size, row

    def _longest(self, run: Sequence[Word], at: int, most: int) -> tuple[int, Name | None]:
        """The longest name of at most so many words, else one word and no name."""
        first = run[at].stem
        for size in self.lexicon.lengths.get(first, ()):
            if 1 < size <= most:
                row = self._row(run, at, size, " ".join(word.stem for word in run[at : at + size]))
                if row is not None:
                    return size, row
        if most > 1 and min(len(first), len(run[at + 1].stem)) >= SHORTEST_PART:
            row = self._row(run, at, 2, first + run[at + 1].stem)
            if row is not None:
                return 2, row
        return 1, self._row(run, at, 1, first) or self._row(run, at, 1, self.lexicon.joined.get(first, ""))

    def _row(self, run: Sequence[Word], at: int, size: int, key: str) -> Name | None:
        return next((row for row in self.lexicon.rows(key) if self._counts(row, run, at, size)), None)

    def _counts(self, row: Name, run: Sequence[Word], at: int, size: int) -> bool:
        if not row.when:
            return True
        return any(
            self._is_met(how, words, run, at, size) for how, words in conditions(row.when, self.lexicon.sets)
        )

    def _is_met(self, how: str, words: Collection[str], run: Sequence[Word], at: int, size: int) -> bool:
        if how == WHOLE:
            return self.whole and size == self.count
        if how == "near":
            own = {word.stem for word in run[at : at + size]}
            return any(word in self.stems and word not in own for word in words)
        before = [word.stem for word in run[max(0, at - 2) : at]]
        if before and before[-1] == "of":
            before.pop()
        behind = [run[at + size].stem] if at + size < len(run) else []
        return any(word in words for word in (*before[-1:], *behind))


def _is_all_of(name: str, found: Found) -> bool:
    words = [word for run in runs_of(name) for word in run]
    return (found.start, found.end) == (words[0].start, words[-1].end)


def conditions(when: str, sets: Mapping[str, frozenset[str]]) -> tuple[tuple[str, frozenset[str]], ...]:
    """`whole; near shot, cut` as pairs; the word of a set stands for all of the set's."""
    found = []
    for part in when.split("; "):
        how, _, listed = part.partition(" ")
        words = listed.split(", ") if listed else []
        found.append((how, frozenset().union(*(sets.get(word) or {stem(word)} for word in words))))
    return tuple(found)


@functools.lru_cache(maxsize=4096)
def runs_of(text: str) -> tuple[tuple[Word, ...], ...]:
    """The words of a text between its stops, each as it is compared; hyphens and apostrophes part nothing."""
    runs: list[tuple[Word, ...]] = []
    run: list[Word] = []
    for token in _TOKEN.finditer(text):
        sign = token.group()
        if sign[0].isalnum():
            run.append(Word(stem(folded(sign)), token.start(), token.end()))
        elif not (sign == "." and run and _goes_on(text, token.start(), run[-1])):
            runs.append(tuple(run))
            run = []
    return tuple(run for run in (*runs, tuple(run)) if run)


def _goes_on(text: str, at: int, word: Word) -> bool:
    behind = text[at + 1 : at + 3].lstrip()
    return word.end == at and word.end - word.start <= _ABBREVIATION and behind[:1].islower()


def folded(word: str) -> str:
    """A word without capitals, accents and apostrophes."""
    if not word.isascii():
        signs = unicodedata.normalize("NFKD", word.replace("’", ""))
        word = "".join(sign for sign in signs if not unicodedata.combining(sign))
    return word.replace("'", "").casefold()


def stems_of(name: str) -> str:
    """A name as it is compared: its words in the singular, one space between."""
    return " ".join(stem(folded(token)) for token in name.replace("-", " ").split())


def one_letter_off(written: str, name: str) -> bool:
    """True for one letter added, lost or changed, or two neighbours that changed places."""
    if written == name or abs(len(written) - len(name)) > 1:
        return False
    at = next((at for at, (one, other) in enumerate(zip(written, name, strict=False)) if one != other), None)
    if at is None:
        return True
    rest, other = written[at:], name[at:]
    swapped = rest[1:2] + rest[:1] + rest[2:]
    return other in (rest[1:], swapped) or other[1:] in (rest, rest[1:])


def _one_less(word: str) -> tuple[str, ...]:
    return tuple(word[:at] + word[at + 1 :] for at in range(len(word)))


def _places(run: Sequence[Word], found: Iterator[Found]) -> frozenset[int]:
    """Which words of a run belong to a name."""
    spans = [(one.start, one.end) for one in found]
    return frozenset(
        at for at, word in enumerate(run) if any(start <= word.start < end for start, end in spans)
    )


def read_lexicon(shelf: Shelf, poisons: Mapping[str, Poison], salts: Collection[str]) -> Lexicon:
    """All names. Raises TableError for a name that stands twice; `check_names` looks at all else of a row."""
    found: dict[str, str] = {}
    joined: dict[str, str] = {}
    for number, line in _lines(shelf.folder / "names.csv"):
        name = line[: line.find(",")]
        is_odd = _ODD.search(name) is not None
        stems = stems_of(name) if is_odd else name
        if stems in found:
            line = _behind(found[stems], line, number)
        found[stems] = line
        if stems[-1] in "iu":
            joined[f"{stems.replace(' ', '')}s"] = stems
        if " " in stems:
            joined[stems.replace(" ", "")] = stems
            if is_odd:
                joined[stem(folded(name.replace("-", "").replace(" ", "")))] = stems
    return Lexicon(found, _lengths(found), joined, _sets(shelf), poisons, salts)


def _behind(earlier: str, line: str, number: int) -> str:
    """The lines of one name together; each has its own company, and only the last may have none."""
    (row,) = _names_of(line)
    if any(other.when in ("", row.when) for other in _names_of(earlier)):
        raise TableError("names.csv", number, f"{row.name} stands twice")
    return f"{earlier}\n{line}"


_ODD = re.compile(
    rf"['-]|s\b|(?:ie|oe|sse|che|she|xe)\b|[^\x00-\x7f]|\b(?:{'|'.join((*IRREGULAR, *SPELLINGS))})\b"
)
"Whatever else a name is written with, it is written as it is compared: reading asks one question a name."


def check_names(shelf: Shelf, animals: Collection[str], plants: Collection[str]) -> None:
    """Looks at every cell of names.csv. Apart from reading, which has no time for it: the tests call it."""
    keys = {"animal": animals, "plant": plants, "fungus": plants}

    def check(row: NameRow) -> None:
        if len(row.names) > 1 or "," in row.names[0]:
            raise Wrong(f"a sign that parts words in '{row.names[0]}'")
        for one in row.means:
            if one not in keys.get(row.kind, ()):
                raise Wrong(f"'{one}' is no {row.kind}")
        for part in row.when.split("; ") if row.when else ():
            if part.split(" ")[0] not in (*COMPANY, WHOLE):
                raise Wrong(f"unknown when '{row.when}'")

    shelf.rows("names.csv", NameRow, check, kind=KINDS)


def _lines(path: Path) -> Iterator[tuple[int, str]]:
    """Bare lines: of this table alone there are thousands, and a record for each would cost most of the time."""
    head, *lines = path.read_text(encoding="utf-8").splitlines()
    if head != ",".join(COLUMNS):
        raise TableError(path.name, 1, f"the columns are not {', '.join(COLUMNS)}")
    return enumerate(lines, start=2)


def _names_of(lines: str) -> tuple[Name, ...]:
    return tuple(
        Name(name, kind, tuple(means.split(";")) if means else (), when)
        for name, kind, means, when, *_ in csv.reader(lines.split("\n") if lines else ())
    )


def _lengths(names: Collection[str]) -> dict[str, list[int]]:
    found: dict[str, list[int]] = {}
    for stems in names:
        first, _, rest = stems.partition(" ")
        size = rest.count(" ") + 2 if rest else 1
        if first not in found:
            found[first] = [size]
        elif size not in found[first]:
            found[first].append(size)
            found[first].sort(reverse=True)
    return found


def _sets(shelf: Shelf) -> dict[str, frozenset[str]]:
    sets = shelf.by("set", "name_words.csv", Company, set=SETS)
    return {key: frozenset(map(stems_of, row.words)) for key, row in sets.items()}
