"""Places of a course by how cold they are; what a rule adds to them is the rule's own."""

COLD = frozenset({"fridge", "freezer"})
"Cold by themselves. Source: house choice."
IN_WATER = frozenset({"cold water", "ice bath"})
"Source: words of the trade."
ROOM = frozenset({"counter", "pantry", "shade"})
"Warm unless a temperature says otherwise. Source: house choice."
