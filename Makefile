# One command each. A fresh machine needs Python 3.11 or later with venv, and make.
PYTHON ?= python3
VENV := .venv
BIN := $(VENV)/bin
STAMP := $(VENV)/.ready

PAGES := src/cleatwright/web/pages/built-from.txt
WEB := $(shell find web -path web/node_modules -prune -o -type f -print)

# a test process for each core, two to eight of them; each goes through its share of the tests in
# their order, so that one finds what its neighbour computed, and at the end takes from the others
CORES := $(shell getconf _NPROCESSORS_ONLN 2>/dev/null || echo 2)
WORKERS ?= $(shell echo $$(( $(CORES) < 2 ? 2 : $(CORES) > 8 ? 8 : $(CORES) )))

.PHONY: demo test check format docs bench clean

demo: $(STAMP) $(PAGES)
	$(BIN)/cleatwright make examples/bicycle-room --out out/bicycle-room
	$(BIN)/cleatwright make examples/joiners-bench --out out/joiners-bench
	$(BIN)/cleatwright make examples/shared-workshop --out out/shared-workshop

# what Python made of the sources is kept, also where a shell says otherwise: the tests start the
# program some hundred times
test: $(STAMP) $(PAGES)
	env -u PYTHONDONTWRITEBYTECODE $(BIN)/pytest -n $(WORKERS) --dist worksteal --benchmark-disable

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
