# make alone lists what there is to do. Make holds names; anything longer than
# a few words of shell is a Go program in build/.

RELEASE ?= 0.1

# A machine without a home still has a place for what Go and npm keep.
ifeq ($(HOME),)
export HOME := $(CURDIR)/build/dist/home
endif

# The packages of the physics, and how many mutants to draw with which seed.
COMPUTES = $(addprefix ./core/,cell circuit conductor figure lift measure thermal unit)
SAMPLE ?= 100
SEED ?= 1

# Runs of the simulator, and how many of them each decision taken away gets.
SEEDS ?= 2000
MUTANT_SEEDS ?= 150

help: ## this list
	@awk -F ':.*## ' '/^[a-z0-9-]+:.*## / {printf "  make %-11s %s\n", $$1, $$2}' Makefile

run: ## build quickly, serve on this computer, open on an invented job
	go run ./build/phone -release $(RELEASE) -quality 5
	go run -ldflags "-X main.version=$(RELEASE)" ./app demo

test: ## everything: vet, unit, wasm, rules, size and Chromium
	go run ./build/need chromium axe openssl
	go run ./build/suite

test-unit: ## the tests that need nothing but Go
	go run ./build/suite unit

test-wasm: ## the packages that only compute, as WebAssembly in node
	go run ./build/suite wasm

test-e2e: ## the built program in Chromium
	go run ./build/need chromium axe
	go run ./build/suite e2e

walk: ## one whole job in Chromium, from new to handover, with pictures in build/dist/shots
	go run ./build/need chromium axe
	go test ./build/e2e -count=1 -v -run Walk

faults: ## seventeen planted failures and their sound twins, judged
	go run ./build/faults

check: ## what to run before a commit: vet, unit, rules
	go run ./build/suite vet unit rules

cover: ## how much of what judges and computes its own tests run
	go test -cover ./checks $(COMPUTES)

mutants: ## what the tests would not notice; minutes. SAMPLE=0 tries all, SEED=2 others
	nice -n 15 go run ./build/mutants -sample $(SAMPLE) -seed $(SEED)

sim: ## invented phones and an office lose messages, die, are restored. SEEDS=50000 for a night
	go run ./build/sim -seeds $(SEEDS)

sim-mutants: ## takes one design decision of the exchange away at a time; minutes
	nice -n 15 go run ./build/sim -mutants -seeds $(MUTANT_SEEDS)

size: ## what the phone app weighs, beside the smallest go-app program
	go run ./build/size

fmt: ## format every Go file
	gofmt -l -w $$(git ls-files "*.go")

build: ## the program as it is released, with the phone app in it, into build/dist
	go run ./build/phone -release $(RELEASE) -quality 11
	go build -trimpath -buildvcs=false -ldflags "-s -w -X main.version=$(RELEASE)" -o build/dist/lugmark ./app

.PHONY: help run test test-unit test-wasm test-e2e walk faults check cover mutants sim sim-mutants size fmt build
