"""How much of the longest checks a run makes: a tenth, or all of it behind `bash tests/run --long`."""

from __future__ import annotations

import os

LONG = bool(os.environ.get("POTHERB_LONG"))
"Set by `bash tests/run --long`."


def share(whole: int) -> int:
    """Of so many examples, those of this run."""
    return whole if LONG else whole // 10
