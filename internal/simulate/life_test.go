package simulate_test

import (
	"fmt"
	"testing"
	"time"

	"ratchetmark/internal/record"
	"ratchetmark/internal/simulate"
)

func TestProbe(t *testing.T) {
	g := simulate.New(1)
	start := time.Now()
	codes := map[string]int{}
	pieces := map[string]map[string]int{}
	n := 4000
	lives := 0
	for i := range n {
		l := g.Life(i)
		for _, f := range record.Check(&l.Case) {
			codes[f.Code+" "+string(f.Severity)]++
		}
		if len(l.Truth) > 0 {
			lives++
		}
		for _, x := range l.Truth {
			for _, k := range []string{x.What, x.What + " " + string(l.Availability)} {
				if pieces[k] == nil {
					pieces[k] = map[string]int{}
				}
				pieces[k][x.Cause]++
				pieces[k]["all"]++
			}
		}
	}
	fmt.Println(time.Since(start), codes, lives)
	for k, p := range pieces {
		fmt.Print(k, " ", p["all"], ": ")
		for _, c := range append(simulate.Causes, simulate.None) {
			fmt.Printf("%s %.3f  ", c, float64(p[c])/float64(p["all"]))
		}
		fmt.Println()
	}
}
