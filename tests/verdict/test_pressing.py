"""What a press fit does, told beside the verdict."""

from decimal import Decimal


def press(found):
    """Return the finding about pressing, or None."""
    return next((one for one in found.readings[0].findings if one.code == "press-fit"), None)


def test_pressing_is_told_where_material_and_length_are_known(reading, verdict) -> None:
    """A pin 5 m6 in 5 H7, 10 mm deep in aluminium: 12 micrometres make about 91 MPa (thick-cylinder theory)."""
    pin = reading("parallel pin", outer_diameter="5 m6", length="20")
    finding = press(verdict(pin, bore="5 H7 depth 10 in aluminium", fit="location"))
    assert finding is not None
    assert finding.weight == "note"
    assert Decimal(85) < Decimal(finding.numbers["pressure"]) < Decimal(100)
    assert Decimal(finding.numbers["holds"]) == 0
    assert "6061-T6" in finding.text
    assert press(verdict(pin, bore="5 H7 depth 10", fit="location")) is None
    loose = reading("parallel pin", outer_diameter="5 h8", length="20")
    assert press(verdict(loose, bore="5 H7 depth 10 in aluminium", fit="slip")) is None


def test_wall_that_yields_is_said(reading, verdict) -> None:
    """In plastic the tightest pair goes past the yield point, and that is said."""
    pin = reading("parallel pin", outer_diameter="5 s7", length="20")
    finding = press(verdict(pin, bore="5 H7 in PLA", fit="-0.1..0"))
    assert finding is not None
    assert "yields" in finding.text


def test_a_bush_is_hollow(reading, verdict) -> None:
    """The bore of a bush lowers the pressure."""
    solid = press(
        verdict(reading("plain bush", outer_diameter="10 s7", length="10"), bore="10 H7 in steel", fit="press")
    )
    hollow = press(
        verdict(
            reading("plain bush", outer_diameter="10 s7", bore="8", length="10"), bore="10 H7 in steel", fit="press"
        )
    )
    assert Decimal(hollow.numbers["pressure"]) < Decimal(solid.numbers["pressure"])
