// Package secret turns a passphrase into a hash that can be stored, tells whether
// a passphrase given later is the same, and keeps the hash of this machine in a
// file that only its owner may read. The passphrase itself is never written.
//
// The function is Argon2id (RFC 9106); the stored text is the PHC string format,
// an open convention for such hashes, so that a later version can raise the cost
// and still read old ones.
//
// May import: the standard library, golang.org/x/crypto/argon2 and
// golang.org/x/text/unicode/norm.
package secret
