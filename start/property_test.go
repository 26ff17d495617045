package start

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "ampstead/internal/fixedseed"
	"ampstead/rig"
)

// anyAnswers draws an answer or "I do not know" for every question that is asked.
func anyAnswers(t *rapid.T) Answers {
	a := Answers{}
	p := newPlan()
	p.converse(func(q *Question) {
		a[q.Key] = Unknown
		if text := anyAnswer(t, q); text != "" {
			answer, err := p.answer(q, text)
			if err == nil {
				a[q.Key] = answer
				return
			}
			if !isProblem(err) {
				t.Fatalf("%s %q: %v", q.Key, text, err)
			}
		}
		p.leave(q)
	})
	return a
}

var typed = map[string][]string{
	"name":     {"Heron", "Wren: #2", "'quoted'", "- dash", "null", "a\tb", "Żółw [x].y", "{}"},
	"winter":   {"LEAM", "37.2 N 7.4 W", "-35 139", "Tromso", "50, 9"},
	"summer":   {"ENBR", "68 17", "same"},
	"coldest":  {"-40 °C", "49 °C", "14 °F", "0 °C"},
	"groups":   {"1", "200", "96", "44 V", "12.8 V", "3.7 V", "25.6 V"},
	"capacity": {"1 Ah", "2000 Ah", "94 Ah", "2.1 kWh", "100 Wh"},
	"modules":  {"1", "7", "20"},
	"panels":   {"5 W", "20 kW", "1 x 100 W", "7 x 120 W", "50 x 400 W", "333 W"},
	"inverter": {"20 W", "20 kW", "777 W"},
	"loads":    {"lights 90 W 2 h", "bank 1 W 1 min", "mains inverter 20 kW 24 h", "O'Hara's lamp: red 5 W 1 h", "lights, lights, a{b} 1 W 1 h", "null 3 W 3 h"},
	"fuse":     {"1 A", "2 kA", "63 A"},
}

func anyAnswer(t *rapid.T, q *Question) string {
	var picked []string
	if len(q.Choices) > 0 {
		if q.Many {
			picked = rapid.SliceOfN(rapid.SampledFrom(values(q.Choices)), 0, 5).Draw(t, q.Key)
		} else if rapid.Bool().Draw(t, "choose "+q.Key) {
			return rapid.SampledFrom(values(q.Choices)).Draw(t, q.Key)
		}
	}
	if list := typed[q.Key]; list != nil && rapid.Bool().Draw(t, "type "+q.Key) {
		picked = append(picked, rapid.SampledFrom(list).Draw(t, "typed "+q.Key))
	}
	return strings.Join(picked, ", ")
}

// Whatever is answered, the file parses, fit and wire compute, and every answer
// can be read in the file.
func TestAnyAnswersMakeARig(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := anyAnswers(t)
		out, err := Finish(a, "rig.yaml", 2026)
		if err != nil {
			t.Fatalf("%v: %v", a, err)
		}
		if len(out.Findings) == 0 || len(out.Next) == 0 {
			t.Fatalf("%v: nothing is found or nothing is left to do", a)
		}
		for _, q := range Questions(a) {
			line := lineOf(string(out.Text), q.Short)
			want := a[q.Key]
			if want == Unknown {
				want = "I do not know"
			}
			if !strings.Contains(line, want) {
				t.Fatalf("%s: %q is not in %q", q.Key, want, line)
			}
		}
		if got := Keep(a); len(got) != len(a) {
			t.Fatalf("%v is kept as %v", a, got)
		}
		s := Draw(a, "fuse")
		if strings.ContainsAny(s.Said, "\n") {
			t.Fatalf("%q", s.Said)
		}
	})
}

func lineOf(text, short string) string {
	for line := range strings.Lines(text) {
		if strings.HasPrefix(line, "#   "+short+" ") {
			return line
		}
	}
	return ""
}

// Nothing that is typed brings the questions down, and what is refused says why.
func FuzzCheck(f *testing.F) {
	for key, list := range typed {
		for _, text := range list {
			f.Add(key, text)
		}
	}
	f.Fuzz(func(t *testing.T, key, text string) {
		answer, err := Check(Answers{"battery": "iron"}, key, text)
		if err != nil {
			if p, ok := err.(*Problem); !ok || p.Message == "" {
				t.Fatalf("%s %q: %v", key, text, err)
			}
			return
		}
		again, err := Check(Answers{"battery": "iron"}, key, answer)
		if err != nil || again != answer {
			t.Fatalf("%s %q became %q, and then %q, %v", key, text, answer, again, err)
		}
		out, err := Text(Answers{"battery": "iron", key: answer}, 2026)
		if _, not := err.(*Problem); not {
			return // it belongs to a question that is not asked then
		}
		if err != nil {
			t.Fatal(err)
		}
		if _, err := rig.Parse("rig.yaml", out); err != nil {
			t.Fatalf("%s %q: %v\n%s", key, text, err, out)
		}
	})
}
