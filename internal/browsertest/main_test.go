package browsertest

import (
	"flag"
	"fmt"
	"os"
	"testing"
)

var (
	shots   = flag.Bool("shots", false, "write screenshots of all states into the folder .shots of the project")
	figures = flag.Bool("figures", false, "measure sizes and times and print them")
)

func TestMain(m *testing.M) {
	flag.Parse()
	os.Exit(run(m))
}

// run starts the browser, runs the tests and looks at what the browser did on the network meanwhile.
func run(m *testing.M) int {
	var err error
	if shared, err = Start(); err != nil {
		fmt.Fprintln(os.Stderr, "browsertest:", err)
		return 1
	}
	code := m.Run()
	if err := shared.Stop(); err != nil {
		fmt.Fprintln(os.Stderr, "browsertest:", err)
		return 1
	}
	return code
}
