"""The wire of ``/v1/suppliers``: what a supplier means by a sign, as its buyer has learnt it."""

from marshmallow import fields

from schemas.fields import Closed, Text, Word, about, count_field, list_field, text_field
from schemas.options import ViewOptions
from schemas.reply import Reply

SIZE_NAMES = (
    "outer diameter",
    "bore",
    "internal thread",
    "external thread",
    "screw size",
    "shaft size",
    "hole size",
    "across flats",
    "cross-section",
    "catalogue number",
    "rating",
    "shoulder diameter",
    "small end diameter",
    "wire diameter",
    "size class",
    "teeth",
    "pitch length",
    "trade size",
    "groove diameter",
)
"""Dimensions that the size in a line can name."""


class SuppliersQuery(ViewOptions):
    """The list of suppliers takes the options only."""


class HabitsQuery(ViewOptions):
    """The habits of a supplier take the options only."""


class NewHabit(Closed):
    """What a supplier means by a sign."""

    sign = Text(
        required=True,
        longest=10,
        metadata=about("the sign that stands before a size in its lines", "M", "1 to 10 characters, as in the line"),
    )
    part = Text(
        required=True,
        longest=60,
        metadata=about("the part that this is about", "pin", "a family, or a noun in the name of families"),
    )
    means = Word(
        SIZE_NAMES, required=True, metadata=about("the dimension that the size names there", "internal thread")
    )
    noted_on = fields.Date(metadata=about("day on which this was learnt; today where none is given", "2027-01-11"))
    note = Text(longest=500, blank=True, metadata=about("how it was learnt", "their catalogue says so on page 3"))


class Habit(Closed):
    """What a supplier means by a sign, as it is cited."""

    id = text_field("id of the habit", "3f0c9b1e5d7a4c2890ab12cd34ef5678")
    supplier = text_field("name of the supplier", "A")
    sign = text_field("the sign that stands before a size in its lines", "M")
    part = text_field("the part that this is about", "pin")
    means = text_field("the dimension that the size names there", "internal thread")
    noted_on = text_field("day on which this was learnt", "2027-01-11")
    note = text_field("how it was learnt", "their catalogue says so on page 3")


class HabitReply(Habit, Reply):
    """One habit."""


class Habits(Reply):
    """The habits of one supplier."""

    supplier = text_field("name of the supplier", "A")
    habits = list_field(Habit(), "its habits, in the order in which they were noted")


class SupplierHead(Closed):
    """A supplier of which something is known."""

    supplier = text_field("name of the supplier", "A")
    habits = count_field("how many habits of it are known", 1)


class Suppliers(Reply):
    """The suppliers of which something is known."""

    suppliers = list_field(SupplierHead(), "the suppliers by name")


SUPPLIERS_QUERY, HABITS_QUERY, NEW_HABIT = SuppliersQuery(), HabitsQuery(), NewHabit()
SUPPLIERS, HABITS, HABIT = Suppliers(), Habits(), HabitReply()
