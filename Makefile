# make help tells what there is.
PATTERNS = steps/saltmarsh-tunic steps/lantern-tote steps/pebble-joggers
PREPARE = bash tests/tools/prepare.sh

export PYTHON

.PHONY: help demo test bench lock clean

help:
	@echo "make demo    install what is needed into .venv and build the demo patterns into build/"
	@echo "make test    lint, types and all tests, in a browser too"
	@echo "make bench   speed, memory and repeatability, as ratios measured in one run; and the fault bench"
	@echo "make lock    write requirements*.lock anew from pyproject.toml (UPGRADE=1 renews the versions)"
	@echo "make clean   remove build/ and what the tools cache (.venv stays)"

demo:
	@$(PREPARE) demo
	.venv/bin/notchbook build $(PATTERNS)

test:
	@$(PREPARE) test
	.venv/bin/ruff check
	.venv/bin/ruff format --check
	.venv/bin/mypy
	.venv/bin/python -m pytest --numprocesses auto --dist loadgroup --verbose

bench:
	@$(PREPARE) demo
	.venv/bin/python tests/bench.py

lock:
	@$(PREPARE) demo
	bash tests/tools/lock.sh $(if $(UPGRADE),--upgrade)

clean:
	rm -rf build dist .pytest_cache .mypy_cache .ruff_cache .hypothesis
	find booklet tests -name __pycache__ -type d -exec rm -rf {} +
