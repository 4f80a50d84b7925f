# Two commands on a fresh machine (Python >= 3.11, git, make): `make site` and `make test`.
# A build writes nothing but the ignored folders .venv/ and site/.

PYTHON ?= python3
UV ?= uv
ARGS ?=
BASE ?= HEAD^1
VENV := .venv
PY := $(VENV)/bin/python
LOCKED := .ci/locked

export PYTHONPYCACHEPREFIX := $(CURDIR)/$(VENV)/cache/bytecode
# Bytecode goes into the ignored folder, so it is kept whatever the surroundings say: each process starts in half the time.
unexport PYTHONDONTWRITEBYTECODE
export PIP_DISABLE_PIP_VERSION_CHECK := 1
export NO_MKDOCS_2_WARNING := 1
# Messages name these commands as targets, so that they work as they are typed.
export HANDBOOK_TARGETS := addresses check conclude serve

.DEFAULT_GOAL := help
.DELETE_ON_ERROR:
.PHONY: help site test serve check authored addresses conclude schemas generated changes suggestions sarif due newest lasting bench fuzz lock clean

help: ## List what can be made
	@sed -n 's/^\([a-z-]*\):[^#]*## \(.*\)/  make \1|\2/p' Makefile | \
		awk -F'|' '{name[NR] = $$1; line[NR] = $$2; if (length($$1) > width) width = length($$1)} \
			END {for (i = 1; i <= NR; i++) printf "%-" width "s  %s\n", name[i], line[i]}'

site: $(VENV)/site.stamp ## Check the catalog, build the handbook into site/
	@$(PY) -m mkdocs build --strict
	@echo "The handbook is in site/ (open it with: make serve)"

# Who has nothing left to do takes over tests of another process, so that every processor is busy to the end.
test: $(VENV)/test.stamp ## Lint, check form and types, test; ARGS="-k name" passes options to pytest
	@$(PY) -m ruff check --quiet .
	@$(PY) -m ruff format --quiet --check . || { echo "error: not in the form of the house; run: $(VENV)/bin/ruff format ." >&2; exit 1; }
	@$(PY) -m mypy --no-error-summary
	@$(PY) -m pytest --numprocesses auto --dist worksteal --durations 10 $(ARGS)

serve: $(VENV)/site.stamp ## Preview with live reload on http://127.0.0.1:8000/
	@$(PY) -m mkdocs serve --livereload $(ARGS)

check: $(VENV)/site.stamp ## Check the catalog, its conclusions and addresses; warnings count as errors
	@$(VENV)/bin/handbook check --all --strict $(ARGS)

authored: $(VENV)/site.stamp ## Check only what people write; what is generated from it may be behind
	@$(VENV)/bin/handbook check --strict $(ARGS)

addresses: $(VENV)/site.stamp ## Add new pages to the list of published addresses
	@$(VENV)/bin/handbook addresses $(ARGS)

conclude: $(VENV)/site.stamp ## Recompute what the numbers say into catalog/conclusions/
	@$(VENV)/bin/handbook conclude $(ARGS)

schemas: $(VENV)/site.stamp ## Write what editors complete into catalog/.schemas/ (conclude does, too)
	@$(VENV)/bin/handbook schema --all catalog/.schemas >/dev/null

# What the workflows do; each works here, too.
generated: $(VENV)/site.stamp ## Make conclusions and addresses; those that came after BASE=HEAD^1 must be right
	@$(VENV)/bin/handbook upkeep generated --strict $(if $(BASE),--since "$(BASE)") $(ARGS)

suggestions: $(VENV)/site.stamp ## Mend what can be mended; what lies on lines after BASE goes into review.json
	@$(VENV)/bin/handbook check --fix $(ARGS) || [ $$? -eq 1 ]
	@$(VENV)/bin/handbook upkeep suggestions --since "$(BASE)" --out review.json

sarif: $(VENV)/site.stamp ## Write what check finds to check.sarif, for code scanning
	@$(VENV)/bin/handbook check --format sarif $(ARGS) > check.sarif || [ $$? -eq 1 ]

