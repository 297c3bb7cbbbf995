"""The store: one SQLAlchemy engine for what is kept between requests.

What does not belong here: anything of ours. The store imports nothing of the service, callers hand it plain values.
"""
