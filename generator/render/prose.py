"""The Markdown of a body in, finished HTML out: amounts behind their words, links of the site, both systems.

An amount link `[salt](#salt)` shows the word and behind it the scaled amount; links to recipes lead to their
pages; an amount in running text gets the other system of units behind it. Raw HTML never passes.
"""

from __future__ import annotations

import re
from collections import deque
from dataclasses import dataclass, field
from fractions import Fraction

from markupsafe import Markup, escape

from generator.markdown import find_headings, plain_blocks, render_html
from generator.model.quantity import Span, Unit
from generator.model.results import ComputedRecipe
from generator.render import paths
from generator.render.amounts import Amounts, AmountView, keyed
from generator.render.context import TAKEN, Context
from generator.render.conversions import Insertion, conversions
from generator.render.course import StageView
from generator.render.figures import range_of
from generator.tables import AmbiguousUnit

SCHEMES = re.compile(r"(?:https?|mailto):", re.IGNORECASE)
AMOUNT_LINK = re.compile(r"#(?P<id>[^:]+)(?::(?P<share>\d+/\d+|\d+))?")
BLOCKS = re.compile(r"</?(?:p|li|ol|ul|h[1-6]|blockquote|table|thead|tbody|tr|t[dh]|pre|hr)\b")
SHORT = 16
"Letters of an amount that is never broken over two lines."
TAG = re.compile(r"(<[^<>]*>)")
RUN = re.compile(r"\0(\d+)\0")
"Stands for a run of text until its whole paragraph is known. Markdown lets no NUL through."
TAG_OR_RUN = re.compile(r"(<[^<>]*>|\0\d+\0)")


