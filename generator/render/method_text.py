"""A body's Markdown and a computed recipe in, the method as plain text for a printer's roll out."""

from __future__ import annotations

import re
import textwrap

from generator.model.results import ComputedRecipe
from generator.render.amounts import amount_behind
from generator.render.data import all_lines

AMOUNT_LINK = re.compile(r"\[([^\[\]]*)\]\(#([^):\s\[]+)(?::(\d+/\d+|1))?\)")
"[salt](#salt) and [salt](#salt:1/2)."
OTHER_LINK = re.compile(r"!?\[([^\[\]]*)\]\([^)\[]*\)")
"Any other link or picture: its words stay."
MARKS = re.compile(r"[*_`]+(?=\S)|(?<=\S)[*_`]+|^#+ ", re.MULTILINE)
"Emphasis, code and headings."
ITEM = re.compile(r"(\d+[.)]|[-*+]) +")
"The beginning of a list item."


def method_text(computed: ComputedRecipe, units: str, *, width: int) -> str:
    """Paragraphs and steps, wrapped, each amount behind its word, a share of one as `1/2 of 179 g`."""
    amounts = _amounts(computed, units)

    def with_amount(found: re.Match[str]) -> str:
        words, id, share = found.groups()
        amount = amounts.get(id, "")
        if not amount:
            return words
        return f"{words} ({share} of {amount})" if share not in (None, "1") else f"{words} ({amount})"

    text = AMOUNT_LINK.sub(with_amount, computed.recipe.body.text)
    text = MARKS.sub("", OTHER_LINK.sub(r"\1", text))
    return "\n".join(_wrapped(block, width) for block in _blocks(text))


def _amounts(computed: ComputedRecipe, units: str) -> dict[str, str]:
    shown = {
        line.ingredient.id: line.shown.in_units(units)
        for line in all_lines(computed)
        if line.shown is not None and not amount_behind(line)
    }
    shown.update({id: one.in_units(units) for id, one in computed.cure_lines.items()})
    return shown


def _blocks(text: str) -> list[str]:
    """Paragraphs, and each item of a list by itself."""
    blocks: list[list[str]] = []
    for paragraph in re.split(r"\n\s*\n", text.strip()):
        for number, line in enumerate(paragraph.split("\n")):
            if number == 0 or ITEM.match(line):
                blocks.append([])
            blocks[-1].append(line.strip())
        blocks.append([])
    return [" ".join(block) for block in blocks[:-1]]


def _wrapped(block: str, width: int) -> str:
    item = ITEM.match(block)
    block = " ".join(block.split())
    return textwrap.fill(block, width, subsequent_indent=" " * (len(item.group()) if item else 0))
