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

func tidyCapacity(r *capacity.Result) {
	tidyAll(&r.Spare, r.PeakPercent, &r.Counted)
	tidyBounds(r.MeanLoad)
	for i := range r.HoursOver {
		o := &r.HoursOver[i]
		tidyAll(&o.Low, o.Estimate, &o.High)
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
