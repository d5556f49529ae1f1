# Wellshown's tasks. `make help` lists them.

SHELL := bash
.SHELLFLAGS := -eu -o pipefail -c
.DEFAULT_GOAL := help
.PHONY: help setup setup-server build run test test-short shots vet bench fuzz check demo migrate verify golden clean fresh

BIN := .data/bin
# The tests of one package share two cores with the others; a hang must show itself well before CI's patience ends.
TIMEOUT := 15m
FUZZTIME := 10s
export PORT ?= 8080
# gin without MessagePack, which nobody asks for: its code alone takes as long to compile as a third of all the rest.
# Without the folder's name in what is compiled, another clone finds it in the cache.
export GOFLAGS := $(GOFLAGS) -tags=nomsgpack -trimpath
# Where .ci/setup puts a Node.js for the browser tests if the machine's own is too old.
export PATH := $(CURDIR)/.data/node/bin:$(PATH)

help: ## list these tasks
	@awk -F ':.*## ' '/^[a-z-]+:.*## / { printf "%-12s %s\n", $$1, $$2 }' $(MAKEFILE_LIST)

setup: ## install what running and testing need and is missing (Debian packages, as root)
	@.ci/setup tests

setup-server:
	@.ci/setup server

build: ## build the programs into .data/bin
	@mkdir -p $(BIN)
	CGO_ENABLED=0 go build -o $(BIN)/ ./cmd/...

# Secrets in the database are sealed, and the heads of the ledger signed, with keys outside it.
run demo: export WELLSHOWN_SECRET_KEYS ?= $(CURDIR)/.data/secret-keys
run demo verify: export WELLSHOWN_LEDGER_KEYS ?= $(CURDIR)/.data/ledger-keys
run: setup-server build ## start PostgreSQL, make the demo, do the main job once, serve on http://127.0.0.1:$PORT
	@$(BIN)/wellshown keys secrets "$$WELLSHOWN_SECRET_KEYS" >/dev/null
	@$(BIN)/wellshown keys ledger "$$WELLSHOWN_LEDGER_KEYS" >/dev/null
	@exec $(BIN)/localpg -dir .data -- $(BIN)/wellshown up

migrate: setup-server build ## bring the database that make run uses, or DATABASE_URL, up to the newest schema
	@exec $(BIN)/localpg -dir .data -- $(BIN)/wellshown migrate

demo: setup-server build ## make the demo agency in the database that make run uses, or DATABASE_URL
	@$(BIN)/wellshown keys secrets "$$WELLSHOWN_SECRET_KEYS" >/dev/null
	@$(BIN)/wellshown keys ledger "$$WELLSHOWN_LEDGER_KEYS" >/dev/null
	@exec $(BIN)/localpg -dir .data -- $(BIN)/wellshown demo

verify: setup-server build ## recompute the ledger of the database that make run uses, and name what does not match
	@exec $(BIN)/localpg -dir .data -- $(BIN)/wellshown verify

test: setup vet ## run every test; installs what they need first
	@if [ -f package-lock.json ]; then npm ci --no-audit --no-fund; fi
	go test -shuffle=on -timeout $(TIMEOUT) ./...

shots: setup ## take pictures of every page and every state of the bedside, at three sizes, into out/shots
	npm ci --no-audit --no-fund
	WELLSHOWN_PICTURES="$(CURDIR)/out/shots" go test -count=1 -v -timeout $(TIMEOUT) -run '^TestPictures' ./web ./cmd/wellshown

test-short: ## run the tests that need neither a database nor a browser
	go test -short -shuffle=on -timeout $(TIMEOUT) ./...

vet: ## let go vet look for mistakes
	go vet ./...

bench: setup ## measure; benchmarks are the only place where time is looked at
	go test -run '^$$' -bench . -benchmem ./...

fuzz: ## fuzz each parser for FUZZTIME (10s)
	@go list ./... | while read -r package; do \
		go test -list '^Fuzz' "$$package" | { grep '^Fuzz' || true; } | while read -r target; do \
			echo "$$package $$target"; \
			go test -run '^$$' -fuzz "^$$target\$$" -fuzztime $(FUZZTIME) "$$package" </dev/null; \
		done; \
	done

golden: setup ## write the golden files anew; look at the difference before you keep it
	go test ./integration -run Golden -update
	go test ./reports -update

check: ## everything that must hold before a commit: format, vet, module files, tests
	@unformatted="$$(gofmt -l $$(git ls-files '*.go'))"; if [ -n "$$unformatted" ]; then echo "not formatted: $$unformatted"; exit 1; fi
	go mod verify
	go mod tidy -diff
	@$(MAKE) --no-print-directory test

clean: ## remove the programs and papers that were made; the database in .data stays, and the sign-ins of its demo
	rm -rf $(BIN) node_modules
	@[ ! -d out ] || find out -mindepth 1 ! -name sign-ins.txt -delete

fresh: setup-server build ## throw away the private database of make run with all that is in it, and out
	@env -u DATABASE_URL $(BIN)/localpg -dir .data -- bash -c 'psql -q -v ON_ERROR_STOP=1 "$$DATABASE_URL" -c "\c postgres" -c "drop database wellshown"'
	rm -rf out
	@echo "The private database and the folder out are gone. make run makes both anew."
