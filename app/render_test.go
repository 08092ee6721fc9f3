package app

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/vugu/vugu"
	"github.com/vugu/vugu/staticrender"

	"ratchetmark/app/model"
	"ratchetmark/internal/batch"
	"ratchetmark/internal/digest"
)

// shelf is a host that hands out files of the test data and keeps nothing.
type shelf struct{ folder string }

func (s shelf) Read(files []model.File, _ []batch.Guide, _ func(model.Progress), finish func(model.Outcome)) func() {
	var out model.Outcome
	for _, f := range files {
		data, err := os.ReadFile("../testdata/" + s.folder + "/" + f.Name)
		if err != nil {
			panic(err)
		}
		batch, err := digest.ReadBytes(f.Name, data)
		if err != nil {
			out.Errors = append(out.Errors, err)
			continue
		}
		out.Batches = append(out.Batches, batch)
	}
	finish(out)
	return func() {}
}

func (shelf) Example(func(model.Outcome))                      {}
func (shelf) Template(func([]byte, error))                     {}
func (shelf) Save(string, string, []byte)                      {}
func (shelf) Print()                                           {}
func (shelf) Redraw()                                          {}
func (shelf) Keep(string, string, string, string, func(error)) {}
func (shelf) Kept(string, func([]model.KeptHead, error))       {}
func (shelf) Fetch(string, string, func(string, error))        {}
func (shelf) Forget(string, string, func(error))               {}
func (shelf) Watch(func(), func(error))                        {}
func (shelf) Left(string) string                               { return "" }
func (shelf) DropLeft(string)                                  {}
func (shelf) Now() time.Time                                   { return time.Now() }
func (shelf) Show(string)                                      {}

// page renders the app to HTML.
func page(t *testing.T, m *model.Model) string {
	t.Helper()
	env, err := vugu.NewBuildEnv()
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := staticrender.New(&b).Render(env.RunBuild(&Root{Model: m})); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// Every file of the test data can be shown, whatever is wrong with it.
func TestEveryFileCanBeShown(t *testing.T) {
	for _, folder := range []string{"demo", "delimited", "bad", "carry", "structure", "lash"} {
		entries, err := os.ReadDir("../testdata/" + folder)
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range entries {
			t.Run(folder+"/"+e.Name(), func(t *testing.T) {
				m := model.New(shelf{folder})
				m.Open([]model.File{{Name: e.Name()}})
				if len(m.Opened) == 0 && len(m.Notices) == 0 {
					t.Fatal("neither on the sheet nor refused")
				}
				for i := range m.Opened {
					m.Choose(i)
					html := page(t, m)
					if !strings.Contains(html, "Hand it over") {
						t.Error("the sheet is not complete")
					}
					m.Correct()
					if html := page(t, m); !strings.Contains(html, "Correct the readings") {
						t.Error("the form is not shown")
					}
					m.GoSheet()
				}
				m.GoStart()
				if html := page(t, m); !strings.Contains(html, "Look at a worked example") {
					t.Error("the start page is not complete")
				}
			})
		}
	}
}

// Markup in a record is shown as text.
func TestMarkupInARecordIsText(t *testing.T) {
	m := model.New(shelf{"bad"})
	m.Open([]model.File{{Name: "html-in-fields.case.json"}})
	html := page(t, m)
	for _, bad := range []string{"<script", "<img"} {
		if strings.Contains(html, bad) {
			t.Errorf("got %s as markup, want it as text", bad)
		}
	}
	if !strings.Contains(html, "&lt;") {
		t.Error("the text of the field is not shown")
	}
}
