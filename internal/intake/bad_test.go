package intake_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"ratchetmark/internal/dossier"
	"ratchetmark/internal/intake"
)

const testdata = "../../testdata/"

// read reads a file of testdata.
func read(t testing.TB, path string) (intake.Batch, error) {
	t.Helper()
	data, err := os.ReadFile(testdata + path)
	if err != nil {
		t.Fatal(err)
	}
	return intake.ReadBytes(filepath.Base(path), data)
}

// bad holds every file of testdata/bad with what is said of it: either why it
// is refused and where, or the closed list of findings as "code line:column".
var bad = map[string]struct {
	refused string
	found   []string
}{
	// not a record at all
	"empty.csv":           {refused: "empty.csv: the file is empty"},
	"blank.csv":           {refused: "blank.csv: the file begins with nothing but blank lines"},
	"photo.jpg":           {refused: "photo.jpg: the file is a JPEG picture"},
	"photo-named.csv":     {refused: "photo-named.csv: the file is a JPEG picture"},
	"html-page.csv":       {refused: "html-page.csv: the file is a web page or XML without a table of more than one cell"},
	"not-a-case.json":     {refused: "not-a-case.json:1:2: the number 18 that is not a case"},
	"deep.json":           {refused: "deep.json:1:42: values are nested more than 40 deep"},
	"truncated.case.json": {refused: "truncated.case.json:13:45: the file ends in the middle of a value"},
	"missing-column.csv":  {refused: "missing-column.csv:2: the heading row has no column with the hours"},

	// values that cannot be read
	"wrong-types.case.json":     {found: []string{"value-unreadable 8:20", "value-unreadable 10:16", "bands-incomplete 10:16"}},
	"number-overflow.case.json": {found: []string{"value-unreadable 17:18"}},
	"bad-time.case.json":        {found: []string{"value-unreadable 7:13"}},
	"duplicate-key.case.json":   {found: []string{"member-twice 4:70"}},
	"unknown-fields.case.json":  {found: []string{"member-unknown 4:153", "member-unknown 11:50", "member-unknown 19:7", "member-unknown 22:3"}},
	"nan.csv":                   {found: []string{"value-unreadable 4:42", "bands-incomplete 4:35", "band-gap 5:35", "hours-short-of-powered 3:24"}},
	"infinity.csv":              {found: []string{"value-unreadable 4:42", "bands-incomplete 4:35", "band-gap 5:35", "hours-short-of-powered 3:24"}},
	"text-in-number.csv":        {found: []string{"value-unreadable 4:42", "bands-incomplete 4:35", "band-gap 5:35", "hours-short-of-powered 3:24"}},
	"ambiguous-number.csv":      {found: []string{"number-ambiguous 3:45"}},
	"ragged.csv":                {found: []string{"row-ragged 4:1", "row-ragged 6:1", "band-gap 5:35", "band-gap 7:35", "hours-short-of-powered 3:24"}},
	"unclosed-quote.csv":        {found: []string{"row-broken 4:1", "band-gap 5:35", "hours-short-of-powered 3:24"}},
	"utf16.csv":                 {found: []string{"encoding-detected 1:1"}},
	"control-characters.csv":    {found: []string{"hidden-characters 3:1"}},
	"html-in-fields.case.json":  {}, // text is text

	// values that do not fit
	"wrong-format.case.json":             {found: []string{"format-unknown 2:13"}},
	"no-rated-load.case.json":            {found: []string{"rated-load-missing 4:14"}},
	"no-reading.case.json":               {found: []string{"reading-missing 5:15"}},
	"plate-inconsistent.case.json":       {found: []string{"plate-inconsistent 4:65"}},
	"region-unknown.case.json":           {found: []string{"region-unknown 4:163"}},
	"edition-unknown.case.json":          {found: []string{"edition-unknown 4:164"}},
	"zone-without-load.case.json":        {found: []string{"zone-without-load 5:15"}},
	"zone-below-rated.case.json":         {found: []string{"zone-below-rated 5:15"}},
	"rated-ten-tonnes.case.json":         {found: []string{"value-out-of-range 4:65"}},
	"rated-below-one-person.case.json":   {found: []string{"plate-inconsistent 4:62"}},
	"negative-hours.case.json":           {found: []string{"value-negative 14:49"}},
	"huge-hours.case.json":               {found: []string{"value-beyond-range 13:49"}},
	"huge-number.case.json":              {found: []string{"value-beyond-range 17:18"}},
	"reversed-band.case.json":            {found: []string{"band-reversed 12:9"}},
	"duplicate-band.case.json":           {found: []string{"band-duplicate 13:9"}},
	"overlap.case.json":                  {found: []string{"band-overlap 12:9"}},
	"open-band-not-last.case.json":       {found: []string{"band-overlap 14:9"}},
	"gap.case.json":                      {found: []string{"band-gap 12:9"}},
	"unsorted.case.json":                 {found: []string{"band-unsorted 13:9"}},
	"hours-exceed-powered.case.json":     {found: []string{"hours-exceed-powered 10:16"}},
	"moving-exceeds-powered.case.json":   {found: []string{"moving-exceeds-powered 9:19"}},
	"peak-below-occupied-band.case.json": {found: []string{"peak-below-occupied-band 17:18"}},
	"readings-out-of-order.case.json":    {found: []string{"readings-out-of-order 21:13"}},
	"bands-changed.case.json":            {found: []string{"bands-changed 24:16"}},
	"counter-backwards.case.json":        {found: []string{"counter-backwards 26:48"}},
	"peak-fell.case.json":                {found: []string{"peak-fell 31:18"}},
	"faster-than-clock.case.json":        {found: []string{"faster-than-clock 20:5"}},
	"peak-at-limit.csv":                  {found: []string{"peak-at-limit 3:10"}},
	"custody-overlap.case.json":          {found: []string{"custody-overlap 23:5"}},
	"daily-over-24.case.json":            {found: []string{"day-too-long 23:5"}},
	"check-unknown.case.json":            {found: []string{"check-unknown 22:44"}},
	"check-undated.case.json":            {found: []string{"check-undated 22:12"}},
	"check-far-off.case.json":            {found: []string{"check-far-off 22:12"}},
	"check-nothing-shown.case.json":      {found: []string{"check-nothing-shown 22:64"}},
	"check-mass-unclear.case.json":       {found: []string{"check-mass-unclear 22:86"}},
	"check-reads-wrong.case.json":        {found: []string{"check-reads-wrong 22:70"}},
	"tie-down-undated.case.json":         {found: []string{"tie-down-undated 22:5"}},
	"tie-down-far-off.case.json":         {found: []string{"tie-down-far-off 22:12"}},
	"tie-down-unsaid.case.json":          {found: []string{"tie-down-unsaid 22:53"}},
	"tie-down-source-unknown.case.json":  {found: []string{"tie-down-source-unknown 22:66"}},
	"tie-down-without-trip.case.json":    {found: []string{"tie-down-without-trip 26:12"}},
	"tie-down-unreadable.case.json":      {found: []string{"value-unreadable 22:53", "member-unknown 22:76", "tie-down-unsaid 22:53"}},

	// values whose sense depends on others
	"heading-unread.csv":        {found: []string{"heading-unread 6:1"}},
	"line-unread.csv":           {found: []string{"line-unread 4:1"}},
	"rows-unexplained.csv":      {found: []string{"column-unknown 2:25", "rows-unexplained 4:10", "reading-empty 3:1", "reading-empty 4:1", "reading-undated 3:1", "reading-undated 4:1"}},
	"alarms-counted.csv":        {found: []string{"alarms-counted 3:19"}},
	"shares-or-hours.csv":       {found: []string{"shares-or-hours 3:1", "reading-empty 3:1"}},
	"hours-of-two-units.csv":    {found: []string{"unit-unclear 3:1", "reading-empty 3:1"}},
	"hours-alike.csv":           {found: []string{"column-unknown 2:41", "hours-alike 3:1", "reading-empty 3:1"}},
	"hours-twice.csv":           {found: []string{"column-twice 2:41", "bands-incomplete 3:14", "reading-empty 3:1"}},
	"dates-mixed.csv":           {found: []string{"dates-mixed 3:1"}},
	"names-alike.csv":           {found: []string{"names-alike 3:10", "names-alike 4:10"}},
	"date-from-number.csv":      {found: []string{"date-from-number 3:10"}},
	"force-as-mass.csv":         {found: []string{"force-as-mass 3:1"}},
	"shares-of-one.csv":         {found: []string{"shares-of-one 3:1", "reading-empty 3:1"}},
	"peak-above-all-bands.csv":  {found: []string{"peak-above-all-bands 3:19"}},
	"unit-unclear.csv":          {found: []string{"unit-assumed 3:10", "unit-unclear 3:1"}},
	"unit-unclear-peak.csv":     {found: []string{"unit-assumed 3:18", "unit-unclear 3:18"}},
	"unit-in-a-line.csv":        {found: []string{"line-not-used 2:1", "unit-assumed 4:6", "unit-unclear 4:6", "unit-unclear 4:10", "rated-load-missing 4:6", "reading-empty 4:1"}},
	"unit-unknown.csv":          {found: []string{"unit-unknown 2:46"}},
	"hours-scaled.csv":          {found: []string{"unit-unknown 2:35", "bands-incomplete 3:10", "reading-empty 3:1"}},
	"column-unread.csv":         {found: []string{"column-unread 2:45"}},
	"minutes-in-a-line.csv":     {found: []string{"unit-elsewhere 2:1", "line-not-used 2:1", "unit-unclear 4:1", "reading-empty 4:1"}},
	"custody-of-nobody.csv":     {found: []string{"machine-unnamed 7:1", "machine-unnamed 7:1"}},
	"edges-closed.csv":          {found: []string{"edges-closed 3:1"}},
	"event-unknown.csv":         {found: []string{"event-unknown 6:1"}},
	"holder-unknown.csv":        {found: []string{"holder-unknown 6:1"}},
	"kilograms-assumed.csv":     {found: []string{"unit-assumed 3:6"}},
	"machine-from-sheet.zip":    {found: []string{"machine-from-sheet 3:1", "machine-from-sheet 3:1"}},
	"not-a-band.csv":            {found: []string{"value-unreadable 4:10", "bands-incomplete 4:10"}},
	"percent-without-rated.csv": {found: []string{"edges-without-rated-load 3:1", "rated-load-missing 3:1", "reading-empty 3:1"}},
	"preamble-noise.csv":        {found: []string{"line-not-used 2:1"}},
	"share-without-hours.csv":   {found: []string{"share-without-hours 3:1", "reading-empty 3:1"}},
	"value-differs.csv":         {found: []string{"value-differs 4:6"}},
	"wrong-unit.csv":            {found: []string{"value-unreadable 3:15", "bands-incomplete 3:10", "bands-start-above-zero 3:1"}},
	"zone-missing.csv":          {found: []string{"zone-assumed 3:10"}},
}

