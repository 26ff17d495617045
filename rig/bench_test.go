package rig

import "testing"

func BenchmarkParse(b *testing.B) {
	text := example(b, "curlew-draft")
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, err := Parse("rig.yaml", text); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSet(b *testing.B) {
	f := mustParse(b, string(example(b, "curlew-draft")))
	for b.Loop() {
		if _, err := f.Set("charge.roof solar.settings.float", "none"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFields(b *testing.B) {
	f := mustParse(b, string(example(b, "curlew-draft")))
	for b.Loop() {
		Fields(f)
	}
}
