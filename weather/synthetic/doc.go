// Package synthetic makes hours of weather from monthly means: days by the Markov
// matrices of Aguiar, Collares-Pereira & Conde 1988, hours by the autoregressive
// model of Aguiar & Collares-Pereira 1992, beam and diffuse light by Erbs, Klein
// & Duffie 1982, temperature by an autoregressive series of days that carries the
// mean course of Erbs, Klein & Beckman 1983.
//
// Equal climate, seed and number give equal hours on every machine. Each year
// has its own number, from 0; months of twenty successive numbers (0 to 19, 20 to
// 39 …) together have the climate's mean, while single ones spread about it.
//
// What it leaves out: daily mean temperature does not depend on the day's sun
// (the daily range does), wind is a steady assumption, and a month knows nothing
// of the anomaly of the one before.
//
// May import: source, weather, physics/sun and the standard library.
package synthetic
