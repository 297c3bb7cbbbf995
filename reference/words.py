"""Words of the trade that belong to no single part family, in English, German, French, Spanish and Italian.

Labels that name a dimension (``bore 5``, ``8 deep``, ``Bohrung``), length units, words that count pieces, materials and
finishes, and words that a line may hold without changing the part. Part nouns stand with their family in
``reference.families``. All words are written lower case and without accents, as ``fold`` leaves them.

Source: common practice of the trade; materials by the standard named beside the word.
"""

import unicodedata
from decimal import Decimal
from functools import lru_cache
from typing import Final


@lru_cache(maxsize=8192)
def fold(word: str) -> str:
    """Return the word in lower case without accents, so that spellings of one word meet.

    >>> fold("Länge"), fold("GEHÄRTET"), fold("Maß")
    ('lange', 'gehartet', 'mass')
    """
    if word.isascii():
        return word.lower()
    folded = unicodedata.normalize("NFKD", word.casefold())
    return "".join(char for char in folded if not unicodedata.combining(char)).replace("ø", "o").replace("æ", "ae")


MM_PER_INCH: Final = Decimal("25.4")

LENGTH_UNITS: Final[dict[str, Decimal]] = {
    "mm": Decimal(1),
    "millimeter": Decimal(1),
    "millimetre": Decimal(1),
    "millimetres": Decimal(1),
    "millimeters": Decimal(1),
    "cm": Decimal(10),
    "m": Decimal(1000),
    "meter": Decimal(1000),
    "metre": Decimal(1000),
    "metres": Decimal(1000),
    "meters": Decimal(1000),
    "metro": Decimal(1000),
    "metri": Decimal(1000),
    "mtr": Decimal(1000),
    "um": Decimal("0.001"),
    '"': MM_PER_INCH,
    "in": MM_PER_INCH,
    "inch": MM_PER_INCH,
    "inches": MM_PER_INCH,
    "zoll": MM_PER_INCH,
    "pouce": MM_PER_INCH,
    "pouces": MM_PER_INCH,
    "pulgada": MM_PER_INCH,
    "pulgadas": MM_PER_INCH,
    "pollice": MM_PER_INCH,
    "pollici": MM_PER_INCH,
    "ft": Decimal("304.8"),
    "feet": Decimal("304.8"),
}
"""Unit word -> millimetres. Source: the international inch of 25.4 mm (ISO 80000-3)."""

INCH_UNITS: Final = frozenset(word for word, factor in LENGTH_UNITS.items() if factor == MM_PER_INCH)

RATING_UNITS: Final[dict[str, tuple[str, str, Decimal]]] = {
    # word: (name of the quantity, unit as shown, factor)
    "v": ("voltage", "V", Decimal(1)),
    "vdc": ("voltage", "V", Decimal(1)),
    "vac": ("voltage", "V", Decimal(1)),
    "volt": ("voltage", "V", Decimal(1)),
    "volts": ("voltage", "V", Decimal(1)),
    "a": ("current", "A", Decimal(1)),
    "amp": ("current", "A", Decimal(1)),
    "amps": ("current", "A", Decimal(1)),
    "ma": ("current", "A", Decimal("0.001")),
    "w": ("power", "W", Decimal(1)),
    "watt": ("power", "W", Decimal(1)),
    "watts": ("power", "W", Decimal(1)),
    "kw": ("power", "W", Decimal(1000)),
    "mb": ("capacity", "MB", Decimal(1)),
    "gb": ("capacity", "GB", Decimal(1)),
    "go": ("capacity", "GB", Decimal(1)),
    "tb": ("capacity", "TB", Decimal(1)),
    "gib": ("capacity", "GiB", Decimal(1)),
    "tib": ("capacity", "TiB", Decimal(1)),
    "mib": ("capacity", "MiB", Decimal(1)),
    "ohm": ("resistance", "ohm", Decimal(1)),
    "ohms": ("resistance", "ohm", Decimal(1)),
    "kohm": ("resistance", "ohm", Decimal(1000)),
    "mah": ("charge", "mAh", Decimal(1)),
    "ah": ("charge", "mAh", Decimal(1000)),
    "hz": ("frequency", "Hz", Decimal(1)),
    "rpm": ("speed", "rpm", Decimal(1)),
    "nm": ("torque", "N m", Decimal(1)),
    "ncm": ("torque", "N m", Decimal("0.01")),
    "degc": ("temperature", "degC", Decimal(1)),
    "°c": ("temperature", "degC", Decimal(1)),
    "bar": ("pressure", "bar", Decimal(1)),
    "deg": ("angle", "deg", Decimal(1)),
    "°": ("angle", "deg", Decimal(1)),
    "mm2": ("area", "mm2", Decimal(1)),
}
"""Unit word -> the rated quantity that it measures. GB is 10^9 bytes, GiB 2^30 (IEC 80000-13)."""

