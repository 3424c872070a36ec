# One command each. A fresh machine needs Python 3.11 or later with venv, and make.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
STAMP := $(VENV)/.ready

PAGES := src/cleatwright/web/pages/built-from.txt
WEB := $(shell find web -path web/node_modules -prune -o -type f -print)

.PHONY: demo test check format docs bench clean

demo: $(STAMP) $(PAGES)
	$(BIN)/cleatwright make examples/bicycle-room --out out/bicycle-room
	$(BIN)/cleatwright make examples/joiners-bench --out out/joiners-bench
	$(BIN)/cleatwright make examples/shared-workshop --out out/shared-workshop

test: $(STAMP) $(PAGES)
	$(BIN)/pytest -n 2 --benchmark-disable

check: $(STAMP) $(PAGES)
	$(BIN)/ruff format --check src tests benchmarks docs hatch_build.py
	$(BIN)/ruff check src tests benchmarks docs hatch_build.py
	$(BIN)/lint-imports
	$(BIN)/pyright
	$(BIN)/python hatch_build.py check

format: $(STAMP)
	$(BIN)/ruff format src tests benchmarks docs hatch_build.py
	$(BIN)/ruff check --fix src tests benchmarks docs hatch_build.py

docs: $(STAMP) $(PAGES)
	$(BIN)/python docs/generate.py

bench: $(STAMP)
	$(BIN)/python benchmarks/run.py

# set-up: a virtual environment with pinned versions; done again when a pin changes
$(STAMP): constraints.txt pyproject.toml
	$(PYTHON) -m venv $(VENV)
	$(BIN)/python -m pip install --quiet --upgrade pip -c constraints.txt
	$(BIN)/python -m pip install --quiet --editable ".[dev,step]" -c constraints.txt
	touch $(STAMP)

# the pages of the browser application; done again when their sources change
$(PAGES): $(STAMP) $(WEB)
	$(BIN)/python hatch_build.py
	touch $(PAGES)

clean:
	rm -rf $(VENV) out .pytest_cache .ruff_cache
