package app

import (
	"fmt"
	"strconv"

	"ratchetmark/app/model"
)

// Root is the whole page.
type Root struct {
	Model *model.Model
}

func (c *Root) atStart() bool  { return c.Model.Page == model.Start }
func (c *Root) atTyping() bool { return c.Model.Page == model.Typing }
func (c *Root) atSheet() bool  { return c.Model.Page == model.Sheet }

func (c *Root) atCard() bool {
	return c.Model.Page == model.CardPage && c.Model.Case() != nil
}

func (c *Root) atPointed() bool {
	return c.Model.Page == model.Pointed && c.Model.Pointing != nil
}

func (c *Root) do(action func()) { c.Model.Do(action) }

// most is how much of a text goes into one node: the renderer takes 16 KB.
const most = 12_000

func (c *Root) crash() string {
	if len(c.Model.Crash) > most {
		return c.Model.Crash[:most]
	}
	return c.Model.Crash
}

// isBusy reports whether long work is under way; short work shows nothing.
func (c *Root) isBusy() bool { return c.Model.Busy != nil && c.Model.Busy.Long }

func (c *Root) percent() string { return strconv.Itoa(c.Model.Busy.Percent()) }

func (c *Root) busy() string {
	b := c.Model.Busy
	if b.Total <= 0 {
		return "Reading " + b.Name
	}
	return fmt.Sprintf("Reading %s: %d %% of %.1f MB", b.Name, b.Percent(), float64(b.Total)/1e6)
}
