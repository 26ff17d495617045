// Package deps holds the rules of who may import whom, as a test.
package deps
