// Package finding holds what Ampstead reports as wrong or worth knowing: the
// same finding appears on the command line, the page and in the book.
//
// May import: the standard library only.
package finding
