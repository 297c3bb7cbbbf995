# The commands of the project. Each sets up the environment it needs, with every package pinned by its hash.
# VENV=folder puts the environment elsewhere, PYTHON=python3.12 takes another Python (3.11 or newer).

PYTHON ?= python3
VENV ?= .venv
BIN = $(VENV)/bin
INSTALL = $(BIN)/python -m pip install --quiet --disable-pip-version-check --require-hashes

.PHONY: help run demo test lint bench accuracy lock
help:
	@echo "make run       serve on 127.0.0.1:8383"
	@echo "make demo      show verdicts on the order of the river sampler"
	@echo "make test      run all tests"
	@echo "make lint      check style, types and the direction of imports"
	@echo "make bench     measure against a bare route in one run"
	@echo "make accuracy  count how many labelled lines are read rightly"
	@echo "make lock      resolve the requirements anew (needs pip-tools)"

run: $(VENV)/.run
	$(BIN)/python -m gunicorn --config python:service.serving

demo: $(VENV)/.run
	$(BIN)/python -m demo

test: $(VENV)/.dev
	$(BIN)/python -m pytest

lint: $(VENV)/.dev
	$(BIN)/ruff check
	$(BIN)/ruff format --check
	$(BIN)/mypy
	$(BIN)/lint-imports

bench: $(VENV)/.run
	$(BIN)/python -m bench

accuracy: $(VENV)/.run
	$(BIN)/python -m bench.accuracy

LOCK = pip-compile --quiet --generate-hashes --strip-extras --allow-unsafe --no-header \
	--no-emit-index-url --no-emit-find-links --no-emit-trusted-host
lock:
	cd requirements && for set in run postgres distributed build dev; do $(abspath $(BIN))/$(LOCK) --output-file $$set.txt $$set.in || exit 1; done

$(VENV)/.run: requirements/run.txt
	$(PYTHON) -m venv $(VENV)
	$(INSTALL) -r requirements/run.txt
	@touch $@

$(VENV)/.dev: requirements/dev.txt requirements/oracles.txt
	$(PYTHON) -m venv $(VENV)
	$(INSTALL) -r requirements/dev.txt
	$(INSTALL) --no-deps -r requirements/oracles.txt
	@touch $(VENV)/.run $@
