package hourly

import (
	"strings"
	"testing"
)

func BenchmarkRead(b *testing.B) {
	for _, name := range []string{"epw-chicago-tmy3.epw.gz", "tmy3-greensboro-nc.csv.gz", "tmy2-miami-fl.tm2.gz", "pvgis-tmy-45N-8E.csv.gz", "pvgis-tmy-45N-8E.json.gz"} {
		b.Run(name[:4]+name[len(name)-7:], func(b *testing.B) {
			s := text(b, name)
			b.SetBytes(int64(len(s)))
			for b.Loop() {
				if _, err := Read("x", strings.NewReader(s)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
