# ruff: noqa: E501, SIM905
"""The words of a method by what they do to a stage: who is told to do what, to which food, for how long, how hot, where.

Only patterns and closed lists stand here; `method.py` reads with them. All are words of the trade, English alone.
"""

from __future__ import annotations

import re

_ADVERBS = (
    r"(?:and|then|now|next|first|second|third|finally|lastly|gently|slowly|quickly|carefully|lightly|again|just|also|"
    r"afterwards?|later|please|always|meanwhile|immediately|only|well|thoroughly|simply|loosely|tightly|partly|fully|"
    r"completely|hot|cold)"
)
_TO_WHOM = rf"^\s*(?:{_ADVERBS}\s+)*(?:(?:i|we|you)\s+(?:{_ADVERBS}\s+)*)?"
BREAK = re.compile(
    r"[,;:()!?—]|\s[–-](?=\s)|\.(?=\s)|(?<![\w'’-])(?:and then|then|and(?! a half)|but|or(?! (?:two|three|four|five|six|so|[0-9])\b))(?![\w'’-])",
    re.IGNORECASE,
)
"Between two clauses, wide: `and` may also stand between two things."
ORDERED = re.compile(_TO_WHOM + r"$", re.IGNORECASE)
"What may stand before an order: nothing, `then`, `we`."
PLACED_FIRST = re.compile(
    r"^\s*(?:in|on|at|over|under|overnight|without)\b(?!.*\b(?:if|when|which|that|who|you|we|i|they|he|she|until)\b)"
    r".*(?<!\bthe)(?<!\ba)(?<!\ban)(?<!\byour)(?<!\bof)(?<!\bwith)(?<!\bfor)(?<!\bto)(?<!\bin)(?<!\bon)\s+$",
    re.IGNORECASE,
)
"`In a pot simmer ...`; not `in the smoke`."
LET = re.compile(
    _TO_WHOM
    + r"(?:let|have|allow|leave|set|put|place|lay|hang|return|transfer|move|slide|stand)\b(?P<object>.*?)\s*"
    r"(?P<to>(?<![\w'’-])to\s+)?$",
    re.IGNORECASE,
)
"`Let the meat ...`, `set it out to ...`."
BARE_LET = re.compile(_TO_WHOM + r"(?:let|have)\b", re.IGNORECASE)
BEHIND_TO = re.compile(rf"^\s*(?:uncovered\s+|{_ADVERBS}\s+)*to\s+$", re.IGNORECASE)
KEEP = re.compile(
    _TO_WHOM + r"(?:keep|continue|start|begin|finish|go on)(?:\s+(?:to|by|with))?\s+$", re.IGNORECASE
)
MUST = re.compile(
    rf"^\s*(?:{_ADVERBS}\s+)*(?P<object>.*?)\b(?:must|should|shall|will|needs? to|has to|have to|ought to)\s+"
    rf"(?:{_ADVERBS}\s+)*(?P<be>be\s+(?:{_ADVERBS}\s+)*)?$",
    re.IGNORECASE,
)
IS = re.compile(
    rf"^\s*(?:{_ADVERBS}\s+)*(?P<object>.*?)\b(?:is|are|gets?|get)\s+(?:{_ADVERBS}\s+)*$", re.IGNORECASE
)
SUBORDINATE = re.compile(
    r"\b(?:if|unless|until|till|when|whenever|once|while|as|after|before|because|since|which|that|who|whose|where|how|"
    r"though|although|whether|so|like|than)\b",
    re.IGNORECASE,
)
"A clause that says when or which, not what to do."
NO_VERB_BEHIND = re.compile(
    r"\s+(?:of|is|are|was|were|has|had|should|must|will|would|may|might|can|could|does|did)(?![\w'’-])|['’-]\w",
    re.IGNORECASE,
)
"Behind these words stands a noun: `smoke should be thin`, `the rest of it`."
NAMES_BEHIND = re.compile(
    r"\s+(?:sugar|rice|bread|paper|butter|ice|mustard|wine|sherry|vermouth|rack|place|spot|water|opener|mixer|pepper|"
    r"herbs?|beans?|peas|lentils|thyme|sage|oregano|ale|beer|gravy)(?![\w'’-])",
    re.IGNORECASE,
)
"`brown sugar`, `dry mustard`, `cool place`: the verb is an adjective. `boil beans` is told where beans are the food."
ADJECTIVES = frozenset(
    {"brown", "dry", "cool", "can", "cold", "bake", "stand", "smoke", "boil", "process", "age", "set"}
)

