package secret

import (
	"context"
	"crypto/rand"
	"crypto/subtle"
	"fmt"
	"strings"
	"unicode/utf8"

	"golang.org/x/crypto/argon2"
	"golang.org/x/text/unicode/norm"
)

// Shortest is the fewest characters of a passphrase, Longest the most bytes.
const (
	Shortest = 10
	Longest  = 1024
)

// chosen is the cost of a new hash: the second recommended option of RFC 9106,
// section 4. The first asks for 2 GiB, more than the small computers that serve a
// vehicle have at all; this one is for them.
var chosen = cost{memory: 64 << 10, passes: 3, lanes: 4}

const (
	saltBytes = 16 // RFC 9106, section 4, both options
	sumBytes  = 32
)

// slot lets one hash at a time be reckoned, so that many at once cannot fill the
// memory of a small machine.
var slot = make(chan struct{}, 1)

// Check says what is wrong with a new passphrase, or nil.
func Check(passphrase string) error {
	switch {
	case !utf8.ValidString(passphrase):
		return fmt.Errorf("the passphrase is no text in UTF-8")
	case utf8.RuneCountInString(passphrase) < Shortest:
		return fmt.Errorf("the passphrase needs at least %d characters, such as four words that do not belong together", Shortest)
	case len(passphrase) > Longest:
		return fmt.Errorf("the passphrase is longer than %d bytes", Longest)
	case strings.ContainsAny(passphrase, "\r\n\x00"):
		return fmt.Errorf("the passphrase holds a line break or a zero byte")
	}
	return nil
}

// Hash returns the text to store for a passphrase; the same passphrase gives
// another text each time. Errors: those of Check; the end of ctx.
func Hash(ctx context.Context, passphrase string) (string, error) {
	if err := Check(passphrase); err != nil {
		return "", err
	}
	h := hash{cost: chosen, salt: make([]byte, saltBytes), sum: make([]byte, sumBytes)}
	if _, err := rand.Read(h.salt); err != nil {
		return "", err
	}
	sum, err := h.of(ctx, passphrase)
	if err != nil {
		return "", err
	}
	h.sum = sum
	return h.String(), nil
}

// Verify reports whether given is the passphrase that stored was made from. It
// takes as long for a wrong one as for the right one. Errors: stored is no such
// text; the end of ctx, also while it waits for another to be done.
func Verify(ctx context.Context, stored, given string) (bool, error) {
	h, err := parse(stored)
	if err != nil {
		return false, err
	}
	if len(given) > Longest { // no stored one is; reckon all the same
		given = given[:Longest+1]
	}
	sum, err := h.of(ctx, given)
	if err != nil {
		return false, err
	}
	return subtle.ConstantTimeCompare(sum, h.sum) == 1, nil
}

// of reckons the hash of a passphrase at h's cost and salt, when it is its turn.
// Letters that can be written in two ways, as one sign or with a loose accent,
// count as the same: keyboards differ in it.
func (h *hash) of(ctx context.Context, passphrase string) ([]byte, error) {
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	select {
	case slot <- struct{}{}:
	case <-ctx.Done():
		return nil, ctx.Err()
	}
	defer func() { <-slot }()
	text := norm.NFC.String(passphrase)
	return argon2.IDKey([]byte(text), h.salt, h.passes, h.memory, h.lanes, uint32(len(h.sum))), nil
}

// Readable says what is wrong with a stored text, or nil.
func Readable(stored string) error {
	_, err := parse(stored)
	return err
}
