"""Computed records in, plain text for a terminal or a printer's roll out."""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterator, Sequence

from generator.model.recipe import Hole, Recipe
from generator.model.results import (
    Caution,
    ComputedBook,
    ComputedLine,
    ComputedRecipe,
    CureResult,
    JudgedText,
)
from generator.model.shown import Shower, show_decimal, show_number
from generator.render.amounts import amount_behind, preparation_in
from generator.render.brines import brine_words, ice_words, vessel_words
from generator.render.cautions import boxes_of, words_behind
from generator.render.course import course_line, stage_words
from generator.render.figures import METHOD, SCALE, SHARES, Words, figure_words, figures_of
from generator.render.reach import nitrite_sentence, salt_sentence
from generator.render.season import season_words
from generator.render.wholes import Whole, wholes_of
from generator.render.yields import made_words, written_for
from generator.tables import Tables

WIDTH = 78
"Columns of a printed sheet."
_WORDS = r"\[((?:[^\[\]]|\[[^\[\]]*\])*+)\]"
"The words of a link; a pair of brackets may stand among them."
AMOUNT_LINK = re.compile(_WORDS + r"\(#([^):\s\[]+)(?::(\d+/\d+|1))?\)")
"[salt](#salt) and [salt](#salt:1/2)."
OTHER_LINK = re.compile(rf"!?{_WORDS}\([^)\[]*\)")
"Any other link or picture: its words stay."
MARKS = re.compile(r"[*_`]+(?=\S)|(?<=\S)[*_`]+|^#+ ", re.MULTILINE)
"Emphasis, code and headings."
ITEM = re.compile(r"(\d+[.)]|[-*+]) +")
"The beginning of a list item."


def cure_text(cure: CureResult, tables: Tables) -> str:
    """What to weigh and what it comes to; where the cure is refused, the figures without weights."""
    method = "short" if cure.whole_limit_is_worst_case else cure.method
    lines = [f"Cure: {METHODS[method]}", *_cure_lines(cure, Shower(tables.rounding, tables.units))]
    if cure.limit is not None:
        source = tables.sources[cure.limit.source].citation
        lines.append(f"  Limit from {source} {cure.limit.locator}")
    return "\n".join(lines)


METHODS = {
    "brine": "brine, left until salt and nitrite are even (meat and brine as one system)",
    "short": "brine, taken out before it is even (by the brine that the meat takes up)",
    "dry": "dry, by the weight of the raw meat",
}
ROWS = (
    ("green_weight", "meat, green weight"),
    ("water", "water, ice included"),
    ("salt", "salt"),
    ("sugar", "sugar"),
    ("curing_salt", "curing salt"),
)


def _figures(cure: CureResult) -> Iterator[tuple[str, str]]:
    """Label and words of each figure that could be worked out; the nitrite first, beside its limit."""
    ppm = next(
        (ppm for ppm in (cure.pick_up_ppm, cure.whole_system_ppm, cure.dry_ppm) if ppm is not None), None
    )
    if ppm is not None and cure.limit is not None:
        text = f"{show_decimal(ppm, places=2)} ppm"
        if cure.ppm_range is not None:
            low, spooned = (
                show_decimal(cure.ppm_range.low, places=1),
                cure.ends and cure.ends.open == {"curing_salt"},
            )
            most, least = ("the heaviest spoon", "the lightest") if spooned else ("the most", "the least")
            text += f" at {most} ({low} ppm at {least})"
        yield "ingoing nitrite", f"{text}, limit {show_decimal(cure.limit.limit_ppm, places=2)} ppm"
    for figure in figures_of(SHARES):
        if figure.at_table is not None and figure.told(cure):
            label, words = figure.at_table
            yield label, words(cure)


def _wrapped_figures(cure: CureResult, shower: Shower) -> list[Words]:
    """What the method adds, and what stands on the table."""
    words = figure_words(cure, shower, METHOD)
    words += brine_words(cure.brine) if cure.brine else []
    words += figure_words(cure, shower, SCALE)
    words += vessel_words(cure.vessel) if cure.vessel else []
    return words + ([ice_words(cure.ice)] if cure.ice else [])


