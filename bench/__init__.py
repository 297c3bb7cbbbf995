"""Measures the service against a bare route under the same server, in one run: ``python -m bench``."""
