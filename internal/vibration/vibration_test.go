package vibration_test

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"ratchetmark/internal/vibration"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Abs(want)) {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

// testdata/vectors/spectral.json: a two-line teaching case; Dirlik 1985, closed
// form, two independent codes agree to 1e-12.
func TestSpectralVectors(t *testing.T) {
	data, err := os.ReadFile("../../testdata/vectors/spectral.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Spectral []struct {
			Moments                                                [4]float64 `json:"moments_hz"`
			K, C_amplitude, E0, EP, Gamma, Xm, D1, D2, D3, R, Q    float64
			Damage_rate, E_amp_k, Flife, Flife_pdf, Narrowband, Nb float64
			FlifeNb                                                float64 `json:"flife_nb"`
		}
	}
	if err := json.Unmarshal(data, &file); err != nil || len(file.Spectral) == 0 {
		t.Fatalf("got %v and %d vectors, want some", err, len(file.Spectral))
	}
	for _, v := range file.Spectral {
		m := vibration.Moments(v.Moments)
		zero, peaks := m.Crossings()
		near(t, "E0", zero, v.E0, 1e-12)
		near(t, "EP", peaks, v.EP, 1e-12)
		d := m.Dirlik()
		for name, pair := range map[string][2]float64{
			"gamma": {d.Gamma, v.Gamma}, "xm": {d.Xm, v.Xm}, "D1": {d.D1, v.D1}, "D2": {d.D2, v.D2}, "D3": {d.D3, v.D3}, "R": {d.R, v.R}, "Q": {d.Q, v.Q},
		} {
			near(t, name, pair[0], pair[1], 1e-11)
		}
		near(t, "mean power", math.Pow(m[0], v.K/2)*d.MeanPower(v.K), v.E_amp_k, 1e-11)
		near(t, "damage", m.Rainflow(v.K)/v.C_amplitude, v.Damage_rate, 1e-11)
		near(t, "damage, other code", m.Rainflow(v.K)/v.C_amplitude, v.Flife, 1e-11)
		near(t, "damage by density", m.Rainflow(v.K)/v.C_amplitude, v.Flife_pdf, 1e-11)
		near(t, "narrow band", m.NarrowBand(v.K)/v.C_amplitude, v.Narrowband, 1e-11)
		near(t, "narrow band, other code", m.NarrowBand(v.K)/v.C_amplitude, v.FlifeNb, 1e-11)
	}
	// The case itself: 1 Hz with variance 10 000, 10 Hz with 2500.
	if got := vibration.MomentsOf([]vibration.Point{{Hz: 1, Level: 10_000}, {Hz: 10, Level: 2500}}); got != vibration.Moments(file.Spectral[0].Moments) {
		t.Errorf("got moments %v, want %v", got, file.Spectral[0].Moments)
	}
}

// The corners of a profile are right only if its overall level is the published
// one: 0.52, 0.54 and 1.04 g.
func TestOverallLevels(t *testing.T) {
	for _, p := range vibration.Profiles {
		if got := math.Round(p.RMS()*100) / 100; got != p.Published {
			t.Errorf("%s: got %v g, want %v g", p.Name, p.RMS(), p.Published)
		}
		var area float64
		const steps = 200_000
		first, last := p.Points[0].Hz, p.Points[len(p.Points)-1].Hz
		for i := range steps {
			area += p.Level(first+(last-first)*(float64(i)+0.5)/steps) * (last - first) / steps
		}
		near(t, p.Name+", added up", math.Sqrt(area), p.RMS(), 1e-4)
		if p.Level(first/2) != 0 || p.Level(last*2) != 0 {
			t.Errorf("%s: got a level outside, want none", p.Name)
		}
	}
}

// The integral against a fine sum, for modes within, below and above a profile.
func TestResponseAgainstAFineSum(t *testing.T) {
	for _, p := range vibration.Profiles {
		for _, mode := range []vibration.Mode{{5, 0.05}, {3.3, 0.02}, {15, 0.1}, {0.5, 0.3}, {100, 0.002}, {40, 0.02}} {
			var want vibration.Moments
			var lines []vibration.Point
			first, last := math.Log(p.Points[0].Hz), math.Log(p.Points[len(p.Points)-1].Hz)
			const steps = 60_000
			for i := range steps {
				hz := math.Exp(first + (last-first)*(float64(i)+0.5)/steps)
				lines = append(lines, vibration.Point{Hz: hz, Level: p.Level(hz) * mode.Gain(hz) * hz * (last - first) / steps})
			}
			want = vibration.MomentsOf(lines)
			got := vibration.Response(p, mode)
			for i := range got {
				near(t, p.Name, got[i], want[i], 1e-3)
			}
		}
	}
}

// A stiff machine moves as the floor does; at resonance the gain is about
// 1/(2ζ); a floor that shakes twice as hard does 2^k times the damage.
func TestGain(t *testing.T) {
	near(t, "stiff", vibration.Mode{Hz: 1000, Damping: 0.05}.Gain(1), 1, 1e-5)
	near(t, "resonance", math.Sqrt(vibration.Mode{Hz: 5, Damping: 0.05}.Gain(5)), math.Sqrt(1+0.01)/0.1, 1e-12)
	rng := rand.New(rand.NewPCG(1, 2))
	for range 50 {
		p := vibration.Profiles[rng.IntN(len(vibration.Profiles))]
		mode := vibration.Mode{Hz: 1 + 30*rng.Float64(), Damping: 0.01 + 0.2*rng.Float64()}
		m := vibration.Response(p, mode)
		for i := range m {
			m[i] *= 4
		}
		k := 3 + 4*rng.Float64()
		near(t, "twice as hard", m.Rainflow(k), math.Pow(2, k)*vibration.Response(p, mode).Rainflow(k), 1e-9)
		softer := vibration.Response(p, vibration.Mode{Hz: mode.Hz, Damping: mode.Damping * 1.5})
		if mode.Hz > 10 && mode.Hz < 40 && softer.NarrowBand(k) > vibration.Response(p, mode).NarrowBand(k) {
			t.Errorf("%s %v: got more with more damping, want less", p.Name, mode)
		}
		if m.Rainflow(k) > m.NarrowBand(k)*1.1 {
			t.Errorf("%s %v k %v: got %v by rainflow and %v by narrow band, want no more", p.Name, mode, k, m.Rainflow(k), m.NarrowBand(k))
		}
	}
}

// A response of one line alone has no weights; no response does no damage.
func TestEdges(t *testing.T) {
	one := vibration.MomentsOf([]vibration.Point{{Hz: 5, Level: 2}})
	near(t, "one line", one.Rainflow(3), one.NarrowBand(3), 1e-6)
	if x := (vibration.Moments{}).Rainflow(3); x != 0 {
		t.Errorf("nothing: got %v, want 0", x)
	}
}
