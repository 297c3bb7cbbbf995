"""Screws that clamp a stack: length, engagement, bottoming, protrusion."""

from decimal import Decimal

import pytest

from service.verdict.clamp import length_tolerance

SCREW = "socket head cap screw"


def codes(found) -> list[str]:
    """Return the codes of all findings of the only reading, notes apart."""
    return [finding.code for finding in found.readings[0].findings if finding.weight != "note"]


def screw(reading, length: str = "", family: str = SCREW, thread: str = "M4", **more: str):
    """Return a screw."""
    sizes = {"length": length} if length else {}
    return reading(
        family,
        () if length else ("length",),
        f"Screw {thread} x {length or '<length>'}",
        thread=thread,
        **sizes,
        **more,
    )


def test_short_screw_engages_too_little(reading, verdict) -> None:
    """M4x45 through 42 mm engages 3 mm, 0.75 d: wrong, with both the rule of thumb and the shear areas in numbers."""
    found = verdict(screw(reading, "45", property_class="8.8"), clamp="42 into M4 depth 10 in aluminium")
    assert found.verdict == "wrong"
    finding = found.readings[0].findings[1]
    assert finding.code == "too-little-thread"
    assert finding.numbers["engagement"] == Decimal(3)
    assert finding.numbers["rule"] == Decimal(8)
    assert Decimal(finding.numbers["strip_load"]) < Decimal(finding.numbers["preload"])


def test_screw_that_reaches_holds(reading, verdict) -> None:
    """M4x50 8.8 engages 8 mm, 2 d, in 10 mm of thread: it holds and does not bottom."""
    found = verdict(screw(reading, "50", property_class="8.8"), clamp="42 into M4 depth 10 in aluminium")
    assert (found.verdict, codes(found)) == ("fits", ["thread-matches", "thread-holds"])
    assert found.cautions


def test_long_screw_bottoms(reading, verdict) -> None:
    """M4x55 would put 13 mm into 10 mm of thread."""
    found = verdict(screw(reading, "55", property_class="8.8"), clamp="42 into M4 depth 10 in aluminium")
    assert (found.verdict, codes(found)[1]) == ("wrong", "bottoms")
    through = verdict(screw(reading, "55", property_class="8.8"), clamp="42 into M4 depth 10 through in aluminium")
    assert through.verdict == "fits"


@pytest.mark.parametrize(
    ("depth", "expected", "share"),
    [("8.5", "fits", None), ("8.4", "marginal", "0.9918"), ("8", "marginal", "0.5000"), ("7.9", "wrong", None)],
)
def test_bottoming_counts_the_tolerance_of_the_length(reading, verdict, depth: str, expected: str, share: str) -> None:
    """A 50 mm screw varies by 0.5 mm (js15): every one must clamp before it bottoms."""
    found = verdict(screw(reading, "50", property_class="8.8"), clamp=f"42 into M4 depth {depth} in steel")
    assert found.verdict == expected
    assert found.share == (share and Decimal(share))


def test_shear_area_decides_between_classes(reading, verdict) -> None:
    """6 mm of M4 in 6061-T6, 1.5 d, hold a class 8.8 screw at full preload, not a 12.9 one: less torque helps."""
    soft = verdict(screw(reading, "50", property_class="8.8"), clamp="44 into M4 depth 7 in 6061-T6")
    hard = verdict(screw(reading, "50", property_class="12.9"), clamp="44 into M4 depth 7 in 6061-T6")
    assert (soft.verdict, codes(soft)[1]) == ("fits", "thread-holds")
    assert (hard.verdict, codes(hard)[1]) == ("marginal", "thread-strips-at-full-preload")
    assert "less torque" in hard.readings[0].findings[1].text
    assert "8.8 holds" in hard.readings[0].findings[1].text


def test_thread_of_a_guide_carriage_is_warned_of(reading, verdict) -> None:
    """3 mm of M3 in a carriage: whatever the verdict, a stripped thread costs the whole part."""
    found = verdict(screw(reading, "8", thread="M3"), clamp="5 into M3 depth 3.5 in guide carriage")
    assert found.verdict == "fits"
    assert found.mate.into.text == "M3 hole, 3.5 mm deep in guide carriage"
    warning = found.readings[0].findings[-1]
    assert (warning.code, warning.weight) == ("fragile-thread", "note")
    assert warning.text.startswith("Shallow, small and hard to replace: 3 mm (1 d)")
    plain = verdict(screw(reading, "8", thread="M3"), clamp="5 into M3 depth 3.5 in steel")
    assert "hard to replace:" not in plain.readings[0].findings[-1].text
    deep = verdict(screw(reading, "30", thread="M6"), clamp="16 into M6 depth 16 in steel")
    assert [one.code for one in deep.readings[0].findings] == ["thread-matches", "enough-thread"]


