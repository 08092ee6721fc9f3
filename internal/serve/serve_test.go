package serve

import (
	"bufio"
	"context"
	"errors"
	"io"
	"net"
	"net/http"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"ratchetmark/internal/site"
)

var built = fstest.MapFS{"index.html": {Data: []byte("hello")}}

func TestServesUntilStopped(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	in, out := io.Pipe()
	done := make(chan error, 1)
	go func() { done <- run(ctx, out, "0", built) }()
	line, err := bufio.NewReader(in).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	address := regexp.MustCompile(`http://127\.0\.0\.1:\d+/`).FindString(line)
	if address == "" {
		t.Fatalf("no address in %q", line)
	}
	answer, err := http.Get(address)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	if data, err := io.ReadAll(answer.Body); err != nil || string(data) != "hello" {
		t.Errorf("answer %q, %v", data, err)
	}
	stop()
	if err := <-done; err != nil {
		t.Errorf("stopped with %v", err)
	}
}

func TestNotBuilt(t *testing.T) {
	err := run(context.Background(), io.Discard, "0", fstest.MapFS{})
	if !errors.Is(err, site.ErrNotBuilt) {
		t.Errorf("got %v, want %v", err, site.ErrNotBuilt)
	}
}

func TestTakenPort(t *testing.T) {
	taken, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer taken.Close()
	_, port, err := net.SplitHostPort(taken.Addr().String())
	if err != nil {
		t.Fatal(err)
	}
	err = run(context.Background(), io.Discard, port, built)
	if err == nil || !strings.Contains(err.Error(), "port "+port+" is taken") || !strings.Contains(err.Error(), "hint: PORT=") {
		t.Errorf("got %v", err)
	}
}

func TestBadPort(t *testing.T) {
	for _, port := range []string{"-1", "65536", "http", "80 80", "0x50"} {
		err := run(context.Background(), io.Discard, port, built)
		if err == nil || !strings.Contains(err.Error(), "is not a number") {
			t.Errorf("port %q: got %v", port, err)
		}
	}
}
