"""Two replicas on one PostgreSQL behind a proxy: ready to start, to copy from, and started by the tests."""
