package start

import "testing"

func BenchmarkQuestions(b *testing.B) {
	for b.Loop() {
		Questions(heron())
	}
}

func BenchmarkKeep(b *testing.B) {
	for b.Loop() {
		Keep(heron())
	}
}

func BenchmarkFinish(b *testing.B) {
	for b.Loop() {
		if _, err := Finish(heron(), "rig.yaml", 2026); err != nil {
			b.Fatal(err)
		}
	}
}
