"""The store: what is kept between requests, in SQLite or PostgreSQL, by SQLAlchemy.

    engine.py      opens the database; what it says when it cannot serve
    model.py       the mapped classes
    migrate.py     brings the tables to the present version, whole or not at all (migrations/)
    store.py       one transaction to read or to write in
    orders.py      orders: plan, log of what happened, revisions, verdicts
    habits.py      what a supplier means by a sign
    tokens.py      who may
    replies.py     replies kept for repeated requests
    exchange.py    everything as one open file, and back

What does not belong here: HTTP, reading, judging. The store imports nothing else of the service; callers hand it plain
values.
"""
