"""Inductive, capacitive and optical sensors in a threaded body: the size is the thread, which is a fine one.

Sources: IEC 60947-5-2 (bodies); codes: common practice.
"""

from collections.abc import Mapping, Sequence
from decimal import Decimal

from reference import threads
from reference.families.base import Code, Example, Family, Layout, phrases, words
from reference.families.connectors import give_fine_thread
from reference.families.facts import Draft, Facts
from reference.families.tubes import sizes_and_lengths
from reference.quantities import Dimension, Limits


def _coded(groups: Mapping[str, str]) -> Draft | None:
    """Return body and range of a seller's code: LJ12A3-4 is M12 with 4 mm."""
    thread = threads.metric(Decimal(groups["body"]), Decimal("1.5") if groups["body"] == "30" else Decimal(1))
    if thread is None:
        return None
    dimensions: dict[str, Dimension] = {"thread": thread, "sensing_distance": Limits(Decimal(groups["range"]))}
    return Draft("sensor", "external thread", "stated", dimensions)


def _sensor(family: Family, facts: Facts, drafts: list[Draft]) -> Sequence[Draft]:
    """Give the fine thread; a length in metres is the cable."""
    for draft in drafts:
        if "series" in draft.attributes:
            draft.order_text = "Inductive sensor {series}"
            continue
        lengths = sizes_and_lengths(draft.copy())[1]
        draft.drop(*lengths)
        if lengths:
            draft.dimensions["cable_length"] = Limits(lengths[0].value)
        give_fine_thread(draft, facts, "IEC 60947-5-2")
    return drafts


FAMILY = Family(
    name="sensor",
    size_names="external thread",
    key="thread",
    nouns={
        "en": phrases(
            "sensor, inductive sensor, proximity sensor, proximity switch, inductive switch, capacitive sensor,"
            " photoelectric sensor, limit sensor, inductive proximity sensor, hall sensor, optical sensor, inductive"
            " probe"
        ),
        "de": phrases(
            "Näherungsschalter, Induktivsensor, induktiver Sensor, Näherungssensor, Lichtschranke, Initiator"
        ),
        "fr": phrases("capteur inductif, capteur de proximité, détecteur inductif, détecteur de proximité, capteur"),
        "es": phrases("sensor inductivo, sensor de proximidad, detector inductivo, sensor capacitivo"),
        "it": phrases(
            "sensore induttivo, sensore di prossimità, interruttore di prossimità, sensore, finecorsa induttivo"
        ),
    },
    codes=(
        Code(
            r"lj(?P<body>8|12|18|30)a[34]-(?P<range>[0-9]{1,2})-?[a-z]?/?[a-z]{0,3}",
            identifies=True,
            decode=_coded,
            says="a seller's code: body, then sensing distance",
        ),
    ),
    thread="thread",
    ratings=("voltage", "current"),
    layouts=(Layout(("sensing_distance",), when=lambda v: v["sensing_distance"] <= 40),),
    labels={"length": "length", "diameter": "outer_diameter", "wire": "-"},
    needs=("thread|outer_diameter",),
    identity=("thread|outer_diameter",),
    order="Inductive sensor {thread}",
    question="Which thread has the sensor?",
    refine=_sensor,
    kin=("temperature sensor",),
    unless=words(
        "light motion oxygen lambda abs parking cable connector camera image pressure flow gas humidity ph level"
    ),
    examples=(
        Example("M12 inductive sensor PNP NO 4mm", dimensions={"thread": "M12x1"}, size_names="external thread"),
        Example("Näherungsschalter M18 NPN", dimensions={"thread": "M18x1"}),
        Example("capteur inductif M8 2 m", dimensions={"thread": "M8x1", "cable_length": "2000"}),
        Example("LJ12A3-4-Z/BX", dimensions={"thread": "M12x1"}),
        Example("proximity sensor", state="ambiguous"),
    ),
    source="IEC 60947-5-2; common practice",
)
