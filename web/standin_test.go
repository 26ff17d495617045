package web

import (
	"context"
	"net/http"
	"testing"
)

// gate holds back the runs of what stands in for a stage, until it is closed; a
// nil one lets every run end at once.
type gate chan struct{}

func (g gate) pass(ctx context.Context) error {
	if g == nil {
		return nil
	}
	select {
	case <-g:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// measure takes the time of a page.
func (v *visitor) measure(b *testing.B, path string) {
	b.ReportAllocs()
	for b.Loop() {
		if res := v.do(httptestGet(path)); res.StatusCode != http.StatusOK {
			b.Fatal(res.Status)
		}
	}
}

// standIns puts quick inventions in the place of everything that reckons for long.
func standIns(c *Config) {
	road, faults, market, logs := &roads{}, &faultsAt{}, &marketAt{}, &bench{}
	c.reckon, c.prover = road.reckon, logs.prove
	c.drilling = drilling{faults.run, faults.play}
	c.choosing = choosing{market.run, market.apply}
}
