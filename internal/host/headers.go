package host

import (
	"net/http"
	"path"
	"strings"

	"ratchetmark/internal/asset"
)

// policy is the Content-Security-Policy: only the app's own files, nothing evaluated but the app's own WebAssembly, and no
// connection to anywhere else. Pictures may also come from the page itself (data, blob).
var policy = strings.Join([]string{
	"default-src 'none'",
	"script-src 'self' 'wasm-unsafe-eval'",
	"style-src 'self'",
	"img-src 'self' data: blob:",
	"font-src 'self'",
	"connect-src 'self'",
	"worker-src 'self'",
	"manifest-src 'self'",
	"base-uri 'none'",
	"form-action 'none'",
	"frame-ancestors 'none'",
}, "; ")

// permissions turns off what a browser offers and the app never asks for.
var permissions = strings.Join([]string{
	"accelerometer=()", "camera=()", "display-capture=()", "geolocation=()", "gyroscope=()", "magnetometer=()",
	"microphone=()", "midi=()", "payment=()", "usb=()",
}, ", ")

// secure sets the headers that every answer carries.
func secure(header http.Header) {
	header.Set("Content-Security-Policy", policy)
	header.Set("Permissions-Policy", permissions)
	header.Set("X-Content-Type-Options", "nosniff")
	header.Set("Referrer-Policy", "no-referrer")
	header.Set("Cross-Origin-Opener-Policy", "same-origin")
	header.Set("Cross-Origin-Resource-Policy", "same-origin")
}

// cacheControl lets a file named by its content be kept for a year without asking (RFC 8246); any other is kept but asked
// about each time (RFC 9111, 5.2.2.4).
func cacheControl(name string) string {
	if asset.Is(name) {
		return "public, max-age=31536000, immutable"
	}
	return "no-cache"
}

// kind is what an extension says about a file.
type kind struct {
	mediaType string
	text      bool // worth coding: may have coded siblings
}

// kinds has every extension the site uses. The types are those registered with IANA; the table does not depend on what the
// machine has installed.
var kinds = map[string]kind{
	".html":        {"text/html; charset=utf-8", true},
	".css":         {"text/css; charset=utf-8", true},
	".js":          {"text/javascript; charset=utf-8", true}, // RFC 9239
	".mjs":         {"text/javascript; charset=utf-8", true},
	".wasm":        {"application/wasm", true},
	".json":        {"application/json", true}, // RFC 8259
	".ndjson":      {"application/x-ndjson", true},
	".webmanifest": {"application/manifest+json", true},
	".svg":         {"image/svg+xml", true},
	".csv":         {"text/csv; charset=utf-8", true}, // RFC 4180
	".tsv":         {"text/tab-separated-values; charset=utf-8", true},
	".txt":         {"text/plain; charset=utf-8", true},
	".md":          {"text/markdown; charset=utf-8", true}, // RFC 7763
	".xml":         {"application/xml", true},
	".png":         {"image/png", false},
	".jpg":         {"image/jpeg", false},
	".ico":         {"image/vnd.microsoft.icon", false},
	".woff2":       {"font/woff2", false}, // RFC 8081
	".pdf":         {"application/pdf", false},
	".xlsx":        {"application/vnd.openxmlformats-officedocument.spreadsheetml.sheet", false},
	".ods":         {"application/vnd.oasis.opendocument.spreadsheet", false},
	".zip":         {"application/zip", false},
	".gz":          {"application/gzip", false}, // RFC 6713
}

// mediaType tells the Content-Type of a file by its extension.
func mediaType(name string) string {
	if k, ok := kinds[path.Ext(name)]; ok {
		return k.mediaType
	}
	return "application/octet-stream"
}

// textual tells whether a file of this name may have coded siblings.
func textual(name string) bool { return kinds[path.Ext(name)].text }
