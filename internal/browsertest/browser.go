// Package browsertest drives the built app in a real browser: headless Chromium against the real handler on a loopback port.
//
// It is a module of its own, so that whoever builds the app needs none of it. Start runs in TestMain; Open gives a test its own
// page. Whatever goes wrong in the page without a test looking for it (an error on the console, an uncaught exception, a
// violation of the content policy, a request to anywhere but the app's own origin) fails the test.
package browsertest

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"

	"github.com/chromedp/chromedp"

	"ratchetmark/internal/host"
	"ratchetmark/internal/site"
)

// Browser is a running browser that the tests share, with a server of the app.
type Browser struct {
	Origin string // of the app, without a slash at the end
	ctx    context.Context
	server *httptest.Server
	folder string
	stop   func()
}

// shared is the browser of this test run.
var shared *Browser

// flags keep the browser to itself: no window, no first-run pages, no traffic of its own.
var flags = map[string]any{
	"headless":                               true,
	"disable-gpu":                            true,
	"disable-quic":                           true,
	"no-first-run":                           true,
	"no-default-browser-check":               true,
	"disable-background-networking":          true,
	"disable-component-update":               true,
	"disable-sync":                           true,
	"disable-extensions":                     true,
	"disable-default-apps":                   true,
	"disable-dev-shm-usage":                  true,
	"disable-search-engine-choice-screen":    true,
	"disable-background-timer-throttling":    true,
	"disable-renderer-backgrounding":         true,
	"disable-features":                       "Translate,OptimizationHints,MediaRouter,AutofillServerCommunication",
	"metrics-recording-only":                 true,
	"password-store":                         "basic",
	"hide-scrollbars":                        true,
	"force-color-profile":                    "srgb",
	"font-render-hinting":                    "none",
	"lang":                                   "en-GB",
	"disable-backgrounding-occluded-windows": true,
}

// Start starts the server and the browser.
func Start() (*Browser, error) {
	if err := site.Built(site.Files()); err != nil {
		return nil, err
	}
	program, err := find()
	if err != nil {
		return nil, err
	}
	folder, err := os.MkdirTemp("", "browsertest")
	if err != nil {
		return nil, err
	}
	b := &Browser{folder: folder, server: Serve(site.Files())}
	b.Origin = b.server.URL
	if err := b.launch(program); err != nil {
		b.Stop()
		return nil, fmt.Errorf("start %s: %w\nhint: does it start by hand with --headless", program, err)
	}
	return b, nil
}

// Serve serves the files of a site with the app's handler on a loopback port.
func Serve(files fs.FS) *httptest.Server { return httptest.NewServer(host.New(files)) }

// find looks for the browser: the one that CHROMIUM names, else one on the path.
func find() (string, error) {
	for _, name := range []string{os.Getenv("CHROMIUM"), "chromium", "chromium-browser", "headless_shell"} {
		if name == "" {
			continue
		}
		if program, err := exec.LookPath(name); err == nil {
			return program, nil
		}
	}
	return "", errors.New("no chromium on the path\nhint: install the package chromium, or set CHROMIUM to a browser of that family")
}

// launch starts the browser process.
func (b *Browser) launch(program string) error {
	options := []chromedp.ExecAllocatorOption{
		chromedp.ExecPath(program),
		chromedp.UserDataDir(filepath.Join(b.folder, "profile")),
		chromedp.Flag("log-net-log", b.netLog()),
		chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"), // nothing else can be reached
		chromedp.Env("TZ=UTC"),
	}
	for name, value := range flags {
		options = append(options, chromedp.Flag(name, value))
	}
	if os.Geteuid() == 0 {
		options = append(options, chromedp.NoSandbox) // chromium refuses to run as root with its sandbox
	}
	allocator, release := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, quit := chromedp.NewContext(allocator)
	b.ctx = ctx
	b.stop = func() {
		quit()
		release()
	}
	return chromedp.Do(ctx)
}

// netLog is the file in which the browser records all its network use.
func (b *Browser) netLog() string { return filepath.Join(b.folder, "net.json") }

// Stop ends the browser and the server and removes their files. It returns an error if a page asked for anything outside
// this machine while the browser ran: its workers included, which the page's own record leaves out.
func (b *Browser) Stop() error {
	if b.stop != nil {
		b.stop()
	}
	b.server.Close()
	err := checkNetLog(b.netLog())
	return errors.Join(err, os.RemoveAll(b.folder))
}