LABELS: Final[dict[str, str]] = {
    **dict.fromkeys(
        ("od", "o.d", "outside", "outer", "ext", "exterior", "aussen", "esterno", "aussendurchmesser"), "od"
    ),
    **dict.fromkeys(("id", "i.d", "inside", "inner", "int", "interior", "innen", "interno", "innendurchmesser"), "id"),
    **dict.fromkeys(("bore", "bohrung", "alesage", "agujero", "foro", "bored", "alesaggio"), "bore"),
    **dict.fromkeys(("hole", "loch", "trou", "drill", "lochdurchmesser"), "hole"),
    **dict.fromkeys(
        ("d", "ø", "dia", "diam", "diameter", "durchmesser", "diametre", "diametro", "dm", "phi"), "diameter"
    ),
    **dict.fromkeys(
        ("l", "lg", "len", "length", "long", "lang", "lange", "longueur", "largo", "longitud", "lunghezza", "lunga"),
        "length",
    ),
    **dict.fromkeys(("l0", "lo"), "free length"),
    **dict.fromkeys(("h", "height", "hoch", "hohe", "hauteur", "altura", "altezza", "high", "tall"), "height"),
    **dict.fromkeys(
        (
            "t",
            "thick",
            "thickness",
            "dick",
            "dicke",
            "epaisseur",
            "espesor",
            "spessore",
            "thk",
            "stark",
            "wall",
            "paroi",
        ),
        "thickness",
    ),
    **dict.fromkeys(("depth", "deep", "tief", "tiefe", "profondeur", "profundidad", "profondita"), "depth"),
    **dict.fromkeys(("w", "wide", "width", "breit", "breite", "largeur", "ancho", "larghezza", "ancha"), "width"),
    **dict.fromkeys(("wire", "draht", "fil", "hilo", "filo", "alambre", "drahtdurchmesser"), "wire"),
    **dict.fromkeys(("section", "cs", "schnurstarke", "tore", "seccion", "sezione", "corda", "schnur"), "section"),
    **dict.fromkeys(("flange", "bund", "collerette", "brida", "flangia", "bunddurchmesser"), "flange"),
    **dict.fromkeys(("teeth", "tooth", "zahne", "zahn", "dents", "dientes", "denti", "z", "zahnezahl"), "teeth"),
    **dict.fromkeys(("pitch", "steigung", "pas", "paso", "passo", "teilung"), "pitch"),
    **dict.fromkeys(("lead", "avance", "avanzamento", "vorschub"), "lead"),
    **dict.fromkeys(("start", "starts", "gangig", "gang", "filets", "entradas", "principi"), "starts"),
    **dict.fromkeys(("shoulder", "schulter", "epaulement", "hombro", "spalla", "passschaft"), "shoulder"),
    **dict.fromkeys(("shaft", "welle", "arbre", "eje", "albero"), "shaft"),
    **dict.fromkeys(("slot", "rainure", "nutbreite", "ranura", "cava", "groove"), "slot"),
    **dict.fromkeys(("belt", "riemen", "courroie", "correa", "cinghia"), "belt"),
    **dict.fromkeys(("tube", "schlauch", "tubo", "tuyau", "hose", "tubing"), "tube"),
    **dict.fromkeys(("grip", "klemmbereich", "serrage"), "grip"),
    **dict.fromkeys(("body", "korper", "corps", "cuerpo", "corpo"), "body"),
    **dict.fromkeys(("stud", "gewindezapfen"), "stud"),
    **dict.fromkeys(("thread", "gewinde", "filetage", "rosca", "filetto"), "thread"),
    **dict.fromkeys(("af", "sw", "spanner", "wrench", "schlusselweite"), "across flats"),
    **dict.fromkeys(("mean", "mittlerer", "moyen"), "mean"),
    **dict.fromkeys(("series", "serie", "baureihe"), "series"),
    **dict.fromkeys(("angle", "winkel"), "angle"),
    **dict.fromkeys(("head", "kopf"), "head"),
    **dict.fromkeys(("mod", "modul", "module", "modulo"), "module"),
    **dict.fromkeys(("beta",), "beta"),
    **dict.fromkeys(("sheet", "blech", "tole"), "sheet"),
}
"""Word -> the label it is; each family says which of its dimensions a label means."""

