package drill

import "testing"

// BenchmarkOneDrill is one run of the mended rig, over all its faults and scenes
// in turn.
func BenchmarkOneDrill(b *testing.B) {
	p := prepared(b, "curlew", nil)
	steps, k := 0, 0
	b.ReportAllocs()
	for b.Loop() {
		t, err := p.begin(k%len(p.scenes), []int{k / len(p.scenes) % len(p.faults)})
		if err != nil {
			b.Fatal(err)
		}
		t.play(nil)
		if o := t.outcome(); o.Outcome == "" {
			b.Fatal("no outcome")
		}
		steps += t.steps
		k++
	}
	b.ReportMetric(float64(steps)/float64(k), "steps/run")
}

// BenchmarkPrepare is making a rig ready.
func BenchmarkPrepare(b *testing.B) {
	r := readRig(b, "curlew")
	for b.Loop() {
		if _, err := prepare(r); err != nil {
			b.Fatal(err)
		}
	}
}
