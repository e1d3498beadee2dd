"""What is raised where a recipe cannot be had at the scale that is asked for."""

from __future__ import annotations


class NotScalable(ValueError):
    """The recipe does not say what the wish needs; the message says so and `hint` what to add."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.hint = hint
