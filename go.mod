module lugmark

go 1.26

require (
	github.com/andybalholm/brotli v1.2.8
	github.com/chromedp/cdproto v0.0.0-20260321001828-e3e3800016bc
	github.com/chromedp/chromedp v0.15.1
	github.com/google/uuid v1.6.0
	github.com/maxence-charriere/go-app/v10 v10.1.11
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3
	gonum.org/v1/gonum v0.17.0
	pgregory.net/rapid v1.2.0
)

require (
	github.com/chromedp/sysutil v1.1.0 // indirect
	github.com/go-json-experiment/json v0.0.0-20260214004413-d219187c3433 // indirect
	github.com/gobwas/httphead v0.1.0 // indirect
	github.com/gobwas/pool v0.2.1 // indirect
	github.com/gobwas/ws v1.4.0 // indirect
	golang.org/x/sys v0.42.0 // indirect
	golang.org/x/text v0.23.0 // indirect
)
