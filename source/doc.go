// Package source is the bibliography: one variable per publication, standard or
// admitted habit, with how far it may be trusted. Whatever Ampstead states as a
// fact points here, so a page can print where it comes from.
//
// May import: the standard library only.
package source
