package finding_test

import (
	"testing"

	"ampstead/finding"
)

func TestSentence(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "  ": "", "float is on": "Float is on.", "Off.": "Off.", "what is it?": "What is it?",
		"écart": "Écart.", " set it to 5 °C ": "Set it to 5 °C.",
	} {
		if got := finding.Sentence(text); got != want {
			t.Errorf("%q becomes %q, want %q", text, got, want)
		}
	}
}
