package drill

import "testing"

func TestRows(t *testing.T) {
	res := &Result{
		Scenes: []Scene{{Name: "sun"}, {Name: "frost"}},
		Faults: []Fault{{Name: "solar: stuck", Device: "solar"}, {Name: "relay: welded", Device: "relay"}, {Name: "solar: open", Device: "solar"}},
		Single: []Outcome{
			{Fault: "solar: stuck", Scene: "frost", Outcome: Near, MarginMV: 3, Silent: true},
			{Fault: "solar: stuck", Scene: "sun", Outcome: Harm, MarginMV: -80},
			{Fault: "relay: welded", Scene: "sun", Outcome: None, MarginMV: 500, Silent: true},
			{Fault: "relay: welded", Scene: "frost", Outcome: None, MarginMV: 300, Silent: true},
			{Fault: "relay: welded", Scene: "no such scene", Outcome: Harm},
			{Fault: "no such fault", Scene: "sun", Outcome: Harm},
		},
	}
	rows := res.Rows()
	if len(rows) != 3 || rows[1].Fault.Name != "solar: open" || rows[2].Fault.Name != "relay: welded" {
		t.Fatalf("rows %+v", rows)
	}
	stuck, open, welded := rows[0], rows[1], rows[2]
	if stuck.Worst.Outcome != Harm || stuck.Silent || stuck.Cells[0].Outcome != Harm || stuck.Cells[1].Outcome != Near {
		t.Errorf("stuck %+v", stuck)
	}
	if open.Worst != nil || open.Silent {
		t.Errorf("a fault that was not played: %+v", open)
	}
	if welded.Worst.MarginMV != 300 || !welded.Silent {
		t.Errorf("welded %+v", welded)
	}
	res.Without = []Outcome{{Scene: "frost", Outcome: Caught, FirstLayer: "frost"}}
	plain := res.Plain()
	if plain.Cells[0] != nil || plain.Cells[1] != &res.Without[0] {
		t.Errorf("nothing wrong: %+v", plain)
	}
	for _, c := range []struct {
		o    Outcome
		want bool
	}{{Outcome{Outcome: Caught, FirstLayer: "frost"}, true}, {Outcome{Outcome: Caught, FirstLayer: "alarm"}, false}, {Outcome{Outcome: Harm, Harm: "cell high"}, false}} {
		if got := c.o.Usual(plain.Cells[1]); got != c.want {
			t.Errorf("%+v usual: %t", c.o, got)
		}
	}
	if got := stuck.Telling(&plain); got != stuck.Worst {
		t.Errorf("telling of stuck: %+v", got)
	}
	welded.Cells[0], welded.Cells[1] = nil, &Outcome{Outcome: Caught, FirstLayer: "frost"}
	if got := welded.Telling(&plain); got != nil {
		t.Errorf("telling of what changes nothing: %+v", got)
	}
	if got := stuck.Fault.Short(); got != "stuck" {
		t.Errorf("short name %q", got)
	}
}
