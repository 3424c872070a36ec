# One command each. A fresh machine needs Python 3.11 or later with venv, and make.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
STAMP := $(VENV)/.ready

.PHONY: demo test check format docs bench clean

demo: $(STAMP)
	$(BIN)/cleatwright make examples/bicycle-room --out out/bicycle-room
	$(BIN)/cleatwright make examples/joiners-bench --out out/joiners-bench
	$(BIN)/cleatwright make examples/shared-workshop --out out/shared-workshop

test: $(STAMP)
	$(BIN)/pytest -n 2 --benchmark-disable

check: $(STAMP)
	$(BIN)/ruff format --check src tests benchmarks docs
	$(BIN)/ruff check src tests benchmarks docs
	$(BIN)/lint-imports
	$(BIN)/pyright

format: $(STAMP)
	$(BIN)/ruff format src tests benchmarks docs
	$(BIN)/ruff check --fix src tests benchmarks docs

docs: $(STAMP)
	$(BIN)/python docs/generate.py

bench: $(STAMP)
	$(BIN)/python benchmarks/run.py

# set-up: a virtual environment with pinned versions; done again when a pin changes
$(STAMP): constraints.txt pyproject.toml
	$(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --upgrade pip -c constraints.txt
	$(BIN)/python -m pip install --quiet --editable ".[dev,step]" -c constraints.txt
	touch $(STAMP)

clean:
	rm -rf $(VENV) out .pytest_cache .ruff_cache
