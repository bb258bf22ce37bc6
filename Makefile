# Tallycloth. The two commands to know: `make run` and `make test`.

SHELL := /bin/bash
GO ?= go
# One set of tags for everything: with two, the window toolkit is compiled twice.
TAGS := migrated_fynedo
FLAGS := -buildvcs=false -tags=$(TAGS)
# The tests, vet and the end-to-end binary share one build as well: the one with the race detector.
RACE := -buildvcs=false -race -tags=$(TAGS)
E2E := -buildvcs=false -race -tags=$(TAGS),e2e

.PHONY: help run build test fmt vet lint pure figures race e2e gallery fuzz bench tour clean go-there build-packages test-packages package package-test words

## run: build, then open the window (or, without a display, take the tour of the demo studio)
run: build
	@if [ -n "$$DISPLAY$$WAYLAND_DISPLAY" ]; then exec bin/tallycloth; else exec .ci/tour; fi

## build: install what is missing and build bin/tallycloth
build: go-there build-packages
	@mkdir -p bin
	$(GO) build $(FLAGS) -o bin/tallycloth ./cmd/tallycloth

## tour: the main job on the demo studio without a display
tour: build
	@.ci/tour

## test: every check and every test, from a clean clone
test: go-there test-packages fmt vet lint pure figures race e2e
	@echo "All tests passed."

## fmt: are all files as gofmt writes them?
fmt:
	@.ci/gofmt

vet:
	$(GO) vet $(RACE) ./...

lint:
	GOFLAGS='$(RACE)' $(GO) tool staticcheck ./...

## pure: the domain and the screens build without a C compiler
pure:
	CGO_ENABLED=0 $(GO) vet $(FLAGS) ./stash/... ./planner/... ./ui/...

## figures: what is slow with the race detector: texts of all screens, outlines on 200 photos, 50 shelves against a person's way, 300 batches against GLPK, 520 kills while a library is written
figures:
	RAPID_SEED=$(SEED) $(GO) test $(FLAGS) -count=1 -run 'LeftoversOnPhotos|AgainstTable|PlanIsOptimal|KilledAnywhere|EveryTextIsListed' ./cmd/gallery ./planner/trace ./planner/demo ./planner/batch ./db

# The properties draw the same cases for the same sources, so that a verdict can be had again;
# `make race SEED=0` draws others each time.
SEED ?= 1
race:
	RAPID_SEED=$(SEED) $(GO) test $(RACE) -timeout 45m ./...

## e2e: drive the real window through the main job under Xvfb
e2e:
	@mkdir -p out/e2e
	$(GO) test $(E2E) -timeout 15m -count=1 ./cmd/tallycloth/e2e

## gallery: every screen with canned data, without a library (make gallery SHOTS=out/gallery saves pictures)
SHOTS ?=
gallery: go-there build-packages
	$(GO) run $(FLAGS) ./cmd/gallery $(if $(SHOTS),-shots $(SHOTS))

## fuzz: every fuzz test for a while (make fuzz FUZZTIME=5m)
FUZZTIME ?= 20s
fuzz: go-there build-packages
	@GO='$(GO)' FLAGS='$(FLAGS)' .ci/fuzz $(FUZZTIME)

## bench: the figures in DEVELOPERS.md
bench: go-there build-packages
	$(GO) test $(FLAGS) -run '^$$' -bench . -benchmem ./stash/... ./planner/... ./db/... ./ui/...

## package: a .deb in out/, with icon, menu entry, manual page and completion (make package VERSION=0.2.0)
VERSION ?= 0.1.0
package: build
	@.ci/package $(VERSION)

## package-test: install that package in a clean root, start it, remove it (wants root, debootstrap and a Debian mirror)
package-test: package
	@.ci/install-test out/tallycloth_$(VERSION)_$$(dpkg --print-architecture).deb

## words: every text that a person may read, place by place
words: go-there
	@$(GO) run $(FLAGS) ./cmd/words

help:
	@sed -n 's/^## /  make /p' Makefile

## clean: remove what was built and written
clean:
	rm -rf bin out

go-there:
	@command -v $(GO) >/dev/null || { echo "Go is not installed: see https://go.dev/doc/install (1.26 or newer)." >&2; exit 1; }

build-packages:
	@.ci/packages build

test-packages:
	@.ci/packages test
