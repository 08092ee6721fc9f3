package dossier

import (
	"reflect"
	"strconv"

	"ratchetmark/internal/capacity"
	"ratchetmark/internal/record"
)

// tidy cuts a figure to nine significant digits. Processors differ in the last
// bits of a sum; what a dossier prints must not.
func tidy(x float64) float64 {
	t, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 9, 64), 64)
	if err != nil {
		return x
	}
	return t
}

func tidyAll(xs ...*float64) {
	for _, x := range xs {
		if x != nil {
			*x = tidy(*x)
		}
	}
}

func tidyBounds(bs ...*record.Bounds) {
	for _, b := range bs {
		if b != nil {
			tidyAll(&b.Low, b.Estimate, b.High)
		}
	}
}

func tidyCapacity(k *Capacity) {
	r := &k.Result
	tidyAll(&r.Spare, r.PeakPercent, &r.Counted)
	tidyBounds(r.MeanLoad)
	for i := range r.HoursOver {
		o := &r.HoursOver[i]
		tidyAll(&o.Low, o.Estimate, o.Smooth, &o.High)
	}
	tidyAll((*float64)(&r.SmallestRated), (*float64)(&r.SensingFrom), (*float64)(&r.SensingTo))
	tidyDetails(&r.Details)
	for i := range k.Left {
		tidyAll(&k.Left[i].Assumed, k.Left[i].Real)
	}
	if p := k.Plan; p != nil {
		tidyAll((*float64)(&p.Total), (*float64)(&p.Left), &p.LeftPercent)
		for i := range p.Lines {
			tidyAll((*float64)(&p.Lines[i].Mass), (*float64)(&p.Lines[i].Sum))
		}
		for i := range p.Zones {
			tidyAll(&p.Zones[i].Left)
		}
	}
}

func tidyDetails(d *capacity.Details) {
	if d.Shares == nil { // a list is never null
		d.Shares = []capacity.Share{}
	}
	for i := range d.Shares {
		tidyAll((*float64)(&d.Shares[i].Load), &d.Shares[i].Percent)
	}
	for i := range d.Marks {
		tidyAll((*float64)(&d.Marks[i].At))
	}
	for i := range d.Edges {
		tidyAll(&d.Edges[i].Rest)
	}
	for i := range d.ExceededFor {
		e := &d.ExceededFor[i]
		tidyAll(&e.Low, e.Uniform, e.Smooth, e.High)
	}
	for i := range d.OverLoads {
		e := &d.OverLoads[i]
		tidyAll(&e.Low, e.Uniform, e.Smooth, &e.High)
	}
	if s := d.Apart; s != nil {
		tidyAll((*float64)(&s.Load), &s.Hours)
	}
	if z := d.Several; z != nil {
		tidyAll(&z.Low, z.High)
		for i := range z.Zones {
			o := &z.Zones[i]
			tidyAll(&o.Low, o.Estimate, o.High)
		}
	}
}

// tidyDeep tidies every figure that can be reached from a pointer. Times and
// what else hides its fields are left as they are.
func tidyDeep(p any) { tidyValue(reflect.ValueOf(p)) }

func tidyValue(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			tidyValue(v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			tidyValue(v.Field(i))
		}
	case reflect.Slice:
		for i := range v.Len() {
			tidyValue(v.Index(i))
		}
	case reflect.Float64:
		if v.CanSet() {
			v.SetFloat(tidy(v.Float()))
		}
	}
}
