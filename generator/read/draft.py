"""A recipe as it is written from an old card: the lines of its front matter, each in place or asked about, and its method.

Entries in, the text of a file out; the problems of its readers in, the same with a question in place of each bad line out.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace

from generator.problems import Problem

HOW_MUCH = "Write serves: 6, or makes: 4 pints."
_FIRST = frozenset(" -?:,[]{}#&*!|>'\"%@`")
"Signs with which no text of YAML begins."
_OF_NUMBERS = frozenset("0123456789.,/ ")


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
        yield f"name: {in_yaml(self.name)}", None
        for entry in self._under(lambda entry: entry.key not in ("ingredients", "cure")):
            yield _marked(entry, f"{entry.key}: {in_yaml(entry.words)}"), entry
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
                yield f"  {in_yaml(group or self.name)}:", None
            for entry in own:
                yield f"{indent}{_marked(entry, f'- {in_yaml(entry.words, is_item=True)}')}", entry


def _marked(entry: Entry, line: str) -> str:
    return f"# ? {entry.question}" if entry.question else line


def _question(entry: Entry, problem: Problem) -> str:
    if entry.key in ("serves", "makes"):
        return f'{entry.key}: The card says "{entry.words}". {HOW_MUCH}'
    return f'"{entry.words}": {problem.message} {problem.hint}'.strip()


def in_yaml(text: str, *, is_item: bool = False) -> str:
    """A text as it may stand behind a key or a dash: in single quotes where YAML would take a part of it for its own."""
    text = " ".join(text.split())
    doubled = text.replace("'", "''")
    is_cut = text[:1] in _FIRST or ": " in text or text.endswith(":") or " #" in text
    is_quoted = not text or is_cut or (is_item and _OF_NUMBERS.issuperset(text))
    return f"'{doubled}'" if is_quoted else text
