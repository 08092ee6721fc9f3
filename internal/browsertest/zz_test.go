package browsertest

import (
	"testing"
)

func TestZZ(t *testing.T) {
	p := Open(t, Tablet)
	p.Click("#start details summary")
	p.Settle()
	t.Log("open after click", Eval[bool](p, `document.querySelector("#start details").open`))
	p.Focus("#paste")
	p.insert("a")
	p.Settle()
	t.Log("open after input", Eval[bool](p, `document.querySelector("#start details").open`))
	p.Click("#example")
	p.WaitFor("#sheet")
	p.Click("#machine-3")
	p.Click("#recorded details summary")
	p.Settle()
	t.Log("open after click", Eval[bool](p, `document.querySelector("#recorded details").open`))
	p.Click("#unit")
	p.Settle()
	t.Log("open after unit", Eval[bool](p, `document.querySelector("#recorded details").open`))
}
