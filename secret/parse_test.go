package secret

import (
	"strings"
	"testing"
)

func TestParseRefuses(t *testing.T) {
	salt, sum := "c2FsdHNhbHRzYWx0c2FsdA", strings.Repeat("A", 43)
	with := func(id, v, cost, salt, sum string) string {
		return strings.Join([]string{"", id, v, cost, salt, sum}, "$")
	}
	good := with("argon2id", "v=19", "m=64,t=1,p=1", salt, sum)
	if _, err := parse(good); err != nil {
		t.Fatal(err)
	}
	for text, want := range map[string]string{
		"":         "five parts",
		"x" + good: "five parts",
		good + "$": "five parts",
		phrase:     "five parts",
		with("argon2i", "v=19", "m=64,t=1,p=1", salt, sum):             "argon2id",
		with("argon2id", "v=16", "m=64,t=1,p=1", salt, sum):            "version",
		with("argon2id", "v=19", "m=64,t=1", salt, sum):                "m=..,t=..,p=..",
		with("argon2id", "v=19", "t=1,m=64,p=1", salt, sum):            "m=..,t=..,p=..",
		with("argon2id", "v=19", "m=+64,t=1,p=1", salt, sum):           "m=..,t=..,p=..",
		with("argon2id", "v=19", "m=064,t=1,p=1", salt, sum):           "m=..,t=..,p=..",
		with("argon2id", "v=19", "m=99999999999,t=1,p=1", salt, sum):   "m=..,t=..,p=..",
		with("argon2id", "v=19", "m=4194304,t=1,p=1", salt, sum):       "cost m",
		with("argon2id", "v=19", "m=64,t=0,p=1", salt, sum):            "cost t",
		with("argon2id", "v=19", "m=64,t=1,p=255", salt, sum):          "cost p",
		with("argon2id", "v=19", "m=64,t=1,p=16", salt, sum):           "eight times",
		with("argon2id", "v=19", "m=64,t=1,p=1", salt+"==", sum):       "salt is not Base64",
		with("argon2id", "v=19", "m=64,t=1,p=1", "c2Fs\ndHNhbHQ", sum): "salt is not Base64",
		with("argon2id", "v=19", "m=64,t=1,p=1", "c2FsdA", sum):        "salt has 4 bytes",
		with("argon2id", "v=19", "m=64,t=1,p=1", salt, ""):             "hash has 0 bytes",
		with("argon2id", "v=19", "m=64,t=1,p=1", salt, sum[:42]+"B"):   "hash is not Base64",
		strings.Replace(good, salt, strings.Repeat("A", 400), 1):       "salt has 300 bytes",
	} {
		_, err := parse(text)
		if err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "such as $argon2id") {
			t.Errorf("%.60q: %v, want %q", text, err, want)
		}
		if err != nil && len(text) > 20 && strings.Contains(err.Error(), text) {
			t.Errorf("the error repeats %q", text)
		}
	}
}

// FuzzParse: what is read is within the cost that may be asked for, and is written
// back as it stood.
func FuzzParse(f *testing.F) {
	for _, text := range []string{fixed, exampleHash, "", "$", "$argon2id$v=19$m=64,t=1,p=1$$", "$argon2id$v=19$m=8,t=16,p=1$AAAAAAAAAAA$AAAAAAAAAAAAAAAAAAAAAA"} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		h, err := parse(text)
		if err != nil {
			return
		}
		if h.String() != text {
			t.Errorf("%q is written back as %q", text, h)
		}
		if h.memory > most.memory || h.passes > most.passes || h.lanes > most.lanes || h.passes == 0 || h.lanes == 0 || len(h.sum) == 0 {
			t.Errorf("%q: cost %+v", text, h.cost)
		}
	})
}
