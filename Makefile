# Duskwire. "make" alone lists the targets.
#
# One set of flags for everything built with cgo (tags x11 and
# migrated_fynedo, no others): the window toolkit's C code takes minutes to
# build, and every other set of flags would build it again.

SHELL := /bin/bash
.SHELLFLAGS := -euo pipefail -c
.DEFAULT_GOAL := help

TAGS  := x11,migrated_fynedo
OUT   := out
BIN   := $(OUT)/bin
EXAMPLE := assets/examples/townhouse.yaml

BUILD_PACKAGES := ca-certificates gcc libc6-dev pkgconf|pkg-config libgl1-mesa-dev xorg-dev libwayland-dev libxkbcommon-dev
RUN_PACKAGES   := libgl1-mesa-dri
TEST_PACKAGES  := xvfb xdotool ngspice poppler-utils imagemagick librsvg2-bin x11-utils coinor-cbc python3-ezdxf python3-openpyxl

STATICCHECK := honnef.co/go/tools/cmd/staticcheck@v0.8.2

# The go command, looked for once and only by targets that need it.
GO = $(eval GO := $$(shell .ci/go.sh))$(or $(GO),$(error no Go that is new enough: see above))

# Everything but the desktop program builds and tests without cgo.
PURE = $$($(GO) list ./... | grep -v '/cmd/duskwire$$')

.PHONY: help run build sheets test check unit e2e soak screenshot bench bench-board golden race clean packages test-packages

help: ## List the targets
	@echo "Duskwire: garden lighting on a scaled plan. Targets:"
	@awk -F ':.*## ' '/^[a-z0-9-]+:.*## /{printf "  make %-11s %s\n", $$1, $$2}' Makefile

run: ## Install what is missing, build, open the window on the example
	@if [ -z "$${DISPLAY:-}" ]; then \
	  if [ -n "$${WAYLAND_DISPLAY:-}" ]; then \
	    echo "No X display (DISPLAY is not set; on Wayland start XWayland first)."; \
	  else \
	    echo "No display here (DISPLAY is not set), so no window can be opened."; \
	  fi; \
	  echo "Writing the example's findings, lengths and plan picture under $(OUT)/ instead."; \
	  exec $(MAKE) --no-print-directory sheets; \
	fi; \
	$(MAKE) --no-print-directory build; \
	mkdir -p "$$HOME/.cache"; \
	begun=$$SECONDS; \
	$(BIN)/duskwire && exit 0 || failed=$$?; \
	[ $$((SECONDS - begun)) -lt 10 ] || exit $$failed; \
	echo "The window could not be opened on display $$DISPLAY (see above)."; \
	echo "Writing the example's findings, lengths and plan picture under $(OUT)/ instead."; \
	exec $(MAKE) --no-print-directory sheets

build: packages ## Build both programs into out/bin
	@mkdir -p $(BIN)
	@[ -x $(BIN)/duskwire ] || echo "Building. The first time takes a few minutes: the window toolkit has a good deal of C code."
	CGO_ENABLED=1 $(GO) build -tags $(TAGS) -o $(BIN)/duskwire ./cmd/duskwire
	CGO_ENABLED=0 $(GO) build -tags $(TAGS) -o $(BIN)/dusksheet ./cmd/dusksheet

sheets: ## Write the example's findings, readings, lengths and picture under out/
	@mkdir -p $(BIN)
	CGO_ENABLED=0 $(GO) build -tags $(TAGS) -o $(BIN)/dusksheet ./cmd/dusksheet
	@.ci/sheets.sh $(BIN)/dusksheet $(EXAMPLE) $(OUT)

test: test-packages check unit e2e ## Install what the tests need and run everything

check: ## Formatting, import rules, vet, staticcheck, build without cgo
	.ci/limits.sh
	$(GO) run ./.ci/imports.go ./.ci/rules.go
	cd .ci && $(GO) test imports.go rules.go imports_test.go
	CGO_ENABLED=0 $(GO) vet ./.ci/bench ./.ci/benchlight
	CGO_ENABLED=0 $(GO) build -tags $(TAGS) $(PURE)
	CGO_ENABLED=0 $(GO) vet -tags $(TAGS) $(PURE)
	CGO_ENABLED=0 $(GO) run $(STATICCHECK) -tags $(TAGS) $(PURE)