IS_SO_BEFORE = re.compile(
    r"\b(?:is|are|be|looks?|turns?|until|till?) (?:\w+ ){1,3}?(?:and|but|or) $", re.IGNORECASE
)
"`The batter is high and brown`."

REMARK = re.compile(
    r"^\W*(?:if|unless|in case|in a pinch|should you|some|people|many|most (?:people|folks)|old|whoever|those who|optional|"
    r"variation|note|tip|alternatively|or|for a (?:change|variation)|leftovers?|you (?:can|could|may|might)|one (?:can|could|may)|"
    r"instead|why|how|what|who|nobody|no one|never|do not|don['’]t)\b",
    re.IGNORECASE,
)
"Beginnings of what is not part of every cooking."
TOLD = re.compile(
    r"\b(?:said|says?|told|used to|swore|insisted|claimed|wrote|remember(?:s|ed)?|would (?:always|often|never)|always had|years ago|"
    r"back then|in (?:the|those) (?:old|olden) days|when i was|when we were|thought)\b",
    re.IGNORECASE,
)
"Stories."
CONDITION = re.compile(
    r"\b(?:if|unless|in case|because|so that|otherwise|or else|rather than|instead of)\b", re.IGNORECASE
)
"From here on a sentence says no more of the stage."
SIDE_START = re.compile(
    r"^\W*(?:meanwhile|in the meantime|for the (?:sauce|gravy|glaze|brine|dough|rub|crust|pastry|topping|dressing|marinade|syrup|"
    r"salad|garnish|roux|stuffing|noodles|rice|pasta|potatoes)|in (?:a|an|another) (?:small|separate|second|other|clean)\b|"
    r"in another\b|separately|to (?:serve|make the (?:sauce|gravy|glaze|brine|dough)))",
    re.IGNORECASE,
)
"What begins so speaks of something beside, unless it names the food."
ASIDE_HEADING = re.compile(
    r"\b(?:notes?|tips?|variations?|stor(?:y|ies|age|ing)|history|about|leftovers?|serving|serve|serves|sauce|gravy|glaze|dough|rub|"
    r"crust|dressing|salad|sides?|substitut\w+|options?|options|why|keeping|background|memor(?:y|ies)|shopping|equipment|safety)\b",
    re.IGNORECASE,
)
"Headings under which no stage of the dish stands."
MAKES_ASIDE = re.compile(
    r"(?<![\w'’-])(?:dissolve|mix|whisk|combine|make|melt|prepare|bring|blend|stir together)(?![\w'’-])",
    re.IGNORECASE,
)
"Orders that turn the talk to their object: `dissolve the salt ...; chill it`."
OTHERS = (
    r"(?<![\w'’-])(?:turn|add|cover|uncover|stir|skim|drain|baste|flip|serve|slice|pat|wipe|season|salt|rub|sprinkle|lower|"
    r"reduce|raise|increase|pour|strain|mix|whisk|dissolve|heat|bring|preheat|warm|check|weigh|discard|throw|wash|make|combine|"
    r"lift|trim|cut|chop|fill|seal|store|keep|eat|taste|start|build|light|skin|debone|bone|melt|prepare|blend|rotate|shake|"
    r"toss|mash|crush|peel|press|tie|truss|spread|coat|dust|scatter|open|close|wait)(?![\w'’-])"
)
"Other orders: a stage says no more where the next begins."
WARMS_ROOM = re.compile(
    r"(?<![\w'’-])(?:preheat|heat|set|bring|light|start|warm|lower|reduce|raise|increase|turn)(?![\w'’-])",
    re.IGNORECASE,
)
SMOKER = re.compile(r"\b(?:smoker|smokehouse|pit)\b", re.IGNORECASE)
OVEN = re.compile(r"\b(?:oven|(?:the|reduce|lower|raise) (?:heat|temperature|temp))\b", re.IGNORECASE)

