package browsertest

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"net/url"
	"os"
	"slices"
	"strings"
)

// netEvent is what is read of an event in the browser's network log: who asked for which address.
type netEvent struct {
	Params struct {
		Initiator string `json:"initiator"`
		URL       string `json:"url"`
	} `json:"params"`
}

// checkNetLog returns an error that lists the addresses outside this machine that a page, or a worker of a page, asked for.
// Some browsers also look for news of their own at times; those requests have no page as their initiator.
func checkNetLog(name string) error {
	log, err := os.ReadFile(name)
	if err != nil {
		return fmt.Errorf("the browser kept no network log: %w", err)
	}
	outside, asked := map[string]bool{}, 0
	lines := bufio.NewScanner(bytes.NewReader(log))
	lines.Buffer(nil, len(log)+1)
	for lines.Scan() { // one event a line
		var event netEvent
		if json.Unmarshal(bytes.TrimSuffix(lines.Bytes(), []byte(",")), &event) != nil || !loopback(event.Params.Initiator) {
			continue
		}
		asked++
		if !loopback(event.Params.URL) {
			outside[event.Params.URL] = true
		}
	}
	if asked == 0 {
		return fmt.Errorf("the network log has no request of a page: %d bytes\nhint: did the log's form change", len(log))
	}
	if len(outside) > 0 {
		return fmt.Errorf("pages asked for addresses outside this machine:\n%s",
			strings.Join(slices.Sorted(maps.Keys(outside)), "\n"))
	}
	return nil
}

// loopback tells whether an address is on this machine.
func loopback(address string) bool {
	parsed, err := url.Parse(address)
	return err == nil && (parsed.Hostname() == "127.0.0.1" || parsed.Hostname() == "localhost")
}
