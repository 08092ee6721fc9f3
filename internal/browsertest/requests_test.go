package browsertest

import (
	"io/fs"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"ratchetmark/internal/host"
	"ratchetmark/internal/site"
)

// asked is a server of the app that keeps what it was asked for, by pages and by their workers alike.
type asked struct {
	lock     sync.Mutex
	requests []*http.Request
	app      http.Handler
}

func (a *asked) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	a.lock.Lock()
	a.requests = append(a.requests, r)
	a.lock.Unlock()
	a.app.ServeHTTP(w, r)
}

// all returns the requests so far.
func (a *asked) all() []*http.Request {
	a.lock.Lock()
	defer a.lock.Unlock()
	return append([]*http.Request(nil), a.requests...)
}

// Nothing leaves the device: while the example, a file, a paste, the form, saving and printing are used, every request, the
// worker's included, is a plain one for a file of the app. That the page asks no other origin is checked by the page itself and
// by the browser's network log.
func TestOnlyOwnFiles(t *testing.T) {
	server := &asked{app: host.New(site.Files())}
	web := httptest.NewServer(server)
	t.Cleanup(web.Close)
	p := blank(t, Tablet, web.URL)
	p.Go("/")
	p.WaitReady()
	useEverything(t, p)

	own := ownFiles(t)
	seen := map[string]bool{}
	for _, r := range server.all() {
		name := strings.TrimPrefix(r.URL.Path, "/")
		seen[name] = true
		if !own[name] {
			t.Errorf("got a request for %s, want only files of the app", r.URL)
		}
		if r.Method != http.MethodGet || r.URL.RawQuery != "" || r.ContentLength > 0 || r.Header.Get("Cookie") != "" {
			t.Errorf("got %s %s with %d bytes and cookies %q, want a plain request", r.Method, r.URL, r.ContentLength, r.Header.Get("Cookie"))
		}
	}
	for _, want := range []string{"", "example/index.json", "template.csv"} {
		if !seen[want] {
			t.Errorf("got no request for %q, want one: the test must see what is asked for", want)
		}
	}
	if !seesWorker(seen) {
		t.Errorf("got no request of the worker in %v, want its program", seen)
	}
	for _, address := range p.Requests() {
		if !strings.HasPrefix(address, web.URL+"/") && !strings.HasPrefix(address, "blob:"+web.URL+"/") && !strings.HasPrefix(address, "data:") {
			t.Errorf("got a request for %s, want none outside %s", address, web.URL)
		}
	}
}

// useEverything does what a person can do with the app.
func useEverything(t *testing.T, p *Page) {
	t.Helper()
	p.Download(func() { p.Click("#template") })
	p.Click("#example")
	p.WaitFor("#sheet")
	p.Click("#go-start")
	openFile(p, filepath.Join(testdata, "delimited", "two-machines-tab.txt"))
	p.Click("#go-start")
	openFile(p, filepath.Join(testdata, "bad", "photo.jpg"))
	data, err := os.ReadFile(filepath.Join(testdata, "delimited", "template.csv"))
	if err != nil {
		t.Fatal(err)
	}
	pasteRecord(p, string(data))
	p.WaitFor("#sheet")
	p.Click("#go-start")
	typeCase(p, caseOf(t, "one-reading.csv"))
	p.Download(func() { p.Click("#save-form") })
	p.Click("#finish")
	p.WaitFor("#sheet")
	setAssumption(p, "#cycles_per_hour-value", "7")
	p.Download(func() { p.Click("#save-case") })
	p.Download(func() { p.Click("#save-result") })
	p.Do(`window.print = () => { window.printed = true }`) // the dialogue would wait for a person
	p.Click("#print")
	p.until("the page prints", "window.printed === true")
	p.PDF(A4)
}

// ownFiles returns the addresses of the app's files. The host serves a file that is kept only packed under its own name.
func ownFiles(t *testing.T) map[string]bool {
	t.Helper()
	own := map[string]bool{"": true}
	err := fs.WalkDir(site.Files(), ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && !d.IsDir() && !strings.HasPrefix(d.Name(), ".") {
			own[strings.TrimSuffix(strings.TrimSuffix(name, ".br"), ".gz")] = true
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return own
}

func seesWorker(seen map[string]bool) bool {
	for name := range seen {
		if strings.HasPrefix(name, "worker.") && strings.HasSuffix(name, ".wasm") {
			return true
		}
	}
	return false
}