PRONOUNS = frozenset(
    ("it them this these those that everything all lot whole thing both each ours mine").split()
)
ON = frozenset({"grill", "rack", "counter", "stove"})
"Places that one lies on."
WHOLE = frozenset({"everything", "all", "lot", "whole"})
RESTS = frozenset(
    {"cool place"}.union(
        "counter table porch sink stove garage shed cupboard sun shade pantry cellar snow cooler".split()
    )
)
"Places in which a thing that is put there lies. Source: words of the trade."
DETERMINERS = frozenset(
    (
        "the a an your my our its their some any every remaining rest raw fresh frozen cold hot warm cooked "
        "cured trimmed cut two three four six of large small big thick thin another more and low slow high "
        "medium covered uncovered"
    ).split()
)
MEAT_WORDS = frozenset(
    (
        "meat roast roasts bird birds fish fillet fillets carcass carcasses piece pieces steak steaks shank "
        "shanks rib ribs chop chops leg legs thigh thighs wing wings breast breasts loin loins liver livers "
        "heart hearts tongue tongues shoulder shoulders hock hocks neck necks brisket belly bellies ham hams "
        "bacon sausage sausages links patties patty burger burgers meatballs jerky strips slices cubes chunks "
        "flesh haunch quarters hindquarter saddle backstrap backstraps tenderloin tenderloins stew soup chili "
        "chile chilli broth stock pot kettle crock mixture bones pan slab slabs side sides joint joints game "
        "batch contents casserole pie loaf terrine cracklings"
    ).split()
)
"What is the dish where a recipe has meat. Source: words of the trade."
VAGUE = frozenset(
    {"pot", "kettle", "pan", "mixture", "crock", "batch", "contents", "side", "sides", "stock", "broth"}
)
"Of these, words that do not turn the talk back to the meat."
DISH_WORDS = frozenset(
    (
        "mixture pot kettle crock batch contents soup stew casserole pie loaf jam jelly sauce broth stock "
        "vegetables fruit berries greens leaves roots mushrooms slices pieces chunks chili"
    ).split()
)
"What is the dish where it has none. Source: words of the trade."
SIDE_WORDS = frozenset(
    (
        "water jars jar lids lid rings bands dough pasta noodles rice wood chips skewers casings twine "
        "leftovers leftover glaze gravy rub syrup plates oil butter lard milk pan foil salt sugar vinegar "
        "cheesecloth equipment knives knife hands crust pastry"
    ).split()
)
"Never the dish."

OVERNIGHT = re.compile(
    r"(?<![\w'’-])(?:over ?night|all night|(?:un)?till? (?:the )?(?:next )?morning|through the night)(?![\w'’-])",
    re.IGNORECASE,
)
NO_LENGTH_BEFORE = re.compile(
    r"\b(?:every|each|after|before|within|last|first|final|in|of|per|up to|past|than|another \w+ of|following|"
    r"once|no more than|for (?:the )?(?:last|first|final)|remaining|ago)(?: (?:about|the|last|first|another|or))*\s*$",
    re.IGNORECASE,
)
"`every 20 minutes`, `after 2 hours`, `within an hour`: not how long the stage takes."
STORAGE = re.compile(
    r"\b(?:up to|keeps?|for later|until needed|until wanted|no longer than|at most|leftovers?)\b",
    re.IGNORECASE,
)
NO_LENGTH_BEHIND = re.compile(
    r"\s*(?:(?:on|for|per|to|a|an|each|every|by)\s+(?:each |every |the |one |first |a )?(?:sides?|pounds?|lbs?|kg|kilos?|inch(?:es)?|"
    r"half[- ]inch)\b|(?:each|per|a|/)\s*(?:side|pound|lb|kg|inch)\b|ahead\b|ago\b|old\b|earlier\b|in advance\b)",
    re.IGNORECASE,
)
"`4 minutes a side`, `20 minutes to the pound`, `a day ahead`."

