// Package habit turns a household's appliances into what they ask for minute by
// minute: how long, on which days, at what time of day, in which season, by how
// many people. Days differ as real ones do, but equal seeds give equal days.
//
// An appliance that cools, such as a compressor fridge, runs longer the warmer
// it is around it: heat leaks in with the difference between the room and its
// inside.
//
// May import: rig and the standard library. Pure: no files, no clock, no network.
package habit