due: $(VENV)/site.stamp ## List reviews that are due, and this week's references to look up
	@$(VENV)/bin/handbook upkeep due $(ARGS)

changes: $(VENV)/site.stamp ## Show as Markdown what the catalog says otherwise than at BASE=HEAD^1
	@$(VENV)/bin/handbook diff "$(or $(BASE),HEAD^1)" --format markdown $(ARGS)

# pip reads dependency groups from version 25.1 on.
newest: $(PY) ## Test with the newest packages that pyproject.toml allows, in an environment of its own
	@$(PY) -m venv --clear $(VENV)/newest
	@$(VENV)/newest/bin/python -m pip install --quiet --upgrade "pip>=25.1"
	@$(VENV)/newest/bin/python -m pip install --quiet --group build --group test --editable .
	@$(VENV)/newest/bin/python -m pytest --numprocesses auto --dist worksteal $(ARGS)

# Python 3.11: of some of the oldest there is nothing for a later one.
lasting: $(VENV)/site.stamp ## Build with the oldest packages allowed, and with ProperDocs instead of MkDocs: the same pages
	@PYTHONPATH=tests $(PY) -m lasting $(ARGS)

bench: $(VENV)/test.stamp ## Measure growth and ratios (minutes); ARGS="--sizes 1000 3000 10000"
	@PYTHONPATH=tests $(PY) -m bench $(ARGS)

fuzz: $(VENV)/test.stamp ## Try mutated inputs of every kind; ARGS="--runs 20000 --seed 2"
	@PYTHONPATH=tests $(PY) -m fuzz $(ARGS)

# Keeps what is pinned where it still fits; ARGS=--upgrade moves everything to the newest.
COMPILE = $(UV) pip compile pyproject.toml --quiet --universal --python-version 3.11 --generate-hashes \
	--no-annotate --no-emit-index-url --custom-compile-command "make lock" $(ARGS)
lock: ## Pin the sets in .ci/locked anew from pyproject.toml (needs uv)
	@mkdir -p $(LOCKED)
	@$(COMPILE) --group build -o $(LOCKED)/site.txt
	@$(COMPILE) --group build --group test --constraint $(LOCKED)/site.txt -o $(LOCKED)/test.txt

clean: ## Remove the virtual environment and the built site
	@rm -rf $(VENV) site

# A Python asked for by name that did not make the environment makes it anew.
WHICH = import os, sys; print(*sys.version_info[:3], os.path.realpath(sys.base_prefix))
ifeq ($(origin PYTHON),command line)
ifneq ($(wildcard $(PY)),)
ifneq ($(shell "$(PYTHON)" -c '$(WHICH)' 2>/dev/null || echo none),$(shell $(PY) -c '$(WHICH)' 2>/dev/null))
.PHONY: $(PY)
endif
endif
endif

$(PY):
	@command -v "$(PYTHON)" >/dev/null || { echo "error: $(PYTHON) not found; install Python 3.11 or newer, or: make PYTHON=/path/to/python" >&2; exit 1; }
	@"$(PYTHON)" -c 'import sys; sys.exit(sys.version_info < (3, 11))' || \
		{ echo "error: $$("$(PYTHON)" --version 2>&1) is too old; use Python 3.11 or newer, e.g.: make PYTHON=python3.12" >&2; exit 1; }
	@"$(PYTHON)" -c 'import ensurepip, venv' || { echo "error: Python lacks venv; on Debian or Ubuntu: apt install python3-venv" >&2; exit 1; }
	@if [ -e $(VENV)/bin ]; then echo "Making $(VENV)/ anew with $$("$(PYTHON)" --version 2>&1)"; fi
	@"$(PYTHON)" -m venv --clear $(VENV)

# The stamp is older than its lock when the lock has changed: only then is anything installed.
$(VENV)/%.stamp: $(LOCKED)/%.txt pyproject.toml $(PY)
	@echo "Installing the locked $* set into $(VENV)/"
	@$(PY) -m pip install --quiet --require-hashes -r $(LOCKED)/$*.txt
	@$(PY) -m pip install --quiet --no-deps --no-build-isolation -e .
	@touch $@