IN_DEGREES = re.compile(r" ?-? ?(?:[°º˚]|degrees?\b|deg\b\.?)", re.IGNORECASE)
READS_BEFORE = re.compile(
    r"\b(?:it|they|each|birds?|wings?|breasts?|thighs?|legs?|meat|roast|loin|middle|cent(?:er|re)|sausages?|patt(?:y|ies)|"
    r"burgers?|meatballs?|pieces?|loaf|thermometer) (?:should |must |will |has to |have to )?(?:reads?|registers?) "
    r"(?:about |at least |over )?$",
    re.IGNORECASE,
)
"`The sausages read ...`, without an until."
UNTIL_BEFORE = re.compile(
    r"\b(?:until|till?|when|once)\b(?P<what>[^.;]{0,70}?)\b(?:internal|inside|registers?|reads?|hits?|reach(?:es)?|"
    r"comes? (?:up )?to|gets? to|is|are|shows?|says?|measures?|goes to)\b[^.;]{0,40}$",
    re.IGNORECASE,
)
"`until the thermometer reads`."
INTERNAL_BEFORE = re.compile(
    r"\b(?:to|until|till?|with|has|have|at) (?:\w+ ){0,3}(?:internal|inside|core|cent(?:er|re))\b(?: temp(?:erature)?\.?)?"
    r"(?: (?:is|of|at|reaches|hits|reads|to|about|around|least|inside))*\s*$",
    re.IGNORECASE,
)
"`to an internal temperature of`."
INSIDE_BEHIND = re.compile(
    r"^[ ,(]*(?:inside|internal(?:ly)?|(?:at|in|near|by|beside|against|next to) the (?:bone|joint|middle|cent(?:er|re)|thick(?:est)?|deepest|breast|thigh|leg|core)|"
    r"in its (?:middle|cent(?:er|re)|thickest)|through(?:out)?\b|on (?:a|the|your) (?:\w+[ -]){0,2}thermometer)",
    re.IGNORECASE,
)
TO_BEFORE = re.compile(
    r"\b(?:to|until|till?) (?:about |around |at least |a full |no less than |exactly )?$", re.IGNORECASE
)
AT_BEFORE = re.compile(
    r"(?:\bat|@|\bin an?|\bover an?|\bset (?:at|to)|\bbetween|\bheld at|\bover) (?:(?:about|around|a|an|steady|low|hot|preheated|moderate|"
    r"slow|gentle|temperature|temp|of|no more than|not more than|roughly|well-heated|the) )*$",
    re.IGNORECASE,
)
NO_POINT_BEFORE = re.compile(
    r"\b(?:by|within|another|every|of about|more than|less than|above|below|under|over)\s+$", re.IGNORECASE
)
NOT_THE_PIECE = re.compile(
    r"\b(?:oil|oven|smoker|smokehouse|grill|air|water|brine|syrup|milk|jam|jelly|sugar|coals|pan|fat|lard|box|chamber|pit|fridge|"
    r"outside|surface|skin|liquid|wort|room|cellar|canner|gauge|pressure)\b",
    re.IGNORECASE,
)
BARE_AT_BEHIND = re.compile(
    r"\s*(?:$|[,.;)]|(?:for|in|until|till?|to|and|uncovered|covered|about|or)\b)", re.IGNORECASE
)