func TestBadFiles(t *testing.T) {
	for name, want := range bad {
		batch, err := read(t, "bad/"+name)
		if want.refused != "" {
			var refusal *intake.Refusal
			if !errors.As(err, &refusal) {
				t.Errorf("%s: got %v, want a refusal: %s", name, err, want.refused)
				continue
			}
			if got, _, _ := strings.Cut(refusal.Error(), "; expected "); got != want.refused {
				t.Errorf("%s: got %q, want %q", name, got, want.refused)
			}
			if refusal.Expected == "" || refusal.Hint == "" {
				t.Errorf("%s: got expected %q and hint %q, want both", name, refusal.Expected, refusal.Hint)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: got %v, want it read", name, err)
			continue
		}
		var got []string
		for _, d := range dossier.From([]intake.Batch{batch}) {
			for _, f := range d.Findings {
				got = append(got, fmt.Sprintf("%s %d:%d", f.Code, f.Line, f.Column))
				if !strings.HasPrefix(f.File, name) || f.Where == "" || f.Message == "" || f.Expected == "" || f.Effect == "" {
					t.Errorf("%s: got finding %+v, want it whole", name, f)
				}
			}
		}
		if !slices.Equal(got, want.found) {
			t.Errorf("%s: got %q, want %q", name, got, want.found)
		}
	}
}

func TestEveryBadFileIsListed(t *testing.T) {
	files, err := os.ReadDir(testdata + "bad")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if _, ok := bad[f.Name()]; !ok {
			t.Errorf("%s: got no expectation, want one", f.Name())
		}
	}
	if len(files) != len(bad) {
		t.Errorf("got %d files and %d expectations, want as many", len(files), len(bad))
	}
}

