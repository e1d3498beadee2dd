"""The runs of words of a body in, its sentences out, each character with its place in the file."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from itertools import groupby

from generator.english import sentence_spans
from generator.markdown import Run
from generator.model.recipe import Sentence


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