def sheet_text(computed: ComputedRecipe, book: ComputedBook, units: str, shower: Shower) -> str:
    """One recipe, scaled, for a printer: boxes first, then weights, ingredients, course."""
    recipe = computed.recipe
    parts = [_title(computed, units)]
    if recipe.questions:
        parts.append("\n".join(["Not answered yet", *(f"  {one.words}" for one in recipe.questions)]))
    if recipe.holes:
        parts.append("\n".join(["Not read", *(line for hole in recipe.holes for line in _hole(hole))]))
    parts += box_texts(computed)
    if computed.cure is not None:
        parts.append("\n".join(_cure_lines(computed.cure, shower)))
    if computed.lines or computed.meat_line:
        parts.append("\n".join(["Ingredients", *_ingredients(computed, units, shower)]))
    if recipe.stages:
        title = "Course, read from the method" if recipe.course_read else "Course"
        parts.append("\n".join([title, *_course(computed)]))
    method = _method(computed, units)
    if method:
        parts.append(f"Method\n{method}")
    if computed.needs:
        parts.append("\n".join(["Needs", *_needs(computed, book, units)]))
    parts += list(computed.facts)
    return "\n\n".join(parts)


def _hole(hole: Hole) -> Iterator[str]:
    """The place as it is written, and what to do about it."""
    yield f"  line {hole.position.line}: {hole.words or 'the text'}"
    yield from _wrapped("    ", f"{hole.message} {hole.hint}".rstrip(), "")


def _ingredients(computed: ComputedRecipe, units: str, shower: Shower) -> list[str]:
    """Lines with the titles of their groups."""
    lines, group, wholes = [], "", wholes_of(computed)
    for line in computed.all_lines:
        if line.ingredient.group != group:
            group = line.ingredient.group
            whole = wholes.get(group)
            lines.append(f" {_whole(whole, units, shower) if whole else group}")
        lines.append(_line(line, units))
    return lines


def _whole(whole: Whole, units: str, shower: Shower) -> str:
    return f"{whole.before}{shower.quantity(whole.scaled, units)}{whole.after}"


def _title(computed: ComputedRecipe, units: str) -> str:
    words = [computed.recipe.name]
    if computed.serves is not None:
        words.append(f"serves {show_number(computed.serves)}")
    if written_for(computed):
        words.append(f"written for {written_for(computed)}")
    made = made_words(computed, units)
    if made:
        words.append(f"makes {made}")
    if computed.scale.batches != 1:
        words.append(f"{show_number(computed.scale.batches)} times the written recipe")
    return "\n".join([", ".join(words), *_of_its_own(computed.recipe)])


def _of_its_own(recipe: Recipe) -> Iterator[str]:
    """When it is made and whose it is."""
    if recipe.season:
        yield f"Season: {season_words(recipe.season)}"
    if recipe.origin:
        yield f"From: {recipe.origin}"


def box_texts(judged: ComputedRecipe | JudgedText) -> list[str]:
    """The boxes of a recipe or of a gathering's text."""
    return [_box(box) for box in boxes_of(judged)]


def _box(box: Sequence[Caution]) -> str:
    return f"[{box[0].signal}] " + "\n  ".join(map(_rule, box))


def _rule(caution: Caution) -> str:
    text = f"{caution.text} {words_behind(caution)}".rstrip()
    return (
        f"{caution.title}\n{textwrap.fill(text, WIDTH - 4, initial_indent='    ', subsequent_indent='    ')}"
    )


