"""Assignment: the best there is, never a piece twice, and always the same."""

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.orders.assign import USABLE, Assigned, Demand, Lot, assign
from service.verdict.model import VerdictWord

Words = dict[tuple[str, str], VerdictWord]


def value(found: list[tuple[int, VerdictWord]]) -> tuple[int, ...]:
    """Pieces covered by each verdict, the best first: what is to be as large as can be, in this order."""
    return tuple(sum(many for many, word in found if word == wanted) for wanted in USABLE)


def best_by_trying(demands: list[Demand], lots: list[Lot], words: Words) -> tuple[int, ...]:
    """Return the best value by trying every way to give the pieces of each lot to the needs."""

    def ways(lot: Lot) -> list[tuple[int, ...]]:
        limits = [one.quantity if words.get((lot.id, one.id)) in USABLE else 0 for one in demands]
        every = product(*(range(min(limit, lot.quantity) + 1) for limit in limits))
        return [way for way in every if sum(way) <= lot.quantity]

    best: tuple[int, ...] = (0,) * len(USABLE)
    for plan in product(*(ways(lot) for lot in lots)):
        got = [sum(way[place] for way in plan) for place in range(len(demands))]
        if any(many > one.quantity for many, one in zip(got, demands, strict=True)):
            continue
        given_ = [
            (many, words[lot.id, need.id])
            for lot, way in zip(lots, plan, strict=True)
            for many, need in zip(way, demands, strict=True)
            if many
        ]
        best = max(best, value(given_))
    return best


@st.composite
def small_orders(draw: st.DrawFn) -> tuple[list[Demand], list[Lot], Words]:
    """Up to three needs and three lots of up to three pieces, with any verdicts."""
    needs = draw(st.integers(1, 3))
    lots = draw(st.integers(0, 3))
    demands = [Demand(f"N{n}", draw(st.integers(0, 3)), draw(st.integers(0, 2))) for n in range(needs)]
    made = [Lot(f"L{n}", draw(st.integers(0, 3)), draw(st.integers(0, 2))) for n in range(lots)]
    every: list[VerdictWord | None] = ["fits", "marginal", "ask", "wrong", "unread", None]
    words = {
        (lot.id, need.id): word
        for lot in made
        for need in demands
        if (word := draw(st.sampled_from(every))) is not None
    }
    return demands, made, words


@settings(max_examples=150, deadline=None)
@given(small_orders())
def test_it_is_as_good_as_the_best_found_by_trying_everything(order: tuple[list[Demand], list[Lot], Words]) -> None:
    """As many pieces as possible by what fits, then by what is marginal, then by what is to be asked."""
    demands, lots, words = order
    found = assign(demands, lots, words)
    assert value([(many, word) for _, _, many, word in found]) == best_by_trying(demands, lots, words)


@settings(max_examples=150, deadline=None)
@given(small_orders())
def test_no_piece_is_counted_twice(order: tuple[list[Demand], list[Lot], Words]) -> None:
    """Neither on the side of the lots nor on that of the needs, and only where the verdict lets it."""
    demands, lots, words = order
    found = assign(demands, lots, words)
    for lot in lots:
        assert sum(many for name, _, many, _ in found if name == lot.id) <= lot.quantity
    for need in demands:
        assert sum(many for _, name, many, _ in found if name == need.id) <= need.quantity
    for lot_id, need_id, many, word in found:
        assert many > 0
        assert words[lot_id, need_id] == word in USABLE


@settings(max_examples=100, deadline=None)
@given(small_orders(), st.randoms(use_true_random=False))
def test_the_order_of_the_lists_changes_nothing(order: tuple[list[Demand], list[Lot], Words], random: object) -> None:
    """However they are sorted."""
    demands, lots, words = order
    first = assign(demands, lots, words)
    random.shuffle(demands)  # type: ignore[attr-defined]
    random.shuffle(lots)  # type: ignore[attr-defined]
    assert assign(demands, lots, dict(reversed(words.items()))) == first


def get(found: list[Assigned], lot: str, need: str) -> int:
    """Return how much of a lot goes to a need."""
    return sum(many for one, other, many, _ in found if (one, other) == (lot, need))


class TestPreference:
    """What counts where several assignments cover as much."""

    def test_a_fitting_piece_goes_where_no_other_fits(self) -> None:
        """Taking the nearest first would leave a need open."""
        words: Words = {("L1", "N1"): "fits", ("L1", "N2"): "fits", ("L2", "N1"): "fits"}
        found = assign([Demand("N1", 4, 0), Demand("N2", 4, 1)], [Lot("L1", 4, 0), Lot("L2", 4, 1)], words)
        assert (get(found, "L1", "N2"), get(found, "L2", "N1")) == (4, 4)

    def test_the_earlier_step_is_covered_first(self) -> None:
        """Where there is not enough for both."""
        words: Words = {("L1", "N1"): "fits", ("L1", "N2"): "fits"}
        found = assign([Demand("N1", 4, 1), Demand("N2", 4, 0)], [Lot("L1", 5, 0)], words)
        assert (get(found, "L1", "N2"), get(found, "L1", "N1")) == (4, 1)

    def test_what_is_here_goes_to_the_earlier_step(self) -> None:
        """Where there is enough for both, but not at once."""
        words: Words = {(lot, need): "fits" for lot in ("A", "B") for need in ("N1", "N2")}
        found = assign([Demand("N1", 4, 1), Demand("N2", 4, 0)], [Lot("A", 4, 1), Lot("B", 4, 0)], words)
        assert (get(found, "B", "N2"), get(found, "A", "N1")) == (4, 4)

    def test_a_fitting_piece_that_is_late_beats_a_doubtful_one_that_is_here(self) -> None:
        """The verdict counts most."""
        words: Words = {("A", "N1"): "ask", ("B", "N1"): "fits"}
        assert get(assign([Demand("N1", 4, 0)], [Lot("A", 9, 0), Lot("B", 9, 9)], words), "B", "N1") == 4

    def test_nothing_comes_of_nothing(self) -> None:
        """No lots, no needs, or no pair that may be."""
        assert assign([], [Lot("A", 1, 0)], {}) == []
        assert assign([Demand("N1", 1, 0)], [], {}) == []
        assert assign([Demand("N1", 1, 0)], [Lot("A", 1, 0)], {("A", "N1"): "wrong"}) == []


@pytest.mark.parametrize("size", [40])
def test_large_numbers_are_counted_exactly(size: int) -> None:
    """Lengths are counted in thousandths of a millimetre."""
    lots = [Lot(f"L{n}", 2_500_001, n) for n in range(size)]
    demands = [Demand(f"N{n}", 2_500_000, n) for n in range(size)]
    found = assign(demands, lots, {(lot.id, need.id): "fits" for lot in lots for need in demands})
    assert sum(many for *_, many, _ in found) == 2_500_000 * size
