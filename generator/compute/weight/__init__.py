"""What an amount of a food weighs, and what is left of a weight."""
