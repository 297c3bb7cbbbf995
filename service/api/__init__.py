"""HTTP: one blueprint per resource, which only translates between requests and the pure functions behind them.

    resource.py    the decorator that makes a function a resource: query in, reply out, documentation
    query.py       query strings and schema errors
    body.py        request bodies: JSON, CSV, NDJSON, row by row
    wire.py        plain values of the service to plain dicts
    formats.py     which form a reply takes
    render.py      replies in their forms
    reports.py     lists of checks as reports for build tools
    problems.py    errors to replies

Then one module per resource. What does not belong here: any fact of the trade and any judgement.
"""
