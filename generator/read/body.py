"""The Markdown under the front matter in; its links, photos, unlinked amounts and sentences out, each with its place."""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import chain, groupby, islice, zip_longest

from generator.english import sentence_spans
from generator.markdown import (
    FoundComment,
    FoundLink,
    Run,
    find_comments,
    find_headings,
    find_links,
    find_runs,
    find_unseen,
    is_allowed_address,
    is_external,
    without_comments,
)
from generator.model.recipe import AmountLink, Body, Link, Sentence, StageLink
from generator.problems import Position, ProblemLog, name_of_sign, nearest
from generator.read.grammar import MEASURED, Grammar
from generator.read.link_words import meant
from generator.read.number import AmountError, plain
from generator.read.quantity import read_amount
from generator.read.source import SourceFile

WORDS_BEHIND = 4
"How many words behind an amount a name is looked for."
NEAR = 120
"Characters within which an amount of a sentence ends, and those words behind it. Source: house; few take a quarter."
MOST_NAMES = 20
"Names that a hint lists. Source: house; a longer list helps nobody, and it would stand behind every wrong link."

_NUMBER = re.compile(r"(?<![\w.,/°–-])[0-9¼-¾⅐-⅞]")
_SENTENCE_END = re.compile(r"[.;:!?)](?:\s|$)")
_WORD = re.compile(r"[^\W\d_][\w'’-]*")
_END_OF_LINK = re.compile(r"\]\((?P<target>[^()\s]{1,200})\)")
_NO_BRACKETS = str.maketrans("[]", "  ")
_SHARE = re.compile(r"([0-9]{1,4})(?:/([0-9]{1,4}))?")
_SHARE_HINT = "Write a share of the whole, above 0 and up to 1: #salt:1/2."


@dataclass(frozen=True, slots=True)
class Known:
    """What the links and the words of a body can name."""

    amounts: Mapping[str, bool]
    "Ids of ingredients and of the parts of a cure; True where there is an amount that can be shared."
    names: Mapping[str, str] = field(default_factory=dict)
    "Ids by name."
    stages: Mapping[str, tuple[int, ...]] = field(default_factory=dict)
    "Numbers of the stages of the course by what a link can call them."
    trade: Collection[str] = ()
    "Names of all the stages that there are."
    headings: Collection[str] = ()
    "Ids of the headings of the body, sorted."


NOTHING_KNOWN = Known({})


def read_body(source: SourceFile, known: Known, grammar: Grammar, log: ProblemLog) -> Body:
    """The body with everything its links name."""
    text = source.body
    ids = sorted(heading.id for heading in find_headings(text, taken=known.amounts))
    known = replace(known, headings=dict.fromkeys(ids), trade=grammar.tables.stages)
    amounts: list[AmountLink] = []
    stages: list[StageLink] = []
    links: list[Link] = []
    photos: list[Link] = []
    for found in find_links(text):
        at = source.in_body(found.line, found.column)
        if not _check_kind(found, at, log):
            continue
        link = Link(text=found.text, target=found.address, position=at)
        if found.is_image:
            photos.append(link)
        elif found.address.startswith("#"):
            named = _named(found.text, found.address[1:], at, known, log)
            amounts += [named] if isinstance(named, AmountLink) else []
            stages += [named] if isinstance(named, StageLink) else []
        elif not is_external(found.address):
            links.append(link)
    _check_shares(amounts, log)
    runs = find_runs(text)
    _warn_unlinked(runs, source, known, grammar, log)
    _tell_half_links(runs, source, log)
    _refuse_unseen(source, log)
    comments = find_comments(text)
    _tell_comments(source, comments, log)
    return Body(
        text=without_comments(text, comments),
        first_line=source.body_line,
        amount_links=tuple(amounts),
        stage_links=tuple(stages),
        links=tuple(links),
        photos=tuple(photos),
        sentences=read_sentences(runs, source.file, source.body_line),
    )


def read_sentences(body: Sequence[Run], file: str, first_line: int) -> tuple[Sentence, ...]:
    """Every sentence in reading order; `first_line` is the line of the file at which the body begins."""
    blocks = groupby(body, key=lambda run: run.block)
    return tuple(one for _, runs in blocks for one in _of_block(tuple(runs), file, first_line))


def _of_block(runs: Sequence[Run], file: str, first_line: int) -> Iterator[Sentence]:
    words, places = [], []
    offset = 0
    for run in runs:
        places.append((offset, first_line + run.line - 1, run.column))
        words.append(run.text.replace("\n", " "))
        offset += len(run.text)
    text = "".join(words)
    for begin, end in sentence_spans(text):
        yield Sentence(
            text=text[begin:end],
            block=runs[0].block,
            is_quoted=runs[0].is_quoted,
            file=file,
            places=_within(places, begin, end),
        )


def _within(places: Sequence[tuple[int, int, int]], begin: int, end: int) -> tuple[tuple[int, int, int], ...]:
    """The places of a stretch, counted from its own first character."""
    first = bisect_right(places, begin, key=lambda place: place[0]) - 1
    last = bisect_right(places, end - 1, key=lambda place: place[0])
    offset, line, column = places[first]
    head = (0, line, column + begin - offset)
    return (head, *((at - begin, line, column) for at, line, column in places[first + 1 : last]))