def _cure_lines(cure: CureResult, shower: Shower) -> list[str]:
    lines = ["Weigh"]
    if cure.weigh is None:
        lines.append("  No weights are given: see the problems.")
    else:
        lines += [f"  {label:<22} {cure.shown[key]}" for key, label in ROWS if cure.shown.get(key)]
        if cure.shown.get("curing_salt"):
            lines.append(f"  The curing salt is {cure.kind.title}, and no other.")
    lines += [f"  {label:<22} {text}" for label, text in _figures(cure)]
    for label, value, note in _wrapped_figures(cure, shower):
        lines += _wrapped(f"  {label.lower():<22} ", value, note)
    return lines + _reach_lines(cure)


def _wrapped(label: str, value: str, note: str) -> list[str]:
    """A figure under the others, its note on lines of its own."""
    indent = " " * len(label)
    lines = textwrap.wrap(value, WIDTH, initial_indent=label, subsequent_indent=indent)
    return lines + (
        textwrap.wrap(note, WIDTH, initial_indent=indent, subsequent_indent=indent) if note else []
    )


def _reach_lines(cure: CureResult) -> list[str]:
    if cure.reach is None:
        return []
    text = f"{salt_sentence(cure.reach)} {nitrite_sentence(cure.reach)}".strip()
    kept = text.replace(" %", "\N{NO-BREAK SPACE}%")  # a number stays on the line of its sign
    lines = textwrap.wrap(kept, WIDTH, initial_indent="  ", subsequent_indent="  ")
    return [line.replace("\N{NO-BREAK SPACE}", " ") for line in lines]


def _line(line: ComputedLine, units: str) -> str:
    shown = line.shown.in_units(units) if line.shown else ""
    behind = amount_behind(line)
    shown = "" if behind else shown
    share = line.ingredient.share.written if line.ingredient.share else ""
    preparation = "".join(f", {words}" for words in (behind, preparation_in(line, units), share) if words)
    check = f"  [{line.check}]" if line.check else ""
    return f"  {shown:<16} {line.ingredient.name}{preparation}{check}"


def _course(computed: ComputedRecipe) -> list[str]:
    checks = computed.stage_checks or ("",) * len(computed.recipe.stages)
    return [
        f"  {number}. {course_line(stage)}{f'  [{check}]' if check else ''}"
        for number, (stage, check) in enumerate(zip(computed.recipe.stages, checks, strict=True), 1)
    ]


def _needs(computed: ComputedRecipe, book: ComputedBook, units: str) -> list[str]:
    lines = []
    for need in computed.needs:
        name = book.book.recipes[need.recipe].name
        text = f"  {need.amount_shown.in_units(units) if need.amount_shown else ''} {name}"
        text += f": {show_number(need.batches)} of a batch"
        if need.green_weight_shown is not None:
            text += f", from {need.green_weight_shown.in_units(units)} raw {need.meat_name}"
        lines.append(text)
    return lines


def _method(computed: ComputedRecipe, units: str) -> str:
    """Paragraphs and steps, wrapped, each amount behind its word, a share of one as `1/2 of 179 g`."""
    amounts = _amounts_behind(computed, units)
    body = computed.recipe.body
    ids = {link.written: link.id for link in body.amount_links}
    stages = {link.written: stage_words(computed.recipe.stages[link.number]) for link in body.stage_links}

    def with_amount(found: re.Match[str]) -> str:
        words, id, share = found.groups()
        amount = stages.get(id) or amounts.get(ids.get(id, id), "")
        if not amount:
            return words
        return f"{words} ({share} of {amount})" if share not in (None, "1") else f"{words} ({amount})"

    text = AMOUNT_LINK.sub(with_amount, body.text)
    text = MARKS.sub("", OTHER_LINK.sub(r"\1", text))
    return "\n".join(_wrapped_block(block) for block in _blocks(text))


def _amounts_behind(computed: ComputedRecipe, units: str) -> dict[str, str]:
    shown = {
        line.ingredient.id: line.shown.in_units(units)
        for line in computed.named_lines
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


def _wrapped_block(block: str) -> str:
    item = ITEM.match(block)
    block = " ".join(block.split())
    return textwrap.fill(block, WIDTH, subsequent_indent=" " * (len(item.group()) if item else 0))
