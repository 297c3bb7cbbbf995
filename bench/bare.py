"""The bare route: Flask with one constant reply, of the size that the environment asks for."""

import os

from flask import Flask, Response

app = Flask("bare", static_folder=None)
_BODY = b'{"verdict":"' + b"x" * max(0, int(os.environ.get("BENCH_REPLY_BYTES", "600")) - 14) + b'"}'


@app.get("/bare")
def bare() -> Response:
    """Answer what is always answered."""
    return Response(_BODY, content_type="application/json")
