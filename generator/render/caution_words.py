"""A caution in, the sentences behind its words out: why it stands here, what is not told, what its author accepts."""

from __future__ import annotations

from generator.model.results import Caution

BOOK_FACTS = frozenset({"altitude", "deer disease area", "poison help", "shot"})
"Keys that stand in book.yaml, where they are told once for all recipes; every other key is the recipe's."

BOOK_FILE = "book.yaml"


def reason_words(caution: Caution) -> str:
    """Because the meat is elk shank."""
    return f"Because {caution.because.rstrip('.')}." if caution.because else ""


def missing_keys(caution: Caution) -> tuple[tuple[str, str], ...]:
    """Each key that decides and is not told, with the file it belongs into where that is not the recipe's own."""
    return tuple((key, BOOK_FILE if key in BOOK_FACTS else "") for key in caution.missing)


def missing_words(caution: Caution) -> str:
    """Cannot be told: write `keep`, `shot` in book.yaml."""
    keys = [f"`{key}`" + (f" in {file}" if file else "") for key, file in missing_keys(caution)]
    return f"Cannot be told: write {', '.join(keys)}." if keys else ""


def accepted_words(caution: Caution) -> str:
    """Accepted by the author: the reason."""
    return f"Accepted by the author: {caution.accepted.rstrip('.')}." if caution.accepted else ""


def caution_sentences(caution: Caution) -> tuple[str, ...]:
    """Everything that stands behind the words of a rule, for plain text."""
    found = (reason_words(caution), missing_words(caution), accepted_words(caution))
    return tuple(sentence for sentence in found if sentence)
