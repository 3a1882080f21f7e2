# Two commands matter: "make run" does the main job, "make test" proves it.

# Fyne asks for the language of the system at start and complains of the plain
# C locale.
export LANG := en_US.UTF-8

TAGS := migrated_fynedo
# Tests draw without a display and need no C compiler.
TEST := CGO_ENABLED=0 go test -timeout 20m -tags ci,$(TAGS)

BUILD_PACKAGES := gcc libc6-dev pkg-config libgl-dev libx11-dev libxrandr-dev \
	libxxf86vm-dev libxi-dev libxcursor-dev libxinerama-dev
RUN_PACKAGES := libgl1 libgl1-mesa-dri
TEST_PACKAGES := xvfb xdotool imagemagick poppler-utils zbar-tools libreoffice-calc-nogui postgresql

TODAY := $(shell date +%F)
DEMO := out/quillet-$(TODAY).lungwort

.PHONY: run build test race fuzz proof bench bench-routes lint gallery clean

# Opens the window on the demo book of today; with no display it does the
# day's work and says where the files are.
run: build
	@mkdir -p out
	@if [ ! -e $(DEMO) ]; then \
		rm -f out/quillet-*.lungwort out/quillet-*.lungwort-wal out/quillet-*.lungwort-shm; \
		echo "Making the demo book of today, $(DEMO)"; \
		./lungwort demo --book $(DEMO); \
	fi
	@if [ -n "$$DISPLAY$$WAYLAND_DISPLAY" ] || [ "$$(uname -s)" != Linux ]; then \
		./lungwort --book $(DEMO); \
	else \
		echo "There is no display, so the day's work is done without a window."; \
		./lungwort day --book $(DEMO) --out out/day; \
	fi

build:
	@.ci/packages $(BUILD_PACKAGES) $(RUN_PACKAGES)
	@go build -tags $(TAGS) -o lungwort .

test: build
	@.ci/packages $(TEST_PACKAGES)
	go vet -tags ci,$(TAGS) ./...
	$(TEST) ./...
	LUNGWORT=$(CURDIR)/lungwort go test -tags realwindow -count=1 ./ui/realwindow
	@$(MAKE) --no-print-directory fuzz EXECS=500

# What runs side by side, under the race detector: all that needs no window, with
# fewer random checks.
race:
	@.ci/packages $(BUILD_PACKAGES) $(TEST_PACKAGES)
	go test -race -timeout 40m -tags ci,$(TAGS) ./inventory/... ./delivery/... ./labels/... ./ui/runner ./ui/work -short

# Every fuzz target, beginning with the inputs kept in testdata/fuzz. Counted, not
# timed: the end of a time limit can itself be reported as a failure.
EXECS := 10000
fuzz:
	@mkdir -p out
	@grep -rl --include='*_test.go' '^func Fuzz' . | xargs -n 1 dirname | sort -u | while read -r package; do \
		$(TEST) -c -fuzz . -o out/fuzz.test $$package || exit 1; \
		for target in $$(grep -ho '^func Fuzz[A-Za-z0-9]*' $$package/*_test.go | cut -c6-); do \
			(cd $$package && CGO_ENABLED=0 $(CURDIR)/out/fuzz.test -test.run '^$$' -test.fuzz "^$$target$$" \
				-test.fuzztime $(EXECS)x -test.fuzzcachedir $(CURDIR)/out/fuzz) > out/fuzz.txt 2>&1 \
				|| { cat out/fuzz.txt; exit 1; }; \
			echo "$$package $$target: $$(grep -o 'execs: [0-9]*' out/fuzz.txt | tail -1)"; \
		done || exit 1; \
	done

# The full-size proofs: too long for every change.
proof:
	@.ci/packages $(TEST_PACKAGES)
	$(TEST) -count=1 -timeout 60m ./labels/paper -run Proof -codes 10000
	$(TEST) -count=1 -timeout 60m ./delivery/store -run Custody -rapid.checks=1000 -rapid.steps=100
	$(TEST) -count=1 -timeout 60m ./delivery/store -run 'NoItemIsLentTwice|TwentyDesks' -v -lendings 10000 -workday 5m
	$(TEST) -count=1 -timeout 60m ./delivery/store -run HotQueries -grown 5000000
	$(TEST) -count=1 -timeout 60m ./delivery/store -run KilledAtAnyMoment -kills 500
	CGO_ENABLED=0 go test -count=1 -tags ci,$(TAGS),mounts ./inventory/book -run RealDisks
	$(TEST) -count=1 -timeout 60m ./delivery/intake ./inventory/sheet -rapid.checks=2000
	$(TEST) -count=1 -timeout 60m ./ui/season -weeks 26
	$(TEST) -count=1 -timeout 60m ./delivery/depletion -homes 24000 -rapid.checks=20000

# Benchmarks report; they fail nothing.
bench:
	$(TEST) -run '^$$' -bench . -benchtime 1x ./inventory/... ./delivery/... ./labels/...

# The table of the route solver over a folder of files in Solomon's format:
# make bench-routes DIR=folder SECONDS=1
SECONDS := 1
bench-routes: build
	./lungwort route --folder $(DIR) --seconds $(SECONDS)

lint:
	@test -z "$$(gofmt -l .)" || { echo "Not formatted:"; gofmt -l .; exit 1; }
	go vet -tags ci,$(TAGS) ./...
	@$(TEST) -count=1 -v -run Licence ./ui/house | sed -n 's/^ *licences_test.go:[0-9]*: //p; /^--- FAIL/q1'
	@go run golang.org/x/vuln/cmd/govulncheck@v1.9.0 -tags ci,$(TAGS) ./...; case $$? in \
		0) ;; \
		3) exit 1 ;; \
		*) echo "Known vulnerabilities were not looked up: their data can't be reached from here." ;; \
	esac

# Draws every screen with the demo scenario.
gallery: build
	./lungwort gallery --out gallery

clean:
	rm -rf lungwort out gallery