PLACE_BEFORE = r"(?<![\w'’-])(?P<before>in|into|inside|on|onto|under|out on|out in|by|to) (?:(?:the|an?|your|our|its) )?(?:(?:sink|pot|bucket|tub|bath|basin|bowl|pan|cooler) (?:full )?of )?(?:(?!{stops})[\w°'’-]+ ){{0,3}}?"
PLACE_STOPS = "in|on|into|and|or|of|from|until|for|at|to|with|not"
ROOM_TEMPERATURE = re.compile(
    r"\b(?:at|to) room temp(?:erature)?\b|\bleave (?:\w+ ){0,3}out\b|\bset (?:\w+ ){0,3}out\b|\bsit(?:ting)? out\b|\bstand(?:ing)? out\b",
    re.IGNORECASE,
)
IN_BRINE = re.compile(
    r"\b(?:in|into|under|with) (?:the|this|that|its|a|an|your) (?:\w+ ){0,2}?(?:brine|cure|pickle|curing salt)\b",
    re.IGNORECASE,
)
RUBBED_IN = re.compile(
    r"\b(?:rub|massage|coat|cover|press|pack|work)\b[^.]{0,60}\b(?:brine|cure|curing salt)\b", re.IGNORECASE
)
SUNK = re.compile(
    r"\b(?:sink|submerge|immerse)(?: in)? (?:the|this|your|it|them|each|all|both)\b"
    r"|\b(?:lay|put|place|drop|lower|slip|set|slide|cover|return)\b(?! (?:it |them )?aside)[^.;]{1,40}\b(?:in|into|under|with) it\b",
    re.IGNORECASE,
)
"Where a brine stands before it: `sink the shoulder in it`."
PART_OF = re.compile(
    r"\s+(?:(?:about )?(?:half|a half|a third|two thirds|a quarter|three quarters|some|most|part|all)(?: of)?(?= the\b)"
    r"|(?:[0-9¼-¾⅐-⅞][0-9¼-¾⅐-⅞./ ]*|an?|one|two|three|four|half an?) ?(?:quarts?|qts?\.?|gallons?|gal\.?|pints?|pts?\.?|cups?|c\.|"
    r"lit(?:er|re)s?|l|ml)\b(?: of)?(?= (?:the |cold |warm |hot |fresh )?(?:water|brine)\b))",
    re.IGNORECASE,
)
"How much of it, before its name: `half the water`, `2 quarts of water`."
_PACKED = re.compile(
    r"(?<!not )(?<!never )\b(?:pack|fill|load)(?:ed)?\b(?:[^.;]{0,30}?\b(?P<raw>raw)\b(?! or\b)"
    r"|(?: (?:it|them|(?:the )?(?:meat|cubes|strips|chunks|pieces|venison)))? (?P<how>hot|cold)(?= (?:in|into)\b|[,.;]|$)"
    r"|(?: (?:in|with))? (?:the )?(?P<food>hot) (?:meat|cubes|strips|chunks|pieces|venison)\b)",
    re.IGNORECASE,
)


def packed_how(text: str) -> list[str]:
    """`raw`, `cold` or `hot`, of the food that goes into the jars; a hot jar tells nothing."""
    return [how.lower() for found in _PACKED.finditer(text) for how in found.groups() if how]


FROZEN = re.compile(r"\bfrozen\b|\bto thaw\b", re.IGNORECASE)
VENTING = re.compile(
    r"\b(?:vent|exhaust)(?:s|ed|ing)?\b[^.;:,()]{0,40}?\b(?:[0-9]+|ten|seven) ?-?min(?:ute)?s?\b"
    r"|\b(?:[0-9]+|ten|seven)[ -]min(?:ute)?s?\b\.?(?: of)? (?:vent|exhaust)(?:ing)?\b",
    re.IGNORECASE,
)
"How long steam leaves a canner before its time begins."
HEIGHT = re.compile(r"(?<![0-9,])[0-9][0-9,]{2,}+ ?(?:ft|feet|m|metres|meters)\b", re.IGNORECASE)
"Two of them in a sentence tell a pressure for each height."
PRESSURE = re.compile(
    r"\bpressure[- ]can|\bpressure\b|\bpsi\b|\bat [0-9]+ ?(?:lb|lbs|pounds)\b", re.IGNORECASE
)
BATH = re.compile(r"\bboiling[- ]water\b|\bwater[- ]bath\b", re.IGNORECASE)
UNTIL = re.compile(r"\b(?:until|till?) (?P<words>[^.,;:()]{1,60})", re.IGNORECASE)
UNTIL_ENDS = re.compile(r" (?:and|then|or|for|at|in the)\b", re.IGNORECASE)
