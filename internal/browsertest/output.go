package browsertest

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"time"

	"github.com/chromedp/cdproto/browser"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// Media says how a page is to be shown: what the system is set to, or print. The zero value is a light screen.
type Media struct {
	Dark, ForcedColors, MoreContrast, ReducedMotion, Print bool
}

// Show emulates the media.
func (p *Page) Show(m Media) {
	p.t.Helper()
	features := []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: pick(m.Dark, "dark", "light")}}
	add := func(on bool, name, value string) {
		features = append(features, &emulation.MediaFeature{Name: name, Value: pick(on, value, "")})
	}
	add(m.ForcedColors, "forced-colors", "active")
	add(m.MoreContrast, "prefers-contrast", "more")
	add(m.ReducedMotion, "prefers-reduced-motion", "reduce")
	p.call("emulate media", func(ctx context.Context) error {
		_, err := chromedp.Call(ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Media: pick(m.Print, "print", ""), Features: features,
		})
		return err
	})
}

func pick(first bool, a, b string) string {
	if first {
		return a
	}
	return b
}

// Throttle makes the page's thread slower by a factor; 1 is its own speed.
func (p *Page) Throttle(factor float64) {
	p.t.Helper()
	p.call("throttle", func(ctx context.Context) error {
		_, err := chromedp.Call(ctx, emulation.SetCPUThrottlingRate, emulation.SetCPUThrottlingRateParams{Rate: factor})
		return err
	})
}

// Screenshot returns the whole page, below the fold too, as PNG.
func (p *Page) Screenshot() []byte {
	p.t.Helper()
	var picture []byte
	p.call("take a screenshot", func(ctx context.Context) (err error) {
		picture, err = chromedp.Run(ctx, chromedp.FullScreenshot(100))
		return err
	})
	return picture
}

// tallest is the most device pixels that a screenshot has from top to bottom.
const tallest = 16000

// whole is a viewport as tall as the page, so that what sticks to the window's edge does not lie over the middle of a screenshot.
func (p *Page) whole(v Viewport) Viewport {
	p.t.Helper()
	height := Eval[int64](p, `Math.ceil(document.documentElement.scrollHeight)`)
	v.Height = min(max(v.Height, height), int64(tallest/v.Scale))
	return v
}

// Paper is a size to print on.
type Paper struct {
	Name string
	Size chromedp.PaperSize
}

// The papers that a sheet is printed on.
var (
	A4     = Paper{"a4", chromedp.PaperA4}
	Letter = Paper{"letter", chromedp.PaperLetter}
)

// PDF prints the page as a person does who changes nothing in the print dialogue.
func (p *Page) PDF(paper Paper) []byte {
	p.t.Helper()
	var printed []byte
	p.call("print", func(ctx context.Context) (err error) {
		printed, err = chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(paper.Size), tagged))
		return err
	})
	return printed
}

// tagged asks for a PDF with structure, for readers that cannot see it.
func tagged(params *page.PrintToPDFParams) {
	yes := true
	params.GenerateTaggedPDF = &yes
}

// Pages turns a PDF into PNG files stem-1.png, stem-2.png and so on.
func Pages(printed []byte, stem string) error {
	file := stem + ".pdf"
	if err := os.WriteFile(file, printed, 0o644); err != nil {
		return err
	}
	defer os.Remove(file)
	return exec.Command("pdftoppm", "-png", "-r", "96", file, stem).Run()
}

// PDFText returns the text of a PDF as it is laid out.
func PDFText(printed []byte, folder string) (string, error) {
	file := filepath.Join(folder, "printed.pdf")
	if err := os.WriteFile(file, printed, 0o644); err != nil {
		return "", err
	}
	text, err := exec.Command("pdftotext", "-layout", file, "-").Output()
	return string(text), err
}

// Download runs a step that makes the page offer a file and returns the file's name and content.
func (p *Page) Download(step func()) (name string, content []byte) {
	p.t.Helper()
	folder := p.t.TempDir()
	begun := make(chan *browser.EventDownloadWillBegin, 1)
	ended := make(chan *browser.EventDownloadProgress, 1)
	p.call("watch for a download", func(ctx context.Context) error {
		if err := chromedp.ListenBrowser(p.ctx, watch(begun, ended)); err != nil {
			return err
		}
		yes := true
		_, err := chromedp.CallBrowser(ctx, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{
			Behavior:         browser.SetDownloadBehaviorBehaviorAllowAndName,
			BrowserContextID: chromedp.FromContext(p.ctx).BrowserContextID,
			DownloadPath:     folder,
			EventsEnabled:    &yes,
		})
		return err
	})
	step()
	start := receive(p, begun, "the page offers a file")
	if end := receive(p, ended, "the file is complete"); end.State != browser.DownloadProgressStateCompleted {
		p.t.Fatalf("download of %s: %s", start.SuggestedFilename, end.State)
	}
	content, err := os.ReadFile(filepath.Join(folder, start.GUID))
	if err != nil {
		p.t.Fatal(err)
	}
	return start.SuggestedFilename, content
}

// watch passes on the begin and the end of a download.
func watch(begun chan<- *browser.EventDownloadWillBegin, ended chan<- *browser.EventDownloadProgress) func(any) {
	return func(event any) {
		switch e := event.(type) {
		case *browser.EventDownloadWillBegin:
			select {
			case begun <- e:
			default:
			}
		case *browser.EventDownloadProgress:
			if e.State == browser.DownloadProgressStateInProgress {
				return
			}
			select {
			case ended <- e:
			default:
			}
		}
	}
}

func receive[T any](p *Page, from <-chan T, what string) T {
	p.t.Helper()
	select {
	case value := <-from:
		return value
	case <-time.After(patience):
		p.t.Fatalf("waited %s in vain: %s", patience, what)
		panic("unreachable")
	}
}
