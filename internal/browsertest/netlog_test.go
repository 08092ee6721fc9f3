package browsertest

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// The lines have the form that Chromium writes.
func TestNetLog(t *testing.T) {
	const own = `{"params":{"initiator":"http://127.0.0.1:4000","method":"GET","url":"http://127.0.0.1:4000/app.css"},"phase":1},`
	for _, c := range []struct{ name, log, want string }{
		{"a page that stays", own, ""},
		{"a page that leaves", own + "\n" + strings.Replace(own, "127.0.0.1:4000/app.css", "elsewhere.test/x", 1), "http://elsewhere.test/x"},
		{"the browser itself", own + "\n" + `{"params":{"initiator":"not an origin","url":"http://elsewhere.test/x"}}]}`, ""},
		{"nothing", `{"constants":{}}`, "no request of a page"},
	} {
		name := filepath.Join(t.TempDir(), "net.json")
		if err := os.WriteFile(name, []byte(c.log), 0o644); err != nil {
			t.Fatal(err)
		}
		err := checkNetLog(name)
		if (err == nil) != (c.want == "") || err != nil && !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want %q", c.name, err, c.want)
		}
	}
}
