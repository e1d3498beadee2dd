"""Places of a course by how cold they are; what a rule adds to them is the rule's own."""

COLD = frozenset({"fridge", "freezer", "iced cooler"})
"Cold by themselves, or by the ice that is in them. Source: house choice."
IN_WATER = frozenset({"cold water", "ice bath"})
"Source: words of the trade."
ROOM = frozenset(
    {
        *(
            "counter",
            "pantry",
            "shade",
            "porch",
            "table",
            "sink",
            "stove",
            "garage",
            "shed",
            "cupboard",
            "sun",
        ),
    }
)
"Warm unless a temperature says otherwise. Source: house choice."
HOT = frozenset(
    {
        *(
            "smoker",
            "oven",
            "pot",
            "pan",
            "grill",
            "pressure canner",
            "water bath",
            "warm water",
            "microwave",
        ),
        "slow cooker",
        "dehydrator",
    }
)
"Places that heat. Source: words of the trade."
VESSELS = frozenset({"bag", "vacuum", "jar", "crock", "rack", "bowl"})
"What stands anywhere. Source: words of the trade."
UNTOLD = frozenset({"cellar", "snow", "cool place", "cooler"})
"Cold or not, by the day: only a temperature tells. Source: house choice."
