"""Stored orders: the store and the proof together.

    log.py         what happened to an order (pure): events and receipts into the fields that a check takes
    compare.py     which verdicts changed between two proofs, and why (pure)
    orders.py      one function for each thing that can be done with a stored order

What does not belong here: HTTP (``service.api``), SQL (``service.store``), how an order is judged (``service.orders``).
"""
