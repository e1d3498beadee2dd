"""The Markdown under the front matter in; its amount links, links to files, photos and unlinked amounts out."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from itertools import groupby

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
from generator.model.recipe import AmountLink, Body, Link
from generator.problems import Position, ProblemLog, name_of_sign, nearest
from generator.read.grammar import MEASURED, Grammar
from generator.read.number import AmountError, plain
from generator.read.quantity import read_amount
from generator.read.source import Source

WORDS_BEHIND = 4
"How many words behind an amount a name is looked for."

_NUMBER = re.compile(r"(?<![\w.,/°–-])[0-9¼-¾⅐-⅞]")
_SENTENCE_END = re.compile(r"[.;:!?)](?:\s|$)")
_SHARE = re.compile(r"([0-9]{1,4})(?:/([0-9]{1,4}))?")
_SHARE_HINT = "Write a share of the whole, above 0 and up to 1: #salt:1/2."


@dataclass(frozen=True, slots=True)
class Known:
    """What the links and the words of a body can name."""

    amounts: Mapping[str, bool]
    "Ids of ingredients and of the parts of a cure; True where there is an amount that can be shared."
    names: Mapping[str, str] = field(default_factory=dict)
    "Ids by name."


NOTHING_KNOWN = Known({})


def read_body(source: Source, known: Known, grammar: Grammar, log: ProblemLog) -> Body:
    """The body with everything its links name."""
    text = source.body
    headings = {heading.id for heading in find_headings(text, taken=known.amounts)}
    amounts: list[AmountLink] = []
    links: list[Link] = []
    photos: list[Link] = []
    for found in find_links(text):
        at = Position(source.file, source.body_line + found.line - 1, found.column)
        if not _check_kind(found, at, log):
            continue
        link = Link(text=found.text, target=found.address, position=at)
        if found.is_image:
            photos.append(link)
        elif found.address.startswith("#"):
            amount = _amount_link(found.address[1:], at, known, headings, log)
            amounts += [amount] if amount else []
        elif not is_external(found.address):
            links.append(link)
    _check_shares(amounts, log)
    _warn_unlinked(source, known, grammar, log)
    _refuse_unseen(source, log)
    comments = find_comments(text)
    _tell_comments(source, comments, log)
    return Body(
        text=without_comments(text, comments),
        first_line=source.body_line,
        amount_links=tuple(amounts),
        links=tuple(links),
        photos=tuple(photos),
    )


def _tell_comments(source: Source, comments: Sequence[FoundComment], log: ProblemLog) -> None:
    """A comment is left out, and said so: whoever wrote it may have meant it to be read."""
    for one in comments:
        at = Position(source.file, source.body_line + one.line - 1, one.column)
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


def _refuse_unseen(source: Source, log: ProblemLog) -> None:
    """Signs that nobody sees, written as &#x202E; or in the address of a link that is shown."""
    for one in find_unseen(source.body):
        at = Position(source.file, source.body_line + one.line - 1, one.column)
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


def _amount_link(
    fragment: str, at: Position, known: Known, headings: set[str], log: ProblemLog
) -> AmountLink | None:
    """The amount a fragment names; None for a heading of the page, and with a problem for anything else."""
    name, colon, share = fragment.partition(":")
    if name not in known.amounts:
        if name not in headings or colon:
            names = [*known.amounts, *sorted(headings)]
            hint = nearest(name, names) or (
                f"Known are {', '.join(names)}." if names else "There is none here."
            )
            log.add("unknown-ingredient", at, f"'#{name}' is no ingredient of this recipe.", hint)
        return None
    if not colon:
        return AmountLink(id=name, share=None, position=at)
    try:
        return AmountLink(id=name, share=_share(share, known.amounts[name]), position=at)
    except AmountError as error:
        log.add(error.slug, at, error.message, error.hint)
        return None


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


def _warn_unlinked(source: Source, known: Known, grammar: Grammar, log: ProblemLog) -> None:
    """A warning for every amount that stands before the name of an ingredient and is no link."""
    names = {_words(name): id for name, id in known.names.items()}
    for _, block in groupby(find_runs(source.body), key=lambda run: run.block):
        for run, offset, amount, words in _unlinked(tuple(block), names, grammar):
            at = Position(source.file, source.body_line + run.line - 1, run.column + offset)
            log.add(
                "unlinked-amount",
                at,
                f"'{amount}' is written out and would not scale.",
                f"Link the word and leave the amount to the page: [{' '.join(words)}](#{names[words]}).",
            )


def _unlinked(
    runs: tuple[Run, ...], names: Collection[tuple[str, ...]], grammar: Grammar
) -> Iterator[tuple[Run, int, str, tuple[str, ...]]]:
    """Run, offset in it, amount and ingredient, for each amount before the name of an ingredient."""
    text = "".join(run.text for run in runs)
    begin = 0
    for run in runs:
        numbers = () if run.in_link else tuple(_NUMBER.finditer(plain(run.text)))
        for number in numbers:
            start = begin + number.start()
            end = _measured_end(text, start, grammar)
            name = _name_behind(text[end:], names) if end else ()
            if name:
                yield run, number.start(), " ".join(text[start:end].split()), name
        begin += len(run.text)


def _measured_end(text: str, start: int, grammar: Grammar) -> int:
    """Where a weight or volume ends that begins here; 0 where none does."""
    try:
        found = read_amount(text, start, grammar)
    except AmountError:
        return 0
    return found[1] if found and found[0].dimension in MEASURED else 0


def _name_behind(text: str, names: Collection[tuple[str, ...]]) -> tuple[str, ...]:
    """The ingredient named in the next few words of the sentence; the last word of its name is enough."""
    end = _SENTENCE_END.search(text)
    behind = _words(text[: end.start()] if end else text)[:WORDS_BEHIND]
    return next((name for name in names if name and name[-1] in behind), ())


def _words(text: str) -> tuple[str, ...]:
    return tuple(word.removesuffix("s") for word in re.findall(r"[^\W\d_][\w'’-]*", text.lower()))
