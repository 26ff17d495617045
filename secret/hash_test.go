package secret

import (
	"context"
	"errors"
	"strings"
	"sync"
	"testing"
	"time"
)

const phrase = "glue pot and nipping press"

// cheap makes hashes cost little within a test.
func cheap(t testing.TB) {
	t.Helper()
	before := chosen
	chosen = cost{memory: 64, passes: 1, lanes: 1}
	t.Cleanup(func() { chosen = before })
}

func made(t testing.TB, passphrase string) string {
	t.Helper()
	stored, err := Hash(context.Background(), passphrase)
	if err != nil {
		t.Fatal(err)
	}
	return stored
}

func same(t testing.TB, stored, given string) bool {
	t.Helper()
	ok, err := Verify(context.Background(), stored, given)
	if err != nil {
		t.Fatal(err)
	}
	return ok
}

func TestOnlyThePassphraseItselfFits(t *testing.T) {
	cheap(t)
	stored := made(t, phrase)
	if !same(t, stored, phrase) {
		t.Error("the passphrase does not fit its own hash")
	}
	for _, other := range []string{"", phrase + " ", phrase[1:], strings.ToUpper(phrase), phrase + "\x00", strings.Repeat("x", 5000)} {
		if same(t, stored, other) {
			t.Errorf("%q fits", other)
		}
	}
	long := strings.Repeat("x", Longest)
	if stored := made(t, long); !same(t, stored, long) || same(t, stored, long+"y") {
		t.Error("the longest passphrase is cut")
	}
}

func TestAccentsTypedInTwoWaysAreTheSame(t *testing.T) {
	cheap(t)
	if !same(t, made(t, "caf\u00e9 au bord du lac"), "cafe\u0301 au bord du lac") {
		t.Error("they differ")
	}
}

// The cost of a new hash is what the source names, and the stored text tells it.
func TestNewHashesCostWhatTheSourceNames(t *testing.T) {
	if testing.Short() {
		t.Skip("takes the full cost")
	}
	stored := made(t, phrase)
	if !strings.HasPrefix(stored, "$argon2id$v=19$m=65536,t=3,p=4$") {
		t.Errorf("stored as %.40s", stored)
	}
	if strings.Contains(stored, phrase) || stored == made(t, phrase) {
		t.Error("the text tells the passphrase, or is the same twice")
	}
	if !same(t, stored, phrase) || same(t, stored, phrase+".") {
		t.Error("at full cost the wrong passphrase fits, or the right one does not")
	}
}

// A text made by this function years ago must still fit: nothing in it may move.
func TestAStoredTextStaysReadable(t *testing.T) {
	for stored, fits := range map[string]bool{fixed: true, strings.Replace(fixed, "t=1", "t=2", 1): false, strings.Replace(fixed, "m=64", "m=72", 1): false} {
		if same(t, stored, phrase) != fits {
			t.Errorf("%s: fits = %v", stored, !fits)
		}
	}
}

func TestOneHashAtATime(t *testing.T) {
	cheap(t)
	stored := made(t, phrase)
	slot <- struct{}{} // as if one were being reckoned
	ctx, cancel := context.WithCancel(context.Background())
	var wg sync.WaitGroup
	for range 20 {
		wg.Go(func() {
			if _, err := Verify(ctx, stored, phrase); !errors.Is(err, context.Canceled) {
				t.Errorf("reckoned beside another: %v", err)
			}
		})
	}
	cancel()
	wg.Wait()
	<-slot
	if !same(t, stored, phrase) {
		t.Error("nobody gets a turn any more")
	}
}

func TestCheck(t *testing.T) {
	for given, want := range map[string]string{
		"ten chars.": "", "äöüäöüäöüä": "", "nine char": "at least 10", "": "at least 10", "äöüäöüäöü": "at least 10",
		strings.Repeat("x", Longest+1): "longer", "ten chars\xff!": "UTF-8", "two lines\nof text": "line break",
	} {
		err := Check(given)
		if (err == nil) != (want == "") || err != nil && !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v", given, err)
		}
		if err != nil && len(given) > 3 && strings.Contains(err.Error(), given) {
			t.Errorf("the error repeats %q", given)
		}
	}
	if _, err := Hash(context.Background(), "short"); err == nil {
		t.Error("a short passphrase was hashed")
	}
}

func BenchmarkVerify(b *testing.B) {
	stored := made(b, phrase)
	b.ReportAllocs()
	for b.Loop() {
		same(b, stored, phrase)
	}
	b.ReportMetric(float64(b.Elapsed())/float64(b.N)/float64(time.Millisecond), "ms/hash")
}
