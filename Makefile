# Everything runs in .venv, which is made from nothing but Python 3.11+ and this file.
PYTHON ?= python3
BIN := .venv/bin
READY := .venv/.ready

.PHONY: demo quick test lint coverage bench soak pages wheel clean

demo: .venv/.demo
	$(BIN)/footlight demo --folder build/demo

# What a change needs, under a minute on two cores; `make test` is the whole.
quick: $(READY)
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/python -m tests.quick

test: $(READY) lint
	$(BIN)/python -m pytest -n 2

lint: $(READY)
	$(BIN)/ruff check .
	$(BIN)/ruff format --check .
	$(BIN)/pyright
	$(BIN)/pyright --project firmware --typeshedpath \
		"$$($(BIN)/python -c 'import sysconfig; print(sysconfig.get_path("purelib"))')"

# Every branch of the core, and of what holds lamp, watchdog, journal and programs; below that it fails.
MEASURED := tests/core tests/golden tests/controller/in_process tests/emulated/test_gate_program.py
coverage: $(READY)
	rm -rf build/coverage && mkdir -p build/coverage
	$(BIN)/coverage run -m pytest $(MEASURED)
	$(BIN)/coverage combine --quiet
	$(BIN)/coverage report

bench: $(READY)
	$(BIN)/python -m tests.bench

soak: $(READY)
	$(BIN)/python -m tests.soak

# Reference pages, state diagram, screens: whatever is made from the code.
pages: $(READY)
	$(BIN)/python docs/make_all.py

wheel: $(READY)
	$(BIN)/python -m pip wheel --quiet --no-deps --wheel-dir dist .

clean:
	rm -rf .venv build dist .pytest_cache .ruff_cache .hypothesis

# The demo needs little, the tests need much: whoever only wants to look does not wait for the rest.
.venv/.demo: pyproject.toml
	$(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable '.[bench,desk]'
	touch $@

$(READY): pyproject.toml
	$(PYTHON) -m venv .venv
	$(BIN)/python -m pip install --quiet --disable-pip-version-check --editable '.[dev]'
	touch $@ .venv/.demo
