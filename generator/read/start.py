"""The text of an old card in, the draft of a recipe out: what is understood in its place, a line `# ?` for what is not.

The draft is read by the readers of a recipe, and each error of a line turns that line into a question with the words of
the problem.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from generator.model.slug import slugify
from generator.problems import Position, ProblemLog
from generator.read.book import read_book_file
from generator.read.card import Card, read_card, read_thing
from generator.read.card_cure import doses_of, with_cure
from generator.read.draft import HOW_MUCH, Draft, Entry
from generator.read.folder import ENDING, find_file
from generator.read.grammar import Grammar
from generator.read.recipe import read_recipe
from generator.read.record import Reading
from generator.read.source import read_text, slug_of, split_front_matter
from generator.tables import Tables

_MOST_ROUNDS = 4
"Errors hide no other, but a line that goes may be the reason of one: so often it is read at most."
_NO_LINES = "Which things does it take? Write one a line, each with a dash: - 2 cups flour."
_ANOTHER = "Take another name for the new one, or rename the file that is there."
_HEAT = r"(?:2[05-9]|3\d|4\d|5[0-5])[05]"
_BESIDE = (
    r"at|to|in|a|an|the|hot|slow|moderate|mod|med|medium|quick|oven|greased|pan|pans|loaf|about|abt|for|till|until|done"
    r"|golden|brown|covered|uncovered|\d{1,2}x\d{1,2}|(?:\d{1,2}[-–])?\d{1,2} ?(?:min|hr|hour)s?"
)
_OVEN = re.compile(
    rf"(?:\b(?:bake|baking|roast|broil|oven|preheat)(?:[.,:]? (?:{_BESIDE})){{0,8}}[.,:]?(?: @)? \(?"
    rf"|(?:^|(?<=\. ))(?={_HEAT} ?[-–] ?(?:\d{{1,2}}[-–])?\d{{1,2}} ?(?:min|hr|hour)))"
    rf"{_HEAT}(?:[-–]{_HEAT})?"
    r"(?![\d°º/]|[.,]\d|[-–]\d|[ -]?(?:°|º|deg|[FC]\b|[a-z]{1,20}s\b|g\b|ml\b|lb|oz))",
    re.IGNORECASE,
)
"A heat of three digits behind a word for an oven, or before its minutes, with nothing that says degrees of what."
_MARKS = re.compile(r"[\\`*_\[\]<>]")
_FIRST_MARK = re.compile(r"(?:[#+=~|]|\d{1,9}\)|-(?!\s))")


def start_draft(
    folder: Path, name: str, card: Path | None, tables: Tables, log: ProblemLog
) -> tuple[str, Draft] | None:
    """The slug and the draft of a new recipe of a book; None, with every reason noted, where there can be none."""
    config = read_book_file(folder, tables, log)
    name = Path(name).name if name.endswith(ENDING) else name
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
    draft = with_cure(_draft(parts, name, context.grammar), context.grammar)
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
    return Entry(key="serves", words="", question=f"serves: How many does it feed? {HOW_MUCH}")


def _draft(card: Card, name: str, grammar: Grammar) -> Draft:
    method, doses = doses_of(card.method, grammar)
    entries = [Entry(key="from", words=", ".join(card.origin))] if card.origin else []
    told = [
        Entry(key=key, words=words)
        for key, words in (("serves", card.serves), ("makes", card.makes))
        if words
    ]
    entries += told or [_how_much()]
    lines = [Entry(key="ingredients", words=line.words, group=line.group) for line in card.lines]
    entries += _apart(lines, grammar)
    if not card.lines:
        entries.append(Entry(key="ingredients", words="", question=f"ingredients: {_NO_LINES}"))
    entries += [Entry(key="cure", words=dose) for dose in doses]
    paragraphs = ("\n".join(_plain(_with_degrees(line, grammar)) for line in lines) for lines in method)
    return Draft(name=card.name or name, entries=tuple(entries), method="\n\n".join(paragraphs))


def _apart(lines: list[Entry], grammar: Grammar) -> Iterator[Entry]:
    """The lines, each thing that stands in a second group named after it: salt, salt for the crust."""
    seen: set[str] = set()
    for line in lines:
        thing = read_thing(line.words, grammar)
        if thing and thing.id in seen and line.group and thing.name in line.words:
            line = replace(line, words=line.words.replace(thing.name, f"{thing.name} {_for(line.group)}", 1))
        elif thing:
            seen.add(thing.id)
        yield line


def _for(group: str) -> str:
    """`for the crust`, `for Day 2`."""
    if group.lower().startswith("for "):
        return group.lower()
    return f"for {group}" if any(map(str.isdigit, group)) else f"for the {group.lower()}"


def _with_degrees(line: str, grammar: Grammar) -> str:
    """`Bake 350` is `Bake 350 °F` where a book is written in US units: no oven has so many of anything else."""
    if grammar.system != "us":
        return line
    return _OVEN.sub(lambda found: f"{found[0]} °F", line)


def _plain(line: str) -> str:
    """A line of the method that Markdown shows as it was typed; a numbered step stays one."""
    line = _MARKS.sub(lambda found: f"\\{found[0]}", line)
    return f"\\{line}" if _FIRST_MARK.match(line) else line
