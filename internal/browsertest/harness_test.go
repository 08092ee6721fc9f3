package browsertest

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
)

// bench is a page for trying the harness itself, with what the app's page has: fields, files, drops, downloads.
var bench = fstest.MapFS{
	"index.html": {Data: []byte(`<!doctype html><title>bench</title><link rel="stylesheet" href="bench.css"><link rel="icon" href="data:,">
<input id="field" value="old"><input id="file" type="file" hidden><textarea id="paste"></textarea>
<select id="select"><option value="a">a</option><option value="b">b</option></select>
<button id="save">Save</button><button id="low">Low</button><div id="drop">Drop here</div><p id="out"></p>
<script src="bench.js"></script>`)},
	"bench.css": {Data: []byte(`#low { margin-top: 3000px }
@media print { #drop { display: none } }
@media (prefers-color-scheme: dark) { p { color: rgb(1, 2, 3) } }
@media (forced-colors: active) { #save { display: none } }`)},
	"bench.js": {Data: []byte(`"use strict";
const at = (id) => document.getElementById(id), say = (text) => { at("out").textContent = text; };
at("field").addEventListener("change", () => say("field " + at("field").value));
at("select").addEventListener("change", () => say("select " + at("select").value));
at("file").addEventListener("change", async () => say("file " + at("file").files[0].name + " " + await at("file").files[0].text()));
at("paste").addEventListener("input", () => say("paste " + at("paste").value));
at("low").addEventListener("click", () => say("low"));
at("drop").addEventListener("dragover", (e) => e.preventDefault());
at("drop").addEventListener("drop", async (e) => { e.preventDefault(); say("drop " + e.dataTransfer.files[0].name + " " + await e.dataTransfer.files[0].text()); });
at("save").addEventListener("click", () => {
	const link = document.createElement("a");
	link.href = URL.createObjectURL(new Blob(["saved"]));
	link.download = "case.txt";
	link.click();
});`)},
}

// openBench opens the bench page, served by the app's handler.
func openBench(t *testing.T) *Page {
	t.Helper()
	server := Serve(bench)
	t.Cleanup(server.Close)
	p := blank(t, Tablet, server.URL)
	p.Go("/")
	return p
}

func TestInput(t *testing.T) {
	p := openBench(t)
	p.Type("#field", "new")
	p.WaitText("#out", "field new")
	p.Type("#field", "")
	if got := Eval[string](p, `document.querySelector("#field").value`); got != "" {
		t.Errorf("field %q, want it empty", got)
	}
	p.Choose("#select", "b")
	p.WaitText("#out", "select b")
	p.Click("#low")
	p.WaitText("#out", "low")
	p.Paste("#paste", "a\tb")
	p.WaitText("#out", "paste a")
	p.Drop("#drop", "drop.csv", "text/csv", []byte("a,b"))
	p.WaitText("#out", "drop drop.csv a,b")
	name := filepath.Join(t.TempDir(), "case.json")
	if err := os.WriteFile(name, []byte("{}"), 0o644); err != nil {
		t.Fatal(err)
	}
	p.Files("#file", name)
	p.WaitText("#out", "file case.json {}")
}

func TestDownload(t *testing.T) {
	p := openBench(t)
	name, content := p.Download(func() { p.Click("#save") })
	if name != "case.txt" || string(content) != "saved" {
		t.Errorf("got %s %q", name, content)
	}
}

func TestMedia(t *testing.T) {
	p := openBench(t)
	p.Show(Media{Dark: true})
	if got := Eval[string](p, `getComputedStyle(document.querySelector("#out")).color`); got != "rgb(1, 2, 3)" {
		t.Errorf("dark: colour %s", got)
	}
	p.Show(Media{ForcedColors: true})
	p.WaitGone("#save")
	p.Show(Media{Print: true})
	p.WaitGone("#drop")
	p.WaitFor("#save")
	p.Show(Media{})
	p.WaitFor("#drop")
	text, err := PDFText(p.PDF(A4), t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(text, "Low") || strings.Contains(text, "Drop here") {
		t.Errorf("printed: %q", text)
	}
}

// What a page must not do is noticed: each row does it, and the words of the problem are those of the browser.
func TestProblemsAreNoticed(t *testing.T) {
	for _, c := range []struct{ name, act, words string }{
		{"console error", `console.error("broken", 7)`, "broken 7"},
		{"uncaught exception", `setTimeout(() => { throw new Error("thrown") })`, "thrown"},
		{"lost promise", `(() => { Promise.reject(new Error("rejected")) })()`, "rejected"},
		{"inline script", `(() => { const s = document.createElement("script"); s.textContent = "1"; document.body.append(s) })()`,
			"Content Security Policy"},
		{"inline style", `document.body.setAttribute("style", "color: red")`, "Content Security Policy"},
		{"other origin", `fetch("http://127.0.0.1:9/x").catch(() => 0)`, "Content Security Policy"},
		{"form elsewhere", `(() => { const f = document.createElement("form"); f.action = "http://127.0.0.1:9/"; document.body.append(f); f.submit() })()`,
			"Content Security Policy"},
		{"missing file", `fetch("/missing").then((a) => a.text())`, "404"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := openBench(t)
			p.Do(c.act)
			p.until("the browser complains", "new Promise((done) => setTimeout(() => done(true), 50))")
			if p.Forgive(c.words) == 0 {
				t.Errorf("not noticed; problems: %q", p.Problems())
			}
			p.Forgive("127.0.0.1:9")
		})
	}
}