def test_rule_of_thumb_decides_without_a_property_class(reading, verdict) -> None:
    """Without a class the rule of thumb decides: met at 2 d in aluminium, marginal at 1.5 d."""
    assert verdict(screw(reading, "50"), clamp="42 into M4 depth 10 in aluminium").verdict == "fits"
    found = verdict(screw(reading, "50"), clamp="44 into M4 depth 7 in aluminium")
    assert (found.verdict, codes(found)[1]) == ("marginal", "less-thread-than-usual")


def test_unknown_material_is_open_only_where_it_matters(reading, verdict) -> None:
    """Without a material 2.5 d are enough and less than 1 d too little in any; between them it must be stated."""
    grips = {"40": "fits", "43": "ask", "47": "wrong"}
    for grip, expected in grips.items():
        assert verdict(screw(reading, "50"), clamp=f"{grip} into M4 depth 20").verdict == expected


def test_unknown_depth_is_open_unless_too_short_anyway(reading, verdict) -> None:
    """Without a depth nobody knows whether the screw bottoms; a screw that engages too little is wrong regardless."""
    found = verdict(screw(reading, "50"), clamp="42 into M4 in steel")
    assert (found.verdict, codes(found)[1]) == ("ask", "depth-not-stated")
    assert found.question is not None
    assert "deep" in found.question
    assert verdict(screw(reading, "45"), clamp="42 into M4 in steel").verdict == "wrong"


def test_screw_that_does_not_reach(reading, verdict) -> None:
    """A screw shorter than the stack never reaches the thread."""
    found = verdict(screw(reading, "40"), clamp="42 into M4 depth 10 in steel")
    assert (found.verdict, codes(found)[1]) == ("wrong", "does-not-reach")


def test_wrong_thread_ends_the_judgement(reading, verdict) -> None:
    """With the wrong thread its length does not matter."""
    found = verdict(screw(reading, "50", thread="M3"), clamp="42 into M4 depth 10 in steel")
    assert codes(found) == ["thread-diameter"]


def test_missing_length_is_open(reading, verdict) -> None:
    """Without a length nothing can be said, but the order text proposes one."""
    found = verdict(screw(reading), clamp="10 into M4 depth 10 in steel")
    assert (found.verdict, codes(found)) == ("ask", ["thread-matches", "length-missing"])
    assert found.order_text == "Screw M4 x 16"


@pytest.mark.parametrize(
    ("length", "expected", "code"),
    [("20", "fits", "nut-full"), ("16", "marginal", "little-protrusion"), ("14", "wrong", "nut-not-full"),
     ("12", "wrong", "nut-not-full"), ("30", "fits", "nut-full")],
)  # fmt: skip
def test_screw_stands_out_of_its_nut(reading, verdict, length: str, expected: str, code: str) -> None:
    """Through 10 mm and an M5 nut of 4.7 mm, two pitches of 0.8 mm must stand out: 16.3 mm at least."""
    found = verdict(screw(reading, length, thread="M5"), clamp="10 into nut M5")
    assert (found.verdict, codes(found)[1]) == (expected, code)


def test_plain_shank_must_not_be_longer_than_the_stack(reading, verdict) -> None:
    """A 60 mm screw threaded over 24 mm has 36 mm of shank: in 10 mm of parts it does not clamp."""
    long = screw(reading, "60", thread="M6", thread_length="24")
    assert "shank-too-long" in codes(verdict(long, clamp="10 into M6 depth 60 in steel"))
    assert "shank-too-long" not in codes(verdict(long, clamp="40 into M6 depth 60 in steel"))


def test_parts_without_a_head_clamp_nothing(reading, verdict) -> None:
    """A set screw and a pin clamp no stack."""
    for family in ("set screw", "parallel pin"):
        assert codes(verdict(screw(reading, "50", family), clamp="42 into M4 depth 10")) == ["wrong-kind"]


@pytest.mark.parametrize(("length", "tolerance"), [("10", "0.29"), ("50", "0.5"), ("150", "0.8"), ("160", "2")])
def test_length_tolerance_is_that_of_product_grade_a(length: str, tolerance: str) -> None:
    """js15 up to 150 mm, js17 above: IT15 is 0.58 at 10, 1.0 at 50, 1.6 at 150 mm, IT17 is 4.0 at 160 mm."""
    assert length_tolerance(Decimal(length)) == Decimal(tolerance)


