"""Storage modules: memory cards and drives, named by capacity and, for M.2 cards, by a code of width and length.

M.2 is no M2 thread. 64 GB are 64 x 10^9 bytes, 59.6 GiB: a need in GiB is larger than it looks.

Sources: M.2 size code: common practice; decimal prefixes: IEC 80000-13.
"""

import re
from collections.abc import Sequence
from decimal import Decimal

from reference.families.base import COMMON_PRACTICE, Example, Family, Mates, phrases, words
from reference.families.facts import Draft, Facts, Number, ThreadMention
from reference.quantities import Rating
from reference.sizes import size_table

_BARE = re.compile(r"(?<![\w.,])([0-9]{1,4}) ?([GgTt])(?![A-Za-z0-9])")
_CLASS = re.compile(
    r"\b(?:[UVCA]|UHS-?|class|classe|klasse|clase|gen|pcie|usb) ?([0-9]{1,2}(?:\.[0-9])?)(?: ?x ?([0-9]))?\b",
    re.IGNORECASE,
)
_BYTES = {"MB": 10**6, "GB": 10**9, "TB": 10**12}
_GIB = 2**30


def _capacity(draft: Draft, facts: Facts) -> None:
    """Take ``32G`` as gigabytes; give terabytes as gigabytes; note the size in GiB."""
    stated = [(rating, text) for name, rating, text in facts.ratings if name == "capacity"]
    sizes = [(rating, text) for rating, text in stated if not re.search(rf"{re.escape(text)} ?/ ?s", facts.line)]
    if sizes != stated:
        draft.dimensions.pop("rating", None)
        if sizes:
            draft.rate("capacity", *sizes[0], "capacity, beside a speed", COMMON_PRACTICE)
    bare = _BARE.search(facts.line)
    if bare and draft.rated("capacity") is None:
        unit = f"{bare[2].upper()}B"
        draft.rate("capacity", Rating(Decimal(bare[1]), unit), bare[0], "capacity", COMMON_PRACTICE)
        draft.drop(*(part for part in draft.rest if part.text == bare[1]))
    rating = draft.dimensions.get("rating")
    held = rating.get("capacity") if isinstance(rating, dict) else None
    if held is None or held.unit not in _BYTES:
        return
    if held.unit == "TB":
        draft.rate("capacity", Rating(held.value * 1000, "GB"), f"{held.value} TB", "1 TB = 1000 GB", "IEC 80000-13")
    gib = (held.value * _BYTES[held.unit] / _GIB).quantize(Decimal("0.1"))
    draft.notes.append(("decimal-prefix", f"{held.value} {held.unit} are {gib} GiB", "IEC 80000-13"))


def _module(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Read the M.2 size code, the drive size in inches, and what the letters beside them mean."""
    rows = {row.size: row for row in size_table("storage_module", "width").rows}
    for draft in drafts:
        draft.attributes.pop("material", None)  # A1 and A2 are speed classes of a card
        _capacity(draft, facts)
        classes = {number for found in _CLASS.finditer(facts.line) for number in found.groups() if number}
        draft.drop(*(part for part in draft.rest if part.text in classes))
        said = [found[0].upper() for found in _CLASS.finditer(facts.line)]
        if said:
            draft.attributes["speed_class"] = " ".join(said)
        for part in list(draft.rest):
            row = rows.get(part.text)
            inches = isinstance(part, Number) and part.plain in {Decimal("2.5"), Decimal("3.5")}
            if isinstance(part, Number) and row is not None and row.standard == "PCI-SIG M.2":
                draft.dimensions |= row.dimensions
                draft.attributes["form_factor"] = f"M.2 {row.size}"
                draft.because.append((part.text, "M.2 code: two figures of width, the rest length", row.source))
                draft.size_names = "size class"
            elif inches and isinstance(part, Number):
                row = rows[f"{part.plain} inch"]
                draft.dimensions |= row.dimensions
                draft.attributes["form_factor"] = row.size
                draft.because.append((part.text, "drive size", row.source))
            elif not (isinstance(part, ThreadMention) and part.thread.diameter == 2) and part.text != "2":
                continue
            draft.drop(part)
        if draft.attributes.get("form_factor", "").startswith("M.2"):
            if not facts.says("nvme", "sata", "pcie"):
                draft.asks.append("the bus left open (NVMe or SATA)")
            draft.order_text = "SSD {form_factor} {capacity}" + (" NVMe" if facts.says("nvme", "pcie") else "")
        elif facts.says("ssd", "hdd", "festplatte"):
            draft.order_text = "SSD {form_factor?} {capacity}"
        elif not facts.says("microsd", "micro"):
            draft.order_text = "Memory card {capacity}"
    return drafts


FAMILY = Family(
    name="storage module",
    size_names="rating",
    key="width",
    nouns={
        "en": phrases(
            "microSD, micro SD, SD card, memory card, SSD, NVMe, storage module, eMMC, solid state drive, USB stick,"
            " flash drive,"
            " USB drive, hard drive, HDD, SDHC, SDXC, TF card, CF card, M SATA, mSATA, microSDXC, microSDHC, SSD"
            " NVMe, compact flash"
        ),
        "de": phrases("Speicherkarte, Speichermodul, Festplatte, SD Karte, microSD Karte, USB Stick, Speicherstick"),
        "fr": phrases("carte mémoire, carte SD, carte microSD, disque SSD, clé USB, disque dur, module de stockage"),
        "es": phrases("tarjeta de memoria, tarjeta SD, tarjeta microSD, disco SSD, memoria USB, disco duro, pendrive"),
        "it": phrases(
            "scheda di memoria, scheda SD, scheda microSD, disco SSD, chiavetta USB, memoria USB, disco rigido"
        ),
    },
    ratings=("capacity",),
    needs=("capacity",),
    identity=("capacity",),
    order="microSD card {capacity}",
    question="Which capacity and which form has the storage module?",
    refine=_module,
    unless=words("reader holder slot leser lecteur case enclosure adapter adaptor lector lettore heatsink"),
    words=frozenset({"nvme", "sata", "pcie"}),
    examples=(
        Example("microSD 64GB A2 U3", size_names="rating"),
        Example("SSD M.2 2280 NVMe 1TB", dimensions={"width": "22", "length": "80"}, size_names="size class"),
        Example("carte microSD 32 Go", size_names="rating"),
        Example("SSD M.2 2242 256GB", dimensions={"width": "22", "length": "42"}),
        Example('SSD 2.5" SATA 500GB', dimensions={"height": "7"}),
        Example("microSD card", state="ambiguous"),
    ),
    source="common practice; IEC 80000-13",
    mates=Mates(in_bore=False, on_shaft=False),
)