SIGNED_LABELS: Final[dict[str, str]] = {"da": "od", "de": "od", "di": "id", "dm": "mean", "ad": "od"}
"""Symbols that are labels only before an equals sign or a glued number (``Da=10``): alone they are other words."""

BEHIND: Final = frozenset("wide long lg deep thick thk high tall breit lang tief dick hoch haut ancho alto".split())
"""Labels that always stand behind their number: ``15 mm wide 2 m`` is 15 wide."""

BEFORE: Final = frozenset(
    "largeur longueur hauteur epaisseur profondeur lange breite hohe dicke tiefe larghezza lunghezza altezza spessore"
    " profondita longitud altura espesor profundidad anchura".split()
)
"""Labels that stand before their number where one follows: ``400 mm largeur 6`` is 6 wide."""

PIECE_WORDS: Final = frozenset(
    "pcs pc pce pces piece pieces off ea each units unit stk stck stuck st. stueck ud uds unidades"
    " unidad piezas pza pzas"
    " pieces pz pezzi pezzo szt nos ex exemplaires db pairs pair".split()
)
"""Words after a number that make it a count of pieces."""

COUNT_WORDS: Final = frozenset("qty quantity menge anzahl quantite cantidad quantita qte qta stuckzahl cant".split())
"""Words before a number that make it a count of pieces."""

PACK_WORDS: Final = frozenset(
    "pack packs box bag lot set packung beutel ve boite sachet paquete caja bolsa confezione scatola kit package pk pkt"
    " sachets lots schachtel pckg".split()
)
"""Words before a number (``box 50``, ``lot de 20``, ``pack of 50``) that make it the pieces in one pack."""

MATERIALS: Final[dict[str, str]] = {
    **dict.fromkeys(("steel", "stahl", "acier", "acero", "acciaio", "stl"), "steel"),
    **dict.fromkeys(
        ("stainless", "rostfrei", "edelstahl", "inox", "inoxidable", "inossidabile", "ss", "sus", "va", "nirosta"),
        "stainless steel",
    ),
    **dict.fromkeys(("brass", "messing", "laiton", "laton", "ottone", "ms", "cuzn"), "brass"),
    **dict.fromkeys(("bronze", "bronce", "bronzo", "rotguss"), "bronze"),
    **dict.fromkeys(("copper", "kupfer", "cuivre", "cobre", "rame"), "copper"),
    **dict.fromkeys(("aluminium", "aluminum", "alu", "aluminio", "alluminio"), "aluminium"),
    **dict.fromkeys(("nylon", "polyamide", "polyamid", "pa", "pa6", "pa66"), "nylon"),
    **dict.fromkeys(("titanium", "titan", "titane", "titanio"), "titanium"),
    **dict.fromkeys(("plastic", "kunststoff", "plastique", "plastico", "plastica"), "plastic"),
    **dict.fromkeys(("nbr", "buna", "perbunan"), "NBR"),
    **dict.fromkeys(("fkm", "fpm", "viton"), "FKM"),
    **dict.fromkeys(("epdm",), "EPDM"),
    **dict.fromkeys(("silicone", "silikon", "vmq", "silicona", "silicone"), "silicone"),
    **dict.fromkeys(("ptfe",), "PTFE"),
    **dict.fromkeys(("pom", "acetal"), "POM"),
    **dict.fromkeys(("pu", "pur", "polyurethane", "polyurethan"), "polyurethane"),
    **dict.fromkeys(("alloy", "legierter"), "alloy steel"),
    **dict.fromkeys(("neodym", "neodymium", "neodyme", "neodimio", "ndfeb"), "NdFeB"),
    **dict.fromkeys(("rubber", "gummi", "caoutchouc", "goma", "gomma"), "rubber"),
    **dict.fromkeys(("ceramic", "keramik", "ceramique"), "ceramic"),
}
"""Word -> the material it says."""

