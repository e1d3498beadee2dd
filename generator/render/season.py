"""The months in which a recipe is made in, words for a reader out."""

from __future__ import annotations

from itertools import pairwise

from generator.model.moment import MONTH_NAMES

RUN = 3
"Months in a row that are told by their ends. Source: house choice; two are named."


def season_words(months: tuple[int, ...]) -> str:
    """`May`, `May, June`, `October to January, March`: in the order written, a run of three or more by its ends."""
    return ", ".join(_words(run) for run in _runs(months))


def _runs(months: tuple[int, ...]) -> list[list[int]]:
    """Months that follow each other, over the new year too."""
    runs = [[month] for month in months[:1]]
    for before, month in pairwise(months):
        if month == before % 12 + 1:
            runs[-1].append(month)
        else:
            runs.append([month])
    return runs


def _words(run: list[int]) -> str:
    names = [MONTH_NAMES[month - 1] for month in run]
    return f"{names[0]} to {names[-1]}" if len(run) >= RUN else ", ".join(names)
