"""The sentences of a method in, the stages that they tell for certain and the sentences that tell none out.

Read only where a recipe has no `course`, and in English alone. What is done, to what, how long, how hot, where: what is
not certain stays out. A denial, a story, a question, a block quote, an `if` and what is done to something beside the dish
give nothing.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import lru_cache
from typing import Any

from generator.english import is_turned_down
from generator.model.quantity import TemperatureRange
from generator.model.recipe import Body, ReadCourse, Recipe, Sentence, Stage
from generator.read import jar_words
from generator.read import method_words as words
from generator.read.grammar import Grammar
from generator.read.method_heat import Heats, find_heats
from generator.read.method_length import Length, find_lengths
from generator.read.stage_name import smoke_by
from generator.tables import Tables
from generator.tables.words import BY_HEAT, BY_PLACE, MethodVerb

FAR = 160
"Characters before a verb, or behind it, in which its subject and its object are looked for. Source: house; two lines."
CURED_MIN = Fraction(12 * 60)
"[min] So long in the fridge, behind `cover with the brine`, is the cure. Source: house choice."
IN_A_PAN, JOINS = frozenset({"brown", "fry", "cook"}), frozenset({"add", "pour"})
"Stages that begin a dish with something beside it, and orders that bring the rest. Source: words of the trade."
VESSELS = frozenset({"bag", "vacuum", "jar", "crock"})
CANNERS = frozenset({"pressure canner", "water bath"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Topic:
    """What the method speaks of."""

    has_meat: bool
    has_cure: bool
    has_brine: bool
    names: frozenset[str]
    "Words of the meat, else of every ingredient, and of the title."
    phrases: frozenset[str]
    "Ingredient names of several words: `brown sugar` is no order."

    @classmethod
    def of(cls, recipe: Recipe, tables: Tables) -> Topic:
        """By its meat and its lines."""
        lines = [line.name.lower() for line in recipe.ingredients]
        meats = [name for name in lines if any(tables.animal(word) for word in _singles(name))]
        own = [meat.name.lower() for meat in recipe.meats]
        has_meat = bool(own or meats)
        names = [*own, *meats] if has_meat else lines
        known = {word for name in names for word in _singles(name)}
        if not has_meat:
            known |= _singles(recipe.name.lower())
        return cls(
            has_meat=has_meat,
            has_cure=recipe.cure is not None,
            has_brine=recipe.cure is not None and recipe.cure.method == "brine",
            names=frozenset(known - words.SIDE_WORDS - {"and", "or", "of", "the", "with"}),
            phrases=frozenset(" ".join(name.split()[:2]) for name in lines if " " in name),
        )

    def is_food(self, object: str) -> bool | None:
        """Whether words speak of the dish; None where there are none, or only a pronoun."""
        told = _TOKEN.findall(object)
        if any(word in words.WHOLE for word in told):
            return True
        told = [word for word in told if word not in words.PRONOUNS and word not in words.DETERMINERS]
        if not told:
            return None
        known = words.MEAT_WORDS if self.has_meat else words.DISH_WORDS
        if any(word in self.names or word.removesuffix("s") in self.names for word in told):
            return told[-1] not in words.SIDE_WORDS
        return any(word in known for word in told) and told[-1] not in words.SIDE_WORDS


_TOKEN = re.compile(r"[^\W\d_]+")


def _singles(name: str) -> set[str]:
    found = set(_TOKEN.findall(name))
    return found | {word.removesuffix("s") for word in found if len(word) > 3}


@dataclass(slots=True)
class _Talk:
    """What the sentences so far have turned to."""

    is_aside: bool = False
    "Of something beside the dish: `it` is the brine."
    is_in_pan: bool = False
    "It is onions in the dish's own pan: what is added to them makes the dish."
    is_aside_section: bool = False
    is_in_cure: bool = False
    "The meat was put in its brine or rubbed with its cure, and nobody has said for how long."
    oven: TemperatureRange | None = None
    smoker: TemperatureRange | None = None
    is_cured: bool = False
    "It has lain in its cure, or was heated: what it is put in later is no brine."
    canner: str = ""
    "The pressure canner that was filled."
    pack: str = ""
    "How the jars were packed, raw or hot."


@dataclass(frozen=True, slots=True)
class _Order:
    """A verb of a stage as somebody is told to do it."""

    verb: MethodVerb
    begin: int
    "Where its clause begins: what it needs may stand before it."
    start: int
    end: int
    object: str


@dataclass(slots=True)
class _Method:
    topic: Topic
    grammar: Grammar
    talk: _Talk = field(default_factory=_Talk)

    def stages_of(self, sentence: Sentence, following: str) -> list[Stage]:
        """The stages of one sentence, in order."""
        text = _lower(sentence.text)
        if _is_no_order(text):
            return []
        back = self.topic.names | (words.MEAT_WORDS - words.VAGUE if self.topic.has_meat else frozenset())
        if not words.MAKES_ASIDE.match(text) and not back.isdisjoint(_TOKEN.findall(text)):
            self.talk.is_aside = False
        orders, cuts = self._orders(text, following)
        self._put_in(text)
        stages = [stage for order in orders for stage in self._read(order, sentence, text, cuts, orders)]
        if any(stage.name == "cure" or self.grammar.tables.stages.get(stage.name, False) for stage in stages):
            self.talk.is_in_cure, self.talk.is_cured = False, True
        self._turn(text, cuts)
        return stages

    def _put_in(self, text: str) -> None:
        """Meat that goes into its brine or under its cure; food that goes into its jars raw or hot."""
        put = words.IN_BRINE.search(text) or words.RUBBED_IN.search(text)
        sunk = self.topic.has_brine and not self.talk.is_cured and words.SUNK.search(text) is not None
        if self.topic.has_meat and (sunk or (put is not None and not words.MAKES_ASIDE.match(text))):
            self.talk.is_in_cure = True
        packs = {jar_words.PACKS[how] for how in words.packed_how(text)}
        if packs:
            self.talk.pack = packs.pop() if len(packs) == 1 else ""

    # --- orders

    def _orders(self, text: str, following: str) -> tuple[list[_Order], list[int]]:
        """Verbs of stages, and where any order begins."""
        clauses = _clauses(text)
        found: list[_Order] = []
        cuts: list[int] = []
        clause = 0
        is_aside_start = words.SIDE_START.match(text) is not None
        for match in _verbs(self.grammar.tables).finditer(text):
            while clause + 1 < len(clauses) and clauses[clause + 1][0] <= match.start():
                clause += 1
            begin, between = clauses[clause]
            verb = _by_form(self.grammar.tables).get(match.group())
            if verb is None:
                if words.ORDERED.match(text[max(begin, match.start() - FAR) : match.start()]):
                    cuts.append(begin)
                    if match.group() in JOINS and self.talk.is_in_pan:
                        self.talk.is_aside = False
                continue
            order = self._order(text, match, verb, begin, found)
            if order is None or between == "or":
                continue
            cuts.append(order.begin)
            if _turned_down(text, match, following):
                continue
            if found and found[-1].verb.stage == BY_PLACE and _goes_on(text, found[-1], order):
                before = found.pop()
                order = replace(order, begin=before.begin, object=order.object or before.object)
            if self._is_of_dish(order, aside=is_aside_start and not found):
                found.append(order)
        return found, sorted(cuts)

    def _order(
        self, text: str, match: re.Match[str], verb: MethodVerb, begin: int, found: Sequence[_Order]
    ) -> _Order | None:
        start, end = match.span()
        if start - begin > FAR or words.NO_VERB_BEHIND.match(text, end):
            return None
        if match.group() in words.ADJECTIVES and (
            words.NAMES_BEHIND.match(text, end)
            or words.IS_SO_BEFORE.search(text[max(0, start - FAR) : start])
            or self._is_name(text, start)
        ):
            return None
        subject = _subject(text[begin:start], match.group(), verb, bool(found))
        if subject is None:
            return None
        part = words.PART_OF.match(text, end)
        told = subject or _object(text[part.end() if part is not None else end : end + FAR])
        if match.group() in ("let", "allow"):
            inner = _verbs(self.grammar.tables).search(told)
            told = told[: inner.start()] if inner is not None else told
        return _Order(verb=verb, begin=begin, start=start, end=end, object=told)

    def _is_name(self, text: str, start: int) -> bool:
        return " ".join(text[start : start + 60].split()[:2]).rstrip(".,;:") in self.topic.phrases

    def _is_of_dish(self, order: _Order, *, aside: bool) -> bool:
        food = self.topic.is_food(order.object)
        if "jars" in order.verb.needs and food is not True:
            return not any(word in ("lids", "rings", "bands") for word in order.object.split())
        if food is None and aside:
            food = False
        if food is None:
            return not self.talk.is_aside
        self.talk.is_aside = not food
        self.talk.is_in_pan = not aside and order.verb.stage in IN_A_PAN
        return food

    # --- what stands beside a verb

    def _read(
        self, order: _Order, sentence: Sentence, text: str, cuts: Sequence[int], orders: Sequence[_Order]
    ) -> Iterator[Stage]:
        first = order is orders[0]
        begin = 0 if first and not any(cut < order.begin for cut in cuts) else order.begin
        later = bisect_right(cuts, order.start)
        end = cuts[later] if later < len(cuts) else len(text)
        condition = words.CONDITION.search(text, order.end, end)
        segment = text[begin : condition.start() if condition else end]
        for number, part in enumerate(_then(segment)):
            stage = self._stage(order, part, sentence, is_later=number > 0)
            if stage is not None:
                yield stage

    def _stage(self, order: _Order, segment: str, sentence: Sentence, *, is_later: bool) -> Stage | None:
        verb, tables = order.verb, self.grammar.tables
        spaced = f" {' '.join(_TOKEN.findall(segment))} "
        if any(f" {lack} " in spaced for lack in verb.lacks):
            return None
        timed = words.VENTING.sub(_blank, segment) if "jars" in verb.needs else segment
        lengths = find_lengths(timed)
        told = lengths[0] if lengths else None
        segment = segment[: _next_doing(timed, lengths)]
        heats = find_heats(segment, self.grammar, heats=self._heats(verb))
        place = _place(segment, tables)
        if verb.place:
            place = (verb.place, f"{'on' if verb.place in words.ON else 'in'} the {verb.place}")
        name = self._in_cure(self._name(verb, segment, place[0], told, heats), told)
        if name is None or (name in ("chill", "freeze") and words.STORAGE.search(segment)):
            return None
        if name == "jar" and place[0] not in CANNERS:
            canner = "pressure canner" if words.PRESSURE.search(segment) else ""
            canner = canner or ("water bath" if words.BATH.search(segment) else place[0] or self.talk.canner)
            place = (canner, f"in the {canner}" if canner else "")
        at = heats.at or self._room(name)
        if not self._is_told(verb, segment, place[0], told, replace(heats, at=at)):
            return None
        return Stage(
            name=name,
            minutes=told.minutes if told else None,
            length_written=told.written if told else "",
            at=at if name != "jar" else None,
            inside=heats.inside,
            place=place[0],
            place_written=place[1],
            until="" if heats.inside is not None or is_later else _until(segment),
            **({"pack": self.talk.pack, **_of_jar(segment, self.grammar)} if name == "jar" else {}),
            is_read=True,
            written=sentence.text,
            position=sentence.at(min(order.start, len(sentence.text) - 1)),
        )

    def _heats(self, verb: MethodVerb) -> bool:
        return verb.stage in (BY_HEAT, BY_PLACE) or self.grammar.tables.stages.get(verb.stage, False)

    def _room(self, name: str) -> TemperatureRange | None:
        """What the oven or the smoker was heated to."""
        if name in ("roast", "bake"):
            return self.talk.oven
        return self.talk.smoker if name == "hot smoke" else None

    def _name(
        self, verb: MethodVerb, segment: str, place: str, told: Length | None, heats: Heats
    ) -> str | None:
        if verb.stage == BY_PLACE:
            return self._by_place(segment, place, told, heats)
        if verb.stage == BY_HEAT:
            return self._smoke(heats)
        if (
            verb.stage in ("rest", "soak", "marinate")
            and words.IN_BRINE.search(segment)
            and self.topic.has_meat
        ):
            return "cure" if told else None
        return verb.stage

    def _in_cure(self, name: str | None, told: Length | None) -> str | None:
        """So long in the cold, behind `sink it in the brine`, is the cure."""
        is_long = told is not None and told.minutes.high >= CURED_MIN
        return "cure" if name in ("chill", "rest") and self.talk.is_in_cure and is_long else name

    def _smoke(self, heats: Heats) -> str | None:
        return smoke_by(heats.at or self.talk.smoker, heats.inside)

    def _by_place(self, segment: str, place: str, told: Length | None, heats: Heats) -> str | None:
        if words.FROZEN.search(segment) and place:
            return "thaw"
        if words.IN_BRINE.search(segment):
            return "cure" if told and self.topic.has_meat else None
        if place == "freezer":
            return "freeze"
        if place == "fridge":
            return "chill"
        if place == "oven":
            return "roast" if heats.at and (told or heats.inside) else None
        if place == "smoker":
            return self._smoke(heats)
        return "rest" if told and place in words.RESTS else None

    def _is_told(self, verb: MethodVerb, segment: str, place: str, told: Length | None, heats: Heats) -> bool:
        has = {
            "meat": self.topic.has_meat,
            "casings": "casing" in segment,
            "length": told is not None,
            "heat": told is not None or heats.at is not None or heats.inside is not None,
            "told": told is not None or heats.at is not None or heats.inside is not None or bool(place),
            "vessel": place in VESSELS,
            "canner": place in CANNERS,
            "jars": True,
            "no cure": not self.topic.has_cure,
        }
        return all(has[need] for need in verb.needs)

    # --- what the talk turns to

    def _turn(self, text: str, cuts: Sequence[int]) -> None:
        """An oven that is heated, a brine that is made: what is said next may be said of it."""
        if _PRESSURE_CANNER.search(text):
            self.talk.canner = "pressure canner"
        smoker, oven = words.SMOKER.search(text), words.OVEN.search(text)
        room = smoker or oven
        if room is not None and words.WARMS_ROOM.search(text, 0, room.end()):
            at = find_heats(text[:FAR], self.grammar, heats=False, of_room=True).at
            if at is not None and smoker is not None:
                self.talk.smoker = at
            elif at is not None:
                self.talk.oven = at
        made = words.MAKES_ASIDE.search(text)
        if made is not None and any(cut <= made.start() <= cut + 12 for cut in cuts):
            food = self.topic.is_food(_object(text[made.end() : made.end() + FAR]))
            if food is not None:
                self.talk.is_aside, self.talk.is_in_pan = not food, False


_PRESSURE_CANNER = re.compile(r"\b(?:load|fill|vent|close|lock|into|in) (?:\w+ ){0,3}?pressure canner\b")


def _blank(found: re.Match[str]) -> str:
    """As long as it was: offsets stay."""
    return " " * len(found.group())


def with_read_course(recipe: Recipe, grammar: Grammar) -> Recipe:
    """A recipe without a course with the stages that its method tells."""
    if recipe.stages or grammar.language.lower().split("-")[0] != "en":
        return recipe
    stages, read = read_method(recipe, grammar)
    return replace(recipe, stages=stages, read_course=read)


def read_method(recipe: Recipe, grammar: Grammar) -> tuple[tuple[Stage, ...], ReadCourse]:
    """The stages of a method, and the sentences that gave none."""
    reader = _Method(Topic.of(recipe, grammar.tables), grammar)
    stages: list[Stage] = []
    unread: list[Sentence] = []
    sentences = recipe.body.sentences
    headings = _heading_lines(recipe.body)
    for number, sentence in enumerate(sentences):
        if sentence.position.line in headings:
            reader.talk = _Talk(
                is_aside_section=words.ASIDE_HEADING.search(sentence.text[:FAR]) is not None,
                oven=reader.talk.oven,
                smoker=reader.talk.smoker,
            )
            continue
        if sentence.is_quoted:
            continue
        following = sentences[number + 1].text[:FAR] if number + 1 < len(sentences) else ""
        found = [] if reader.talk.is_aside_section else reader.stages_of(sentence, following)
        stages += found
        unread += [] if found else [sentence]
    whole = not any(find_lengths(_lower(one.text)) for one in unread)
    return tuple(stages), ReadCourse(unread=tuple(unread), is_whole=whole)


def _heading_lines(body: Body) -> frozenset[int]:
    lines = body.text.split("\n")
    return frozenset(
        body.first_line + number
        for number, line in enumerate(lines)
        if line.lstrip().startswith("#")
        or (number + 1 < len(lines) and _UNDERLINE.fullmatch(lines[number + 1]))
    )


_UNDERLINE = re.compile(r"(?:=+|-+)\s*")


def _lower(text: str) -> str:
    """In lower case, letter by letter: every offset stays."""
    return "".join(low if len(low := sign.lower()) == 1 else sign for sign in text.replace("’", "'"))


def _is_no_order(text: str) -> bool:
    return text.endswith("?") or bool(words.REMARK.match(text)) or words.TOLD.search(text) is not None


@lru_cache(maxsize=2)
def _by_form(tables: Tables) -> dict[str, MethodVerb]:
    verbs = dict.fromkeys(tables.method_verbs.values())
    return {form: verb for verb in verbs for form in (*verb.forms, *verb.done, *verb.going)}


@lru_cache(maxsize=2)
def _verbs(tables: Tables) -> re.Pattern[str]:
    forms = "|".join(re.escape(form) for form in sorted(_by_form(tables), key=len, reverse=True))
    return re.compile(rf"(?<![\w'’-])(?:{forms})(?![\w-])|{words.OTHERS}")


def _clauses(text: str) -> list[tuple[int, str]]:
    """Where each clause begins, and the word before it."""
    return [(0, ""), *((found.end(), found.group().strip()) for found in words.BREAK.finditer(text))]


def _subject(prefix: str, form: str, verb: MethodVerb, follows: bool) -> str | None:
    """The object that stands before a verb, empty where none does; None where nobody is told to do it."""
    if form in verb.forms:
        if words.ORDERED.match(prefix):
            # `we put`, `I set` may be of the past
            is_past = verb.stage == BY_PLACE and prefix.split()[-1:] in (["i"], ["we"])
            modal = form == "can" and prefix.split()[-1:] in (["i"], ["we"], ["you"])
            return None if is_past or modal else ""
        let = words.LET.match(prefix)
        if let is not None and (let["to"] or words.BARE_LET.match(prefix)):
            is_noun = let["object"].split()[-1:] in _BEFORE_A_NOUN and not let["to"]
            return None if is_noun or words.SUBORDINATE.search(let["object"]) else _object(let["object"])
        if words.BEHIND_TO.match(prefix) and follows:
            return ""
        must = words.MUST.match(prefix)
        if must is not None and not must["be"]:
            return None if words.SUBORDINATE.search(must["object"]) else _object(must["object"])
        return "" if words.PLACED_FIRST.match(prefix) or words.KEEP.match(prefix) else None
    if form in verb.going:
        return "" if words.KEEP.match(prefix) else None
    must = words.MUST.match(prefix)
    done = must if must is not None and must["be"] else words.IS.match(prefix)
    if done is None or words.SUBORDINATE.search(done["object"]):
        return None
    if done["object"].split()[:1] not in _CERTAIN_SUBJECTS:
        return None
    return done["object"]


_CERTAIN_SUBJECTS = [
    [word] for word in ("the", "it", "they", "this", "these", "your", "our", "all", "everything", "each")
]
"`A wild deer is cooked to 165 °F` is said of any deer, `the deer is` of this one."
_BEFORE_A_NOUN = [
    [word]
    for word in (
        *("the", "a", "an", "your", "our", "this", "that", "of", "each"),
        *("warm", "cool", "cold", "dark", "dry", "airy"),  # `let it rise in a warm place`
    )
]


def _object(text: str) -> str:
    """The words behind a verb that say to what it is done."""
    end = _OBJECT_ENDS.search(text)
    return " ".join((text[: end.start()] if end else text).split())


_OBJECT_ENDS = re.compile(
    r"[,.;:(!?0-9¼-¾]|(?<![\w'’-])(?:in|on|at|for|over|under|until|till?|to|with|into|onto|from|about|"
    r"overnight|or|then|by|as|while|again|well|uncovered|covered|slowly|gently|half|an hour|a day|a week|two|three|four|"
    r"five|six|seven|eight|nine|ten|eleven|twelve|fifteen|twenty|thirty|forty|fifty|sixty|ninety|out|without|"
    r"just|down|up|off|through|before|after|and (?=let|leave|set|put|keep|"
    r"roast|simmer|boil|smoke|cook|rest|cool|chill|dry|turn|add|cover|serve))(?![\w'’-])"
)


def _turned_down(text: str, match: re.Match[str], following: str) -> bool:
    begin = max(0, match.start() - 2 * FAR)
    near = text[begin : match.end() + 2 * FAR]
    return is_turned_down(near, match.start() - begin, match.end() - begin, following=following)


def _goes_on(text: str, before: _Order, order: _Order) -> bool:
    """`Put it in the fridge to thaw`: the second verb says what for."""
    return order.begin == before.begin or text[order.begin : order.start].strip() == "to"


def _then(segment: str) -> list[str]:
    """`... 30 min at 450 °F, then 2 hours at 300 °F` is twice the same verb."""
    kept: list[list[str]] = []
    is_timed = False
    for part in _THEN.split(segment):
        has_length = bool(find_lengths(part))
        if not kept or (has_length and is_timed):
            kept.append([part])
            is_timed = has_length
        else:
            kept[-1].append(part)
            is_timed = is_timed or has_length
    return [" then ".join(parts) for parts in kept]


def _next_doing(segment: str, lengths: Sequence[Length]) -> int:
    """Where, behind a length, another thing is done for a length of its own: `ferment 2 h, bench 50 min at 85 °F`."""
    for length in lengths[1:]:
        doing = _DOING.search(segment, max(lengths[0].at, length.at - FAR), length.at)
        if doing is not None and doing["word"] not in _NO_DOING:
            return doing.start()
    return len(segment)


_DOING = re.compile(
    r"(?:[,;:]|\.(?=\s)|\sand\s)\s{0,2}(?:and\s|then\s)?(?P<word>[a-z-]{3,20})"
    r"(?:\s(?:it|them|for|about|another|the\s[a-z]{2,12})){0,3}\s$"
)
_NO_DOING = frozenset(
    {"for", "about", "another", "plus", "roughly", "perhaps", "some", "over", "around", "maybe"}
)
"Words before a length that say no act."
_THEN = re.compile(r",? (?:and )?then ")


@lru_cache(maxsize=2)
def _places(tables: Tables) -> re.Pattern[str]:
    names = "|".join(re.escape(name) for name in sorted(tables.place_names, key=len, reverse=True))
    before = words.PLACE_BEFORE.format(stops=words.PLACE_STOPS)
    return re.compile(rf"{before}(?P<place>{names})(?![\w'’-])")


def _place(segment: str, tables: Tables) -> tuple[str, str]:
    """The place of a stage and its words; nothing where two are told."""
    found: dict[str, str] = {}
    for match in _places(tables).finditer(segment):
        word = tables.place(match["place"])
        begin = max(0, match.start() - FAR)
        near = segment[begin : match.end() + 40]
        if word is None or is_turned_down(near, match.start() - begin, match.end() - begin):
            continue
        preposition = "on" if match["before"].endswith(("on", "onto")) else "in"
        found.setdefault(word, f"{preposition} the {match['place']}")
    warm = words.ROOM_TEMPERATURE.search(segment)
    if not found and warm is not None:
        return "counter", "at room temperature" if "room" in warm.group() else "on the counter"
    vessels = [word for word in found if word in VESSELS | {"pot", "pan", "rack"}]
    rooms = [word for word in found if word not in vessels]
    if len(rooms) == 1:
        return rooms[0], found[rooms[0]]
    if not rooms and len(vessels) == 1:
        return vessels[0], found[vessels[0]]
    return "", ""


def _of_jar(segment: str, grammar: Grammar) -> dict[str, Any]:
    """What only a jar has: its size, pack, pounds and gauge, each the first that is told."""
    starts = [found.start() for found in _WORD_START.finditer(segment)]
    found = {
        part: next((one[0] for at in starts if (one := read(segment, at, grammar))), None)
        for part, (_, read) in jar_words.PARTS.items()
    }
    if len(words.HEIGHT.findall(segment)) > 1:
        found["pounds"] = _highest_pounds(found["pounds"], found["gauge"], segment, grammar)
    return {key: value for key, value in found.items() if value is not None}


def _highest_pounds(
    first: Fraction | None, gauge: str | None, segment: str, grammar: Grammar
) -> Fraction | None:
    """Of a schedule by heights the last; the first where it is already too little at the sea."""
    least = min(row.pounds for row in grammar.tables.garden.pressures if gauge in (None, row.canner))
    if first is None or first < least:
        return first
    starts = (found.start() for found in _WORD_START.finditer(segment))
    return max(one[0] for at in starts if (one := jar_words.read_pounds(segment, at, grammar)))


_WORD_START = re.compile(r"(?<![\w.,/-])\w")


def _until(segment: str) -> str:
    found = words.UNTIL.search(segment)
    if (
        found is None
        or any(sign.isdigit() for sign in found["words"])
        or words.OVERNIGHT.match(found.group())
    ):
        return ""
    end = words.UNTIL_ENDS.search(found["words"])
    return (found["words"][: end.start()] if end else found["words"]).strip()
