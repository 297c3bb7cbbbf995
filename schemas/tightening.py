"""The wire of ``/v1/tightening``: a joint in, how tight its screw may be done up out.

Torques are newton metres, forces newtons whatever ``units`` says; figures are rounded down to four digits.
"""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from marshmallow import fields

from schemas.fields import (
    Closed,
    Flag,
    Text,
    about,
    list_field,
    number_field,
    one_field,
    text_field,
    texts_field,
    word_field,
)
from schemas.options import LengthOptions
from schemas.reply import Reply

CLASSES = "4.6 4.8 5.6 5.8 6.8 8.8 9.8 10.9 12.9, and stainless A2-50 to A4-80"
HEADS = "socket, hex, low, button, countersunk, pan, cheese, or the name of the screw"


class Given(Text):
    """A text, or a number of JSON by its shortest text."""

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> str:
        if isinstance(value, int | float) and not isinstance(value, bool):
            value = format(Decimal(str(value)), "f")
        return super()._deserialize(value, attr, data, **kwargs)


def _given(description: str, example: str, accepted: str = "", *, required: bool = False) -> Given:
    metadata = about(description, example, accepted)
    return Given(required=required, blank=not required, longest=100, metadata=metadata)


class Joint(Closed):
    """A screwed joint. A length is in millimetres or with its unit."""

    thread = _given("thread of the screw", "M8", "a metric or unified thread: M8, M8x1", required=True)
    property_class = _given("property class of the screw; 8.8 where none is given", "8.8", CLASSES)
    friction = _given(
        "friction in the thread, and under the head unless head_friction says otherwise",
        "0.12",
        "a coefficient from 0.03 to 0.6, or a class A to E of VDI 2230",
    )
    lubrication = _given(
        "what the thread is treated with, instead of friction",
        "oil",
        "as delivered, oil, grease, paste, wax, molybdenum disulphide, slightly oiled, zinc, hot dip, dry",
    )
    head = _given("form of the head; a socket head where none is given", "socket", HEADS)
    head_friction = _given("friction under the head where it differs", "0.1", "a coefficient from 0.03 to 0.6")
    into = _given("what the screw goes into", "6061-T6", "a material by word or grade, nut, or guide carriage")
    engagement = _given("length of thread that is engaged, the screw's point included", "8", "a length above 0")
    clamped = _given("material under the head", "aluminium", "a material by word or grade")
    hard_to_replace = Flag(metadata=about("the tapped part cannot be replaced or repaired", "1", "1 or 0"))
    through = Flag(metadata=about("the screw's point stands out of the tapped part", "1", "1 or 0"))


class TighteningQuery(Joint, LengthOptions):
    """A joint in a query."""


class ScrewAlone(Closed):
    """The screw alone at 90 % of its yield."""

    preload = number_field("preload [N]", 18630)
    torque = number_field("torque [N m]", 24.92)


class Torque(Closed):
    """The torque for this joint [N m]."""

    recommended = number_field("torque to use", 19.93)
    never_exceed = number_field("torque never to exceed", 24.92)
    limited_by = text_field("the part that gives first: screw, head, drive, internal thread, bearing surface", "screw")


class PartLimit(Closed):
    """Where one part of the joint reaches its limit."""

    part = text_field("the part", "internal thread")
    torque = number_field("torque there [N m]", 30.1)
    preload = number_field("preload there [N]", 22500)
    because = text_field("how that was found", "strips at 27000 N over 6.75 mm of full thread")


class Band(Closed):
    """A range."""

    lower = number_field("lower end", 12000)
    upper = number_field("upper end", 18000)


class Hand(Closed):
    """What a hand applies [N m]."""

    tool = text_field("the tool", "6 mm hexagon key")
    lever = number_field("length of its arm, null for a screwdriver", 96, nullable=True)
    gentle = number_field("torque of a gentle pull", 2.88)
    firm = number_field("torque of a firm pull", 9.6)
    text = text_field("the same in words", "30 N at the end of a 6 mm hexagon key (96 mm) make 2.9 N m")
    source = text_field("where the figures come from", "ISO 2936 arm, from memory; pulls common practice")


class Rule(Closed):
    """The rule of thumb for the engagement."""

    diameters = number_field("thread diameters that the material asks for", 2)
    length = number_field("the same as a length", 16)
    met = fields.Boolean(required=True, metadata=about("whether the engagement meets it", False))
    source = text_field("where the rule comes from", "Rule of thumb: roymech.co.uk Screws")


class Engagement(Closed):
    """Whether the thread holds: by shear area, and by the rule of thumb."""

    engaged = number_field("engagement, the screw's point included", 8)
    effective = number_field("full thread in it", 6.75)
    diameters = number_field("engagement in thread diameters", 1)
    gives = text_field("which thread strips: internal thread or screw thread", "internal thread")
    strip_load = number_field("load at which it strips [N]", 27000)
    preload = number_field("full preload of the screw [N]", 18630)
    breaking_load = number_field("load at which the screw breaks [N]", 29280)
    margin = number_field("strip load over preload", 1.449)
    needed_margin = number_field("margin that is asked for", 1.2)
    holds_preload = fields.Boolean(required=True, metadata=about("whether the margin is there", True))
    screw_breaks_first = fields.Boolean(
        required=True, metadata=about("whether the screw breaks before the thread strips", False)
    )
    needed_for_preload = number_field("engagement that holds the full preload with the margin", 6.9)
    needed_to_break_screw = number_field("engagement at which the screw breaks first", 8.6)
    rule = one_field(Rule(), "the rule of thumb beside it")
    advice = texts_field("what helps", ["a deeper thread and a longer screw: 8.6 mm of engagement or more"])
    source = text_field("where the formulas come from", "FED-STD-H28 and Machinery's Handbook")


class Tightening(Reply):
    """How tight the screw may be done up in this joint."""

    thread = text_field("thread by its designation", "M8")
    property_class = text_field("property class of the screw", "8.8")
    screw = one_field(ScrewAlone(), "the screw alone at 90 % of its yield with the stated friction")
    torque = one_field(Torque(), "the torque for this joint")
    gives_first = text_field("what gives first and why", "screw: 90 % of the screw's yield in tension and torsion")
    limits = list_field(PartLimit(), "every part with its limit, the one that gives first at the beginning")
    clamp_force = one_field(Band(), "clamping force at the recommended torque, over the band of friction [N]")
    breaking_torque = number_field("least torque that breaks the screw in torsion [N m]", 33.3)
    hand = one_field(Hand(), "what a hand applies with the usual tool")
    engagement = one_field(Engagement(), "the engaged thread, null for a nut of the screw's class", nullable=True)
    warnings = texts_field("what to mind in this very joint", [])
    assumed = fields.Dict(
        keys=fields.String(metadata=about("what it concerns", "friction")),
        values=fields.String(metadata=about("what was assumed", "0.12, as stated")),
        required=True,
        metadata=about("everything that was assumed", {"friction": "0.12, as stated"}),
    )
    cautions = texts_field("what to mind for safety", ["An upper limit for clean threads at the friction stated."])
    source = text_field("where the formulas come from", "VDI 2230 Part 1")
    units = word_field("unit of the lengths in the reply", ("mm", "in"), "mm")


TIGHTENING_QUERY, JOINT, TIGHTENING = TighteningQuery(), Joint(), Tightening()
