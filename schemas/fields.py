"""The few kinds of field that all schemas are made of. Every field is made with its meaning and an example."""

import re
from collections.abc import Mapping, Sequence
from decimal import Decimal
from typing import Any

from marshmallow import RAISE, Schema, ValidationError, fields, validate

# Tabs and line ends are blanks to a reader of lines; every other control character, and half of a surrogate pair
# (which stands for bytes that were not UTF-8), is refused before it can reach a log or a sheet.
_UNPRINTABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff]")
_NUMBER = re.compile(r"[+-]?(?:\d{1,12}(?:[.,]\d{0,12})?|[.,]\d{1,12})")
YES, NO = frozenset({"1", "true", "yes"}), frozenset({"0", "false", "no"})
"""How a switch is turned on and off."""


def printable(text: str) -> bool:
    """Return whether the text is free of control characters and of bytes that were not UTF-8."""
    return _UNPRINTABLE.search(text) is None


class Closed(Schema):
    """A schema that refuses names it does not know: a misspelt name must never be passed over."""

    class Meta:
        """Options of marshmallow."""

        unknown = RAISE


class Text(fields.String):
    """Text of bounded length, without control characters and, unless told otherwise, not blank."""

    def __init__(self, *, longest: int, blank: bool = False, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.longest = longest
        self.blank = blank
        self.validators.append(validate.Length(max=longest))

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> str:
        if not isinstance(value, str):
            raise ValidationError(f"{type(value).__name__} is no text")
        if not printable(value):
            raise ValidationError("control characters and bytes that are not UTF-8 are not read")
        if len(value) > self.longest:
            raise ValidationError(f"{len(value)} characters, {self.longest} are read at most")
        if not self.blank and not value.strip():
            raise ValidationError("the text is empty")
        return value


class Word(Text):
    """One of a few words, in any case."""

    def __init__(self, words: Sequence[str], **kwargs: Any) -> None:
        super().__init__(longest=40, **kwargs)
        self.words = tuple(words)
        self.validators.append(validate.OneOf(self.words))

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> str:
        word = super()._deserialize(value, attr, data, **kwargs).strip().lower()
        if word not in self.words:
            raise ValidationError("none of the words that are known here")
        return word


class Flag(fields.Boolean):
    """A switch: 1, true or yes; 0, false or no."""

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> bool:
        word = str(value).strip().lower()
        if word not in YES | NO:
            raise ValidationError("no switch")
        return word in YES


class Exact(fields.Decimal):
    """A number taken exactly, with a decimal point or a decimal comma; a number of JSON by its shortest text."""

    def _deserialize(self, value: Any, attr: str | None, data: Mapping[str, Any] | None, **kwargs: Any) -> Decimal:
        if isinstance(value, bool) or not isinstance(value, str | int | float | Decimal):
            raise ValidationError("no number")
        text = str(value).strip()
        if not _NUMBER.fullmatch(text):
            raise ValidationError("no number")
        return Decimal(text.replace(",", "."))


def about(description: str, example: object, accepted: str = "") -> dict[str, Any]:
    """Return the metadata of a field: its meaning, an example, and what is accepted where that needs words."""
    return {"description": description, "example": example, **({"x-accepted": accepted} if accepted else {})}


def text_field(description: str, example: str | None, *, nullable: bool = False) -> fields.String:
    """Return a text of a reply."""
    return fields.String(required=True, allow_none=nullable, metadata=about(description, example))


def word_field(description: str, words: Sequence[str], example: str | None, *, nullable: bool = False) -> fields.String:
    """Return a text of a reply that is one of a few words."""
    metadata = about(description, example)
    if nullable:
        return fields.String(required=True, allow_none=True, metadata=metadata)
    return fields.String(required=True, validate=validate.OneOf(words), metadata=metadata)


def number_field(description: str, example: float | None, *, nullable: bool = False) -> fields.Float:
    """Return a number of a reply: an exact decimal."""
    return fields.Float(required=True, allow_none=nullable, metadata=about(description, example))


def count_field(description: str, example: int | None, *, nullable: bool = False) -> fields.Integer:
    """Return a whole number of a reply."""
    return fields.Integer(required=True, strict=True, allow_none=nullable, metadata=about(description, example))


def texts_field(description: str, example: Sequence[str]) -> fields.List[Any]:
    """Return a list of texts of a reply."""
    item = fields.String(metadata=about("one of them", example[0] if example else ""))
    return fields.List(item, required=True, metadata=about(description, list(example)))


def list_field(schema: Schema, description: str) -> fields.List[Any]:
    """Return a list of objects of a reply; the examples stand with the fields of the object."""
    item = fields.Nested(schema, metadata={"description": "one of them"})
    return fields.List(item, required=True, metadata={"description": description})


def one_field(schema: Schema, description: str, *, nullable: bool = False) -> fields.Nested:
    """Return an object within a reply; the examples stand with its fields."""
    return fields.Nested(schema, required=True, allow_none=nullable, metadata={"description": description})