// The places named point at what is wrong, as an editor counts.
func TestPlacesPointAtTheFault(t *testing.T) {
	for name, want := range map[string]string{
		"negative-hours.case.json": "-0.5}", "huge-number.case.json": "1e308,", "wrong-types.case.json": `"forty",`,
		"text-in-number.csv": "about twelve", "ambiguous-number.csv": "1,234;", "overlap.case.json": `{"from_kg": 70`,
	} {
		batch, err := read(t, "bad/"+name)
		if err != nil {
			t.Fatal(err)
		}
		f := dossier.From([]intake.Batch{batch})[0].Findings[0]
		data, _ := os.ReadFile(testdata + "bad/" + name)
		line := strings.Split(string(data), "\n")[f.Line-1]
		if got := string([]rune(line)[f.Column-1:]); !strings.HasPrefix(got, want) {
			t.Errorf("%s: got the place of %q, want %q", name, got, want)
		}
	}
}

// Text from a file is kept as text, byte for byte where it shows.
func TestMarkupIsText(t *testing.T) {
	batch, err := read(t, "bad/html-in-fields.case.json")
	if err != nil {
		t.Fatal(err)
	}
	c := batch.Records[0].Case
	if want := `<script>alert("T-01")</script>`; c.Machine.ID != want {
		t.Errorf("got %q, want %q", c.Machine.ID, want)
	}
	if want := `<img src=x onerror=alert(1)> "hirer" & 'co'`; c.Custody[0].Who != want {
		t.Errorf("got %q, want %q", c.Custody[0].Who, want)
	}
}