@dataclass(slots=True, kw_only=True)
class Prose:
    """The bodies of one file, as its page shows them."""

    context: Context
    file: str
    recipe: ComputedRecipe | None = None
    rows: frozenset[str] = frozenset()
    "The ids that have a row on the page: only they can be linked to."
    stages: tuple[StageView, ...] = ()
    "Those of the page, which links of the text name too."
    _runs: list[str] = field(default_factory=list)

    def html(self, text: str, *, top: int = 2, taken: frozenset[str] = TAKEN) -> Markup:
        """A body as HTML. `top` is the level of its highest heading, `taken` are the ids of the page around it."""
        highest = min((heading.level for heading in find_headings(text)), default=top)
        html = render_html(
            text,
            link=self._link,
            text_run=self._text_run,
            image=self._image,
            heading_offset=top - highest,
            taken_ids=taken,
        )
        return Markup("".join(self._finish_block(block) for block in _blocks(html)))

    def steps(self, text: str) -> tuple[str, ...]:
        """The text of every paragraph, item, heading and cell, amounts and both systems in it, for machine readers."""
        blocks = (self._plain_block(pieces) for pieces in plain_blocks(text, behind=self._words_behind))
        steps = (" ".join(block.split()) for block in blocks)
        return tuple(step for step in steps if step)

    def _text_run(self, text: str) -> str:
        """Put a run of text by; it is written when its paragraph is whole."""
        self._runs.append(text)
        return f"\0{len(self._runs) - 1}\0"

    def _link(self, href: str, inner: str) -> str | None:
        """An amount, a page of the site, an address elsewhere, or only the words."""
        if SCHEMES.match(href):
            return None
        told = self._told_link(href, inner)
        if told is not None:
            return told
        path, _, anchor = href.partition("#")
        file = paths.book_path(self.file, path) if path else self.file
        anchor = anchor if anchor in self.context.anchors(file) else ""
        if not path and not anchor:
            return inner
        target = self.context.files.get(file)
        if target is None:
            return inner
        address = self.context.href(f"{target}#{anchor}" if anchor else target)
        return str(Markup('<a href="{}">{}</a>').format(address, Markup(inner)))

    def _told_link(self, href: str, inner: str) -> str | None:
        """A word that shows what it names behind it; None where it names nothing of this recipe."""
        stage = self._stage_of(href)
        if stage is not None:
            word = Markup('<a class="word" href="#{}">{}</a>').format(stage.id, Markup(inner))
            return str(word + stage_html(stage))
        named = self._amount_link_of(href)
        if named is None:
            return None
        id, share = named
        word = Markup('<a class="word" href="#i-{}">{}</a>').format(id, Markup(inner))
        amount = keyed(self._amount_behind(id, share), f"i-{id}", share)
        return str(word if amount is None else word + " " + amount_html(amount))

    def _stage_of(self, href: str) -> StageView | None:
        if self.recipe is None or not href.startswith("#"):
            return None
        links = self.recipe.recipe.body.stage_links
        number = next((link.number for link in links if link.written == href[1:]), len(self.stages))
        return self.stages[number] if number < len(self.stages) else None

    def _amount_link_of(self, href: str) -> tuple[str, str] | None:
        """The id of the line that a link means, and the share of it that is written."""
        match = AMOUNT_LINK.fullmatch(href)
        if match is None or self.recipe is None:
            return None
        links = self.recipe.recipe.body.amount_links
        id = next((link.id for link in links if link.written == match["id"]), match["id"])
        return (id, match["share"] or "") if id in self.rows else None

    def _amount_behind(self, id: str, share: str) -> AmountView | None:
        if self.recipe is None:
            return None
        return amount_of(self.context.amounts, self.recipe, id, Fraction(share or 1))

    def _words_behind(self, href: str) -> str:
        """What stands behind the words of a link, as plain text: an amount, a length and temperatures, or nothing."""
        stage = self._stage_of(href)
        if stage is not None:
            return f" {stage.told}" if stage.told else ""
        named = self._amount_link_of(href)
        amount = self._amount_behind(*named) if named is not None else None
        return "" if amount is None else f" {amount_words(amount)}"

    def _image(self, src: str, alt: str) -> str:
        """A photo, loaded when it comes into sight. A sheet alone has none."""
        if self.context.is_sheet:
            return ""
        address = self.context.href(paths.photo_path(paths.book_path(self.file, src)))
        return str(Markup('<img src="{}" alt="{}" loading="lazy" decoding="async">').format(address, alt))

    def _conversions(self, text: str) -> tuple[Insertion, ...]:
        return conversions(text, amounts=self.context.amounts, find_unit=self._find_unit)

    def _find_unit(self, spelling: str) -> Unit | None:
        """The unit a spelling means in this book, or None where it means two sizes."""
        try:
            return self.context.tables.find_unit(spelling, self.context.config.units)
        except AmbiguousUnit:
            return None

    def _plain_block(self, pieces: tuple[tuple[str, bool], ...]) -> str:
        """The words of one block, each amount of its running text with the other system behind it."""
        whole = "".join(text for text, _ in pieces)
        added = {one.at: one.text for one in self._conversions(whole)}
        done, offset = [], 0
        for text, is_running in pieces:
            end = offset + len(text)
            for at in range(offset + 1, end + 1) if is_running else ():
                if at in added:
                    done += [whole[offset:at], f" ({added[at]})"]
                    offset = at
            done.append(whole[offset:end])
            offset = end
        return "".join(done)

    def _finish_block(self, block: str) -> str:
        """The runs of one block written out, each amount with the other system behind it."""
        pieces = TAG_OR_RUN.split(block)
        plain = [self._plain(piece) for piece in pieces]
        added = deque(self._conversions("".join(plain)))
        done: list[str] = []
        offset = 0
        for piece, text in zip(pieces, plain, strict=True):
            cuts = []
            while added and added[0].at <= offset + len(text):
                one = added.popleft()
                cuts.append((one.at - offset, one.text))
            done.append(_with_insertions(text, cuts) if RUN.fullmatch(piece) else piece)
            offset += len(text)
        return "".join(done)

    def _plain(self, piece: str) -> str:
        """What a reader sees of a piece: nothing of a tag."""
        if match := RUN.fullmatch(piece):
            return self._runs[int(match[1])]
        return "" if piece.startswith("<") else str(Markup(piece).unescape())


def amount_words(amount: AmountView) -> str:
    """An amount within a sentence, as `amount_html` shows it."""
    is_bare = not amount.other and not any(letter.isalpha() for letter in amount.first)
    return f"({amount.first})" if is_bare else amount.plain


