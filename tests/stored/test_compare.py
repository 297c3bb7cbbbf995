"""Which verdicts changed, and why: each put down to what moved it."""

from service.store.orders import Changed
from service.stored.compare import compare

L1, L2, N1 = ("line", "L1"), ("line", "L2"), ("need", "N1")


def test_what_is_the_same_at_the_end_did_not_change() -> None:
    """Whatever it was in between."""
    assert compare({L1: "fits"}, [("data", {L1: "ask"}), ("habits", {L1: "fits"})]) == []
    assert compare({L1: "fits"}, []) == []


def test_each_change_names_what_moved_it() -> None:
    """One cause, or several in their order."""
    before = {L1: "fits", L2: "fits", N1: "covered"}
    causes = [("data", {L1: "wrong", L2: "fits", N1: "missing"}), ("plan", {L1: "wrong", L2: "ask", N1: "in doubt"})]
    assert compare(before, causes) == [
        Changed("line", "L1", "fits", "wrong", "data"),
        Changed("line", "L2", "fits", "ask", "plan"),
        Changed("need", "N1", "covered", "in doubt", "data, plan"),
    ]


def test_what_comes_and_goes_is_a_change() -> None:
    """With nothing before, or after."""
    assert compare({L1: "fits"}, [("plan", {L2: "ask"})]) == [
        Changed("line", "L1", "fits", "", "plan"),
        Changed("line", "L2", "", "ask", "plan"),
    ]
