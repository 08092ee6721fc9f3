package host

import (
	"bytes"
	"compress/gzip"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
	"testing/fstest"
)

const bootName = "boot.0123456789ab.js"

// site is a small built site: index.html in three forms, the program in coded forms only, the rest as it is.
func site(t *testing.T) fstest.MapFS {
	t.Helper()
	return fstest.MapFS{
		".keep":              {},
		"index.html":         {Data: []byte("<!doctype html>")},
		"index.html.br":      {Data: []byte("html as brotli")},
		"index.html.gz":      {Data: squeeze(t, "<!doctype html>")},
		"browser.wasm.br":    {Data: []byte("program as brotli")},
		"browser.wasm.gz":    {Data: squeeze(t, "\x00asm program")},
		"only.json.br":       {Data: []byte("json as brotli")},
		bootName:             {Data: []byte("start()")},
		"app.css":            {Data: []byte("p{}")},
		"icon.svg":           {Data: []byte("<svg/>")},
		"example/index.json": {Data: []byte("{}")},
		"example/a.csv":      {Data: []byte("a,b")},
		"example/logger.gz":  {Data: []byte("a gzip file of its own")},
		"odd.unknown":        {Data: []byte("?")},
	}
}

func squeeze(t *testing.T, text string) []byte {
	t.Helper()
	var out bytes.Buffer
	w := gzip.NewWriter(&out)
	if _, err := io.WriteString(w, text); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// ask sends one request; fields are "Name: value".
func ask(t *testing.T, h http.Handler, method, path string, fields ...string) *http.Response {
	t.Helper()
	r := httptest.NewRequest(method, "http://host.test/", nil)
	r.URL.Path = path
	for _, field := range fields {
		name, value, _ := strings.Cut(field, ": ")
		r.Header.Add(name, value)
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func body(t *testing.T, answer *http.Response) string {
	t.Helper()
	data, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestContentTypes(t *testing.T) {
	h := New(site(t))
	for path, want := range map[string]string{
		"/":                   "text/html; charset=utf-8",
		"/index.html":         "text/html; charset=utf-8",
		"/browser.wasm":       "application/wasm",
		"/" + bootName:        "text/javascript; charset=utf-8",
		"/app.css":            "text/css; charset=utf-8",
		"/icon.svg":           "image/svg+xml",
		"/example/index.json": "application/json",
		"/example/a.csv":      "text/csv; charset=utf-8",
		"/example/logger.gz":  "application/gzip",
		"/odd.unknown":        "application/octet-stream",
	} {
		answer := ask(t, h, "GET", path)
		if answer.StatusCode != http.StatusOK {
			t.Errorf("%s: status %d", path, answer.StatusCode)
		}
		if got := answer.Header.Get("Content-Type"); got != want {
			t.Errorf("%s: type %q, want %q", path, got, want)
		}
	}
}

// The rules are those of RFC 9110, 12.5.3 (Accept-Encoding) with the weights of 12.4.2, unless a row names another section.
func TestNegotiation(t *testing.T) {
	h := New(site(t))
	for _, c := range []struct {
		rule, path, accept string
		status             int
		coding             string
	}{
		{"a listed coding is acceptable", "/", "gzip", 200, "gzip"},
		{"several: the smallest of equals", "/", "gzip, deflate, br, zstd", 200, "br"},
		{"the highest weight wins", "/", "gzip;q=1.0, br;q=0.5", 200, "gzip"},
		{"a weight may stand after blanks", "/", "gzip ; q=0.2 , br;Q=0.1", 200, "gzip"},
		{"weight 0 is not acceptable", "/", "br;q=0, gzip;q=0.001", 200, "gzip"},
		{"identity may be preferred", "/", "identity;q=1, gzip;q=0.5, br;q=0.5", 200, ""},
		{"* stands for all not named", "/", "*", 200, "br"},
		{"* does not stand for the named", "/", "br;q=0, *;q=0.5", 200, "gzip"},
		{"an empty field wants no coding", "/", "", 200, ""},
		{"unknown codings: identity stays acceptable", "/", "zstd, compress", 200, ""},
		{"identity;q=0 with nothing else (15.5.7)", "/", "identity;q=0", 406, ""},
		{"*;q=0 excludes identity too (15.5.7)", "/", "*;q=0", 406, ""},
		{"*;q=0 does not exclude a named coding", "/", "*;q=0, gzip", 200, "gzip"},
		{"names are case-insensitive (8.4.1)", "/", "GZip", 200, "gzip"},
		{"x-gzip is gzip (8.4.1.3)", "/", "x-gzip", 200, "gzip"},
		{"weights above 1 break the grammar (12.4.2)", "/", "br;q=2, gzip", 200, "gzip"},
		{"four digits break the grammar (12.4.2)", "/", "br;q=0.0001, gzip;q=0.5", 200, "gzip"},
		{"not a number breaks the grammar (12.4.2)", "/", "br;q=1e0, gzip;q=nan", 200, ""},
		{"a file without coded forms", "/app.css", "br, gzip", 200, ""},
		{"a coded form only: unpacked for others", "/browser.wasm", "zstd", 200, ""},
		{"a coded form only: sent as it is", "/browser.wasm", "br", 200, "br"},
		{"brotli only, not acceptable (15.5.7)", "/only.json", "gzip", 406, ""},
	} {
		answer := ask(t, h, "GET", c.path, "Accept-Encoding: "+c.accept)
		if answer.StatusCode != c.status || answer.Header.Get("Content-Encoding") != c.coding {
			t.Errorf("%s: %q gives %d %q, want %d %q", c.rule, c.accept,
				answer.StatusCode, answer.Header.Get("Content-Encoding"), c.status, c.coding)
		}
	}
}

func TestSeveralFieldLines(t *testing.T) {
	// RFC 9110, 5.3: lines of one name are one list.
	answer := ask(t, New(site(t)), "GET", "/", "Accept-Encoding: br;q=0", "Accept-Encoding: gzip")
	if got := answer.Header.Get("Content-Encoding"); got != "gzip" {
		t.Errorf("coding %q, want gzip", got)
	}
}

func TestBodies(t *testing.T) {
	for _, c := range []struct{ path, accept, want string }{
		{"/", "br", "html as brotli"},
		{"/", "identity", "<!doctype html>"},
		{"/browser.wasm", "br", "program as brotli"},
		{"/browser.wasm", "identity", "\x00asm program"},
		{"/example/logger.gz", "gzip", "a gzip file of its own"},
	} {
		answer := ask(t, New(site(t)), "GET", c.path, "Accept-Encoding: "+c.accept)
		if got := body(t, answer); got != c.want {
			t.Errorf("%s as %s: %q, want %q", c.path, c.accept, got, c.want)
		}
	}
}

func TestIdentityOption(t *testing.T) {
	h := New(site(t), Identity())
	for path, want := range map[string]string{"/": "<!doctype html>", "/browser.wasm": "\x00asm program"} {
		answer := ask(t, h, "GET", path, "Accept-Encoding: br, gzip")
		if got := body(t, answer); got != want || answer.Header.Get("Content-Encoding") != "" {
			t.Errorf("%s: %q coded %q", path, got, answer.Header.Get("Content-Encoding"))
		}
		if answer.Header.Get("Vary") != "" {
			t.Errorf("%s: varies, but there is only one form", path)
		}
	}
}

func TestCaching(t *testing.T) {
	h := New(site(t))
	for path, want := range map[string]string{
		"/":             "no-cache",
		"/app.css":      "no-cache",
		"/" + bootName:  "public, max-age=31536000, immutable", // RFC 8246
		"/browser.wasm": "no-cache",
		"/missing":      "no-store",
	} {
		if got := ask(t, h, "GET", path).Header.Get("Cache-Control"); got != want {
			t.Errorf("%s: %q, want %q", path, got, want)
		}
	}
	for path, want := range map[string]string{"/": "Accept-Encoding", "/browser.wasm": "Accept-Encoding", "/app.css": ""} {
		if got := ask(t, h, "GET", path).Header.Get("Vary"); got != want { // RFC 9110, 12.5.5
			t.Errorf("%s: varies by %q, want %q", path, got, want)
		}
	}
}

// RFC 9110, 8.8.3.3: each coding of a file has its own strong validator.
func TestEntityTags(t *testing.T) {
	h, seen := New(site(t)), map[string]string{}
	for _, c := range []struct{ path, accept string }{
		{"/", "br"}, {"/", "gzip"}, {"/", "identity"},
		{"/browser.wasm", "br"}, {"/browser.wasm", "gzip"}, {"/browser.wasm", "identity"},
	} {
		tag := ask(t, h, "GET", c.path, "Accept-Encoding: "+c.accept).Header.Get("ETag")
		if len(tag) < 3 || tag[0] != '"' || tag[len(tag)-1] != '"' { // RFC 9110, 8.8.3
			t.Errorf("%s as %s: not an entity tag: %s", c.path, c.accept, tag)
		}
		if other, ok := seen[tag]; ok {
			t.Errorf("%s as %s has the tag of %s", c.path, c.accept, other)
		}
		seen[tag] = c.path + " as " + c.accept
	}
}

// The rules are those of RFC 9110, 13.
func TestPreconditions(t *testing.T) {
	h := New(site(t))
	tag := ask(t, h, "GET", "/").Header.Get("ETag")
	for _, c := range []struct {
		rule, field string
		status      int
	}{
		{"13.1.2: the same tag", "If-None-Match: " + tag, 304},
		{"13.1.2: compared weakly", "If-None-Match: W/" + tag, 304},
		{"13.1.2: any of a list", `If-None-Match: "a,b", W/"c" , ` + tag, 304},
		{"13.1.2: any tag", "If-None-Match: *", 304},
		{"13.1.2: another tag", `If-None-Match: "other"`, 200},
		{"8.8.3: a tag needs its quotes", "If-None-Match: " + strings.Trim(tag, `"`), 200},
		{"8.8.3: an open quote", `If-None-Match: "other, ` + tag, 200},
		{"13.1.1: the same tag", "If-Match: " + tag, 200},
		{"13.1.1: any tag", "If-Match: *", 200},
		{"13.1.1: compared strongly", "If-Match: W/" + tag, 412},
		{"13.1.1: another tag", `If-Match: "other"`, 412},
		{"13.1.3: no date to compare with", "If-Modified-Since: Fri, 01 Jan 2100 00:00:00 GMT", 200},
		{"13.1.4: no date to compare with", "If-Unmodified-Since: Thu, 01 Jan 1970 00:00:00 GMT", 200},
		{"14.2: ranges may be ignored", "Range: bytes=0-1", 200},
	} {
		if got := ask(t, h, "GET", "/", c.field).StatusCode; got != c.status {
			t.Errorf("%s: status %d, want %d", c.rule, got, c.status)
		}
	}
	if got := ask(t, h, "GET", "/", `If-Match: "other"`, "If-None-Match: "+tag).StatusCode; got != 412 {
		t.Errorf("13.2.2: If-Match comes first: status %d, want 412", got)
	}
	if got := ask(t, h, "GET", "/missing", "If-None-Match: *").StatusCode; got != 404 {
		t.Errorf("13.2.1: only where the answer would be a success: status %d, want 404", got)
	}
}

// RFC 9110, 15.4.5: what a 304 must repeat, and that it has no body.
func TestNotModified(t *testing.T) {
	h := New(site(t))
	full := ask(t, h, "GET", "/", "Accept-Encoding: br")
	answer := ask(t, h, "GET", "/", "Accept-Encoding: br", "If-None-Match: "+full.Header.Get("ETag"))
	for _, name := range []string{"ETag", "Cache-Control", "Vary"} {
		if got, want := answer.Header.Get(name), full.Header.Get(name); got != want || got == "" {
			t.Errorf("%s: %q, want %q", name, got, want)
		}
	}
	if got := body(t, answer); got != "" {
		t.Errorf("body %q", got)
	}
}

// RFC 9110, 9.3.2: HEAD answers as GET does, without the body.
func TestHead(t *testing.T) {
	h := New(site(t))
	for _, path := range []string{"/", "/browser.wasm", "/app.css", "/missing"} {
		get, head := ask(t, h, "GET", path), ask(t, h, "HEAD", path)
		if got := body(t, head); got != "" {
			t.Errorf("%s: body %q", path, got)
		}
		if head.StatusCode != get.StatusCode {
			t.Errorf("%s: status %d, want %d", path, head.StatusCode, get.StatusCode)
		}
		for name := range get.Header {
			if got, want := head.Header.Get(name), get.Header.Get(name); got != want {
				t.Errorf("%s: %s %q, want %q", path, name, got, want)
			}
		}
	}
}

// RFC 9110, 15.5.6: a 405 names the methods that are allowed.
func TestMethods(t *testing.T) {
	for _, method := range []string{"POST", "PUT", "DELETE", "OPTIONS", "PATCH", "get", "BREW"} {
		answer := ask(t, New(site(t)), method, "/")
		if answer.StatusCode != 405 || answer.Header.Get("Allow") != "GET, HEAD" {
			t.Errorf("%s: %d, allow %q", method, answer.StatusCode, answer.Header.Get("Allow"))
		}
	}
}

func TestNotFound(t *testing.T) {
	h := New(site(t))
	for _, path := range []string{
		"", "index.html", "//", "/.", "/..", "/../host.go", "/./index.html", "/example", "/example/", "/example/../index.html",
		"/.keep", "/index.html/", "/index.html.br", "/browser.wasm.gz", "/INDEX.HTML", "/a\x00b", "/..%2findex.html", `/..\x`,
	} {
		answer := ask(t, h, "GET", path)
		if answer.StatusCode != 404 {
			t.Errorf("%q: status %d, want 404", path, answer.StatusCode)
		}
		if got := answer.Header.Get("Content-Type"); got != "text/plain; charset=utf-8" {
			t.Errorf("%q: type %q", path, got)
		}
		if got := body(t, answer); !strings.Contains(got, "\nhint: ") || path != "" && strings.Contains(got, path+" ") {
			t.Errorf("%q: body %q", path, got)
		}
	}
}

// Every answer carries the security headers, the refusals too. The directives are those of CSP Level 3.
func TestSecurityHeaders(t *testing.T) {
	h := New(site(t))
	for _, answer := range []*http.Response{
		ask(t, h, "GET", "/"), ask(t, h, "GET", "/browser.wasm"), ask(t, h, "GET", "/missing"), ask(t, h, "POST", "/"),
		ask(t, h, "GET", "/", "If-None-Match: *"), ask(t, h, "GET", "/", "If-Match: \"x\""),
	} {
		for name, want := range map[string]string{
			"X-Content-Type-Options":       "nosniff",
			"Referrer-Policy":              "no-referrer",
			"Cross-Origin-Opener-Policy":   "same-origin",
			"Cross-Origin-Resource-Policy": "same-origin",
		} {
			if got := answer.Header.Get(name); got != want {
				t.Errorf("%d: %s %q, want %q", answer.StatusCode, name, got, want)
			}
		}
		policy := answer.Header.Get("Content-Security-Policy")
		for _, directive := range []string{"default-src 'none'", "connect-src 'self'", "script-src 'self' 'wasm-unsafe-eval'"} {
			if !strings.Contains(policy, directive) {
				t.Errorf("%d: the policy lacks %s", answer.StatusCode, directive)
			}
		}
		if strings.Contains(policy, "'unsafe-inline'") || strings.Contains(policy, "'unsafe-eval'") {
			t.Errorf("%d: the policy allows what is not the app's own: %s", answer.StatusCode, policy)
		}
	}
}

func TestEmptySite(t *testing.T) {
	if got := ask(t, New(fstest.MapFS{}), "GET", "/").StatusCode; got != 404 {
		t.Errorf("status %d, want 404", got)
	}
}

func TestLength(t *testing.T) {
	answer := ask(t, New(site(t)), "GET", "/", "Accept-Encoding: gzip")
	if got, want := answer.ContentLength, int64(len(squeeze(t, "<!doctype html>"))); got != want { // RFC 9110, 8.6
		t.Errorf("length %d, want %d", got, want)
	}
}
