module ratchetmark/internal/browsertest

go 1.26.8

require (
	github.com/chromedp/cdproto v0.159.0
	github.com/chromedp/chromedp v0.23.0
	ratchetmark v0.0.0
)

require (
	github.com/andybalholm/brotli v1.2.8 // indirect
	github.com/go-json-experiment/json v0.0.0-20260213210345-44df1a37e875 // indirect
)

replace ratchetmark => ../..
