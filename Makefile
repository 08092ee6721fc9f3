# Ratchetmark: build, run and check. Nothing but Go is needed to build and run; the tests add a browser.

GO ?= go
MINE = $(shell find . -name '*.go' -not -name '*_gen.go' -not -path './.*')
VUGU = $(wildcard app/*.vugu app/*.go)
BROWSERTEST = cd internal/browsertest && $(GO)
WASM = GOOS=js GOARCH=wasm
PORT ?= 8080

.DEFAULT_GOAL = help
.PHONY: help generate build run test fuzz shots bench fmt clean
.PHONY: check-generated check-format check-modules check-vet browser

help: ## show what there is to make
	@echo 'usage: make TARGET'
	@sed -n 's/^\([a-z]*\): [^#]*## /  \1\t/p' $(firstword $(MAKEFILE_LIST)) | expand -t 14

generate: .cache/generated ## write Go code from the components, where they have changed

.cache/generated: $(VUGU)
	$(GO) generate ./app/...
	@mkdir -p $(@D) && touch $@

build: generate ## build the app, and the command with the app in it, as .bin/ratchetmark
	$(GO) run ./internal/cmd/packsite
	$(GO) build -trimpath -o .bin/ratchetmark ./internal/cmd/ratchetmark

run: build ## build and serve the app on 127.0.0.1:8080 (PORT=8081 make run for another port)
	@PORT=$(PORT) .bin/ratchetmark serve

test: browser check-generated check-format check-modules build check-vet ## check everything: code, units, and the app in a browser
	$(GO) test ./...
	$(BROWSERTEST) test ./...

FUZZTIME ?= 20s

fuzz: ## fuzz every target for a while (FUZZTIME=20s)
	@for p in $$(grep -rl --include='*_test.go' '^func Fuzz' internal app | xargs -n1 dirname | sort -u); do \
		for f in $$(grep -h '^func Fuzz' $$p/*_test.go | sed 's/func \(Fuzz[A-Za-z]*\).*/\1/'); do \
			echo "$$p $$f"; $(GO) test -run '^$$' -fuzz "^$$f\$$" -fuzztime $(FUZZTIME) ./$$p || exit 1; \
		done; done

shots: browser build ## write screenshots of every state of the app into .shots
	$(BROWSERTEST) test -count=1 -run '^TestShots$$' -shots .

bench: browser build ## print sizes and times
	$(BROWSERTEST) test -count=1 -timeout 20m -run '^Test(Figures|Speed)$$' -figures .
	$(GO) test -run '^$$' -bench . -benchmem ./internal/...

fmt: ## format the code
	gofmt -w $(MINE)

clean: ## remove what was built
	rm -rf .bin .cache .shots
	find internal/site/dist -mindepth 1 -not -name .keep -delete

# Generated code is kept in the repository; it must be what the generator writes now.
check-generated:
	@rm -rf .cache/drift && mkdir -p .cache/drift && cp app/*_gen.go .cache/drift/
	$(GO) generate ./app/...
	@mkdir -p .cache && touch .cache/generated
	@for f in app/*_gen.go; do \
		test -f "$${f%_gen.go}.vugu" || { echo "$$f: its component is gone"; echo 'hint: delete it'; exit 1; }; \
		cmp -s "$$f" ".cache/drift/$${f##*/}" || { echo "$$f: differs from what the generator writes"; \
			echo 'hint: it is written anew now: commit it'; exit 1; }; \
	done

check-format:
	@bad=$$(gofmt -l $(MINE)); test -z "$$bad" || { echo "not formatted: $$bad"; echo 'hint: make fmt'; exit 1; }

check-modules:
	$(GO) mod verify
	$(GO) mod tidy -diff
	$(BROWSERTEST) mod tidy -diff

check-vet:
	$(GO) vet ./...
	$(WASM) $(GO) vet ./app/... ./wasm/...
	$(WASM) $(GO) build -o .cache/edge.wasm ./wasm/edge
	$(BROWSERTEST) vet ./...

# The browser that the tests drive, and what turns printed pages into pictures.
browser:
	@sh .ci/browser
