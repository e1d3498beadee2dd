"""The words and signs by which the parts of an old card are known: orders, people, dates, amounts made, columns, labels.

Every repetition has a bound: no line of a card that says one of these things is longer, and a longer one is prose.
"""

from __future__ import annotations

import re

from generator.read.number import NUMBER_WORDS

LONG = 90
"Characters; no line that names one thing to fetch is longer. Source: house."
MANY_WORDS = 6
"Source: house; a name and a date have no more."

_ORDERS = """
add after arrange bake baste beat blanch blend boil bone bottle bring brown chill chop clean combine cook cool cover crush
cut dice dip dissolve do drain dredge drop dump fill fold form freeze fry grate grease grind hang heat inject keep keeps
knead lay let line make marinate mash melt mix parboil pat peel pick place plunge pour preheat process punch put reheat
remove repeat rinse roll rub saute sauté scald scrape seal sear serve set shake shape sift simmer skim skin slice soak
soften spread sprinkle steam steep sterilize stir store strain stuff take then thicken toast top toss turn use warm wash
wear weigh when while whip wipe work wrap
"""
ORDERS = frozenset(_ORDERS.split())
"Words with which a sentence of a method begins, and no name of a thing to fetch. Source: words of the trade."
LIKE_THINGS = frozenset(
    ("brine", "can", "cure", "dry", "fish", "pack", "press", "rest", "roast", "salt", "season", "smoke")
)
"The same where many words follow: `salt pork` is a thing."
CREAM = re.compile(
    r"cream (?:the|in|together|butter|sugar|shortening|lard|oleo|marg|fat|well)", re.IGNORECASE
)
"`Cream the butter` is done, `cream, if you have it` is fetched."

LEADER = re.compile(r"(?:[ ]?[.…_]){3,80}[ ]{0,80}|(?:[ ]-){2,40}[ ]{1,80}|-{3,80}[ ]{0,80}")
"Dots or a rule from a name to its amount."
WIDE = re.compile(r"\t{1,40}|[ ]{3,120}")
"Between two columns."
DASH = re.compile(r"\s{1,9}[-–—]\s{1,9}")
"Between two things in one line."
IN_A_ROW = re.compile(
    rf"(?:[,;] (?:and )?| and | & )(?=(?:about |abt\.? )?(?:[\d½¼¾⅓⅔⅛]|(?:{'|'.join(NUMBER_WORDS)}|half|an?)\b))",
    re.IGNORECASE,
)
"Between two things that are named one behind the other, each with its amount."
STATE = re.compile(r"(?:[a-z]{2,20}(?:ed|en|ut)|for|of|in|if|to|or|more|extra|left|apiece|each)(?: .{0,40})?")
"`2 sliced`, `1 beaten`: no thing but what becomes of the one before."
FEW_WORDS = re.compile(r"[^\s\d.:]{1,20}(?: [^\s\d.:]{1,20}){0,3}")
"`Wild plums`: a name alone."
BULLET = re.compile(r"(?:[-*•·▪]|\[[ xX]?\])\s{1,20}")
STEP = re.compile(r"\d{1,2}[.)]\s{1,20}(?=\D)")
NUMBERED = re.compile(r"\d{1,2}[.)]\s{1,20}(?=[\d½¼¾⅓⅔⅛])")
"A thing that is numbered as a step is."
HEAT = re.compile(
    r"[1-5]\d\d\s{0,3}(?:°|º|deg|[FC]\b|for\b|oven|[-–] ?(?:\d{1,2}[-–])?\d{1,2} ?(?:min|hr|hour))",
    re.IGNORECASE,
)
"`375 - 30 min`: a heat, not so many of something."
TIME = re.compile(r"[\d½¼¾ /–-]{1,20}(?:to \d{1,3} )? ?(?:min|hr|hour|day|week|wk)", re.IGNORECASE)
BREAK = re.compile(r"[^\W\d]{3}[.;] {1,3}[A-Z]")
"A sentence ends and another begins."
ARTICLE = re.compile(r"an?\b", re.IGNORECASE)
"`A cup of milk` is a thing, `A good cake` is not."
SHORTENED = frozenset(
    ("cinn.", "choc.", "marg.", "evap.", "cond.", "gran.", "chop.", "pwdr.", "powd.", "tbls.", "tbsp.")
)
"Words of four letters whose point belongs to them."
WORD_AND_POINT = re.compile(r"[^\W\d_]{4,40}\.")
RULE = re.compile(r"[-=_*~. ]{1,200}")
HEADING = re.compile(r"(?P<title>[^\d:][^:]{1,40}):")
BARE_HEADING = re.compile(
    r"(?P<title>(?:for (?:the )?)?(?:[a-z]{3,12} )?(?:filling|crust|pastry|dough|batter|cake|sauce|gravy|syrup|frosting"
    r"|icing|topping|glaze|dressing|stuffing|marinade|brine|rub|dumplings))",
    re.IGNORECASE,
)
"A title of a group without its colon."
LABELS = re.compile(
    r"(?:(?:ingredients|directions|method|instructions|recipe|procedure|weights?|measures?|amounts?|quantity)\b\s{0,40}:?"
    r"\s{0,40}){1,5}",
    re.IGNORECASE,
)
ORDERED_HEADS = re.compile(r"(?:directions|method|instructions|procedure)\s{0,3}:?", re.IGNORECASE)

