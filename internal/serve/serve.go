// Package serve runs the native server: the built app on this machine's loopback address.
package serve

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net"
	"net/http"
	"os/signal"
	"strconv"
	"syscall"
	"time"

	"ratchetmark/internal/host"
	"ratchetmark/internal/site"
)

// DefaultPort is used where none is given.
const DefaultPort = "8080"

// Run serves the app on 127.0.0.1 until the program is interrupted. It prints the address to out. An empty port means
// DefaultPort; 0 means any free one.
func Run(out io.Writer, port string) error {
	ctx, stop := signal.NotifyContext(context.Background(), syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	return run(ctx, out, port, site.Files())
}

func run(ctx context.Context, out io.Writer, port string, files fs.FS) error {
	if err := site.Built(files); err != nil {
		return err
	}
	listener, err := listen(port)
	if err != nil {
		return err
	}
	server := &http.Server{Handler: host.New(files), ReadHeaderTimeout: 10 * time.Second}
	fmt.Fprintf(out, "ratchetmark is at http://%s/ (ctrl-c stops it)\n", listener.Addr())
	stopped := context.AfterFunc(ctx, func() { _ = server.Close() })
	defer stopped()
	if err := server.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
		return fmt.Errorf("the server stopped: %w", err)
	}
	return nil
}

// listen takes the port on the loopback address.
func listen(port string) (net.Listener, error) {
	if port == "" {
		port = DefaultPort
	}
	number, err := strconv.ParseUint(port, 10, 16)
	if err != nil {
		return nil, fmt.Errorf("port %q is not a number from 0 to 65535\nhint: PORT=8081 ratchetmark serve", port)
	}
	listener, err := net.Listen("tcp", net.JoinHostPort("127.0.0.1", port))
	switch {
	case errors.Is(err, syscall.EADDRINUSE):
		return nil, fmt.Errorf("port %s is taken by another program\nhint: PORT=%d ratchetmark serve", port, other(number))
	case errors.Is(err, syscall.EACCES):
		return nil, fmt.Errorf("port %s may not be opened by this user\nhint: PORT=8081 ratchetmark serve", port)
	case err != nil:
		return nil, fmt.Errorf("port %s could not be opened: %w\nhint: PORT=8081 ratchetmark serve", port, err)
	}
	return listener, nil
}

// other proposes a port next to one that is taken.
func other(port uint64) uint64 {
	if port >= 65535 {
		return 8081
	}
	return port + 1
}
