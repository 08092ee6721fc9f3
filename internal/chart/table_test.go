package chart

import "testing"

func TestTable(t *testing.T) {
	got := Table("Hours & loads", []string{"Reading", "0–90 kg"}, []Row{{"<1>", []string{"12.5"}}})
	const want = `<table><caption>Hours &amp; loads</caption><thead><tr><th scope="col">Reading</th><th scope="col">0&#8211;90 kg</th></tr></thead>` +
		`<tbody><tr><th scope="row">&lt;1&gt;</th><td>12.5</td></tr></tbody></table>`
	if got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}
