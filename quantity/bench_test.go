package quantity

import "testing"

func BenchmarkParse(b *testing.B) {
	for _, bb := range []struct {
		name string
		d    *Dimension
		text string
	}{
		{"exact", Volts, "28.8 V"}, {"signs", JoulesPerKgK, "950 J/(kg·K)"}, {"slip", WattHours, "5.2 KWH"}, {"refused", Volts, "5.2 kWh"},
	} {
		b.Run(bb.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, _ = bb.d.Parse(bb.text)
			}
		})
	}
}

func BenchmarkText(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		_ = Volts.Text(48.62, Metric)
	}
}
