"""Every family declaration proves itself: its examples, its order text read again, its table and its words."""

import pytest

from reference.families import all_families, by_name
from reference.families.base import Example, Family
from reference.quantities import Limits, ThreadSize
from reference.words import fold
from service.reading import read

EXAMPLES = [
    pytest.param(family, example, id=f"{family.name}: {example.line}")
    for family in all_families()
    for example in family.examples
]


def _shown(value: object) -> str:
    if isinstance(value, Limits):
        return format(value.nominal.normalize(), "f")
    return value.designation if isinstance(value, ThreadSize) else str(value)


@pytest.mark.parametrize(("family", "example"), EXAMPLES)
def test_example_is_read_as_declared(family: Family, example: Example) -> None:
    """A family's example line gives the state, the family, the size's meaning and the dimensions that it declares."""
    answer = read(example.line)
    assert answer.state == example.state, answer.question or answer.reason
    if example.state == "clear":
        assert answer.readings[0].family == family.name
    if example.size_names:
        assert answer.readings[0].size_names == example.size_names
    for key, shown in example.dimensions.items():
        assert _shown(answer.readings[0].dimensions[key]) == shown


@pytest.mark.parametrize("family", all_families(), ids=lambda family: family.name)
def test_order_text_is_read_as_what_it_orders(family: Family) -> None:
    """The order text of a clear example, read again, names the same family and the same dimensions."""
    checked = 0
    for example in family.examples:
        answer = read(example.line)
        if answer.state != "clear" or answer.readings[0].missing or answer.readings[0].family != family.name:
            continue
        first = answer.readings[0]
        again = read(first.order_text)
        assert again.state == "clear", f"{first.order_text!r}: {again.question or again.reason}"
        assert again.readings[0].family == first.family, first.order_text
        for need in by_name()[family.name].needs:
            for key in need.split("|"):
                if key in first.dimensions and key in again.readings[0].dimensions:
                    assert _shown(again.readings[0].dimensions[key]) == _shown(first.dimensions[key]), first.order_text
        checked += 1
    assert (
        checked
        or not any(example.state == "clear" for example in family.examples)
        or family.generic
        or all(read(example.line).readings[0].missing for example in family.examples if example.state == "clear")
    )


@pytest.mark.parametrize("family", all_families(), ids=lambda family: family.name)
def test_declaration_is_complete(family: Family) -> None:
    """A family has nouns in five languages (or a reason not to), a source, examples, and a table that loads."""
    assert family.nouns.get("en"), "English nouns are missing"
    assert family.source
    assert family.examples or family.generic
    if family.table:
        assert family.sizes is not None
        assert family.sizes.rows
        listed = family.sizes.standards()
        for standard in family.standards:
            if standard.rows is not None:
                assert standard.rows in listed, f"{standard.name} points to rows of {standard.rows}"
    for phrases in family.nouns.values():
        for phrase in phrases:
            assert fold(phrase).strip()