RUBBERS: Final = frozenset({"NBR", "FKM", "EPDM", "silicone", "rubber", "PTFE", "polyurethane"})
"""Materials behind which a number is a hardness: ``NBR 70``."""

SHORE: Final = frozenset({"40", "50", "55", "60", "65", "70", "75", "80", "85", "90", "95"})
"""Usual hardnesses of rubber in Shore A. Source: ISO 3601-5; common practice."""

GRADES: Final[dict[str, str]] = {
    **{grade.lower(): grade for grade in ("A1", "A2", "A3", "A4", "A5", "C1", "C3", "C4", "F1")},
    **{f"{a.lower()}-{n}": f"{a}-{n}" for a in ("A2", "A4", "A1") for n in ("50", "70", "80", "070", "080")},
    **dict.fromkeys(("304", "aisi304", "1.4301"), "304"),
    **dict.fromkeys(("316", "316l", "1.4401"), "316"),
    **{grade.lower(): grade for grade in ("Cf53", "C45", "100Cr6", "X46Cr13", "X90", "Ck45")},
}
"""Grade as written -> grade. A and C grades: ISO 3506-1; steels: EN 10088-1, EN ISO 683."""

PROPERTY_CLASSES: Final = frozenset("3.6 4.6 4.8 5.6 5.8 6.8 8.8 9.8 10.9 12.9 08.8 010.9 012.9".split())
"""Property classes of steel screws; a leading zero marks reduced loadability. Sources: ISO 898-1, ISO 7380-1."""

NUT_CLASSES: Final = frozenset("04 05 4 5 6 8 10 12".split())
"""Property classes of nuts. Source: ISO 898-2."""

HARDNESS_CLASSES: Final = frozenset("14h 22h 33h 45h 12h 21h".split())
"""Hardness classes of set screws. Sources: ISO 898-5, ISO 3506-3."""

FINISHES: Final[dict[str, str]] = {
    **dict.fromkeys(
        ("zinc", "zn", "verz", "verzinkt", "zingue", "zincato", "cincado", "galvanised", "galvanized"), "zinc"
    ),
    **dict.fromkeys(("galv", "bzp", "zinced", "zincata", "galvanise"), "zinc"),
    **dict.fromkeys(("black", "schwarz", "noir", "negro", "nero", "bruniert", "brunito"), "black"),
    **dict.fromkeys(("oxide", "blackened"), "black oxide"),
    **dict.fromkeys(("nickel", "nickled", "vernickelt", "nickele"), "nickel"),
    **dict.fromkeys(("chrome", "chromed", "verchromt"), "chrome"),
    **dict.fromkeys(("plain", "blank"), "plain"),
    **dict.fromkeys(("phosphate", "phosphated", "phosphatiert"), "phosphate"),
    **dict.fromkeys(("anodized", "anodised", "eloxiert"), "anodised"),
}
"""Word -> the finish it says."""

HARDENED: Final = frozenset(
    "hardened gehartet trempe trempee templado templada temprato temprata tempered induction ground"
    " geschliffen rectifie".split()
)
"""Words that say a part is hardened or ground."""

FILLERS: Final = frozenset(
    "of the a an and or for with fur mit und oder de du des la le les el los un une y e i il lo gli per"
    " con a da pour avec"
    " et ou mm approx about ca circa environ type typ form size grosse taille talla misura nr new neu quality standard"
    " metric metrisch metrique metrico class klasse classe clase cl grade gute hardened part parts item"
    " please need needed"
    " each high precision long short fine coarse right rechts droite links left hand tolerance toleranz max min body"
    " pack order reorder more to cut piece set same small large big black blue red white green grey gray yellow"
    " inch inches tapped threaded full half partial thread in x by ohne without incl including inkl included only"
    " extra spare quick light heavy duty lathe cnc machine machined assembly mechanical general purpose"
    " use used fit fits"
    " industrial shop stock usd eur per unit price each total hi hello thanks us uk made our we for our bag".split()
)
"""Words that may stand in a line without changing the part."""

PROFILES: Final = frozenset(
    "1515 1530 2020 2040 2060 2080 2525 3030 3060 4040 4080 4545 4590 5050 6060 8080 9090".split()
)
"""Slotted aluminium profiles by width and height: ``(2020)`` behind a nut names the profile, no count of pieces."""

FRACTION_DENOMINATORS: Final = frozenset({2, 4, 8, 16, 32, 64})
"""Denominators of inch fractions in trade."""