def _tell_comments(source: SourceFile, comments: Sequence[FoundComment], log: ProblemLog) -> None:
    """A comment is left out, and said so: whoever wrote it may have meant it to be read."""
    for one in comments:
        at = source.in_body(one.line, one.column)
        if one.is_open:
            message = "The comment that begins here has no end in its paragraph."
            hint = (
                "Close it with --> before the next empty line, or write \\<!-- to show the signs themselves."
            )
            log.add("open-comment", at, message, hint)
        else:
            message = "This comment is left out of the page."
            hint = "Delete it, or write the note between the two lines of ---, behind a #."
            log.add("html-comment", at, message, hint)


def _tell_half_links(runs: Sequence[Run], source: SourceFile, log: ProblemLog) -> None:
    """`[smoked] shank](shank.md)` and `[smoked [shank](shank.md)` show their brackets, and the first is no link at all."""
    for run, behind in zip_longest(runs, runs[1:]):
        if run.in_link:
            continue
        for end in _END_OF_LINK.finditer(run.text):
            begin = run.text.rfind("[", max(end.start() - NEAR, 0), end.start())
            begin = end.start() if begin < 0 else begin
            words = " ".join(run.text[begin : end.start()].translate(_NO_BRACKETS).split())
            message = (
                f"'{run.text[begin : end.end()]}' is no link: its words have a bracket too many, or lack one."
            )
            at = source.in_body(run.line, run.column + begin)
            log.add("half-link", at, message, f"Write [{words}]({end['target']}).")
        last = run.text.rfind("[")
        if last > run.text.rfind("]") and behind is not None and behind.in_link and behind.block == run.block:
            message = (
                "The bracket that opens here is not closed, and the words behind it are no part of the link."
            )
            at = source.in_body(run.line, run.column + last)
            log.add("half-link", at, message, "Delete the bracket, or close it.")


def _refuse_unseen(source: SourceFile, log: ProblemLog) -> None:
    """Signs that nobody sees, written as &#x202E; or in the address of a link that is shown."""
    for one in find_unseen(source.body):
        at = source.in_body(one.line, one.column)
        message = f"'{one.written}' brings in an invisible character ({name_of_sign(one.sign)})."
        log.add("invisible-character", at, message, f"Delete {one.written}.")


def _check_kind(found: FoundLink, at: Position, log: ProblemLog) -> bool:
    """True for a link or picture of an allowed kind."""
    if not found.address:
        log.add("unknown-link", at, f"'{found.text}' links to nothing.", "Write the address in the brackets.")
        return False
    if is_allowed_address(found.address, is_image=found.is_image):
        return True
    if found.is_image:
        message, hint = "is not a picture of this book.", "Put the picture into photos/ and link to it there."
    else:
        message, hint = (
            "is not a kind of link that is allowed.",
            "Use http, https, mailto, or a path in the book.",
        )
    log.add("link-scheme", at, f"'{found.address}' {message}", hint)
    return False


def _named(
    text: str, fragment: str, at: Position, known: Known, log: ProblemLog
) -> AmountLink | StageLink | None:
    """The amount or the stage that a fragment names; None for a heading of the page, and with a problem for all else."""
    name, colon, _ = fragment.partition(":")
    if name in known.headings and not colon and name not in known.amounts:
        return None
    ids = [name] if name in known.amounts else meant(name, list(known.amounts))
    if name in known.stages and name not in known.amounts:
        ids = []
    if len(ids) == 1:
        return _amount_link(ids[0], fragment, at, known, log)
    stages = () if ids else known.stages.get(name) or _stages_meant(name, known)
    if len(stages) == 1 and not colon:
        return StageLink(number=stages[0], written=name, position=at)
    if len(stages) == 1:
        log.add(
            "wrong-value",
            at,
            f"'{name}' is a stage: it has no amount to take a share of.",
            f"Write [{text}](#{name}).",
        )
    elif ids or stages:
        _tell_several(text, name, ids or _ids_of(stages, known), at, log)
    else:
        every = list(dict.fromkeys(chain(known.amounts, known.stages, known.headings)))
        message, hint = f"'#{name}' is no ingredient of this recipe.", nearest(name, every) or _listed(every)
        if name.replace("-", " ") in known.trade:
            message = f"'#{name}' is no ingredient of this recipe, and its course has no such stage."
            hint = f"Write the stage under course: - {name.replace('-', ' ')}, or the words without a link: {text}."
        log.add("unknown-ingredient", at, message, hint)
    return None


def _stages_meant(name: str, known: Known) -> tuple[int, ...]:
    found = {number for id in meant(name, list(known.stages)) for number in known.stages[id]}
    return tuple(sorted(found))


def _ids_of(stages: Sequence[int], known: Known) -> list[str]:
    """For each of several stages a name that no other has."""
    return [
        next((id for id, numbers in known.stages.items() if numbers == (number,)), str(number + 1))
        for number in stages
    ]


