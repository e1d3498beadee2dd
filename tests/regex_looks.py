"""A regular expression and a text in, how many characters its search looks at out: tried and gone back as `re` does."""

from __future__ import annotations

import importlib
import re
from collections.abc import Callable, Sequence
from typing import Any

op: Any = importlib.import_module("re._constants")
parser: Any = importlib.import_module("re._parser")

REPEATS = (op.MAX_REPEAT, op.MIN_REPEAT, op.POSSESSIVE_REPEAT)
GROUPS = (op.SUBPATTERN, op.BRANCH, *REPEATS)
"Nodes that can be read in more than one way."
Then = Callable[[int], "int | None"]
Node = tuple[Any, Any]


def has_unbounded(nodes: Any) -> bool:
    """True where a pattern can run over any number of characters."""
    return any(_is_unbounded(code, part) for code, part in nodes)


def _is_unbounded(code: Any, part: Any) -> bool:
    if code in REPEATS:
        return part[1] is op.MAXREPEAT or has_unbounded(part[2])
    if code is op.BRANCH:
        return any(has_unbounded(one) for one in part[1])
    if code is op.ATOMIC_GROUP:
        return has_unbounded(part)
    return code in (op.SUBPATTERN, op.ASSERT, op.ASSERT_NOT) and has_unbounded(part[-1])


def parsed(pattern: re.Pattern[str]) -> Any:
    return parser.parse(pattern.pattern, pattern.flags)


class Looks:
    """One pattern on one text. Groups are not remembered: no pattern here refers back to one."""

    def __init__(self, pattern: re.Pattern[str], text: str) -> None:
        self._nodes, self._flags, self._text = parsed(pattern), pattern.flags, text
        self.count = 0

    def search_all(self) -> int:
        """As `finditer` goes: from each place, behind a match from its end."""
        self.ends()
        return self.count

    def ends(self) -> list[tuple[int, int]]:
        """Where each match begins and ends."""
        found, at = [], 0
        while at <= len(self._text):
            end = self._run(self._nodes, 0, at, lambda place: place)
            found += [(at, end)] if end is not None else []
            at = at + 1 if end is None or end == at else end
        return found

    def match(self, *, full: bool) -> int:
        """From the first place alone."""
        self._run(self._nodes, 0, 0, lambda place: place if not full or place == len(self._text) else None)
        return self.count

    def _run(self, nodes: Sequence[Node], index: int, at: int, then: Then) -> int | None:
        """Where the nodes from an index on end that begin at a place, with what follows them; None where they do not."""
        while index < len(nodes) and (fits := self._simple(nodes[index], at)) is not None:
            if fits < 0:
                return None
            at, index = at + fits, index + 1
        if index == len(nodes):
            return then(at)
        code, part = nodes[index]

        def rest(place: int) -> int | None:
            return self._run(nodes, index + 1, place, then)

        if code is op.SUBPATTERN:
            return self._run(part[3], 0, at, rest)
        if code is op.BRANCH:
            ends = (self._run(branch, 0, at, rest) for branch in part[1])
            return next((end for end in ends if end is not None), None)
        if code is op.ATOMIC_GROUP:
            inner = self._run(part, 0, at, lambda place: place)
            return None if inner is None else rest(inner)
        if code in (op.ASSERT, op.ASSERT_NOT):
            start = at if part[0] > 0 else at - part[1].getwidth()[0]
            found = start >= 0 and self._run(part[1], 0, start, lambda place: place) is not None
            return rest(at) if found is (code is op.ASSERT) else None
        return self._repeat(code, part, at, rest)

    def _repeat(self, code: Any, part: Any, at: int, rest: Then) -> int | None:
        low, high, nodes = part
        if code is op.MIN_REPEAT:
            return self._few(part, at, 0, rest)
        if code is op.MAX_REPEAT and (len(nodes) > 1 or nodes[0][0] in GROUPS):
            return self._many(part, at, 0, rest)
        places = [at]
        while len(places) <= high:
            end = self._run(nodes, 0, places[-1], lambda place: place)
            if end is None or end == places[-1]:
                break
            places.append(end)
        tried = places[-1:] if code is op.POSSESSIVE_REPEAT else reversed(places[low:])
        ends = (rest(place) for place in tried if len(places) > low)
        return next((end for end in ends if end is not None), None)

    def _many(self, part: Any, at: int, number: int, rest: Then) -> int | None:
        """As often as it goes, then once less, each way that a group can be read."""
        low, high, nodes = part

        def again(place: int) -> int | None:
            return self._many(part, place, number + 1, rest) if place > at else None

        end = self._run(nodes, 0, at, again) if number < high else None
        return end if end is not None or number < low else rest(at)

    def _few(self, part: Any, at: int, number: int, rest: Then) -> int | None:
        """Not at all, then once more."""
        low, high, nodes = part
        place: int | None = at
        while place is not None:
            end = rest(place) if number >= low else None
            if end is not None or number >= high:
                return end
            place, number = self._run(nodes, 0, place, lambda end: end), number + 1
        return None

    def _simple(self, node: Node, at: int) -> int | None:
        """How far a node of one character or none goes, -1 where it does not fit; None for any other node."""
        code, part = node
        if code is op.AT:
            self.count += 1
            return 0 if self._is_at(part, at) else -1
        if code in (op.LITERAL, op.NOT_LITERAL, op.ANY, op.IN):
            self.count += 1
            return 1 if at < len(self._text) and self._fits(code, part, self._text[at]) else -1
        return None

    def _fits(self, code: Any, part: Any, sign: str) -> bool:
        if code is op.ANY:
            return sign != "\n" or bool(self._flags & re.DOTALL)
        signs = {sign, sign.lower(), sign.upper()} if self._flags & re.IGNORECASE else {sign}
        forms = {ord(one) for one in signs if len(one) == 1}
        if code is op.LITERAL or code is op.NOT_LITERAL:
            return (part in forms) is (code is op.LITERAL)
        negated = part[0][0] is op.NEGATE
        return any(_holds(one, forms) for one in part[negated:]) is not negated

    def _is_at(self, kind: Any, at: int) -> bool:
        text, many = self._text, bool(self._flags & re.MULTILINE)
        if kind in (op.AT_BEGINNING, op.AT_BEGINNING_STRING):
            return at == 0 or (many and kind is op.AT_BEGINNING and text[at - 1] == "\n")
        if kind is op.AT_END:
            return text[at:] in ("", "\n") or (many and text[at] == "\n")
        if kind is op.AT_END_STRING:
            return at == len(text)
        before, behind = _is_word(text[max(at - 1, 0) : at]), _is_word(text[at : at + 1])
        return (before != behind) is (kind is op.AT_BOUNDARY)


def _is_word(sign: str) -> bool:
    return sign.isalnum() or sign == "_"


def _holds(part: Node, forms: set[int]) -> bool:
    code, value = part
    if code is op.LITERAL:
        return value in forms
    if code is op.RANGE:
        return any(value[0] <= form <= value[1] for form in forms)
    sign = chr(min(forms))
    kinds = {
        op.CATEGORY_DIGIT: sign.isdecimal(),
        op.CATEGORY_SPACE: sign.isspace(),
        op.CATEGORY_WORD: _is_word(sign),
        op.CATEGORY_NOT_DIGIT: not sign.isdecimal(),
        op.CATEGORY_NOT_SPACE: not sign.isspace(),
        op.CATEGORY_NOT_WORD: not _is_word(sign),
    }
    return kinds[value]