unit: ## Tests of everything but the desktop program, without cgo
	CGO_ENABLED=0 $(GO) test -tags $(TAGS) -timeout 20m $(PURE)

e2e: test-packages build ## Drive the real window under Xvfb; leaves out/window.png
	CGO_ENABLED=1 $(GO) vet -tags $(TAGS),e2e ./cmd/duskwire ./.ci/benchboard
	CGO_ENABLED=1 $(GO) run $(STATICCHECK) -tags $(TAGS),e2e ./cmd/duskwire
	CGO_ENABLED=1 DUSKWIRE_BIN=$(CURDIR)/$(BIN)/duskwire DUSKSHEET_BIN=$(CURDIR)/$(BIN)/dusksheet DUSKWIRE_OUT=$(CURDIR)/$(OUT) \
	  $(GO) test -tags $(TAGS),e2e -count=1 -timeout 10m ./cmd/duskwire

soak: test-packages build ## Random pointer and keys, a sleep, then 50 kills, against the real window (SOAK_SECONDS, SOAK_SEED, KILLS)
	CGO_ENABLED=1 SOAK_SECONDS=$${SOAK_SECONDS:-600} KILLS=$${KILLS:-50} DUSKWIRE_BIN=$(CURDIR)/$(BIN)/duskwire DUSKSHEET_BIN=$(CURDIR)/$(BIN)/dusksheet DUSKWIRE_OUT=$(CURDIR)/$(OUT) \
	  $(GO) test -tags $(TAGS),e2e -count=1 -v -timeout 60m -run 'TestSoak|TestWindowAfterSleep|TestKilledAtRandom' ./cmd/duskwire

screenshot: test-packages build ## Take the README's pictures of the window anew
	CGO_ENABLED=1 DUSKWIRE_SHOTS=1 DUSKWIRE_BIN=$(CURDIR)/$(BIN)/duskwire DUSKWIRE_OUT=$(CURDIR)/$(OUT)/screenshots \
	  $(GO) test -tags $(TAGS),e2e -count=1 -timeout 10m -run 'TestScreenshots$$' ./cmd/duskwire
	for f in $(OUT)/screenshots/window*.png; do convert $$f -strip +dither -colors 256 PNG8:assets/screenshots/$${f##*/}; done

bench: test-packages ## Benchmarks; dusksheet beside ngspice, the sheet of lux beside a C loop
	@mkdir -p $(BIN)
	CGO_ENABLED=0 $(GO) build -tags $(TAGS) -o $(BIN)/dusksheet ./cmd/dusksheet
	CGO_ENABLED=0 $(GO) run -tags $(TAGS) ./.ci/bench $(BIN)/dusksheet
	CGO_ENABLED=0 $(GO) run ./.ci/benchlight
	CGO_ENABLED=0 $(GO) test -tags $(TAGS) -run '^$$' -bench . -benchmem $(PURE)

bench-board: test-packages packages ## Frame times of the real window on 1,000 lamps, beside a bare window
	@mkdir -p $(BIN)
	CGO_ENABLED=1 $(GO) build -tags $(TAGS) -o $(BIN)/benchboard ./.ci/benchboard
	$(BIN)/benchboard

golden: ## Rewrite the expected files of the tests, then look at the difference
	@for pkg in $$(grep -rl --include='*_test.go' 'flag.Bool("update"' cmd ui layout calc assets | xargs -r -n 1 dirname | sort -u | grep -v '^cmd/duskwire$$'); do \
	  CGO_ENABLED=0 $(GO) test -tags $(TAGS) -count=1 ./$$pkg -update; \
	done
	git --no-pager diff --stat -- testdata '*/testdata'

race: packages ## Tests under the race detector (slow)
	CGO_ENABLED=1 $(GO) test -race -tags $(TAGS) -timeout 40m $(PURE)

packages:
	@.ci/packages.sh $(foreach p,$(BUILD_PACKAGES) $(RUN_PACKAGES),'$(p)')

test-packages: packages
	@.ci/packages.sh $(foreach p,$(TEST_PACKAGES),'$(p)')

clean: ## Remove out/
	rm -rf $(OUT)