@pytest.mark.parametrize(("length", "expected"), [("18", "fits"), ("17", "marginal"), ("16", "wrong")])
def test_lock_nut_needs_one_pitch_beyond_its_ring(reading, verdict, length: str, expected: str) -> None:
    """Through 10 mm and an M5 lock nut of 6.8 mm (ISO 7040) one pitch of 0.8 mm must stand out."""
    assert verdict(screw(reading, length, thread="M5"), clamp="10 into lock nut M5").verdict == expected


def test_washer_counts_with_its_thickness(reading, verdict) -> None:
    """A washer of ISO 7089 for M5 is 1 mm thick: it takes that much of the length."""
    found = verdict(screw(reading, "20", thread="M5"), clamp="10+washer+washer into nut M5")
    assert found.readings[0].findings[1].numbers["protrusion"] == Decimal("3.3")


def test_tolerances_of_a_stack_at_worst_and_by_root_sum_square(reading, verdict) -> None:
    """10 ±0.1 + 12 ±0.05 + 20: 41.85..42.15 at worst, 41.888..42.112 by chance; three parts go by the worst case."""
    for text in ("10 +-0.1 + 12 +-0.05+20", "10 ±0.1+12 +/- 0.05 + 20", "9.9..10.1 + 11.95..12.05 + 20"):
        found = verdict(screw(reading, "50", property_class="8.8"), clamp=f"{text} into M4 depth 10 in aluminium")
        note = found.readings[0].findings[-1]
        assert (found.verdict, note.code, note.weight) == ("fits", "grip-stack", "note")
        assert (note.numbers["grip_lower"], note.numbers["grip_upper"]) == (Decimal("41.85"), Decimal("42.15"))
        rss = (note.numbers["root_sum_square_lower"], note.numbers["root_sum_square_upper"])
        assert rss == (Decimal("41.888"), Decimal("42.112"))
        assert "fewer than 4 parts: go by the worst case" in note.text
        # ±0.5 of the screw and ±0.15 of the stack; by chance sqrt(0.5² + 0.1² + 0.05²).
        assert (note.numbers["reach_lower"], note.numbers["reach_upper"]) == (Decimal("7.35"), Decimal("8.65"))
        assert note.numbers["root_sum_square_reach_lower"] == Decimal("7.488")
    assert found.mate.layers == (10, 12, 20)


def test_thin_stack_bottoms_and_thick_stack_engages_too_little(reading, verdict) -> None:
    """The spread of the stack adds to that of the screw, at worst for the verdict, by chance for the share."""
    m4 = screw(reading, "50", property_class="8.8")
    assert verdict(m4, clamp="42 into M4 depth 8.6 in 6061-T6").verdict == "fits"
    thin = verdict(m4, clamp="22 ±0.3 + 20 into M4 depth 8.6 in 6061-T6")
    assert (thin.verdict, codes(thin)[1]) == ("marginal", "some-bottom")
    assert thin.share == Decimal("0.9990")
    thick = verdict(m4, clamp="22 ±1 + 22 ±1 into M4 depth 10 in 6061-T6")
    assert (thick.verdict, codes(thick)[-1]) == ("marginal", "some-engage-too-little")
    assert thick.readings[0].findings[-2].numbers["engagement"] == 4
    assert thick.share == thick.readings[0].findings[-2].numbers["share"] < 1


def test_a_lopsided_tolerance_counts_from_its_middle(reading, verdict) -> None:
    """10 +0.4/0 is 10.2 in the middle; a plus that joins is told from one that is a tolerance."""
    found = verdict(
        screw(reading, "50", property_class="8.8"), clamp="10 +0.4/0 + 12 0/-0.2+20 into M4 depth 12 in steel"
    )
    assert found.mate.grip == 42
    assert found.readings[0].findings[1].numbers["engagement"] == Decimal("7.9")
    inch = verdict(screw(reading, "50"), clamp="1/2 in+3/4 in into M4 depth 25 in steel")
    assert inch.mate.layers == (Decimal("12.7"), Decimal("19.05"))


def test_share_of_screws_that_stand_out_of_their_nut(reading, verdict) -> None:
    """A stack that varies makes some screws end too early."""
    found = verdict(screw(reading, "20", thread="M5"), clamp="13.3 ±1.2 into nut M5")
    assert (found.verdict, codes(found)[-1]) == ("marginal", "little-protrusion")
    assert Decimal("0.9") < found.share < 1
