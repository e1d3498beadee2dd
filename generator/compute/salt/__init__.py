"""The salt in a cured piece and in the dishes made of it, as ranges."""
