package wire

import (
	"ampstead/figure"
	"ampstead/finding"
	"ampstead/working"
)

// by gives a finding what stands behind its numbers: the rows they were taken
// from, and the figures behind those.
func by(f finding.Finding, how []figure.Use, rows ...finding.Working) finding.Finding {
	return f.By(rows...).By(working.Uses(how...)...)
}

func (r *run) row(keys ...string) finding.Working {
	return working.Row("the circuit "+r.Name, r.Circuit, keys...)
}

func (f *fused) row(keys ...string) finding.Working {
	return working.Row("the fuse "+f.Name, f.Fuse, keys...)
}
