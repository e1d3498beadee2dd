"""In: a line or a phrase and what the program says of it. Out: a verdict in one of five words, and why.

right: every amount, the name and what scales are what they must be, and no word is dropped.
asked: two readings, and the program asks. refused: one reading, and the program does not read it.
told: something is wrong, and a warning stands at the line. silent: something is wrong, and nobody is told.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from bs4 import BeautifulSoup, Tag

from tests.corpus.amounts import Amount, amounts
from tests.corpus.outsider import check, page_of, sheets_of
from tests.corpus.rows import Conversion, Further, Line, Phrase

VERDICTS = ("right", "asked", "refused", "told", "silent")
GROUP = 40  # lines in one recipe
EXACT = 0.015  # of what JSON says
SHOWN = (
    0.05  # of what is shown: the coarsest step of the rounding guides is a quarter of a cup in 2 to 8 cups
)
LINE = "---\nname: One\nserves: 4\ningredients:\n{ingredients}\ncourse:\n  - boil: 15 min in the pot\n  - fry: 15 min in the pan\n---\n\nCook all of it in the big pot.\n"
PHRASE = "---\nname: One\nserves: 4\ningredients:\n  - 1 onion\n---\n\n{text}\n"
# The titles under which a share stands, with the lines that make the whole; `{line}` is the line that is tried.
CONTEXTS = {
    "": "  - {line}",
    "sausage": "  Sausage, of 10 lb:\n    - {line}\n    - 30 % pork back fat",
    "sausage-fat": "  Sausage, of 10 lb:\n    - 70 % venison trim\n    - {line}",
    "kraut": "  Flour:\n    - 1 bay leaf\n  Kraut, of 10 lb:\n    - {line}",
    "dough": "  Flour:\n    - 1000 g bread flour\n  Dough, of the bread flour:\n    - {line}",
    "rub": "  Rub, of 12 oz:\n    - {line}\n    - 2 parts brown sugar\n    - 1 part black pepper",
    "rub-pepper": "  Rub, of 12 oz:\n    - 3 parts paprika\n    - 2 parts brown sugar\n    - {line}",
}
# Words that an amount is made of: a number, a unit, what joins them. They may be written another way or be gone.
NUMBER_WORDS = frozenset(
    [
        "half",
        "quarter",
        "quarters",
        "third",
        "thirds",
        "fourth",
        "fourths",
        "eighth",
        "eighths",
        "couple",
        "dozen",
        "doz",
        "hundred",
        "one",
        "two",
        "three",
        "four",
        "five",
        "six",
        "seven",
        "eight",
        "nine",
        "ten",
        "eleven",
        "twelve",
        "twenty-four",
        "twenty",
    ]
)
UNIT_WORDS = re.compile(
    r"(?:table|tea|t)-?sp(?:oon)?n?(?:ful)?s?|tbs?ps?|tbls?|tsps?|cups?(?:ful)?s?|pints?|pts?|quarts?|qts?|gallons?|gals?|"
    r"pounds?|lbs?|ounces?|ozs?|fl|grams?|kg|ml|mL|liters?|inch(?:es)?|cm|gr|pkgs?|bns?|bchs?|hds?"
)
JOINING = frozenset(
    [
        "of",
        "a",
        "an",
        "the",
        "and",
        "or",
        "plus",
        "from",
        "to",
        "each",
        "about",
        "level",
        "per",
        "stick",
        "sticks",
    ]
)


@dataclass(frozen=True, kw_only=True)
class Verdict:
    """One row judged: the word, why, and the hint where something was asked."""

    id: str
    kind: str
    text: str
    word: str
    why: str


@dataclass(frozen=True, kw_only=True)
class Shown:
    """One line as it comes out at one batch and at two: what JSON says of it, and what a reader sees."""

    once: dict[str, Any]
    twice: dict[str, Any]
    text_once: str
    text_twice: str

    def __str__(self) -> str:
        return f"shown {self.text_once!r}, twice {self.text_twice!r}"


def judge_lines(lines: Sequence[Line]) -> Iterator[Verdict]:
    """Lines under no title in recipes of many lines, for speed; those under a title, each in a recipe of its own."""
    rest = [line for line in lines if not line.context]
    judged: dict[str, Verdict] = {}
    while rest:
        group, rest = rest[:GROUP], rest[GROUP:]
        found, again = _judge_group(group)
        judged |= {verdict.id: verdict for verdict in found}
        rest += again
    for line in lines:
        yield judged[line.id] if line.id in judged else judge_line(line)


def _judge_group(group: list[Line]) -> tuple[list[Verdict], list[Line]]:
    """The verdicts of a group, and the lines to try again because one before them has their name."""
    problems = _by_line(group)
    refused = [line for line in group if _errors(problems[line.id])]
    read = [line for line in group if line not in refused]
    problems |= _by_line(read)  # some are looked for only where the whole recipe is read
    refused += [line for line in read if _errors(problems[line.id])]
    read = [line for line in read if line not in refused]
    again = [line for line in refused if any(problem["slug"] == "same-id" for problem in problems[line.id])]
    shown = _shown(_recipe(read), len(read))
    if shown is None:  # something that stands at no line: each line by itself tells whose it is
        return [judge_line(line) for line in group if line not in again], again
    found = [_verdict(line, problems[line.id], True, None) for line in refused if line not in again]
    found += [_verdict(line, problems[line.id], False, seen) for line, seen in zip(read, shown, strict=True)]
    return found, again


def _by_line(lines: list[Line]) -> dict[str, list[dict[str, Any]]]:
    problems = check(_recipe(lines))
    return {
        line.id: [problem for problem in problems if problem["line"] == at]
        for at, line in enumerate(lines, start=5)
    }


def _recipe(lines: list[Line]) -> str:
    return LINE.format(ingredients="\n".join(CONTEXTS[line.context].format(line=line.text) for line in lines))


def _errors(problems: list[dict[str, Any]]) -> list[dict[str, Any]]:
    return [problem for problem in problems if problem["severity"] == "error"]


def judge_line(line: Line) -> Verdict:
    """Write the line into a recipe of its own and look at what comes out at one batch and at two."""
    recipe = _recipe([line])
    problems = check(recipe)
    texts = recipe.splitlines()
    place = 1 + next(i for i, text in enumerate(texts) if line.text in text)
    here = [problem for problem in problems if problem["line"] == place]
    wrong = _errors(problems)
    before = sum(text.startswith("    - ") for text in texts[: place - 1])
    items = sum(text.lstrip().startswith("- ") for text in texts[: texts.index("course:")])
    shown = None if wrong else _shown(recipe, items)
    return _verdict(line, here or wrong, bool(wrong), shown[before] if shown else None)


def _shown(recipe: str, how_many: int) -> list[Shown] | None:
    """Each line as it comes out, in order; None where there is no sheet or not one item a line."""
    sheets, pages = sheets_of(recipe)
    if any(sheet is None or len(sheet["ingredients"]) != how_many for sheet in sheets):
        return None
    once, twice = (sheet["ingredients"] for sheet in sheets if sheet is not None)
    texts = [_texts(page) for page in pages]
    if any(len(found) != how_many for found in texts):
        return None
    return [
        Shown(once=first, twice=second, text_once=text, text_twice=other)
        for first, second, text, other in zip(once, twice, *texts, strict=True)
    ]


def _verdict(line: Line, here: list[dict[str, Any]], wrong: bool, shown: Shown | None) -> Verdict:
    word, why = _line_word(line, here, wrong, shown)
    return Verdict(id=line.id, kind=line.kind, text=line.text, word=word, why=why)


def _line_word(line: Line, here: list[dict[str, Any]], wrong: bool, shown: Shown | None) -> tuple[str, str]:
    said = "; ".join(f"{problem['message']} {problem['hint']}" for problem in here)
    if line.asked:
        return ("asked", said) if here or wrong else ("silent", f"two readings: {line.reason}; {shown}")
    if wrong:
        return "refused", said
    if shown is None:
        return "silent", "the line is not among the ingredients"
    faults = list(_faults(line, shown))
    if not faults:
        return "right", ""
    return ("told" if here else "silent"), "; ".join([*faults, str(shown)])


def _faults(line: Line, shown: Shown) -> Iterator[str]:
    if _comes_to(line.amount, shown):
        for further in line.further:
            yield from _wrong_further(further, shown.text_twice)
    elif not any(_comes_to(amount, shown) for amount in line.either):
        yield f"not {line.amount or 'without an amount'}, doubled at two batches"
    yield from _wrong_name(line, shown.once["name"])
    yield from _dropped(line, shown.text_once)


def _comes_to(wanted: Amount | None, shown: Shown) -> bool:
    if wanted is None:
        return all(shown.once[key] == shown.twice[key] for key in ("shown", "grams", "millilitres"))
    return item_is(wanted, shown.once, shown.text_once) and item_is(
        wanted.times(2), shown.twice, shown.text_twice
    )


def item_is(wanted: Amount, item: dict[str, Any], text: str) -> bool:
    """What JSON weighs decides where it weighs in that unit; else what is shown, or so many pieces of so much each."""
    exact = {"g": item["grams"], "mL": item["millilitres"], "count": None}[wanted.kind]
    if exact is not None:
        low, high = exact if isinstance(exact, list) else (exact, exact)
        return Amount(low=low, high=high, kind=wanted.kind).near(wanted, EXACT)
    shown = amounts(item["shown"] or "")
    if wanted.kind == "count":
        return bool(shown) and shown[0].near(wanted, SHOWN)
    return any(amount.near(wanted, SHOWN) for amount in [*shown, *_each(shown, text)])


def _each(shown: list[Amount], text: str) -> list[Amount]:
    pieces = [amount for amount in shown if amount.kind == "count"][:1]
    sizes = [amount for amount in amounts(text) if amount.kind in ("g", "mL")] if "each" in text else []
    return [size.times(piece.low) for piece in pieces for size in sizes]


def _wrong_further(further: Further, text: str) -> Iterator[str]:
    found = amounts(text)
    wanted = further.amount.times(2 if further.becomes == "doubles" else 1)
    there = any(amount.near(wanted, SHOWN) for amount in found)
    said = re.search(r"not scale|as written|for one batch", text)
    if further.becomes == "gone" and there:
        yield f"{further.amount} is left as it was"
    if further.becomes != "gone" and not there and not said:
        yield f"{further.amount} {further.becomes}: not so"


def _wrong_name(line: Line, name: str) -> Iterator[str]:
    """The name holds the words that it must, and besides them only words of the line that describe."""
    if plain(line.name) not in plain(name):
        yield f"the name is {name!r}, not {line.name!r}"
    words = name.lower().replace(line.name.lower(), "").split()
    if not re.match(r"\w", name) or name.lower().startswith("of "):
        yield f"the name begins with no name: {name!r}"
    if any(UNIT_WORDS.fullmatch(word.rstrip(".")) for word in words) or set(words) & NUMBER_WORDS:
        yield f"the name holds an amount: {name!r}"


def _dropped(line: Line, text: str) -> Iterator[str]:
    shown = plain(text)
    for word in re.findall(r"[A-Za-z][A-Za-z'-]+\.?", line.text):
        bare = word.rstrip(".").lower()
        short = word.endswith(".") and len(bare) <= 5
        if (
            short
            or bare in JOINING | NUMBER_WORDS
            or UNIT_WORDS.fullmatch(bare)
            or re.match("-?" + UNIT_WORDS.pattern + "$", bare)
        ):
            continue
        if any(
            part not in NUMBER_WORDS
            and not UNIT_WORDS.fullmatch(part)
            and plain(part)[:4].rstrip("s") not in shown
            for part in bare.split("-")
        ):
            yield f"{word!r} is dropped"


def plain(text: str) -> str:
    """Small letters and single spaces, without commas and hyphens."""
    return re.sub(r"[-,\s]+", " ", text.lower()).strip()


def _texts(page: BeautifulSoup | None) -> list[str]:
    """Each ingredient as a reader sees it, without the second system in brackets."""
    part = page.find(class_="ingredients") if page else None
    if not isinstance(part, Tag):
        return []
    copy = BeautifulSoup(str(part), "html.parser")
    for other in copy.select(".other, .check"):
        other.decompose()
    return [" ".join(item.get_text().split()) for item in copy.find_all("li")]


def judge_phrases(phrases: Sequence[Phrase]) -> Iterator[Verdict]:
    """Phrases as paragraphs of one method, for speed; where that method has an error, each in a recipe of its own."""
    for at in range(0, len(phrases), GROUP):
        group = list(phrases[at : at + GROUP])
        paragraphs = _paragraphs(group)
        if paragraphs is None and len(group) > 1:
            yield from (judge_phrase(phrase) for phrase in group)
        else:
            yield from (
                _phrase_verdict(phrase, found)
                for phrase, found in zip(group, paragraphs or [None], strict=True)
            )


def judge_phrase(phrase: Phrase) -> Verdict:
    """Write the phrase as a method of its own and look at what is put beside it."""
    return _phrase_verdict(phrase, (_paragraphs([phrase]) or [None])[0])


def _paragraphs(group: list[Phrase]) -> list[Tag | None] | None:
    recipe = PHRASE.format(text="\n\n".join(phrase.text for phrase in group))
    page = None if _errors(check(recipe)) else page_of(recipe)
    found: list[Tag | None] = list(page.select(".method p")) if page else []
    return found if len(found) == len(group) else None


def _phrase_verdict(phrase: Phrase, paragraph: Tag | None) -> Verdict:
    word, why = _phrase_word(phrase, paragraph) if paragraph else ("refused", "it has an error")
    return Verdict(id=phrase.id, kind=phrase.kind, text=phrase.text, word=word, why=why)


def _phrase_word(phrase: Phrase, paragraph: Tag) -> tuple[str, str]:
    """Where too little is converted it is refused (left alone); where too much or something else is, it is silent."""
    beside = [other.get_text() for other in paragraph.select(".other")]
    values = [value for text in beside for value in _values(text)]
    if not phrase.becomes:
        return ("silent", f"beside it {beside}") if beside else ("right", "")
    missing = [wanted for wanted in phrase.becomes if not any(_meets(wanted, value) for value in values)]
    extra = [value for value in values if not any(_meets(wanted, value) for wanted in phrase.becomes)]
    if extra:
        return "silent", f"beside it {beside}"
    if not missing:
        return "right", ""
    # Half of a range converted and half of it not misleads; nothing converted is only left alone.
    return ("silent", f"only {beside}") if beside and _is_range(phrase) else ("refused", f"only {beside}")


def _is_range(phrase: Phrase) -> bool:
    units = {wanted.unit for wanted in phrase.becomes}
    return len(phrase.becomes) == 2 and len(units) == 1


def _values(text: str) -> list[tuple[float, str]]:
    """The numbers of what stands beside a phrase, each with its unit: of a range the unit behind it."""
    text = text.replace("−", "-").replace(" ", " ").strip("() ")
    found: list[tuple[float, str]] = []
    for match in re.finditer(
        r"(?P<low>(?<![\d–])-?[\d.½¼¾⅓⅔⅛⅜⅝⅞ ]*[\d½¼¾⅓⅔⅛⅜⅝⅞])(?:\s?(?:–|to|×|x|and)\s?(?P<high>[\d.½¼¾⅓⅔⅛⅜⅝⅞ ]+))?\s?(?P<unit>°\s?[CF]|[A-Za-z]+)",
        text,
    ):
        for number in (match["low"], match["high"]):
            if number:
                sign = -1 if number.startswith("-") else 1
                amount = amounts(number.lstrip("-").strip())
                found.append((sign * amount[0].low, match["unit"].replace(" ", "").lower()))
    if [unit for _, unit in found] == ["lb", "oz"]:
        return [(found[0][0] + found[1][0] / 16, "lb")]
    return found


UNITS = {"cm": 10, "mm": 1, "in": 25.4, "inch": 25.4, "inches": 25.4, "m": 1000, "g": 1, "kg": 1000, "lb": 453.592, "oz": 28.3495,
         "ml": 1, "l": 1000, "cup": 236.588, "cups": 236.588, "qt": 946.353, "pt": 473.176}  # fmt: skip
KINDS = {"cm": "mm", "mm": "mm", "in": "mm", "inch": "mm", "inches": "mm", "m": "mm", "g": "g", "kg": "g", "lb": "g", "oz": "g",
         "ml": "mL", "l": "mL", "cup": "mL", "cups": "mL", "qt": "mL", "pt": "mL"}  # fmt: skip


def _meets(wanted: Conversion, value: tuple[float, str]) -> bool:
    number, unit = value
    own = wanted.unit.lower()
    if own.startswith("°") or unit.startswith("°"):
        return own == unit and abs(number - wanted.value) <= wanted.within
    if KINDS.get(own) != KINDS.get(unit, "?"):
        return False
    return abs(number * UNITS[unit] - wanted.value * UNITS[own]) <= wanted.within * UNITS[own]
