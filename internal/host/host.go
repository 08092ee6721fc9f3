// Package host serves the app's files over HTTP: the native server and the edge use the same handler.
//
// It implements what RFC 9110 (2022) asks of an origin server for GET and HEAD of fixed files: content negotiation by
// Accept-Encoding (12.5.3), validators and preconditions (8.8.3, 13), and plain error answers. Ranges are not served, which
// 14.2 allows.
package host

import (
	"bytes"
	"compress/gzip"
	"io"
	"io/fs"
	"net/http"
	"strconv"
	"strings"
)

// Option changes how New's handler answers.
type Option func(*handler)

// Identity makes the handler send every file without a content coding. It is for a host that codes answers itself and would
// code an already coded file twice.
func Identity() Option {
	return func(h *handler) { h.identity = true }
}

type handler struct {
	files    map[string]*file
	identity bool
}

// New returns a handler for the files of a built site. The files are taken not to change while it is in use.
//
// A file name.ext may have the siblings name.ext.br and name.ext.gz with the same content coded; they are not served under
// their own names. A file may also be there in coded form only.
func New(files fs.FS, options ...Option) http.Handler {
	h := &handler{files: index(files)}
	for _, option := range options {
		option(h)
	}
	return h
}

// ServeHTTP answers one request.
func (h *handler) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	secure(w.Header())
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		w.Header().Set("Allow", "GET, HEAD") // RFC 9110, 15.5.6
		refuse(w, r, http.StatusMethodNotAllowed, "method not allowed\nhint: this host only hands out files, by GET or HEAD")
		return
	}
	f := h.files[fileName(r.URL.Path)]
	if f == nil {
		refuse(w, r, http.StatusNotFound, "no such file\nhint: the app starts at /")
		return
	}
	h.send(w, r, f)
}

// fileName turns a request path into a name in the file table. There are no folders to list and nothing to clean: a path is in
// the table or it is not.
func fileName(urlPath string) string {
	name, rooted := strings.CutPrefix(urlPath, "/")
	if !rooted {
		return ""
	}
	if name == "" {
		return "index.html"
	}
	return name
}

// send chooses a stored form of the file and answers with it.
func (h *handler) send(w http.ResponseWriter, r *http.Request, f *file) {
	header := w.Header()
	if !h.identity && f.coded() {
		header.Set("Vary", "Accept-Encoding") // RFC 9110, 12.5.5
	}
	form, ok := h.choose(r, f)
	if !ok {
		refuse(w, r, http.StatusNotAcceptable, "no acceptable content coding\nhint: accept gzip, br or identity")
		return
	}
	body, err := form.stored.load()
	if err != nil {
		refuse(w, r, http.StatusInternalServerError, "the file could not be read\nhint: build the site again")
		return
	}
	header.Set("ETag", form.etag())
	header.Set("Cache-Control", cacheControl(f.name))
	switch precondition(r.Header, form.etag()) {
	case http.StatusNotModified:
		w.WriteHeader(http.StatusNotModified)
		return
	case http.StatusPreconditionFailed:
		header.Del("ETag")
		refuse(w, r, http.StatusPreconditionFailed, "the file is not the one asked for\nhint: load the page again")
		return
	}
	header.Set("Content-Type", mediaType(f.name))
	form.write(w, r.Method, body)
}

// choose picks the form of the file that the request likes best.
func (h *handler) choose(r *http.Request, f *file) (form, bool) {
	if h.identity {
		return f.form(codingIdentity)
	}
	for _, coding := range acceptable(r.Header.Values("Accept-Encoding")) {
		if form, ok := f.form(coding); ok {
			return form, true
		}
	}
	return form{}, false
}

// write sends the header and, unless only the header was asked for, the body.
func (f form) write(w http.ResponseWriter, method string, body []byte) {
	if f.unpack {
		w.WriteHeader(http.StatusOK)
		if method == http.MethodHead {
			return
		}
		if unpacked, err := gzip.NewReader(bytes.NewReader(body)); err == nil {
			_, _ = io.Copy(w, unpacked) // a client that went away needs no answer
		}
		return
	}
	if f.coding != codingIdentity {
		w.Header().Set("Content-Encoding", f.coding)
	}
	w.Header().Set("Content-Length", strconv.Itoa(len(body)))
	w.WriteHeader(http.StatusOK)
	if method != http.MethodHead { // RFC 9110, 9.3.2
		_, _ = w.Write(body)
	}
}

// refuse answers with a few plain words.
func refuse(w http.ResponseWriter, r *http.Request, status int, message string) {
	message += "\n"
	header := w.Header()
	header.Set("Content-Type", "text/plain; charset=utf-8")
	header.Set("Cache-Control", "no-store")
	header.Set("Content-Length", strconv.Itoa(len(message)))
	w.WriteHeader(status)
	if r.Method != http.MethodHead {
		_, _ = io.WriteString(w, message)
	}
}
