"""A recipe and a wish in, the same recipe at another scale out: its batches, its lines, what it needs."""