def amount_html(amount: AmountView) -> Markup:
    """An amount within a sentence: the book's own units, the other system lighter in brackets; a bare count
    in brackets as well."""
    if not amount.other and not any(letter.isalpha() for letter in amount.first):
        return Markup('<span class="amount"{}>({})</span>').format(_follows(amount), amount.first)
    other = Markup(" ") + other_html(amount.other) if amount.other else ""
    return Markup('<span class="amount"{}><span{}>{}</span>{}</span>').format(
        _follows(amount), _together(amount.first), amount.first, other
    )


def stage_html(stage: StageView) -> Markup:
    """What a link to a stage shows behind its word: its length, and its temperatures on both scales."""
    parts = [Markup('<span class="amount">{}</span>').format(stage.length)] if stage.length else []
    if stage.at is not None:
        parts.append(Markup("at ") + amount_html(stage.at))
    told = Markup(" ").join(parts)
    if stage.inside is not None:
        inside = Markup("to {} inside").format(amount_html(stage.inside))
        told = told + ", " + inside if told else inside
    return Markup(" ") + told if told else Markup("")


def _follows(amount: AmountView) -> Markup:
    """Where the script finds an amount of a sentence, and which share of it stands there."""
    share = Markup(' data-share="{}"').format(amount.share) if amount.share else ""
    return Markup(' data-amount="{}" data-said{}').format(amount.key, share) if amount.key else Markup("")


def other_html(text: str) -> Markup:
    """The same amount in the other system, in brackets."""
    return Markup('<span class="other{}">({})</span>').format(" short" if len(text) <= SHORT else "", text)


def _together(text: str) -> Markup:
    """Number and unit stay on one line, unless the amount is a long one."""
    return Markup(' class="short"') if len(text) <= SHORT else Markup("")


def amount_of(amounts: Amounts, recipe: ComputedRecipe, id: str, share: Fraction) -> AmountView | None:
    """The scaled amount of an id, or a share of it; None where there is none to show."""
    if id in ("water", "salt", "sugar", "curing-salt") and recipe.recipe.cure is not None:
        return (
            amounts.shown(recipe.cure_lines.get(id))
            if share == 1
            else _cure_share(amounts, recipe, id, share)
        )
    line = next((line for line in recipe.named_lines if line.ingredient.id == id), None)
    if line is None or line.scaled is None or line.scaled.is_vague:
        return None
    if share == 1:
        return amounts.shown(line.shown)
    part = line.scaled.times(share)
    return amounts.weighed_out(part) if line.ingredient.is_weighed_out else amounts.quantity(part)


def _cure_share(amounts: Amounts, recipe: ComputedRecipe, id: str, share: Fraction) -> AmountView | None:
    """A share of what is weighed for a cure, rounded as the whole is; nothing where the cure is refused."""
    cure = recipe.cure
    if cure is None or cure.weigh is None:
        return None
    if id == "water":
        return None if cure.water_g is None else amounts.grams(cure.water_g * share, use="cure base")
    whole = {"salt": cure.weigh.salt_g, "sugar": cure.weigh.sugar_g, "curing-salt": cure.weigh.curing_salt_g}
    use = "curing salt" if id == "curing-salt" else "cure weight"
    grams = range_of(cure, f"{id}_g") if id in ("salt", "sugar") else None
    return amounts.only_grams((grams or Span.of(whole[id])).times(share), use=use)


def _blocks(html: str) -> list[str]:
    """HTML cut before and behind each block tag, so that a sentence stays in one piece."""
    blocks: list[list[str]] = [[]]
    for piece in TAG.split(html):
        if BLOCKS.match(piece):
            blocks += [[piece], []]
        else:
            blocks[-1].append(piece)
    return ["".join(block) for block in blocks]


def _with_insertions(text: str, cuts: list[tuple[int, str]]) -> Markup:
    done: list[str] = []
    start = 0
    for at, other in cuts:
        done += [escape(text[start:at]), Markup(" "), other_html(other)]
        start = at
    return Markup("").join([*done, escape(text[start:])])
