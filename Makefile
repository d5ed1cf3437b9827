# make alone lists what there is to do. Make holds names; anything longer than
# a few words of shell is a Go program in build/.

RELEASE ?= 0.1

help: ## this list
	@sed -n 's/^\([a-z-]*\):[^#]*## /  make \1@/p' Makefile | awk -F@ '{printf "%-20s %s\n", $$1, $$2}'

run: ## build quickly, serve on this computer, open on an invented job
	go run ./build/phone -release $(RELEASE) -quality 5
	go run -ldflags "-X main.version=$(RELEASE)" ./app demo

build: ## build the program as it is released, with the phone app in it, into build/dist
	go run ./build/phone -release $(RELEASE) -quality 11
	go build -trimpath -buildvcs=false -ldflags "-s -w -X main.version=$(RELEASE)" -o build/dist/lugmark ./app

.PHONY: help run build
