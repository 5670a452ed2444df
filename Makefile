# make demo: the main job on three swaps    make test: every test
# make bench: timings                       make clean: remove what was built

# The swaps that `make demo` answers: names of files in demo_catalog/swaps.
DEMO_SWAPS ?= like_for_like slide_wire_in_low_column chamber_nobody_opened

.PHONY: demo test bench clean
.NOTPARALLEL:

demo:
	@.ci/prepare
	@.ci/install
	@.ci/demo $(DEMO_SWAPS:%=demo_catalog/swaps/%.yaml)

test:
	@.ci/prepare
	@.ci/test

bench:
	@.ci/prepare bench
	@.ci/bench

clean:
	rm -rf build .venv .pytest_cache .mypy_cache .hypothesis
