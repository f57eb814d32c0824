# Thin front on CMake: one word for each thing one does here.
BUILD := build

.PHONY: all setup demo test bench check fuzz format install package clean

all: setup
	@cmake -S . -B $(BUILD) -G Ninja >/dev/null
	@cmake --build $(BUILD) --target culvertwright

setup:
	@tools/setup build

demo: all
	@tools/demo $(BUILD)

test:
	@tools/setup test
	@cmake -S . -B $(BUILD) -G Ninja >/dev/null
	@cmake --build $(BUILD)
	@ctest --test-dir $(BUILD) --output-on-failure -j 2

bench: setup
	@cmake -S . -B $(BUILD) -G Ninja >/dev/null
	@cmake --build $(BUILD) --target bench culvertwright
	@$(BUILD)/bench

# make install PREFIX=/usr/local DESTDIR=/some/root
PREFIX := /usr/local
install: all
	@cmake --build $(BUILD) --target manual
	@cmake --install $(BUILD) --prefix $(PREFIX)

# The Debian package, out/culvertwright_*.deb.
package: all
	@tools/setup package
	@cmake --build $(BUILD) --target manual
	@cd $(BUILD) && cpack -G DEB -B ../out

# Everything that CI runs.
check:
	@.ci/run

# One minute for each driver: make fuzz SECONDS=600 for longer.
SECONDS := 60
fuzz:
	@tools/setup check
	@tools/fuzz $(SECONDS)

format:
	@clang-format -i $$(git ls-files '*.c' '*.h')

clean:
	@rm -rf $(BUILD) build-*
