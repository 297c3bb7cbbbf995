"""Materials by grade and by bare word, property classes, workshop figures."""

from decimal import Decimal

import pytest

from reference import materials, tables, workshop
from reference.materials import material, property_class


@pytest.mark.parametrize(
    ("word", "grade"),
    [
        ("aluminium", "6061-T6"),
        ("Alu", "6061-T6"),
        ("alluminio", "6061-T6"),
        ("steel", "S235JR"),
        ("Stahl", "S235JR"),
        ("acier", "S235JR"),
        ("acciaio inossidabile", "1.4301"),
        ("laiton", "CW614N"),
        ("ottone", "CW614N"),
        ("latón", "CW614N"),
        ("Grauguss", "EN-GJL-250"),
        ("hierro fundido", "EN-GJL-250"),
        ("Kunststoff", "POM"),
        ("nylon", "PA66"),
        ("mild steel", "S235JR"),
    ],
)
def test_bare_word_stands_for_one_stated_grade(word: str, grade: str) -> None:
    """A word in five languages gives one ordinary grade and says so."""
    found = material(word)
    assert found.grade == grade
    assert grade in found.assumed


@pytest.mark.parametrize(
    ("name", "grade"),
    [
        ("6061-T6", "6061-T6"),
        ("EN AW-6082 T6", "6082-T6"),
        ("7075", "7075-T6"),
        ("S235", "S235JR"),
        ("C45", "C45+QT"),
        ("304", "1.4301"),
        ("AISI 316", "1.4401"),
        ("CuZn39Pb3", "CW614N"),
        ("GG-25", "EN-GJL-250"),
        ("EN-GJL-250", "EN-GJL-250"),
        ("PA 66", "PA66"),
        ("PLA", "PLA"),
    ],
)
def test_named_grade_assumes_nothing(name: str, grade: str) -> None:
    """A grade in its usual spellings is found and leaves nothing assumed."""
    found = material(name)
    assert found.grade == grade
    assert found.assumed == ""


def test_unknown_material_says_what_is_known() -> None:
    """The message names the value and examples."""
    with pytest.raises(materials.UnknownMaterial, match=r"material 'butter'.*6061-T6"):
        material("butter")


def test_no_alias_stands_for_two_grades() -> None:
    """Spellings are unique, across grades and across words for kinds."""
    grades = {
        materials._key(alias): row.text("grade")
        for row in tables.load("materials")
        for alias in row.text("aliases").split("|")
    }
    for row in tables.load("materials"):
        for alias in (row.text("grade"), *row.text("aliases").split("|")):
            assert grades.get(materials._key(alias), row.text("grade")) == row.text("grade"), alias
    words = {materials._key(word) for row in tables.load("material_kinds") for word in row.text("words").split("|")}
    assert not words & set(grades)


@pytest.mark.parametrize("grade", materials.material_grades())
def test_figures_of_a_grade_are_possible(grade: str) -> None:
    """Yield below tensile strength, Poisson's ratio below a half, an expansion within its published band."""
    found = material(grade)
    assert 0 < found.yield_strength <= found.tensile_strength
    assert 0.2 < found.poisson_ratio < 0.5
    assert 0.5 * found.tensile_strength <= found.shear_strength <= 0.6 * found.tensile_strength
    low, high = found.expansion_band
    assert low <= found.expansion <= high or found.grade in ("PTFE",)
    assert found.source
    assert found.basis in tables.BASES


def test_every_kind_has_friction_and_an_ordinary_grade() -> None:
    """Each kind of material names a grade of its own kind and has a friction for pressing."""
    for kind in materials.material_kinds():
        assert material(kind).kind == kind
        assert workshop.press_friction(kind).lower < workshop.press_friction(kind).upper


def test_property_classes() -> None:
    """8.8 grows stronger past M16; 12.9 has the minima of ISO 898-1, not the nominal figures."""
    assert property_class("8.8", 16).yield_strength == 640
    assert property_class("8.8", 18).yield_strength == 660
    assert (property_class("12.9", 5).tensile_strength, property_class("12.9", 5).proof_stress) == (1220, 970)
    assert property_class("08.8", 5) == property_class("8.8", 5)
    assert property_class("a2-70", Decimal(5)).stainless
    assert property_class("A470", 5).yield_strength == 450


def test_unknown_property_class() -> None:
    """A class that is none, or none at this diameter, is named."""
    with pytest.raises(materials.UnknownPropertyClass, match=r"property_class '8.9'"):
        property_class("8.9", 5)
    with pytest.raises(materials.UnknownPropertyClass, match="up to M24"):
        property_class("A2-70", 30)


def test_screw_friction() -> None:
    """Coefficients as given, classes as bands, nothing stated as the lowest plausible."""
    assert workshop.screw_friction("0,12").lower == workshop.screw_friction(0.12).upper == 0.12
    assert workshop.screw_friction("d").upper == 0.35
    assert workshop.screw_friction(None).lower == 0.10


def test_heads_and_keys() -> None:
    """A family name finds its head; a size that the table lacks is named with those it has."""
    assert workshop.head("button head screw", 4).drive_size == 2.5
    with pytest.raises(workshop.UnknownFigure, match=r"M1\.6"):
        workshop.head("socket", 7)
    key = workshop.hexagon_key(5)
    assert key is not None
    assert key.short_arm < key.long_arm
    assert workshop.hexagon_key(5.5) is None


def test_processes_and_instruments() -> None:
    """Where a process lands, what an instrument can be out by, and clear errors for others."""
    reamed = workshop.process_spread("reamed", Decimal(5))
    assert reamed.mean_deviation + reamed.half_spread == Decimal("0.012")
    assert workshop.process_spread("Printed", Decimal(5)).mean_deviation < 0
    assert workshop.process_spread("laser cut", Decimal(5), "thin metal").half_spread == Decimal("0.1")
    assert workshop.instrument("Messschieber").uncertainty == Decimal("0.03")
    assert workshop.instrument("calliper", "hole under 10 mm").uncertainty == Decimal("0.05")
    with pytest.raises(workshop.UnknownFigure, match="process 'cast'"):
        workshop.process_spread("cast", Decimal(5))
    with pytest.raises(workshop.UnknownFigure, match="no spread is held at 500"):
        workshop.process_spread("reamed", Decimal(500))
    with pytest.raises(workshop.UnknownFigure, match="instrument 'eye'"):
        workshop.instrument("eye")


def test_breaking_torque_of_stainless() -> None:
    """ISO 3506-1 by size, None where it has none."""
    found = workshop.stainless_breaking_torque("A4-80", Decimal(4))
    assert found is not None
    assert found[0] == 4.3
    assert workshop.stainless_breaking_torque("A2-70", 7) is None


@pytest.mark.parametrize(
    ("word", "plain", "stainless"),
    [("oil", "B", "D"), ("Geölt", "B", "D"), ("dry", "C", "E"), ("anti-seize", "A", "B"), ("MoS2", "A", "A")],
)
def test_a_treatment_stands_for_a_class_of_friction(word: str, plain: str, stainless: str) -> None:
    """VDI 2230 gives stainless steel other classes than plain steel."""
    assert workshop.lubrication_friction(word).name == plain
    assert workshop.lubrication_friction(word, stainless=True).name == stainless


def test_a_treatment_that_is_not_known_is_refused() -> None:
    """With what is."""
    with pytest.raises(workshop.UnknownFigure, match="lubrication 'honey' is not known; accepted are as delivered"):
        workshop.lubrication_friction("honey")
