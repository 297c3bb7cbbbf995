"""Finds what a line says - sizes, threads, labels, counts, classes, materials - without deciding which part it is.

One pass over the tokens fills ``Facts``. Family names, nouns and catalogue codes are not known here; their places in
the text are blanked out by the caller with ``BLANK`` so that they are not read as sizes.
"""

from decimal import Decimal
from fractions import Fraction

from reference import threads
from reference.families.facts import ClassMention, Element, Facts, Number, StandardMention, ThreadMention
from reference.quantities import Rating, ThreadSize
from reference.words import (
    BEFORE,
    BEHIND,
    COUNT_WORDS,
    FINISHES,
    FRACTION_DENOMINATORS,
    GRADES,
    HARDENED,
    HARDNESS_CLASSES,
    INCH_UNITS,
    LABELS,
    LENGTH_UNITS,
    MATERIALS,
    MM_PER_INCH,
    NUT_CLASSES,
    PACK_WORDS,
    PIECE_WORDS,
    PROFILES,
    PROPERTY_CLASSES,
    RATING_UNITS,
    RUBBERS,
    SHORE,
    SIGNED_LABELS,
)
from service.reading.text import Token, tokens

BLANK = "\ue000"
"""Stands where a standard or a catalogue code was taken out of the text; it breaks a chain of sizes."""

_CLASS_LETTERS = frozenset(
    [
        "a",
        "b",
        "c",
        "cd",
        "d",
        "e",
        "ef",
        "f",
        "fg",
        "g",
        "h",
        "js",
        "j",
        "k",
        "m",
        "n",
        "p",
        "r",
        "s",
        "t",
        "u",
        "x",
        "z",
    ]
)
_AROUND = 12
"""How far a rule may look beyond either end of the line."""

_BEYOND = ("",) * _AROUND

_CURRENCY = frozenset({"$", "€", "£", "eur", "usd", "gbp", "chf", "euro", "euros", "dollar", "dollars"})
_LINKS = frozenset({"x", "*", "by"})
_APPROXIMATE = frozenset(
    {"about", "ca", "approx", "circa", "environ", "qty", "x", "lot", "pack", "set", "of", "de", "each"}
)
_ARTICLES = frozenset({"of", "de", "von", "da", "di", "a", "zu"})
_GRIP_WORDS = frozenset({"max", "min"})
_NAMES_A_PART = frozenset(
    {"forming", "rolling", "cutting", "repair", "insert", "inserts", "locking", "rod", "rods", "screw", "screws"}
    | {"bolt", "bolts", "nut", "nuts", "bearing", "bearings"}
)
"""Words that make a noun of a label before them: ``20 shoulder screw`` labels no shoulder 20."""
_CLASS_WORDS = frozenset({"class", "klasse", "classe", "clase", "cl", "kl", "fkl", "festigkeitsklasse"})
_DRIVES = frozenset({"tx", "torx", "ph", "pz", "isr", "t"})
_SCREW_WORDS = frozenset(
    {"screw", "screws", "bolt", "bolts", "torx", "schraube", "schrauben", "tornillo", "tornillos", "vite", "viti"}
)
"""Words beside which T20 is the size of a drive, no count of teeth and no thread."""
_PIPE_LETTERS = frozenset({"g", "r", "rc", "rp", "npt", "bsp", "bspp", "bspt", "nptf", "bsw", "pt", "pf"})
_PIPE_NAMES = {"BSP": "G", "BSPP": "G", "BSPT": "R", "RC": "Rc", "RP": "Rp", "NPTF": "NPT", "PT": "R", "PF": "G"}
_TAPPING = frozenset({"st"})
_TPI_SERIES = frozenset({"unc", "unf", "un", "unef", "uns"})
_LEFT_HAND = frozenset({"lh", "left", "links", "gauche", "sinistro", "izquierda"})
_RIGHT_HAND = frozenset({"rechts", "rh"})

# What a rule starts from, for a first look that costs one test: what is in none of these says nothing here.
_TELLING = frozenset({"x", "m", "st"}).union(
    *(_LINKS, _CLASS_WORDS, _DRIVES, _PIPE_LETTERS, COUNT_WORDS, PACK_WORDS, LABELS, SIGNED_LABELS),
    *(MATERIALS, FINISHES, HARDENED, _LEFT_HAND, _RIGHT_HAND, _CLASS_LETTERS),
)
"""Words that some rule knows where no number is glued to them."""

_COUNTING = PIECE_WORDS | _LINKS | {")", "er", "-"}
"""What can stand behind a number that counts pieces."""

_AREA_WORDS = frozenset({"mm", "qmm", "sqmm"})
_UNIT_WORDS = _AREA_WORDS.union(LENGTH_UNITS, RATING_UNITS)


def _fraction(items: list[Token], i: int) -> tuple[Fraction, int] | None:
    """Return the inch fraction that starts at token i (``3/16``, ``1 1/4``, ``1-1/4``) and the token after it."""

    def simple(k: int) -> tuple[Fraction, int] | None:
        if k + 2 >= len(items):
            return None
        top, slash, bottom = items[k], items[k + 1], items[k + 2]
        if top.kind != "n" or bottom.kind != "n" or slash.text != "/" or slash.space or bottom.space:
            return None
        if not (top.text.isdigit() and bottom.text.isdigit()):
            return None
        numerator, denominator = int(top.text), int(bottom.text)
        if denominator not in FRACTION_DENOMINATORS or not 0 < numerator < denominator or numerator % 2 == 0:
            return None
        if k + 3 < len(items) and items[k + 3].text == "/" and not items[k + 3].space:
            return None
        if k and items[k - 1].text == "/" and not top.space:
            return None
        return Fraction(numerator, denominator), k + 3

    whole = items[i]
    if whole.text.isdigit() and i + 1 < len(items):
        step = i + 1
        if items[step].text == "-" and not items[step].space and step + 1 < len(items) and not items[step + 1].space:
            step += 1
        elif not items[step].space:
            step = -1
        if step > 0 and (part := simple(step)) and int(whole.text) < 100:
            return int(whole.text) + part[0], part[1]
    return simple(i)


