# Daily habits; each only names a script or a preset.
.PHONY: all setup test test-asan check format docs bench tidy fuzz coverage clean
all:        ; @scripts/build.sh release
setup:      ; @scripts/install.sh build test
test:       all ; @ctest --test-dir build/release --output-on-failure -j $$(nproc)
test-asan:  ; @scripts/build.sh asan && LSAN_OPTIONS=suppressions=$(CURDIR)/tests/leaks.supp:print_suppressions=0 ctest --test-dir build/asan --output-on-failure -j $$(nproc)
check:      ; @.ci/run
format:     ; @find src tests bench fuzz -name '*.[ch]' -print0 | xargs -0 clang-format -i
docs:       test ; @scripts/make_docs.sh
bench:      all ; @scripts/bench.sh
tidy:       all ; @scripts/tidy.sh
fuzz:       ; @scripts/fuzz.sh
coverage:   ; @scripts/coverage.sh
clean:      ; @rm -rf build compile_commands.json
