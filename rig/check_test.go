package rig

import "testing"

func TestContradictions(t *testing.T) {
	checkMessages(t, []message{
		{"two names", least + `loads: [{name: lamp, on: bank, power: 1 W}, {name: Lamp, on: bank, power: 1 W}]`,
			`rig.yaml:3:52: loads.Lamp.name: the name "Lamp" is taken, on line 3; expected a name of its own for each thing; example: Lamp 2`},
		{"dot in a name", least + `loads: [{name: no.1 lamp, on: bank, power: 1 W}]`,
			`rig.yaml:3:16: loads.0.name: the name "no.1 lamp" has a dot, a bracket or a line break in it; expected a name of words, digits and spaces; example: nipping press`},
		{"dot in a stay", least + `route: [{name: St. Elsewhere, from: 2026-05-01, to: 2026-05-02}]`,
			`rig.yaml:3:16: route.0.name: the name "St. Elsewhere" has a dot, a bracket or a line break in it; expected a name of words, digits and spaces; example: Salt marsh`},
		{"reserved name", least + `loads: [{name: Bus, on: bank, power: 1 W}]`,
			`rig.yaml:3:16: loads.Bus.name: the name "Bus" has a meaning of its own; expected a name other than bank, bus, charge, heater, own or string; example: nipping press`},
		{"load fed by nothing", least + `loads: [{name: lamp, on: invertor, power: 1 W}]
inverters: [{name: inverter, power: 9 W, input_low: 1 V, input_high: 2 V}]`,
			`rig.yaml:3:26: loads.lamp.on: nothing named "invertor" is there to feed it, did you mean "inverter"?; expected one of bank, inverter`},
		{"relay drives nothing", least + `protection: {relays: [{name: relay, drives: contactor}]}`,
			`rig.yaml:3:45: protection.relays.relay.drives: nothing named "contactor" is there to drive; expected name of the contactor or charge source it switches; there is none in this file yet`},
		{"meter drives nothing", least + `protection: {meters: [{name: meter, watches: 12, drives: x}], contactors: [{name: contactor, opens: bank}]}`,
			`rig.yaml:3:58: protection.meters.meter.drives: nothing named "x" is there to drive; expected contactor`},
		{"cut-out stops nothing", least + `protection: {cutouts: [{name: frost switch, stops: chrage}]}`,
			`rig.yaml:3:52: protection.cutouts.frost switch.stops: nothing named "chrage" is there to stop, did you mean "charge"?; expected one of charge, heater`},
		{"fuse guards nothing", least + `protection: {fuses: [{name: fuse, guards: heater, rating: 9 A}]}`,
			`rig.yaml:3:43: protection.fuses.fuse.guards: nothing named "heater" is there to guard; expected one of bank, string, fuse`},
		{"cable from and to nothing", least + `cables: [{name: a, from: bnak, to: bank, length: 1 m, size: 50 mm2}]`,
			`rig.yaml:3:26: cables.a.from: nothing named "bnak" is there to start from, did you mean "bank"?; expected one of bank, bus
rig.yaml:3:36: cables.a.to: nothing named "bank" is there to lead to; expected bus`},
		{"cable to itself", least + `cables: [{name: a, from: bus, to: bus, length: 1 m, size: 50 mm2}]`,
			`rig.yaml:3:35: cables.a.to: the cable leads from bus to itself; expected another end; example: bus`},
		{"heater fed by nothing", least + `heater: {name: pad, power: 9 W, supply: sun}`,
			`rig.yaml:3:41: heater.supply: nothing named "sun" is there to feed it; expected bank`},
		{"meter of no group", least + `protection: {meters: [{name: meter, watches: 0}]}`,
			`rig.yaml:3:46: protection.meters.meter.watches: "0" is less than 1; expected a whole number from 1 to 500; example: 24`},
		{"stay ends first", least + `route: [{name: a, from: 2026-05-02, to: 2026-05-01}]`,
			`rig.yaml:3:41: route.a.to: 2026-05-01 is before from, which is 2026-05-02; expected the last day there; example: 2026-06-02`},
		{"stays overlap", least + `route: [{name: a, from: 2026-05-01, to: 2026-05-09}, {name: b, from: 2026-05-08, to: 2026-05-20}]`,
			`rig.yaml:3:70: route.b.from: 2026-05-08 to 2026-05-20 overlaps the stay at a, 2026-05-01 to 2026-05-09; expected stays one after the other`},
		{"coldest", least + `route: [{name: a, from: 2026-05-01, to: 2026-05-02, coldest: 9 °C, hottest: 41 °F}]`,
			`rig.yaml:3:62: route.a.coldest: 9 °C is above hottest, which is 41 °F; expected a temperature below hottest`},
		{"latitude alone", least + `route: [{name: a, from: 2026-05-01, to: 2026-05-02, latitude: 9 °N}]`,
			`rig.yaml:3:63: route.a.latitude: latitude stands without longitude; expected both, or neither; example: longitude: 7.6 °W`},
		{"near beside a position", least + `route: [{name: a, from: 2026-05-01, to: 2026-05-02, near: b, latitude: 9 °N, longitude: 9 °E}]`,
			`rig.yaml:3:59: route.a.near: near stands beside a position; expected a station's name, or latitude and longitude`},
		{"longitude alone", least + `route: [{name: a, from: 2026-05-01, to: 2026-05-02, longitude: 9 °E}]`,
			`rig.yaml:3:64: route.a.longitude: longitude stands without latitude; expected both, or neither; example: latitude: 37.2 °N`},
		{"own without block", about + `bank: {cell: own, series: 2, cell_capacity: 9 Ah, strings: 1}`,
			`rig.yaml:2:14: bank.cell: cell is own but there is no own block; expected an own block that describes the cell; example: own: {like: nmc532}`},
		{"block without own", about + `bank: {cell: nca, series: 2, cell_capacity: 9 Ah, own: {like: nca}}`,
			`rig.yaml:2:51: bank.own: there is an own block but cell is nca; expected cell: own, or no own block`},
		{"own like own", about + `bank: {cell: own, series: 2, cell_capacity: 9 Ah, own: {like: own}}`,
			`rig.yaml:2:63: bank.own.like: a cell cannot be like itself; expected the name of a library cell; example: nmc532`},
		{"own limits", about + `bank: {cell: own, series: 2, cell_capacity: 9 Ah, own: {like: nca, max_voltage: 3 V, min_voltage: 3 V}}`,
			`rig.yaml:2:81: bank.own.max_voltage: 3 V is not above min_voltage, which is 3 V; expected more than 3 V`},
		{"two candidates of one name", least + `candidates: [{name: a, kind: new pack, cell: lfp, series: 4, cell_capacity: 9 Ah}, {name: a, kind: new pack, cell: lfp, series: 4, cell_capacity: 9 Ah}]`,
			`rig.yaml:3:91: candidates.1.name: the name "a" is taken, on line 3; expected a name of its own for each thing; example: a 2`},
		{"candidate that a cable leads to", least + `candidates: [{name: a, kind: new pack, cell: lfp, series: 4, cell_capacity: 9 Ah}]
cables: [{name: c, from: bus, to: a, length: 1 m, size: 50 mm2}]`,
			`rig.yaml:4:35: cables.c.to: nothing named "a" is there to lead to; expected bus`},
		{"candidate of own cell without block", least + `candidates: [{name: a, kind: new pack, cell: own, series: 4, cell_capacity: 9 Ah}]`,
			`rig.yaml:3:46: candidates.a.cell: cell is own but there is no own block; expected an own block that describes the cell; example: own: {like: nmc532}`},
		{"limits of a candidate", least + `candidates: [{name: a, kind: new pack, cell: lfp, series: 4, cell_capacity: 9 Ah, limits: {max_voltage: 3 V, min_voltage: 3 V}}]`,
			`rig.yaml:3:105: candidates.a.limits.max_voltage: 3 V is not above min_voltage, which is 3 V; expected more than 3 V`},
		{"curve not whole", about + `bank: {cell: own, series: 2, cell_capacity: 9 Ah, own: {like: nca, curve: [{soc: 10 %, voltage: 3 V}, {soc: 90 %, voltage: 4 V}]}}`,
			`rig.yaml:2:68: bank.own.curve: the curve does not reach from 0 % to 100 %; expected first point at 0 %, last at 100 %`},
		{"curve not rising", about + `bank: {cell: own, series: 2, cell_capacity: 9 Ah, own: {like: nca, curve: [{soc: 0 %, voltage: 3 V}, {soc: 50 %, voltage: 2.9 V}, {soc: 100 %, voltage: 4 V}]}}`,
			`rig.yaml:2:102: bank.own.curve.1: this point is not above the one before it; expected charge and voltage that both rise`},
		{"limits", about + `bank: {cell: own, series: 2, cell_capacity: 9 Ah, own: {like: nca}, limits: {max_voltage: 3 V, min_voltage: 3.1 V, charge_min: 9 °C, charge_max: 8 °C}}`,
			`rig.yaml:2:91: bank.limits.max_voltage: 3 V is not above min_voltage, which is 3.1 V; expected more than 3.1 V
rig.yaml:2:146: bank.limits.charge_max: 8 °C is not above charge_min, which is 9 °C; expected more than 9 °C`},
		{"groups", about + `bank: {cell: own, series: 2, cell_capacity: 9 Ah, own: {like: nca}, measured: {groups: [{capacity: 9 Ah}]}}`,
			`rig.yaml:2:80: bank.measured.groups: the number of readings is 1, that of groups in series 2; expected one reading for each group`},
		{"starter battery", least + `charge: [{name: a, kind: mains, limit: 9 A, starter_battery: none}]`,
			`rig.yaml:3:62: charge.a.starter_battery: starter_battery belongs to kind alternator, but this is mains; expected no such key here`},
		{"panels", least + `charge: [{name: a, kind: mains, limit: 9 A, panels: [{series: 1, power: 9 W, open_voltage: 9 V}]}]`,
			`rig.yaml:3:45: charge.a.panels: panels belongs to kind solar, but this is mains; expected no such key here`},
		{"input", least + `charge: [{name: a, kind: mains, limit: 9 A, input: {max_voltage: 99 V}}]`,
			`rig.yaml:3:45: charge.a.input: input belongs to kind solar, but this is mains; expected no such key here`},
		{"lowest above highest", least + `charge: [{name: a, kind: mains, limit: 9 A, lowest: 9 V, highest: 8 V}]`,
			`rig.yaml:3:67: charge.a.highest: 8 V is not above lowest, which is 9 V; expected more than 9 V`},
		{"float too high to set", least + `charge: [{name: a, kind: mains, limit: 9 A, lowest: 40 V, highest: 50 V, settings: {float: 54.0 V, absorption: 39 V, equalise: off}}]`,
			`rig.yaml:3:92: charge.a.settings.float: 54.0 V is above the highest it can be set to, 50 V; expected a voltage within lowest and highest
rig.yaml:3:112: charge.a.settings.absorption: 39 V is below the lowest it can be set to, 40 V; expected a voltage within lowest and highest`},
		{"peak voltage", least + `charge: [{name: a, kind: solar, limit: 9 A, panels: [{series: 1, power: 9 W, open_voltage: 9 V, peak_voltage: 9.5 V}]}]`,
			`rig.yaml:3:92: charge.a.panels.0.open_voltage: 9 V is not above peak_voltage, which is 9.5 V; expected more than 9.5 V`},
		{"input range", least + `converters: [{name: a, power: 9 W, input_low: 9 V, input_high: 9 V}]
inverters: [{name: b, power: 9 W, input_low: 9 V, input_high: 8 V}]`,
			`rig.yaml:3:64: converters.a.input_high: 9 V is not above input_low, which is 9 V; expected more than 9 V
rig.yaml:4:63: inverters.b.input_high: 8 V is not above input_low, which is 9 V; expected more than 9 V`},
		{"restart", least + `converters: [{name: a, power: 9 W, input_low: 1 V, input_high: 9 V, low_cut: 5 V, restart: 5 V}]
inverters: [{name: b, power: 9 W, input_low: 1 V, input_high: 8 V, low_cut: 5 V, restart: 4 V}]`,
			`rig.yaml:3:92: converters.a.restart: 5 V is not above low_cut, which is 5 V; expected more than 5 V
rig.yaml:4:91: inverters.b.restart: 4 V is not above low_cut, which is 5 V; expected more than 5 V`},
		{"relay", least + `protection: {contactors: [{name: c, opens: bank}], relays: [{name: r, drives: c, high: 40 V, high_reset: 41 V, low: 42 V, low_reset: 39 V}]}`,
			`rig.yaml:3:88: protection.relays.r.high: 40 V is not above low, which is 42 V; expected more than 42 V
rig.yaml:3:88: protection.relays.r.high: 40 V is not above high_reset, which is 41 V; expected more than 41 V
rig.yaml:3:134: protection.relays.r.low_reset: 39 V is not above low, which is 42 V; expected more than 42 V`},
		{"alarms", least + `protection: {meters: [{name: m, watches: 12, alarm_high: 3 V, alarm_low: 4 V}], cutouts: [{name: f, stops: charge, above: 3 °C, below: 4 °C}]}`,
			`rig.yaml:3:58: protection.meters.m.alarm_high: 3 V is not above alarm_low, which is 4 V; expected more than 4 V
rig.yaml:3:123: protection.cutouts.f.above: 3 °C is not above below, which is 4 °C; expected more than 4 °C`},
		{"heater", least + `heater: {name: pad, power: 9 W, on: 9 °C, off: 9 °C}`,
			`rig.yaml:3:48: heater.off: 9 °C is not above on, which is 9 °C; expected more than 9 °C`},
	})
}
