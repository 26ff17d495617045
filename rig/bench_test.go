package rig

import (
	"path/filepath"
	"testing"
)

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

func BenchmarkSave(b *testing.B) {
	path := filepath.Join(b.TempDir(), FileName)
	if err := Create(path, example(b, "curlew-draft")); err != nil {
		b.Fatal(err)
	}
	values := []string{"none", "54.0 V"}
	for i := 0; b.Loop(); i++ {
		f, err := Open(path)
		if err != nil {
			b.Fatal(err)
		}
		if f, err = f.Set("charge.roof solar.settings.float", values[i%2]); err != nil {
			b.Fatal(err)
		}
		if err := f.Save(); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFormOf(b *testing.B) {
	f := mustParse(b, string(example(b, "curlew-draft")))
	for b.Loop() {
		FormOf(f)
	}
}

func BenchmarkAdd(b *testing.B) {
	f := mustParse(b, string(example(b, "curlew-draft")))
	for b.Loop() {
		if _, _, err := f.Add("charge", nil); err != nil {
			b.Fatal(err)
		}
	}
}
