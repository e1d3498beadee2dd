"""What is known of a recipe, and from which words: gathered once, asked for by every rule."""
