"""Build outcomes in; the state every open page follows, as server-sent events, out.

A page knows which build it was served from. Told of another good build it reloads; told of problems it shows
them. So a page that was hidden, or whose server was started anew, catches up with the first event it gets.
"""

from __future__ import annotations

import json
import secrets
import threading
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from generator.preview.pages import problems_panel
from generator.problems import Problem

PING_S = 15.0
"Between two signs of life: a write that fails is how a closed page is noticed."
RETRY_MS = 500
"How soon a page asks again after the connection broke."


@dataclass(frozen=True, slots=True, kw_only=True)
class BuildOutcome:
    """One build. A failed one leaves the last good site where it is."""

    ok: bool
    problems: tuple[Problem, ...] = ()
    "All of them: warnings of a good build, errors and warnings of a failed one."
    site: Path
    "The folder that holds, or would hold, the site: the preview's own, never the book's output."


@dataclass(frozen=True, slots=True, kw_only=True)
class LiveState:
    """What is served now, and what came of the last build."""

    build: str
    "Names the last build."
    page: str
    "Names what pages are served from: the last good build, or each failed one while none was good."
    has_site: bool = False
    ok: bool = False
    problems: tuple[Problem, ...] = ()

    def to_event(self) -> bytes:
        """One server-sent event; JSON in ASCII holds no line end, which would cut it off."""
        panel = problems_panel(self.problems, ok=self.ok) if self.has_site else ""
        data = {"build": self.build, "page": self.page, "ok": self.ok, "panel": panel}
        return f"event: build\ndata: {json.dumps(data)}\n\n".encode("ascii")


class Live:
    """Holds the present state and wakes whoever follows it."""

    def __init__(self) -> None:
        self._run = secrets.token_hex(4)
        self._count = 0
        self._closed = False
        self._news = threading.Condition()
        self._state = LiveState(build=self._name(), page=self._name())

    def _name(self) -> str:
        """Differs between builds, and between one preview and the next on the same port."""
        return f"{self._run}-{self._count}"

    @property
    def state(self) -> LiveState:
        """What is served now."""
        return self._state

    def publish(self, outcome: BuildOutcome) -> None:
        """Take in a build that ended; its files are in place already."""
        with self._news:
            self._count += 1
            keeps_page = self._state.has_site and not outcome.ok
            self._state = LiveState(
                build=self._name(),
                page=self._state.page if keeps_page else self._name(),
                has_site=self._state.has_site or outcome.ok,
                ok=outcome.ok,
                problems=outcome.problems,
            )
            self._news.notify_all()

    def close(self) -> None:
        """End every stream of events."""
        with self._news:
            self._closed = True
            self._news.notify_all()

    def events(self, *, ping_s: float = PING_S) -> Iterator[bytes]:
        """The present state, then each that follows, with a comment in between as a sign of life."""
        yield f"retry: {RETRY_MS}\n\n".encode("ascii")
        sent: LiveState | None = None
        while (state := self._next(sent, ping_s)) is not None:
            yield b": ping\n\n" if state is sent else state.to_event()
            sent = state

    def _next(self, known: LiveState | None, longest_s: float) -> LiveState | None:
        """The state as soon as it is another than the known one, or when the time is over; None at the end."""
        with self._news:
            self._news.wait_for(lambda: self._closed or self._state is not known, longest_s)
            return None if self._closed else self._state
