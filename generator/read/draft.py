"""The parts of an old card in, the text of a recipe out: what is understood in its place, a line `# ?` for what is not.

The text is read by the readers of a recipe, and each error of a line turns that line into a question with the words of
the problem. A curing salt or a nitrate is never put into place: it becomes a question with the lines of a `cure:` block.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from generator.model.quantity import Dimension
from generator.model.recipe import Ingredient
from generator.model.slug import slugify
from generator.problems import Position, Problem, ProblemLog
from generator.read.book import read_book_file
from generator.read.card import Card, read_card
from generator.read.folder import ENDING, find_file
from generator.read.grammar import Grammar
from generator.read.ingredient_line import parse_ingredient
from generator.read.number import AmountError
from generator.read.recipe import read_recipe
from generator.read.record import Reading
from generator.read.source import read_text, slug_of, split_front_matter
from generator.read.text import Text
from generator.tables import Tables
from generator.tables.nitrite_names import NitriteName

_MOST_ROUNDS = 4
"Errors hide no other, but a line that goes may be the reason of one: so often it is read at most."
_HOW_MUCH = "Write serves: 6, or makes: 4 pints."
_NO_LINES = "Which things does it take? Write one a line, each with a dash: - 2 cups flour."
_CURES = (
    "is never put into place as it stands, because a wrong gram of it hurts. Fill in the lines below this one, take "
    "the # away before each, and it is worked out and judged."
)
_NO_FOOD = "is no food. Ask who wrote it what was meant; a cure takes a curing salt, weighed, under cure."
_ANOTHER = "Take another name for the new one, or rename the file that is there."
_SEASONED = ("onion", "garlic", "celery", "seasoned", "seasoning", "herb", "smoked")
"Before `salt`: only a part of it is salt."
_LEFT_ALONE = ("plain", "vegetable")
"Kinds of names that the rules judge where they stand."

_QUOTED = re.compile(r"[\s\-?:,\[\]{}#&*!|>'\"%@`]|.*(?:: |:$| #)")
"What YAML would not take as it stands."
_NUMBER = re.compile(r"[0-9][0-9.,/ ]*")
_MARKS = re.compile(r"[\\`*_\[\]<>]")
_FIRST_MARK = re.compile(r"(?:[#+=~|]|\d+\)|-(?!\s))")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One line of the front matter that comes from the card."""

    key: str
    words: str
    "As the card has them."
    group: str = ""
    question: str = ""
    "Not empty: it is asked, and not in place."


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A recipe as it is written from a card."""

    name: str
    entries: tuple[Entry, ...]
    cure: tuple[str, ...] = ()
    "Lines of the blocks `meat` and `cure`, to be filled in; written as comments."
    method: str = ""

    @property
    def text(self) -> str:
        """The whole file."""
        return "\n".join((*(line for line, _ in self._front()), "", self.method)).rstrip("\n") + "\n"

    @property
    def questions(self) -> tuple[str, ...]:
        """What is asked, in the order of the file."""
        return tuple(entry.question for _, entry in self._front() if entry is not None and entry.question)

    def asked(self, problems: Iterable[Problem]) -> Draft:
        """The same with a question in place of each line that has an error."""
        lines = [entry for _, entry in self._front()]
        found = {
            problem.position.line: problem for problem in problems if problem.is_error and problem.position
        }
        questions: dict[int, str] = {}
        for number, problem in found.items():
            entry = lines[number - 1] if number <= len(lines) else None
            if entry is not None:
                questions[id(entry)] = _question(entry, problem)
        entries = (
            entry if entry.question else replace(entry, question=questions.get(id(entry), ""))
            for entry in self.entries
        )
        return replace(self, entries=tuple(entries))

    def _front(self) -> Iterator[tuple[str, Entry | None]]:
        """The lines down to the second ---, each with the entry that it is of."""
        yield "---", None
        yield f"name: {_in_yaml(self.name)}", None
        for entry in self._under(lambda entry: entry.key not in ("ingredients", "cure")):
            yield _marked(entry, f"{entry.key}: {_in_yaml(entry.words)}"), entry
        for entry in self._under(lambda entry: entry.key == "cure"):
            yield _marked(entry, ""), entry
        yield from ((f"# {line}", None) for line in self.cure)
        yield from self._lines()
        yield "---", None

    def _under(self, is_meant: Callable[[Entry], bool]) -> Iterator[Entry]:
        return (entry for entry in self.entries if is_meant(entry))

    def _lines(self) -> Iterator[tuple[str, Entry | None]]:
        lines = list(self._under(lambda entry: entry.key == "ingredients"))
        if any(not entry.question for entry in lines):
            yield "ingredients:", None
        has_groups = any(entry.group for entry in lines)
        for group in dict.fromkeys(entry.group for entry in lines):
            own = [entry for entry in lines if entry.group == group]
            indent = "    " if has_groups else "  "
            if has_groups and any(not entry.question for entry in own):
                yield f"  {_in_yaml(group or self.name)}:", None
            for entry in own:
                yield f"{indent}{_marked(entry, f'- {_in_yaml(entry.words, is_item=True)}')}", entry


def _marked(entry: Entry, line: str) -> str:
    return f"# ? {entry.question}" if entry.question else line


def _question(entry: Entry, problem: Problem) -> str:
    if entry.key in ("serves", "makes"):
        return f'{entry.key}: The card says "{entry.words}". {_HOW_MUCH}'
    return f'"{entry.words}": {problem.message} {problem.hint}'.strip()


def _in_yaml(text: str, *, is_item: bool = False) -> str:
    """A text as it may stand behind a key or a dash: in single quotes where YAML would take a part of it for its own."""
    text = " ".join(text.split())
    doubled = text.replace("'", "''")
    is_quoted = not text or _QUOTED.match(text) or (is_item and _NUMBER.fullmatch(text))
    return f"'{doubled}'" if is_quoted else text


def start_draft(
    folder: Path, name: str, card: Path | None, tables: Tables, log: ProblemLog
) -> tuple[str, Draft] | None:
    """The slug and the draft of a new recipe of a book; None, with every reason noted, where there can be none."""
    config = read_book_file(folder, tables, log)
    slug = slugify(name.removesuffix(ENDING))
    file = f"recipes/{slug}{ENDING}"
    if not slug:
        log.add("bad-slug", None, f"'{name}' cannot become the name of a file.", "Name it with letters.")
    elif slug_of(slug, file, log) and find_file(folder, "recipes", slug):
        log.add("foreign-file", Position(file), f"{file} is there already, and stays as it is.", _ANOTHER)
    text = read_text(card, str(card), log) if card is not None else None
    if config is None or log.has_errors:
        return None
    title = name.removesuffix(ENDING)
    title = title.replace("-", " ").capitalize() if title == slug else title
    draft = draft_recipe(title, slug, text, Reading(config=config, tables=tables))
    if draft is None:
        log.add(
            "missing-name", Position(str(card)), "There are no words on the card.", "Begin it with a title."
        )
        return None
    return slug, draft


def draft_recipe(name: str, slug: str, card: str | None, context: Reading) -> Draft | None:
    """The draft of a recipe from the text of a card, or an empty one; None for a card without words."""
    if card is None:
        empty = (Entry(key="ingredients", words="", question=f"ingredients: {_NO_LINES}"),)
        return Draft(name=name, entries=(_how_much(), *empty))
    parts = read_card(card, context.grammar)
    if not (parts.name or parts.lines or parts.method):
        return None
    draft = _with_cure(_draft(parts, name), context.grammar)
    for _ in range(_MOST_ROUNDS):
        before, draft = draft, draft.asked(_problems(draft, slug, context))
        if draft == before:
            break
    return draft


def _problems(draft: Draft, slug: str, context: Reading) -> ProblemLog:
    """What the readers of a recipe say of it."""
    log = ProblemLog()
    source = split_front_matter(draft.text, "card", log)
    assert source is not None, "it begins with front matter"
    read_recipe(source, slug, context, log)
    return log


def _how_much() -> Entry:
    return Entry(key="serves", words="", question=f"serves: How many does it feed? {_HOW_MUCH}")


def _draft(card: Card, name: str) -> Draft:
    entries = [Entry(key="from", words=", ".join(card.origin))] if card.origin else []
    told = [
        Entry(key=key, words=words)
        for key, words in (("serves", card.serves), ("makes", card.makes))
        if words
    ]
    entries += told or [_how_much()]
    entries += [Entry(key="ingredients", words=line.words, group=line.group) for line in card.lines]
    if not card.lines:
        entries.append(Entry(key="ingredients", words="", question=f"ingredients: {_NO_LINES}"))
    paragraphs = ("\n".join(map(_plain, lines)) for lines in card.method)
    return Draft(name=card.name or name, entries=tuple(entries), method="\n\n".join(paragraphs))


def _plain(line: str) -> str:
    """A line of the method that Markdown shows as it was typed; a numbered step stays one."""
    line = _MARKS.sub(lambda found: f"\\{found[0]}", line)
    return f"\\{line}" if _FIRST_MARK.match(line) else line


def _with_cure(draft: Draft, grammar: Grammar) -> Draft:
    """The draft with its curing salts and nitrates, and what is weighed beside them, as a block to be filled in."""
    named = {id(entry): name for entry in draft.entries for name in _names_in(entry, grammar)[:1]}
    if not named:
        return draft
    read = {id(entry): _read(entry, grammar) for entry in draft.entries if entry.key == "ingredients"}
    block = _Cure(grammar, read, named, [entry for entry in draft.entries if id(entry) in read])
    questions = [
        Entry(key="cure", words=entry.words, question=_cure_question(entry, named[id(entry)]))
        for entry in draft.entries
        if id(entry) in named
    ]
    lines = tuple(block.lines())
    kept = [entry for entry in draft.entries if id(entry) not in named and id(entry) not in block.taken]
    return replace(draft, entries=(*kept, *questions), cure=lines)


def _names_in(entry: Entry, grammar: Grammar) -> tuple[NitriteName, ...]:
    if entry.key != "ingredients":
        return ()
    found = grammar.tables.nitrite_names.all_in(entry.words)
    return tuple(name for name in found if name.kind not in _LEFT_ALONE)


def _cure_question(entry: Entry, named: NitriteName) -> str:
    return f'cure: "{entry.words}" {_NO_FOOD if named.kind == "not food" else _CURES}'


def _read(entry: Entry, grammar: Grammar) -> Ingredient | None:
    try:
        return parse_ingredient(Text(entry.words, "card", (entry.words,), 1, (0, 0)), grammar)
    except AmountError:
        return None


def _without(name: str, word: str) -> str:
    """A name without one word of it."""
    return " ".join(one for one in name.split() if one.lower() != word)


@dataclass(slots=True)
class _Cure:
    """Writes the lines of the blocks and remembers which entries stand in them."""

    grammar: Grammar
    read: dict[int, Ingredient | None]
    named: dict[int, NitriteName]
    entries: list[Entry]
    taken: set[int]

    def __init__(
        self,
        grammar: Grammar,
        read: dict[int, Ingredient | None],
        named: dict[int, NitriteName],
        entries: list[Entry],
    ) -> None:
        self.grammar, self.read, self.named, self.entries = grammar, read, named, entries
        self.taken = set()

    def lines(self) -> Iterator[str]:
        """`meat:` and `cure:` as they would stand in the file; empty where the card does not say."""
        if all(name.kind == "not food" for name in self.named.values()):
            return
        yield from self._meat()
        water = self._take("water")
        yield "cure:"
        yield f"  method: {'brine' if water else 'dry'}"
        if water:
            yield f"  water: {water}"
        for key in ("salt", "sugar"):
            yield f"  {key}: {self._take(key)}".rstrip()
        for entry in self.entries:
            if id(entry) in self.named:
                yield from self._curing_salt(entry, self.named[id(entry)])

    def _meat(self) -> Iterator[str]:
        animals = [entry for entry in self.entries if self._animal(entry)]
        found = animals[0] if len(animals) == 1 else None
        line = self.read[id(found)] if found else None
        if found is not None:
            self.taken.add(id(found))
        yield "meat:"
        yield f"  animal: {self._animal(found) if found else ''}".rstrip()
        yield f"  cut: {_without(line.name, self._animal(found)) if line and found else ''}".rstrip()
        yield f"  weight: {line.quantity.written if line and line.quantity else ''}".rstrip()

    def _animal(self, entry: Entry) -> str:
        """The animal of a line that has a weight and names one."""
        line = self.read[id(entry)]
        quantity = line.quantity if line else None
        if line is None or quantity is None or quantity.dimension is not Dimension.WEIGHT:
            return ""
        words = line.name.lower().split()
        return next((word for word in words if self.grammar.tables.animal(word)), "")

    def _take(self, key: str) -> str:
        """The amount of the line whose name ends in a word, and what stands before the word in it."""
        for entry in self.entries:
            line = self.read[id(entry)]
            if line is None or id(entry) in self.named or line.quantity is None or line.quantity.is_vague:
                continue
            if line.name.lower().split()[-1:] == [key] and line.name.lower().split()[0] not in _SEASONED:
                self.taken.add(id(entry))
                kind = "" if line.name.lower() == key or key == "water" else f" {line.name}"
                return f"{line.quantity.written}{kind}"
        return ""

    def _curing_salt(self, entry: Entry, named: NitriteName) -> Iterator[str]:
        line = self.read[id(entry)]
        amount = line.quantity.written if line and line.quantity else ""
        if named.kind in ("nitrate", "unknown nitrate"):
            yield f"  nitrate: {amount} {named.key}".rstrip()
        elif named.kind != "not food":
            yield f"  curing salt: {amount}".rstrip()
            yield f"  kind of curing salt: {named.key}".rstrip()