_NUMBER = rf"(?:\d|(?:{'|'.join(NUMBER_WORDS)}|half|a dozen)\b)"
_HOW = rf"\s{{0,9}}:?\s{{0,9}}(?P<how>(?:(?:about|abt\.?|approx\.?) )?{_NUMBER}.{{0,60}}?)[.]?"
ABOUT = re.compile(r"(?:abt\.?|approx\.?) ", re.IGNORECASE)
SPACED_RANGE = re.compile(r"(?<=\d) ?[-–] ?(?=\d)")
SERVES = re.compile(rf"(?:it )?(?:serves|feeds|servings|portions)\b{_HOW}", re.IGNORECASE)
PORTIONS = re.compile(
    r"(?:(?:makes|yields?)\s{0,9}:?\s{0,9})?(?P<how>\d.{0,20}?)\s{0,9}(?:servings|portions|people)[.]?",
    re.IGNORECASE,
)
MAKES = re.compile(rf"(?:it )?(?:makes?|yields?)\b{_HOW}", re.IGNORECASE)
YIELD = re.compile(
    rf"(?:^|(?<=[.!)] ))(?P<yield>(?:It )?(?:Serves|Feeds|Makes|Yields?)\b:? (?:about |abt\.? )?{_NUMBER}.{{0,60}}?)"
    r"(?:[.!]?$|[.!] (?=[A-Z]))",
    re.IGNORECASE,
)
"A sentence of the method that says how much it makes."
COUNTED = re.compile(rf"(?:{_NUMBER}|an?\b|few\b|[½¼¾⅓⅔⅛])", re.IGNORECASE)

KITCHEN = re.compile(
    r"(?:(?:recipe )?from (?:the )?kitchen of\s{0,9}:?|from\s{0,9}:)\s{0,9}(?P<who>.{0,80})", re.IGNORECASE
)
TITLE_LABEL = re.compile(
    r"(?:recipe(?: for)?|title|name|dish|here['’]s what['’]s cook[a-z]{0,3}['’]?)\s{0,9}:\s{0,20}",
    re.IGNORECASE,
)
"Words that are printed on a card before its title."
NAMED = re.compile(r"[^\d:]{2,60}: ")
"A title before a recipe that runs on behind it."
IN_BRACKETS = re.compile(r"(?P<name>[^()]{0,80}?) {0,9}\((?P<who>[^()]{1,60})\)")
SOMEBODY = re.compile(
    r"\b(?:aunt|auntie|uncle|grand[a-z]{1,12}|gran|granny|nana|mother|mom|mama|dad|father|papa|cousin|sister|mrs|mr|miss"
    r"|dr)\b|['’]s\b|['’]\d\d\b|\b1[789]\d\d\b|\b20\d\d\b",
    re.IGNORECASE,
)
DATE = re.compile(
    r"(?:[A-Za-z]{3,9}\.? )?(?:\d{1,2},? )?(?:1[789]|20)\d\d|\d{1,2}[/-]\d{1,2}[/-](?:\d\d){1,2}"
)
NAMES_SOMEBODY = re.compile(r"(?:from |[-–—~]{1,3} ?)(?P<who>[A-Z].{0,60})")
EACH = re.compile(
    r"(?P<amount>[^,]{1,30}?) each:? (?:of )?(?P<names>[^\d,()]{1,60}(?:, [^\d,()]{1,40}){0,8})",
    re.IGNORECASE,
)
AND = re.compile(r",? and |,? & |, ")
