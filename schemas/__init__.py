"""The wire: what requests may hold and what replies hold, each field with its meaning and an example.

Request schemas load to plain values; reply schemas document what ``service.api`` builds (the tests hold every reply
against them) and are the source of ``/openapi.json``. Each schema is built once, at import, because building one costs
as much as using it. What does not belong here: judging, reading, and anything of the service.
"""