def _tell_several(text: str, name: str, ids: Sequence[str], at: Position, log: ProblemLog) -> None:
    more = f" and {len(ids) - MOST_NAMES} more" if len(ids) > MOST_NAMES else ""
    message = f"'#{name}' may be any of {len(ids)}: {', '.join(ids[:MOST_NAMES])}{more}."
    hint = " or ".join(f"[{text}](#{id})" for id in ids[:2])
    log.add("unknown-ingredient", at, message, f"Write {hint}.")


def _amount_link(id: str, fragment: str, at: Position, known: Known, log: ProblemLog) -> AmountLink | None:
    name, colon, share = fragment.partition(":")
    try:
        part = _share(share, known.amounts[id]) if colon else None
    except AmountError as error:
        log.add(error.slug, at, error.message, error.hint)
        return None
    return AmountLink(id=id, written=name, share=part, position=at)


def _listed(every: Sequence[str]) -> str:
    """What a link can name, where it is not too much to list."""
    names, more = every[:MOST_NAMES], len(every) - MOST_NAMES
    if not names:
        return "There is none here."
    return f"Known are {', '.join(names)}{f' and {more} more' if more > 0 else ''}."


def _share(written: str, has_amount: bool) -> Fraction:
    if not has_amount:
        raise AmountError("wrong-value", "There is no amount to take a share of.", "Link without a share.")
    found = _SHARE.fullmatch(written)
    below = int(found.group(2) or 1) if found else 0
    share = Fraction(int(found.group(1)), below) if found and below else Fraction(0)
    if not 0 < share <= 1:
        raise AmountError("wrong-value", f"'{written}' is not a share.", _SHARE_HINT)
    return share


def _check_shares(amounts: Sequence[AmountLink], log: ProblemLog) -> None:
    """No ingredient is given out more than whole."""
    given: dict[str, Fraction] = {}
    for link in amounts:
        if link.share is None:
            continue
        before = given.get(link.id, Fraction(0))
        given[link.id] = before + link.share
        if before <= 1 < given[link.id]:
            log.add(
                "shares-over-whole",
                link.position,
                f"With this share, {given[link.id]} of '{link.id}' is given out.",
                "Let the shares add up to 1 or less.",
            )


def _warn_unlinked(
    runs: Sequence[Run], source: SourceFile, known: Known, grammar: Grammar, log: ProblemLog
) -> None:
    """A warning for every amount that stands before the name of an ingredient and is no link."""
    names = _by_last_word(known.names)
    for _, block in groupby(runs, key=lambda run: run.block):
        for run, offset, amount, name in _unlinked(tuple(block), names, grammar):
            at = source.in_body(run.line, run.column + offset)
            log.add(
                "unlinked-amount",
                at,
                f"'{amount}' is written out and would not scale.",
                f"Link the word and leave the amount to the page: [{' '.join(name.words)}](#{name.id}).",
            )


@dataclass(frozen=True, slots=True)
class _Name:
    """An ingredient's name as it is looked for in a sentence."""

    words: tuple[str, ...]
    id: str
    order: int


def _by_last_word(ids: Mapping[str, str]) -> Mapping[str, _Name]:
    """Names by their last word, which is enough to know them by; the first of each."""
    by_last: dict[str, _Name] = {}
    for order, (name, id) in enumerate(ids.items()):
        words = tuple(_words(name))
        if words:
            by_last.setdefault(words[-1], _Name(words, id, order))
    return by_last


def _unlinked(
    runs: tuple[Run, ...], names: Mapping[str, _Name], grammar: Grammar
) -> Iterator[tuple[Run, int, str, _Name]]:
    """Run, offset in it, amount and ingredient, for each amount before the name of an ingredient."""
    text = "".join(run.text for run in runs)
    begin = 0
    for run in runs:
        numbers = () if run.in_link else tuple(_NUMBER.finditer(plain(run.text)))
        for number in numbers:
            start = begin + number.start()
            end = start + _measured_length(text[start : start + NEAR], grammar)
            name = _name_behind(text[end : end + NEAR], names) if end > start else None
            if name is not None:
                yield run, number.start(), " ".join(text[start:end].split()), name
        begin += len(run.text)


def _measured_length(text: str, grammar: Grammar) -> int:
    """The length of the weight or volume that a text begins with; 0 where it begins with none."""
    try:
        found = read_amount(text, 0, grammar)
    except AmountError:
        return 0
    return found[1] if found and found[0].dimension in MEASURED else 0


def _name_behind(text: str, names: Mapping[str, _Name]) -> _Name | None:
    """The ingredient named in the next few words of the sentence; of several, the first of the recipe."""
    end = _SENTENCE_END.search(text)
    words = islice(_words(text[: end.start()] if end else text), WORDS_BEHIND)
    found = [names[word] for word in words if word in names]
    return min(found, key=lambda name: name.order, default=None)


def _words(text: str) -> Iterator[str]:
    return (word.group().removesuffix("s") for word in _WORD.finditer(text.lower()))
