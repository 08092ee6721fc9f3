package browsertest

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
)

// record notes an event of the page. It runs on the goroutine that reads the browser's messages, so it must not wait.
func (p *Page) record(event any) {
	p.lock.Lock()
	defer p.lock.Unlock()
	switch e := event.(type) {
	case *network.EventRequestWillBeSent:
		p.recordRequest(e.Request.URL)
	case *network.EventWebSocketCreated:
		p.recordRequest(e.URL)
	case *runtime.EventExceptionThrown:
		p.problems = append(p.problems, "uncaught: "+exceptionText(e.ExceptionDetails))
	case *runtime.EventConsoleAPICalled:
		p.said = append(p.said, argumentText(e.Args))
		if e.Type == runtime.ConsoleAPICalledTypeError || e.Type == runtime.ConsoleAPICalledTypeAssert {
			p.problems = append(p.problems, "console: "+argumentText(e.Args))
		}
	case *log.EventEntryAdded:
		if e.Entry.Level == log.EntryLevelError || e.Entry.Source == log.EntrySourceSecurity {
			p.problems = append(p.problems, fmt.Sprintf("%s: %s %s", e.Entry.Source, e.Entry.Text, e.Entry.URL))
		}
	}
}

// recordRequest notes a request; one that leaves the app's own origin is a problem. What a page makes itself (data and blob
// addresses) leaves nothing.
func (p *Page) recordRequest(address string) {
	p.requests = append(p.requests, address)
	if address == p.origin || strings.HasPrefix(address, p.origin+"/") ||
		strings.HasPrefix(address, "data:") || strings.HasPrefix(address, "blob:"+p.origin+"/") {
		return
	}
	p.problems = append(p.problems, "request outside the app: "+address)
}

func exceptionText(details *runtime.ExceptionDetails) string {
	if details.Exception != nil && details.Exception.Description != "" {
		return details.Exception.Description
	}
	return details.Text
}

func argumentText(arguments []*runtime.RemoteObject) string {
	var words []string
	for _, argument := range arguments {
		word := argument.Description
		if word == "" && json.Unmarshal(argument.Value, &word) != nil {
			word = string(argument.Value)
		}
		words = append(words, word)
	}
	return strings.Join(words, " ")
}

// Problems returns what went wrong in the page so far.
func (p *Page) Problems() []string {
	p.lock.Lock()
	defer p.lock.Unlock()
	return slices.Clone(p.problems)
}

// Said returns all that was written to the console so far, what the Go program printed included, and the problems.
func (p *Page) Said() string {
	p.lock.Lock()
	defer p.lock.Unlock()
	return "on the console:\n" + strings.Join(p.said, "\n") + "\nproblems:\n" + strings.Join(p.problems, "\n")
}

// Forgive drops the problems that hold the words and returns how many there were: for a test that provokes them.
func (p *Page) Forgive(words string) int {
	p.lock.Lock()
	defer p.lock.Unlock()
	before := len(p.problems)
	p.problems = slices.DeleteFunc(p.problems, func(problem string) bool { return strings.Contains(problem, words) })
	return before - len(p.problems)
}

// Requests returns the addresses that the page asked for so far, in order.
func (p *Page) Requests() []string {
	p.lock.Lock()
	defer p.lock.Unlock()
	return slices.Clone(p.requests)
}
