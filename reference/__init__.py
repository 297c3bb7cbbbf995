"""Facts of the trade: standards' tables, part families, materials and words, each with its source.

What does not belong here: reading a line (``service.reading``), judging a mate (``service.verdict``), anything of the
web or a database. Tables are CSV files in ``reference/data`` with a TOML file of the same name beside each; the small
typed modules beside this one look things up in them.
"""
