"""English as it is heard: sentences, clauses, and whether an act in them is turned down. English alone.

Nothing here knows what is dangerous. An act is a stretch of a sentence; what is asked is whether the cook is told to do
it, or told not to, told of it as a mistake, or told what to do when it has happened.
"""

from generator.english.sentences import clause_of, sentence_spans
from generator.english.turned_down import is_turned_down

__all__ = ["clause_of", "is_turned_down", "sentence_spans"]