class _Scanner:
    """One pass over a line; ``run`` returns the facts."""

    def __init__(
        self, text: str, line: str, words: frozenset[str], standards: tuple[StandardMention, ...], amperes: bool = False
    ) -> None:
        self.items = tokens(text)
        # The words of the tokens; blanks at the end answer for the places before the first and after the last.
        self.low = [*[item.low for item in self.items], *_BEYOND]
        self.facts = Facts(line, words, standards)
        self.amperes = amperes
        self.inches = False  # whether an inch mark, a fraction or a unified thread was met
        self.decimals = "," in text or "." in text
        self.slashes = "/" in text
        self.chain: list[Element] = []
        self.linked = False
        self.links: list[tuple[bool, bool]] = []

    # -- chains -------------------------------------------------------------------------------------------------

    def close(self) -> None:
        if self.chain:
            self.facts.chains.append(self.chain)
            self.chain = []
        self.linked = False
        self.links = []

    def add(self, element: Element) -> None:
        if isinstance(element, ThreadMention) and element.thread.system == "unified":
            self.inches = True
        if not self.linked:
            self.close()
        self.chain.append(element)
        self.linked = False

    def at(self, i: int) -> Token | None:
        return self.items[i] if 0 <= i < len(self.items) else None

    def glued(self, i: int) -> bool:
        """Tell whether token i stands directly behind the one before it."""
        return 0 <= i < len(self.items) and not self.items[i].space

    def is_number(self, i: int) -> bool:
        return 0 <= i < len(self.items) and self.items[i].kind == "n"

    # -- numbers ------------------------------------------------------------------------------------------------

    def number(self, i: int) -> tuple[Number, int]:
        """Read the number at token i with its unit; returns it and the token after."""
        items = self.items
        start = i
        part = _fraction(items, i) if self.slashes else None
        inch = False
        if part:
            value = Decimal(part[0].numerator) / Decimal(part[0].denominator)
            i = part[1]
            inch = True
        else:
            value = items[i].value or Decimal(0)
            i += 1
        unit = "in" if inch else ""
        mm = value * MM_PER_INCH if inch else value
        word = self.low[i]
        if word in _UNIT_WORDS:
            area = self._area(i) if word in _AREA_WORDS else None
            if area:
                unit = "mm2"
                i = area
            elif word in LENGTH_UNITS and self._is_length_unit(i, start):
                factor = LENGTH_UNITS[word]
                unit = "in" if word in INCH_UNITS else "mm"
                mm = value * factor
                i += 1
            elif word in RATING_UNITS and self._is_rating_unit(i):
                unit = word
                i += 1
            elif word == "°" and self.low[i + 1] == "c":
                unit = "degc"
                i += 2
        if unit == "in":
            self.inches = True
        text = self.quote(start, i)
        return Number(mm, text, unit, written=value), i

    def _area(self, i: int) -> int | None:
        """Read ``mm2``, ``mm^2``, ``qmm`` at token i; returns the token after."""
        if self.low[i] in {"qmm", "sqmm"}:
            return i + 1
        step = i + 2 if self.low[i + 1] == "^" else i + 1
        return step + 1 if self.low[i] == "mm" and self.low[step] == "2" and self.glued(step) else None

    def _is_length_unit(self, i: int, start: int) -> bool:
        word, token = self.low[i], self.items[i]
        if word == "m":
            if self.is_number(i + 1) and self.glued(i + 1):
                return False  # 5m6: a tolerance class or a thread, no metres
            line = self.facts.line
            capitals = not token.space and (line.isupper() or ("MM" in line and "mm" not in line))  # BELT 6MM 2M
            return token.text == "m" or capitals or (token.space and self.low[i - 1] != "x") or start == 0
        if word == "in":
            following = self.at(i + 1)
            return following is None or following.kind != "w" or following.low not in MATERIALS
        return True

    def _is_rating_unit(self, i: int) -> bool:
        word, token = self.low[i], self.items[i]
        if word == "a":
            if self.is_number(i + 1) and self.glued(i + 1) and self.low[i + 2] not in {"v", "vac", "vdc", "w"}:
                return False
            return not token.space or (self.amperes and token.text == "A")
        if word == "deg" and self.low[i + 1] == "c":
            return False
        # bore 5 W6: the letter belongs to the number that follows
        return not (len(word) == 1 and token.space and self.is_number(i + 1) and self.glued(i + 1))

    def quote(self, start: int, end: int) -> str:
        """Return the words of the line from token ``start`` up to ``end``."""
        if end - start == 1:
            return self.items[start].text
        pieces: list[str] = []
        for k in range(start, end):
            token = self.items[k]
            if pieces and token.space:
                pieces.append(" ")
            pieces.append(token.text)
        return "".join(pieces)

    # -- counts -------------------------------------------------------------------------------------------------

    def count_before(self, i: int) -> int | None:
        """Read ``10 pcs``, ``4 off``, ``2x LM8UU``, ``(50)`` at number i; returns the token after, or None."""
        token = self.items[i]
        if not token.text.replace(",", "").isdigit():
            return None
        value = int(token.text.replace(",", ""))
        if token.text.count(",") and len(token.text.split(",")[-1]) != 3:
            return None
        follower = self.low[i + 1]
        if follower in PIECE_WORDS and value > 0:
            after = i + 2
            if self.low[after] == ".":
                after += 1
            self.count(value)
            return after
        if self.low[i - 1] == "(" and follower == ")" and token.text.isdigit() and value > 0:
            if token.text in PROFILES:
                return None
            self.count(value)
            return i + 1
        if self.low[i - 1] in {"about", "ca", "approx"} and self.low[i - 2] == "(" and follower == ")":
            self.count(value)
            return i + 1
        if (follower == "er" or follower == "-") and self.low[i + 2] in PACK_WORDS:
            self.facts.pack = value
            return i + 3
        if follower in {"x", "*"} and not self.linked and token.text.isdigit() and 0 < value <= 5000:
            then = self.at(i + 2)
            if then is None:
                return None
            opens = i == 0 or self.low[i - 1] in {",", "(", ";", ":"}
            if then.text == BLANK and opens:
                self.count(value)
                return i + 2
            noun = then.low not in LABELS or (len(then.low) > 2 and self.low[i + 3] in _NAMES_A_PART)
            if then.kind == "w" and noun and then.low != "x":
                # 2x LM8UU, 4 x M3 nuts; but 8xD5 and 10 x M6 after other sizes are sizes
                if then.low == "m" and not opens:
                    return None
                if opens or (self.glued(i + 1) and then.space):
                    self.count(value)
                    return i + 2
            if then.kind in "ns" and opens and self.glued(i + 1) and then.space and self._size_follows(i + 2):
                self.count(value)
                return i + 2
        return None

    def _size_follows(self, i: int) -> bool:
        """Tell whether a whole size follows, so that ``4x 4mm`` before it counts pieces."""
        return self.is_number(i) or self.low[i] in {"ø", "#"}

    def count(self, value: int) -> None:
        if self.facts.quantity is None:
            self.facts.quantity = value
        elif self.facts.quantity != value:
            self.facts.pack = value

    def times(self, i: int) -> int | None:
        """Read `` x10`` behind a finished size, a word or a sign as a count; returns the token after, or None."""
        token = self.items[i]
        if not self.is_number(i + 1) or not self.items[i + 1].text.isdigit():
            return None
        after = self.at(i + 2)
        if after is not None and not (after.text in {",", ";", ")", BLANK, "."} or (after.kind == "w" and after.space)):
            return None
        if (
            after is not None
            and after.kind == "w"
            and (after.low in LENGTH_UNITS or after.low in LABELS or after.low in _LINKS)
        ):
            return None
        value = int(self.items[i + 1].text)
        if value == 0:
            return None
        if self.chain and self._open_chain(i):
            if not token.space or self.items[i + 1].space:
                return None
            sizes = len(self.chain) + len(self.facts.chains)
            last = self.chain[-1]
            # L=300 x4: no size follows a length, a belt's width or teeth
            length = isinstance(last, Number) and last.label in {"length", "width", "belt", "teeth"}
            if isinstance(last, Number) and (last.unit or last.label):
                # 2020 profile 300mm x4, ID 10 mm OD 16 mm x4: a designation and a label are sizes too
                sizes += len(self.facts.labelled) + any(item.text == BLANK for item in self.items[:i])
            if (not self.links and sizes < 2 and not length) or (True, False) in self.links:
                return None  # one size alone, or 8 x22 x7 in one style throughout
        self.count(value)
        return i + 2

    def _open_chain(self, i: int) -> bool:
        """Tell whether the chain ends directly before token i, so that a link could go on with it."""
        return self.chain_end == i

    # -- the pass -----------------------------------------------------------------------------------------------

    def run(self) -> Facts:
        i = 0
        items = self.items
        self.chain_end = -1
        while i < len(items):
            token = items[i]
            if token.kind == "n":
                i = self.on_number(i)
            elif token.kind == "w":
                i = self.on_word(i)
            else:
                i = self.on_sign(i)
        self.close()
        self._template()
        self._two_diameters()
        self._inches()
        return self.facts

    def on_sign(self, i: int) -> int:
        text = self.items[i].text
        if text in {"/", "*"} and self.chain and self.chain_end == i and self._element_follows(i + 1):
            self.linked = True
            self.links.append((self.items[i].space, self.items[i + 1].space))
            return i + 1
        if text == "+" and self.chain and self.chain_end == i and self.is_number(i + 1):
            number, after = self.number(i + 1)
            self.facts.labelled.append(Number(number.value, number.text, number.unit, "stud", written=number.written))
            return self._after_element(after)
        joined = text == "-" and self.chain_end == i and self.glued(i) and self.glued(i + 1)
        if joined and self.chain and self._element_follows(i + 1):
            if isinstance(self.chain[-1], ThreadMention):
                self.linked = True  # M3-10
                self.links.append((False, False))
                return i + 1
            last = self.chain[-1]
            if self.low[i + 1] in PROPERTY_CLASSES:
                self.close()
                self.attribute("property_class", self.low[i + 1], self.low[i + 1])
                return i + 2
            if isinstance(last, Number) and self.is_number(i + 1):
                number, after = self.number(i + 1)
                if number.unit in RATING_UNITS and not last.unit:
                    name, unit, factor = RATING_UNITS[number.unit]
                    rating = Rating(last.plain * factor, unit, number.plain * factor)
                    self.facts.ratings.append((name, rating, f"{last.text}-{number.text}"))
                    self.chain.pop()
                    return after
                self.chain[-1] = Number(
                    last.value if last.unit else last.plain * (number.value / number.plain if number.plain else 1),
                    f"{last.text}-{number.text}",
                    number.unit or last.unit,
                    last.label,
                    number.value,
                    last.plain,
                )
                return self._after_element(after)
        if text == "#" and self.is_number(i + 1):
            return self.on_number_sign(i)
        if text == "(" or text == ")" or text in {",", ";"}:
            self.close()
            self.chain_end = -1
        return i + 1

    def on_number_sign(self, i: int) -> int:
        unified = self.unified(i + 1)
        if unified:
            mention, after = unified
            self.add(ThreadMention(mention.thread, "#" + mention.text, True))
            return self._after_element(after)
        self.facts.attributes["number size"] = self.items[i + 1].text
        self.close()
        return i + 3 if self.low[i + 2] in _LINKS and self.is_number(i + 3) else i + 2

    def _element_follows(self, i: int) -> bool:
        if self.is_number(i):
            return True
        word = self.low[i]
        if word in LABELS or word in {"m", "st", "tr"}:
            step = i + 2 if self.low[i + 1] in {"=", ":", "."} else i + 1
            return self.is_number(step)
        return word == "."

    def _after_element(self, i: int) -> int:
        """Behind a chain element: note where the chain ends, and read a link that goes on with it."""
        self.chain_end = i
        word = self.low[i]
        if word in _LINKS and self._element_follows(i + 1):
            counted = self.times(i)
            if counted is not None:
                self.close()
                return counted
            self.linked = True
            self.links.append((self.items[i].space, self.items[i + 1].space))
            return i + 1
        return i

    def unified(self, i: int) -> tuple[ThreadMention, int] | None:
        """Read ``10-32``, ``1/4-20``, ``1/4-20 UNC`` at token i."""
        part = _fraction(self.items, i)
        after = part[1] if part else i + 1
        if (
            self.low[after] != "-"
            or not self.glued(after)
            or not self.is_number(after + 1)
            or not self.glued(after + 1)
        ):
            return None
        if not part and not self.items[i].text.isdigit():
            return None
        name = self.quote(i, after + 2)
        thread = threads.unified(name)
        if thread is None and part and self.low[after + 2] in {"npt", "nptf"}:
            thread = threads.pipe(f"NPT {self.quote(i, part[1])}")
            after += 1
        if thread is None:
            return None
        after += 2
        if self.low[after] in _TPI_SERIES:
            after += 1
        return ThreadMention(thread, self.quote(i, after), True), after

    def on_number(self, i: int) -> int:
        low = self.low
        counted = self.count_before(i) if low[i + 1] in _COUNTING else None
        if counted is not None:
            self.close()
            return counted
        unified = self.unified(i) if self.slashes or low[i + 1] == "-" else None
        if unified:
            self.add(unified[0])
            self.facts.inches = True
            return self._after_element(unified[1])
        number, after = self.number(i)
        follower = low[after]
        priced = follower in _CURRENCY and not (self.is_number(after + 1) and self.glued(after + 1))
        if priced or low[i - 1] in _CURRENCY:
            self.close()
            return after + (1 if priced else 0)
        if follower == "%":
            return after + 1
        if number.unit == "":
            said = self._attribute_number(i, number, after)
            if said is not None:
                return said
        elif number.unit == "in":
            pipe = self._pipe_suffix(i, number, after)
            if pipe:
                self.add(pipe[0])
                return self._after_element(pipe[1])
        elif number.unit in RATING_UNITS:
            name, unit, factor = RATING_UNITS[number.unit]
            self.facts.ratings.append((name, Rating(number.plain * factor, unit), number.text))
            return after
        # a tolerance class or an M between diameter and length: 5m6x20, 8 M6 x 30
        classed = self._class_at(after) if follower in _CLASS_LETTERS else None
        if classed:
            mention, after = classed
            self.facts.classes.append(mention)
            self.add(number)
            return self._after_element(after)
        labelled = self._suffix_label(after, number) if follower in LABELS else None
        if labelled:
            number, after = labelled
        elif self._before_word(i, number, after):
            number = number._replace(before_word=True)
        self.add(number)
        if number.label and (not self._link_at(after) or self._counts(after)) and len(self.chain) == 1:
            self.chain.pop()
            self.facts.labelled.append(number)
            self.chain_end = -1
            return after
        return self._after_element(after)

    def _attribute_number(self, i: int, number: Number, after: int) -> int | None:
        """Read a number that is no size: ``8.8``, ``45H``, ``200 HV``, ``304``; returns the token after, or None."""
        text, follower = self.items[i].text, self.low[after]
        if text in PROPERTY_CLASSES and not self.linked and follower not in _LINKS and follower not in LABELS:
            self.close()
            self.attribute("property_class", text, text)
            return after
        if follower == "h" and f"{text}h" in HARDNESS_CLASSES and self.glued(after):
            self.attribute("property_class", f"{text}H", self.quote(i, after + 1))
            return after + 1
        if follower == "hv":
            self.attribute("hardness", f"{text} HV", self.quote(i, after + 1))
            return after + 1
        if text in GRADES and not self.linked and follower not in _LINKS and number.plain > 300:
            self.attribute("material", GRADES[text], text)
            return after
        if self.low[i - 1] == "-" and self._is_class_number(i, number, after):
            self.close()
            self.attribute("property_class", text, text)
            return after
        return None

    def _is_class_number(self, i: int, number: Number, after: int) -> bool:
        """Tell whether a whole number behind `` - `` and a thread is a nut's property class: ``ISO 7040 - M5 - 8``."""
        if number.unit or self.low[i - 1] != "-" or not self.items[i].space or not self.items[i - 1].space:
            return False
        follower = self.low[after]
        return (
            self.items[i].text in NUT_CLASSES
            and bool(self.facts.threads() or any(isinstance(part, ThreadMention) for part in self.chain))
            and follower not in _LINKS
            and follower not in LABELS
        )

    def _before_word(self, i: int, number: Number, after: int) -> bool:
        """Tell whether a whole number stands alone before a word, as a count does."""
        text = self.items[i].text
        if number.unit or not text.isdigit() or number.plain == 0 or self.linked or text in PROFILES:
            return False
        follower = self.at(after)
        if follower is None or not follower.space or follower.low in _LINKS or LABELS.get(follower.low) == "series":
            return False
        return follower.kind == "w" or (follower.text == BLANK and i == 0)

    def _counts(self, i: int) -> bool:
        """Tell whether `` x10`` stands at i: a blank before the sign and none behind it."""
        return self.low[i] in _LINKS and self.items[i].space and self.glued(i + 1)

    def _link_at(self, i: int) -> bool:
        return self.low[i] in {"x", "*", "/"} and self._element_follows(i + 1)

    def _suffix_label(self, i: int, number: Number) -> tuple[Number, int] | None:
        """Read ``4 bore``, ``18mm lg``, ``20T``, ``6 mm breit`` behind a number."""
        word = self.low[i]
        label = LABELS.get(word)
        if word == "lead" and self.low[i + 1] in {"screw", "screws", "nut", "nuts", "spindle"}:
            return None  # 8 mm lead screw
        if word == "shaft" and self.low[i + 1] in {"collar", "collars", "support", "supports", "coupling", "coupler"}:
            return None  # 8x16x8 shaft collar
        if label is not None and self._class_at(i + 1):
            return None  # 8x10x10 Bohrung F7: the label belongs to the class
        if label in {"thread", "shoulder", "flange", "stud"} and self.low[i + 1] in _NAMES_A_PART:
            return None
        if label in {"id", "od"} and self.low[i + 1] in {"/", "-"} and LABELS.get(self.low[i + 2]) in {"id", "od"}:
            return None  # 20 mm Innen/Außen: the two ends of a standoff
        if word == "t" and self.glued(i) and self.items[i].text == "T":
            label = "teeth"
        if label is None or not word:
            return None
        token = self.items[i]
        if (
            word in {"d", "l", "h", "t", "w", "z"}
            and (
                self.is_number(i + 1)
                or self.low[i + 1] in {"=", ":"}
                or (self.low[i + 1] == "-" and self.glued(i + 1) and token.space)
            )
            and label != "teeth"
        ):
            return None  # the letter belongs to what follows: 8 D12, 5x100 D-Form
        if (
            label in {"thread", "head", "tube", "stud", "shaft", "slot", "hole", "flange", "body", "pitch", "sheet"}
            and token.space
        ):
            # "M3 8 hole 4.2": a number behind the label too; the label goes with the nearer one only when it has a unit
            following = i + 2 if self.low[i + 1] in {"=", ":", "."} else i + 1
            thread = self.low[i + 1] == "m" and self.is_number(i + 2) and self.glued(i + 2)
            bare = not number.unit or number.text.replace("/", "").isdigit()  # 6, or 1/4 without a mark
            if (self.is_number(following) or thread) and bare:
                return None
        following = i + 2 if self.low[i + 1] in {"=", ":"} else i + 1
        unlabelled = self._is_size(following) and not self._suffix_only(following)
        if unlabelled and token.space and word not in BEHIND and label not in {"teeth", "starts"}:
            behind = any(other.text[0].isdigit() for other in self.facts.labelled)  # 8 mm OD 6 mm ID 1 m
            before = label in {"od", "id"} and not behind and self.low[self.number(following)[1]] not in LABELS
            if not number.unit or word in BEFORE or before or self._labels_next(following):
                return None
        if label == "series":
            return (
                None
                if not self.items[i - 1].text.isdigit()
                else (
                    Number(number.value, number.text + " " + token.text, number.unit, "series", written=number.plain),
                    i + 1,
                )
            )
        after = i + 1
        second = LABELS.get(self.low[after])
        if second == "diameter" and label in {
            "od",
            "id",
            "bore",
            "shoulder",
            "hole",
            "flange",
            "shaft",
            "wire",
            "head",
        }:
            after += 1
        return Number(
            number.value, f"{number.text} {token.text}", number.unit, label, number.upper, number.plain
        ), after

    def _suffix_only(self, i: int) -> bool:
        """Tell whether the number at i carries its own label behind it, so that labels here stand behind numbers."""
        if not self.is_number(i):
            return False
        _, after = self.number(i)
        if self.low[after] not in LABELS:
            return False
        return not self._is_size(after + 1) or self.low[after] in BEHIND or self._suffix_only(after + 1)

    def _is_size(self, i: int) -> bool:
        """Tell whether the number at i is a size, not a count of pieces."""
        return self.is_number(i) and self.low[i + 1] not in PIECE_WORDS

    def _labels_next(self, i: int) -> bool:
        """Tell whether the number at i is followed by a label of the number after it: ``25 OD 19`` at the end."""
        if not self.is_number(i):
            return False
        _, after = self.number(i)
        return self.low[after] in LABELS and self.low[after] not in BEHIND and self._is_size(after + 1)

    def _describes(self, i: int) -> bool:
        """Tell whether the label at i belongs to the number before it: ``belt 15 mm wide``, ``belt 200 teeth``."""
        word = self.low[i]
        label = LABELS.get(word)
        if word == "t" and self.glued(i) and self.items[i].text == "T":
            return True
        if label is None or word == "d":
            return False
        if label in {"length", "width", "pitch"} and not self.is_number(i + 1) and self.low[i + 1] not in {"=", ":"}:
            return True
        return word in BEHIND or label in {"teeth", "starts"} or self._suffix_only(i + 1)

    def _class_at(self, i: int) -> tuple[ClassMention, int] | None:
        """Read a tolerance class behind a number: ``m6``, ``h8``, ``H7``; an M6 may be a thread too."""
        token = self.at(i)
        if token is None or token.kind != "w" or token.low not in _CLASS_LETTERS:
            return None
        if not self.is_number(i + 1) or not self.glued(i + 1) or not self.items[i + 1].text.isdigit():
            return None
        grade = int(self.items[i + 1].text)
        if not 4 <= grade <= 13 or token.low in {"d", "t", "x"}:
            return None
        after = i + 2
        name = f"{token.low}{grade}"
        text = self.quote(i, after)
        if token.low == "m":
            if grade > 9 or not (self._link_at(after) or token.text == "m"):
                return None
            thread = threads.metric(Decimal(grade)) if token.text == "M" else None
            return ClassMention(name, text, False, thread), after
        if token.low in {"z", "a", "b", "c", "u"}:
            return None
        return ClassMention(
            name if token.text.islower() else token.text.upper() + str(grade), text, token.text.isupper()
        ), after

    def _pipe_suffix(self, i: int, number: Number, after: int) -> tuple[ThreadMention, int] | None:
        """Read ``1/8 BSP``, ``1/4" NPT`` at number i."""
        word = self.low[after]
        if word not in {"bsp", "npt", "bspp", "bspt", "nptf", "gas"} or number.unit != "in":
            return None
        part = _fraction(self.items, i)
        size = self.quote(i, part[1]) if part else self.items[i].text
        thread = threads.pipe(f"{'NPT' if word.startswith('npt') else 'R' if word == 'bspt' else 'G'} {size}")
        return (ThreadMention(thread, self.quote(i, after + 1), True), after + 1) if thread else None

    def on_word(self, i: int) -> int:
        word = self.low[i]
        following = self.items[i + 1] if i + 1 < len(self.items) else None
        if word not in _TELLING and (following is None or following.space or following.kind != "n"):
            if self.chain_end == i:
                self.chain_end = -1
            return i + 1
        if word in _LINKS and self.chain and self.chain_end == i and self._element_follows(i + 1):
            return self._after_element(i)
        if word == "x" and self.is_number(i + 1):
            counted = self.times(i)
            if counted is not None:
                self.close()
                return counted
            if self._link_is_open(i):
                self.linked = True
                return i + 1
            return i + 1
        if word == "m" and self.is_number(i + 1) and self.glued(i + 1):
            return self.on_thread(i)
        if word in _CLASS_WORDS and (classed := self._class_word(i)) is not None:
            return classed
        if self._is_drive(i):
            self.attribute("drive_size", self.quote(i, i + 2).upper(), self.quote(i, i + 2))
            return i + 2
        if word in _PIPE_LETTERS and self._pipe_number(i):
            return self.on_pipe(i)
        if word == "st" and self.is_number(i + 1) and self.glued(i + 1):
            return self.on_tapping(i)
        if word in COUNT_WORDS or (word in PACK_WORDS and not self._noun_pack(i)):
            found = self.on_count(i)
            if found is not None:
                return found
        if word in LABELS or word in SIGNED_LABELS:
            found = self.on_label(i)
            if found is not None:
                return found
        return self.on_plain_word(i)

    def _class_word(self, i: int) -> int | None:
        """Read ``class 8``, ``cl. 10``: the property class of a nut or screw; returns the token after."""
        step = i + 2 if self.low[i + 1] == "." else i + 1
        if not self.is_number(step) or self.items[step].text not in NUT_CLASSES | PROPERTY_CLASSES:
            return None
        if self.low[step + 1] in _LINKS or self.low[step + 1] in LABELS:
            return None
        self.attribute("property_class", self.items[step].text, self.quote(i, step + 1))
        return step + 1

    def _is_drive(self, i: int) -> bool:
        """Tell whether a drive and its size stand at i: ``TX20``, ``PH2``, ``torx 10``; ``T20`` only beside a screw."""
        word = self.low[i]
        if word not in _DRIVES or not self.is_number(i + 1) or not self.items[i + 1].text.isdigit():
            return False
        if self.low[i + 2] in _LINKS or self.low[i + 2] in {"/", "-"}:
            return False
        if word == "t":
            return self.glued(i + 1) and not self.facts.words.isdisjoint(_SCREW_WORDS)
        return self.glued(i + 1) or word == "torx"

    def _link_is_open(self, i: int) -> bool:
        return bool(self.chain) and self.chain_end == i

    def _noun_pack(self, i: int) -> bool:
        return self.low[i] in {"set", "box", "package"} and not self._number_after(i)

    def _number_after(self, i: int) -> bool:
        step = i + 1
        while self.low[step] in {"=", ":", "."} or (self.low[step] in _ARTICLES and not self.glued(step + 1)):
            step += 1
        return self.is_number(step)

    def on_count(self, i: int) -> int | None:
        step = i + 1
        while self.low[step] in {"=", ":", "."} or (self.low[step] in _ARTICLES and not self.glued(step + 1)):
            step += 1
        token = self.at(step)
        if token is None or not token.text.isdigit() or int(token.text) == 0:
            return None
        self.close()
        if self.low[i] in PACK_WORDS:
            self.facts.pack = int(token.text)
        self.count(int(token.text))
        after = step + 1
        if self.low[after] in PIECE_WORDS:
            after += 1
        return after

    def on_label(self, i: int) -> int | None:
        """Read a label before its number: ``bore 5``, ``Ø4``, ``L=400``, ``shoulder dia 8``, ``D6x125``."""
        label = LABELS.get(self.low[i], "")
        step = i + 1
        if label == "length" and self.low[i - 1] in {"full", "half", "partial"}:
            return None  # grooved over its half length
        if self.low[i] in SIGNED_LABELS:
            symbol = i > 0 and self.items[i].text in {"Da", "De", "Di", "Dm"}
            if symbol or self.low[step] in {"=", ":"} or (self.is_number(step) and self.glued(step)):
                label = SIGNED_LABELS[self.low[i]]
        if not label:
            return None
        if self.low[i] == "l" and self.low[step] == "0" and self.glued(step):
            label, step = "free length", step + 1  # L0 = 30
        second = LABELS.get(self.low[step])
        if second in {"diameter", "bore", "length", "height", "width"} and label in {
            "od", "id", "bore", "shoulder", "hole", "flange", "shaft", "wire", "head", "body", "belt", "stud",
            "free length", "tube", "mean", "slot", "section",
        }:  # fmt: skip
            step += 1
            if label in {"id"} and second == "bore":
                label = "bore"
        while self.low[step] in {"=", ":", "."}:
            step += 1
        if self.low[step] in {"of", "de", "di", "von"} and self.is_number(step + 1):
            step += 1
        if not self.is_number(step) or (label == "thread" and self.unified(step)):
            return None
        single = len(self.low[i]) == 1 and self.low[i] != "ø"
        if single and not (self.glued(step) or self.low[i + 1] in {"=", ":"} or self.low[i] in {"d", "l", "z"}):
            return None
        if self.low[i] in {"h", "t"} and self.glued(step) and self.low[i + 1] not in {"=", ":"}:
            return None
        number, after = self.number(step)
        if number.unit and number.unit in RATING_UNITS:
            return None
        if label in {"thread", "head", "flange", "stud", "tube", "shaft"} and self._link_at(after):
            return None  # with internal thread 8x40: the size of the part, not of the thread
        if label == "head" and LABELS.get(self.low[after]) == "length" and not self.is_number(after + 1):
            return None  # knurled head 20 mm long
        if label == "head" and (self.items[step].text in PROPERTY_CLASSES or self.items[step].text in GRADES):
            return None  # pan head 4.8, flat head 304
        if self.low[after] in PIECE_WORDS and not number.unit:
            return None  # button head 50 pcs
        label_text = self.quote(i, after)
        number = Number(number.value, label_text, number.unit, label, number.upper, number.plain)
        range_sign = self.low[after] == "-" and self.is_number(after + 1)
        if label == "grip" and self.low[after] in {"to", "bis", "a"} and self.is_number(after + 1):
            range_sign = True
        if range_sign and (self.glued(after) or label == "grip"):
            upper, after = self.number(after + 1)
            number = Number(
                number.value, f"{label_text}-{upper.text}", upper.unit or number.unit, label, upper.value, number.plain
            )
        classed = self._class_at(after)
        if classed:
            self.facts.classes.append(classed[0])
            after = classed[1]
        if self.linked or self._link_at(after):
            self.add(number)
            return self._after_element(after)
        if label in {"belt", "shaft"} and self._describes(after):
            number = number._replace(label="teeth" if self.low[after] == "t" else LABELS[self.low[after]])
            after += 1
        if label == "diameter":
            also = LABELS.get(self.low[after])
            if also in {"od", "id", "bore", "shoulder"}:
                number = Number(number.value, self.quote(i, after + 1), number.unit, also, number.upper, number.plain)
                after += 1
        self.close()
        self.facts.labelled.append(number)
        self.chain_end = -1
        return after

    def on_thread(self, i: int) -> int:
        """Read a metric thread: ``M5``, ``M8x1``, ``M2.5 x 0.45``."""
        size = self.items[i + 1].value or Decimal(0)
        after = i + 2
        thread = threads.metric(size)
        capital = self.items[i].text == "M"
        text = self.quote(i, after)
        if thread is None:
            if size <= 0 or size > 100:
                return after
            thread = ThreadSize(f"M{self.items[i + 1].text.replace(',', '.')}", size, None)
        pitch_stated = False
        if self.low[after] in {"x", "*", "-"} and self.is_number(after + 1):
            pitch, beyond = self.number(after + 1)
            options = threads.pitches(size)
            if pitch.value in options and pitch.unit in {"", "mm"} and self._is_pitch(pitch, beyond):
                fine = threads.metric(size, pitch.value)
                if fine is not None:
                    thread, pitch_stated = fine, True
                    after = beyond
                    text = self.quote(i, after)
        elif self.is_number(after) and "." in self.low[after] and self._link_at(after + 1):
            fine = threads.metric(size, self.items[after].value)  # M6 1.0 x 20
            if fine is not None:
                thread, pitch_stated = fine, True
                after += 1
                text = self.quote(i, after)
        if self.low[after] in {"lh", "left"}:
            thread = ThreadSize(thread.designation, thread.diameter, thread.pitch, thread.system, "left")
            after += 1
        before = i - 1
        if self.is_number(before) and self.glued(i) and not self.linked:
            self.linked = bool(self.chain) and self.chain_end == i
        self.add(ThreadMention(thread, text, pitch_stated, capital))
        return self._after_element(after)

    def _is_pitch(self, pitch: Number, beyond: int) -> bool:
        """Tell whether the number behind a thread is its pitch: it is listed, and a length follows or is absent."""
        label = LABELS.get(self.low[beyond])
        number_follows = self.is_number(beyond + (2 if self.low[beyond + 1] in {"=", ":", "."} else 1))
        return number_follows or label not in {"length", "height", "thickness", "depth"}

    def _pipe_number(self, i: int) -> bool:
        step = i + 1
        if not self.is_number(step):
            return False
        part = _fraction(self.items, step)
        if part is not None:
            return True
        return (
            self.low[i] == "g"
            and self.glued(step)
            and self.items[step].text in {"1", "2"}
            and self.items[i].text == "G"
        )

    def on_pipe(self, i: int) -> int:
        part = _fraction(self.items, i + 1)
        after = part[1] if part else i + 2
        letters = self.low[i].upper()
        letters = _PIPE_NAMES.get(letters, letters)
        size = self.quote(i + 1, after)
        if self.low[after] == '"':
            after += 1
        thread = threads.pipe(f"{letters} {size}")
        if thread is None:
            return after
        self.add(ThreadMention(thread, self.quote(i, after), True))
        return self._after_element(after)

    def on_tapping(self, i: int) -> int:
        size = self.items[i + 1].value or Decimal(0)
        self.add(
            ThreadMention(
                ThreadSize(f"ST{self.items[i + 1].text.replace(',', '.')}", size, None, "tapping"), self.quote(i, i + 2)
            )
        )
        return self._after_element(i + 2)

    def on_plain_word(self, i: int) -> int:
        token = self.items[i]
        word = token.low
        if self.chain_end == i:
            self.chain_end = -1
        grade = self._grade(i)
        if grade:
            return grade
        if word in MATERIALS and not (word in {"pa", "ms", "va", "ss", "pu"} and not token.space):
            self.attribute("material", MATERIALS[word], token.text)
            if MATERIALS[word] in RUBBERS and self._shore(i + 1):
                return i + 2
        elif (word == "st" and self.low[i - 1] in {"-", ","}) or (
            word == "st" and (self.at(i + 1) is None or self.low[i + 1] in {",", ")"})
        ):
            self.attribute("material", "steel", token.text)
        elif word in FINISHES:
            self.attribute("finish", FINISHES[word], token.text)
        elif word in HARDENED:
            self.attribute("treatment", "hardened", token.text)
        elif word in _LEFT_HAND:
            self.attribute("hand", "left", token.text)
        elif word in _RIGHT_HAND:
            self.attribute("hand", "right", token.text)
        elif word in _CLASS_LETTERS and self.is_number(i + 1) and self.glued(i + 1):
            return self.on_loose_class(i)
        return i + 1

    def _shore(self, i: int) -> bool:
        """Read the hardness behind a rubber: ``NBR 70``, ``FKM75``."""
        token, after = self.at(i), self.low[i + 1]
        if token is None or token.text not in SHORE or after in _LINKS or after in LENGTH_UNITS or after in LABELS:
            return False
        self.attribute("hardness", f"{token.text} Shore A", token.text)
        return True

    def on_loose_class(self, i: int) -> int:
        """Read a tolerance class that stands apart from its number: ``Ø4 h8``, ``tol. m6``, ``h6``."""
        token = self.items[i]
        grade = self.items[i + 1].text
        if self.glued(i + 2) and self.low[i + 2] in {"a", "ma"}:
            return i + 1  # F10A: a fuse
        if (
            token.low in {"h", "m", "k", "n", "g", "f", "js", "p", "r", "s"}
            and grade.isdigit()
            and 4 <= int(grade) <= 13
        ):
            upper = token.text.isupper()
            name = f"{token.text.upper() if upper else token.low}{grade}"
            self.facts.classes.append(ClassMention(name, self.quote(i, i + 2), upper))
            return i + 2
        return i + 1

    def _grade(self, i: int) -> int | None:
        """Read a grade: ``A2``, ``A4-80``, ``Cf53``, ``N52``."""
        word = self.low[i]
        if not self.is_number(i + 1) or not self.glued(i + 1):
            return None
        name = f"{word}{self.items[i + 1].text}"
        if word == "n" and self.items[i + 1].text.isdigit() and 30 <= int(self.items[i + 1].text) <= 55:
            self.attribute("grade", name.upper(), self.quote(i, i + 2))
            return i + 2
        after = i + 2
        if name not in GRADES or (self.low[after] in _LINKS and self.glued(after) and self.is_number(after + 1)):
            return None  # A4x4x16 is a form and a size
        if self.glued(after) and self.low[after] in {"a", "ma"}:
            return None  # F1A is a fuse
        if self.low[after] == "-" and self.glued(after) and f"{name}-{self.low[after + 1]}" in GRADES:
            name = f"{name}-{self.low[after + 1]}"
            after += 2
        self.close()
        self.attribute("material", GRADES[name], self.quote(i, after))
        return after

    def attribute(self, name: str, value: str, text: str) -> None:
        """Keep an attribute; the first one said holds, but a grade is more than the word ``stainless``."""
        if name in self.facts.attributes and self.facts.attributes[name] != "stainless steel":
            return
        self.facts.attributes[name] = value
        self.facts.attribute_texts[name] = text

    # -- afterwards ---------------------------------------------------------------------------------------------

    def _template(self) -> None:
        """Read ``(ID x OD x t)``, ``OD/ID/T 10x3x4``: labels in the order of a chain's numbers."""
        if len([word for word in self.low if word in LABELS]) < 2:
            return
        sequence: list[str] = []
        best: list[str] = []
        linked = False
        for token in (*self.items, None):
            if token is not None and token.kind == "w" and token.low in LABELS:
                sequence.append(LABELS[token.low])
            elif token is not None and token.low in {"x", "*", "/"}:
                linked = bool(sequence)
            else:
                if len(sequence) >= 2 and linked:
                    best = sequence
                sequence, linked = [], False
        if not best:
            return
        for chain in self.facts.chains:
            numbers = [part for part in chain if isinstance(part, Number)]
            if len(numbers) == len(best) == len(chain) and not any(part.label for part in numbers):
                chain[:] = [
                    Number(part.value, part.text, part.unit, label, part.upper, part.plain)
                    for part, label in zip(numbers, best, strict=True)
                ]
                return

    def _doubtful_numbers(self) -> None:
        """Ask about ``.250`` (inches are written so) and ``1,250`` (a thousand, or a decimal comma)."""
        if not self.decimals:
            return
        numbers = [part for chain in self.facts.chains for part in chain if isinstance(part, Number)]
        for number in (*numbers, *self.facts.labelled):
            digits = number.text.split(" ")[0].rstrip('"')
            whole, comma, part = digits.partition(",")
            if digits.startswith(".") and not number.unit:
                self.facts.doubts.append(f"Is {digits} in inches or in millimetres?")
            elif comma and len(part) == 3 and part.isdigit() and whole.strip("0"):
                self.facts.doubts.append(f"Is {digits} a thousand, or a decimal comma?")

    def _two_diameters(self) -> None:
        """Read ``D8 x d5``: beside each other a capital D is the outside and a small d the bore (ISO symbols)."""
        if self.low.count("d") < 2:
            return
        chains: list[list[Element] | list[Number]] = [*self.facts.chains, self.facts.labelled]
        numbers = [part for chain in chains for part in chain if isinstance(part, Number)]
        marked = [n for n in numbers if n.label == "diameter" and n.text[:1] in {"D", "d"}]
        if len(marked) != 2 or {n.text[0] for n in marked} != {"D", "d"}:
            return
        for chain in chains:
            for k, n in enumerate(chain):
                if isinstance(n, Number) and n in marked:
                    chain[k] = n._replace(label="od" if n.text[0] == "D" else "id")

    def _inches(self) -> None:
        """A chain with an inch mark or a fraction is in inches throughout; so is a number beside a unified thread."""
        self._doubtful_numbers()
        if not (self.inches or self.facts.inches or "number size" in self.facts.attributes):
            return
        anywhere = any(number.unit == "in" for number in self.facts.labelled)
        for chain in self.facts.chains:
            numbers = [part for part in chain if isinstance(part, Number)]
            inch = (
                any(part.unit == "in" for part in numbers)
                or any(isinstance(part, ThreadMention) and part.thread.system == "unified" for part in chain)
                or (bool(numbers) and "number size" in self.facts.attributes)
            )
            if not inch:
                continue
            anywhere = True
            for k, part in enumerate(chain):
                if isinstance(part, Number) and part.unit == "" and part.label not in {"teeth", "starts"}:
                    chain[k] = Number(part.value * MM_PER_INCH, part.text, "in", part.label, part.upper, part.plain)
        self.facts.inches = self.facts.inches or anywhere


def scan(
    text: str,
    line: str,
    words: frozenset[str],
    standards: tuple[StandardMention, ...] = (),
    amperes: bool = False,
) -> Facts:
    """Return what the normalised text says; ``line`` is kept for quoting; with ``amperes`` a capital A is the unit.

    >>> facts = scan("M3x10 SHCS 8.8, 20 pcs", "M3x10 SHCS 8.8, 20 pcs", frozenset())
    >>> facts.quantity, facts.attributes["property_class"], facts.threads()[0].thread.designation
    (20, '8.8', 'M3')
    """
    return _Scanner(text, line, words, standards, amperes).run()
