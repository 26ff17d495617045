package drill

import (
	"context"
	"slices"
	"strings"
	"testing"

	"ampstead/internal/near"
	"ampstead/rig"
)

// marginOf drills the toy with a relay that lets a stuck charger come near harm
// when it is set above 50.6 V, and trips without need below 49.4 V. It is set to
// 50.0 V and accurate to 0.25 V.
func marginOf(t *testing.T, path string) Margin {
	t.Helper()
	s := toy(t, Options{NoPairs: true})
	s.ready = func(r *rig.Rig) (*play, runner, error) {
		high := float64(r.Protection.Relays[0].High.Value)
		return s.play, func(scene int, faults ...int) (Outcome, error) {
			o := toyRun(false, scene, faults)
			switch stuckOn := slices.Contains(faults, stuck) && scene == 0; {
			case stuckOn && high > 50.6:
				o.Outcome = Near
			case len(faults) == 0 && high < 49.4:
				o.Outcome, o.LostPower = Nuisance, true
			}
			return o, nil
		}, nil
	}
	if err := s.drill(context.Background()); err != nil {
		t.Fatal(err)
	}
	k := slices.IndexFunc(s.out.Margins, func(m Margin) bool { return m.Path == path })
	if k < 0 {
		t.Fatalf("no margin of %s", path)
	}
	return s.out.Margins[k]
}

func TestMarginOfTheRelay(t *testing.T) {
	m := marginOf(t, "protection.relays.guard relay.high")
	near.Equal(t, "tolerance", m.Tol, 0.25, 1e-9)
	near.Equal(t, "range", m.Range, 1.25, 1e-9)
	near.Equal(t, "up", m.Up, 0.57, 0.0325)
	near.Equal(t, "down", m.Down, 0.57, 0.0325)
	if m.Up > 0.6 || m.Down > 0.6 {
		t.Errorf("up %g, down %g: the border is at 0.6 V", m.Up, m.Down)
	}
	if m.UpTo != "roof solar: stuck on, in full sun: caught becomes near" || !strings.Contains(m.DownTo, "nothing wrong, in full sun: power is lost needlessly") {
		t.Errorf("up to %q, down to %q", m.UpTo, m.DownTo)
	}
	if m.Unit != "V" || m.Value != 50 {
		t.Errorf("%+v", m)
	}
}

// What has no say in any run can drift as far as was tried.
func TestMarginOfWhatHasNoSay(t *testing.T) {
	m := marginOf(t, "protection.relays.guard relay.low")
	if m.Up != m.Range || m.Down != m.Range || m.UpTo != "" || m.DownTo != "" {
		t.Errorf("%+v", m)
	}
}

func TestWorsened(t *testing.T) {
	tests := []struct {
		before, after Outcome
		alarm         bool
		want          string
	}{
		{Outcome{Outcome: None}, Outcome{Outcome: Caught}, false, ""},
		{Outcome{Outcome: Harm}, Outcome{Outcome: Near}, false, ""},
		{Outcome{Outcome: Caught}, Outcome{Outcome: Near}, false, "caught becomes near"},
		{Outcome{Outcome: Near}, Outcome{Outcome: Harm}, false, "near becomes harm"},
		{Outcome{Outcome: None}, Outcome{Outcome: Nuisance, LostPower: true}, false, "power is lost needlessly"},
		{Outcome{Outcome: None, Fault: "x"}, Outcome{Outcome: Nuisance, Fault: "x", LostPower: true}, false, ""},
		{Outcome{Outcome: Caught}, Outcome{Outcome: Caught, Silent: true}, true, "nothing warns any more"},
		{Outcome{Outcome: Caught}, Outcome{Outcome: Caught, Silent: true}, false, ""},
	}
	for _, tt := range tests {
		if got := worsened(tt.before, tt.after, tt.alarm); got != tt.want {
			t.Errorf("%v to %v: %q, want %q", tt.before.Outcome, tt.after.Outcome, got, tt.want)
		}
	}
}
