// Package travel answers "does it carry me through the year?": it steps the
// rig's bank with its devices along the route, minute by minute, through sun,
// weather, habits and frost, over one or many weather years, and says what
// limits the rig and what more of each thing would bring.
//
// Reading order: run.go (the steps), route.go (where it stands each day),
// weather.go and light.go (what the sky gives the panels), drive.go (stepping a
// year), account.go (where each watt-hour goes), stress.go (what it does to the
// cells), limits.go (what more would bring), rules.go (findings), ground.go (one
// year for many rigs).
//
// What is assumed:
//   - The bank stands in the air outside as its box lets it, never colder or
//     warmer than the stay's coldest and hottest. A heated room around it is
//     said by a higher coldest.
//   - What cools stands in the living room: the air outside, at least 16 °C.
//   - Days run by mean solar time. A year has 365 days and starts with ten days
//     of December that are not counted.
//   - Driving is done on the days before a stay, at most eight hours a day from
//     nine o'clock, with the alternator charger supplied as long as it runs.
//   - A step is a minute wherever a device may switch. Near a low cut it is
//     five seconds. While no device can switch, five or fifteen minutes are one
//     step with the means of sun and demand: over eight years of
//     curlew that moved the sun caught by 0.04 % (0.12 % in the worst year), the
//     heater by 0.3 % (0.8 %) and what was not served by 0.5 % (1.5 %).
//   - Devices act at their nominal settings.
//   - Where nothing stops a source in frost, the year is reckoned as though
//     someone switched it off by hand below the frost lock fit recommends: a
//     bank charged in frost is no longer the bank of the file. What it would
//     have charged in frost when left alone is counted too, as harm.
//   - Lead-acid gives back every ampere-hour it took in, at any current; really
//     it gives 85 to 95 %.
//   - A disconnect that opened and has no way back by itself is held closed by
//     hand to charge an empty bank, or when something is wanted of a full one.
//     Each time is counted.
//
// May import: finding, figure, quantity, source, rig, fit, habit, physics/*,
// weather/*, device, engine, assembly. No files: weather is handed in as values.
package travel
