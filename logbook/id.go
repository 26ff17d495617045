package logbook

import (
	"crypto/rand"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"

	"ampstead/store"
)

// ContentID makes an ID from what a reading says, so that the same one given
// twice is stored once.
func ContentID(r store.Reading) string {
	r.ID, r.Version, r.Gone = "", 0, false
	r.Entered = r.Taken
	r.Taken = r.Taken.UTC()
	r.Entered = r.Entered.UTC()
	return hashed("c", r)
}

// DoneID makes an ID from what was done.
func DoneID(d store.Done) string {
	d.ID, d.At = "", d.At.UTC()
	return hashed("d", d)
}

func hashed(kind string, v any) string {
	text, err := json.Marshal(v)
	if err != nil { // not a number: never stored
		text = []byte(err.Error())
	}
	sum := sha256.Sum256(text)
	return kind + hex.EncodeToString(sum[:10])
}

// NewID is an ID for a reading that a page is going to send.
func NewID() string { return "p" + rand.Text() }
