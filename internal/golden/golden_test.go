package golden

import "testing"

func TestFirstDifference(t *testing.T) {
	tests := []struct {
		a, b     string
		line     int
		inA, inB string
	}{
		{"", "", 0, "", ""},
		{"a\nb\n", "a\nb\n", 0, "", ""},
		{"a\nb\n", "a\nc\n", 2, `"b\n"`, `"c\n"`},
		{"a\nb", "a\nb\n", 2, `"b"`, `"b\n"`},
		{"a", "a\nb", 1, `"a"`, `"a\n"`},
		{"", "a", 1, `""`, `"a"`},
	}
	for _, tt := range tests {
		line, inA, inB := firstDifference([]byte(tt.a), []byte(tt.b))
		if line != tt.line || inA != tt.inA || inB != tt.inB {
			t.Errorf("%q against %q: got line %d, %s, %s", tt.a, tt.b, line, inA, inB)
		}
	}
}
