package secret

import (
	"encoding/base64"
	"fmt"
	"strconv"
	"strings"

	"golang.org/x/crypto/argon2"
)

// cost is what one hash takes.
type cost struct {
	memory uint32 // KiB
	passes uint32
	lanes  uint8
}

// most is the largest cost that is read: a stored text that asks for more was
// not written here, and reckoning it could fill the machine.
var most = cost{memory: 1 << 20, passes: 16, lanes: 16}

// hash is a stored text taken apart.
type hash struct {
	cost
	salt, sum []byte
}

// String is the PHC string format.
func (h *hash) String() string {
	return fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s", argon2.Version, h.memory, h.passes, h.lanes,
		plain64.EncodeToString(h.salt), plain64.EncodeToString(h.sum))
}

// plain64 is Base64 without padding; Strict refuses a second way to write the
// same bytes.
var plain64 = base64.RawStdEncoding.Strict()

// exampleHash is what a stored text looks like.
const exampleHash = "$argon2id$v=19$m=65536,t=3,p=4$c2FsdHNhbHRzYWx0c2FsdA$..."

// parse takes a stored text apart. The error says which part is wrong and never
// repeats the text.
func parse(text string) (*hash, error) {
	parts := strings.Split(text, "$")
	if len(parts) != 6 || parts[0] != "" {
		return nil, badHash("it has not its five parts")
	}
	if parts[1] != "argon2id" {
		return nil, badHash("it does not begin with argon2id")
	}
	if parts[2] != "v="+strconv.Itoa(argon2.Version) {
		return nil, badHash("its version is not " + strconv.Itoa(argon2.Version))
	}
	c, err := parseCost(parts[3])
	if err != nil {
		return nil, err
	}
	h := &hash{cost: c}
	if h.salt, err = parseBytes("salt", parts[4], 8, 64); err != nil {
		return nil, err
	}
	h.sum, err = parseBytes("hash", parts[5], 16, 64)
	return h, err
}

func parseCost(text string) (cost, error) {
	var c cost
	parts := strings.Split(text, ",")
	if len(parts) != 3 {
		return c, badHash("its cost is not written m=..,t=..,p=..")
	}
	var n [3]uint64
	for i, limit := range []struct {
		name        string
		least, most uint64
	}{{"m", 8, uint64(most.memory)}, {"t", 1, uint64(most.passes)}, {"p", 1, uint64(most.lanes)}} {
		digits, ok := strings.CutPrefix(parts[i], limit.name+"=")
		v, err := strconv.ParseUint(digits, 10, 32)
		if !ok || err != nil || digits != strconv.FormatUint(v, 10) {
			return c, badHash("its cost is not written m=..,t=..,p=..")
		}
		if v < limit.least || v > limit.most {
			return c, badHash(fmt.Sprintf("its cost %s is outside %d to %d", limit.name, limit.least, limit.most))
		}
		n[i] = v
	}
	c = cost{uint32(n[0]), uint32(n[1]), uint8(n[2])}
	if c.memory < 8*uint32(c.lanes) { // RFC 9106, section 3.1
		return c, badHash("its cost m is less than eight times p")
	}
	return c, nil
}

func parseBytes(name, text string, least, most int) ([]byte, error) {
	b, err := plain64.DecodeString(text)
	if err != nil || strings.ContainsAny(text, "\r\n") { // the decoder skips line breaks
		return nil, badHash("its " + name + " is not Base64 without padding")
	}
	if len(b) < least || len(b) > most {
		return nil, badHash(fmt.Sprintf("its %s has %d bytes, not %d to %d", name, len(b), least, most))
	}
	return b, nil
}

func badHash(why string) error {
	return fmt.Errorf("the stored hash of the passphrase cannot be read: %s; expected a text such as %s", why, exampleHash)
}
