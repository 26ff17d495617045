package benchlog

// tag is what a word of a header says; a word may say several things.
type tag uint32

const (
	aTime tag = 1 << iota
	aDate
	aVoltage
	aCurrent
	aTemperature
	aCapacity // a counter of charge
	anEnergy
	aPower
	aCycle
	aStep  // step number, mode or state; before another quantity: of this step alone
	aSoC   // state of charge
	aGroup // a cell or group
	aPack
	charging
	discharging
	counting // a word that says the amount counted so far: "charged"
	aLimit   // maximum, minimum, setpoint: not the measured value itself
	around   // of the surroundings, not of the battery
	aRow     // a number of rows; no quantity unless another word names one
	positive // says which direction counts as positive
	negative
	other // a quantity that is not used
)

// words are the header words that are recognised, after fold (small letters,
// no accents): English, common abbreviations, German, French and Spanish.
var words = map[string]tag{
	// time
	"time": aTime, "elapsed": aTime, "clock": aTime, "duration": aTime, "timer": aTime, "runtime": aTime, "uptime": aTime, "testtime": aTime,
	"totaltime": aTime, "tick": aTime, "ticks": aTime, "epoch": aTime, "unix": aTime, "unixtime": aTime, "timems": aTime, "zeit": aTime, "laufzeit": aTime,
	"dauer": aTime, "testzeit": aTime, "messzeit": aTime, "gesamtzeit": aTime, "tiempo": aTime, "temps": aTime, "duree": aTime, "duracion": aTime,
	"steptime": aTime | aStep, "cycletime": aTime | aStep, "schrittzeit": aTime | aStep, "lap": aTime | aStep,
	"date": aDate, "datetime": aDate | aTime, "timestamp": aTime, "datum": aDate, "uhrzeit": aTime, "zeitstempel": aTime, "fecha": aDate,
	"hora": aTime, "heure": aTime, "horodatage": aTime, "localtime": aTime, "utc": aTime, "daytime": aTime,
	// voltage
	"voltage": aVoltage, "voltages": aVoltage, "volt": aVoltage, "volts": aVoltage, "potential": aVoltage, "emf": aVoltage, "vdc": aVoltage, "spannung": aVoltage,
	"tension": aVoltage, "voltaje": aVoltage, "voltios": aVoltage, "potencial": aVoltage, "potentiel": aVoltage, "vterm": aVoltage, "vload": aVoltage,
	"millivolts": aVoltage, "u": aVoltage, "v": aVoltage, "e": aVoltage, "ewe": aVoltage, "vmeas": aVoltage, "umess": aVoltage, "vmon": aVoltage, "vsense": aVoltage,
	"vbat": aVoltage | aPack, "vbatt": aVoltage | aPack, "ubat": aVoltage | aPack, "ubatt": aVoltage | aPack, "vpack": aVoltage | aPack, "packv": aVoltage | aPack,
	"upack": aVoltage | aPack, "uges": aVoltage | aPack, "vtot": aVoltage | aPack, "utot": aVoltage | aPack, "vtotal": aVoltage | aPack, "batv": aVoltage | aPack, "battv": aVoltage | aPack, "vstack": aVoltage | aPack,
	"gesamtspannung": aVoltage | aPack, "packspannung": aVoltage | aPack, "klemmenspannung": aVoltage | aPack, "batteriespannung": aVoltage | aPack, "akkuspannung": aVoltage | aPack,
	"zellspannung": aVoltage | aGroup, "zellenspannung": aVoltage | aGroup, "vcell": aVoltage | aGroup, "cellv": aVoltage | aGroup, "ucell": aVoltage | aGroup,
	"ecell": aVoltage | aGroup, "uzelle": aVoltage | aGroup, "uz": aVoltage | aGroup, "vc": aVoltage | aGroup, "cellvoltage": aVoltage | aGroup, "cellvoltages": aVoltage | aGroup, "vgroup": aVoltage | aGroup,
	// current
	"current": aCurrent, "curr": aCurrent, "amp": aCurrent, "amps": aCurrent, "ampere": aCurrent, "amperes": aCurrent, "amperage": aCurrent, "i": aCurrent, "a": aCurrent,
	"strom": aCurrent, "stromstarke": aCurrent, "corriente": aCurrent, "courant": aCurrent, "intensite": aCurrent, "intensidad": aCurrent, "intensity": aCurrent,
	"milliamps": aCurrent, "iload": aCurrent, "imeas": aCurrent, "imon": aCurrent, "ishunt": aCurrent, "shunt": aCurrent, "amperios": aCurrent, "batteriestrom": aCurrent | aPack,
	"ibat": aCurrent | aPack, "ibatt": aCurrent | aPack, "ipack": aCurrent | aPack, "itot": aCurrent | aPack, "iges": aCurrent | aPack, "packi": aCurrent | aPack, "bati": aCurrent | aPack, "batti": aCurrent | aPack, "packstrom": aCurrent | aPack,
	"ladestrom": aCurrent | charging, "entladestrom": aCurrent | discharging, "ichg": aCurrent | charging, "idis": aCurrent | discharging, "idsg": aCurrent | discharging,
	// temperature
	"temperature": aTemperature, "temperatures": aTemperature, "temp": aTemperature, "tmp": aTemperature, "temperatur": aTemperature, "temperatura": aTemperature,
	"thermocouple": aTemperature, "thermistor": aTemperature, "ntc": aTemperature, "tc": aTemperature, "rtd": aTemperature, "thermo": aTemperature, "celsius": aTemperature,
	"zelltemperatur": aTemperature | aGroup, "tcell": aTemperature | aGroup, "tbat": aTemperature | aPack, "tbatt": aTemperature | aPack, "tzelle": aTemperature | aGroup,
	"umgebungstemperatur": aTemperature | around, "tamb": aTemperature | around, "ambient": around, "chamber": around, "oven": around, "room": around, "air": around,
	"umgebung": around, "raum": around, "kammer": around, "raumtemperatur": aTemperature | around, "ambiente": around, "ambiante": around, "camara": around, "chambre": around,
	// counters
	"capacity": aCapacity, "cap": aCapacity, "ah": aCapacity, "mah": aCapacity, "amphours": aCapacity, "amphour": aCapacity, "amphrs": aCapacity, "amperestunden": aCapacity, "watthours": anEnergy, "watthrs": anEnergy, "wattstunden": anEnergy, "coulombs": aCapacity, "q": aCapacity,
	"kapazitat": aCapacity, "ladungsmenge": aCapacity, "capacite": aCapacity, "capacidad": aCapacity, "ladekapazitat": aCapacity | charging, "entladekapazitat": aCapacity | discharging,
	"energy": anEnergy, "wh": anEnergy, "kwh": anEnergy, "energie": anEnergy, "energia": anEnergy,
	"power": aPower, "watt": aPower, "watts": aPower, "leistung": aPower, "puissance": aPower, "potencia": aPower, "p": aPower, "kw": aPower,
	"soc": aSoC, "stateofcharge": aSoC, "ladezustand": aSoC, "fuel": aSoC,
	// direction
	"charge": charging, "chg": charging, "chrg": charging, "cha": charging, "chrge": charging, "charging": charging, "laden": charging, "ladung": charging, "lade": charging, "carga": charging,
	"recharge": charging, "cargando": charging, "in": charging, "input": charging,
	"discharge": discharging, "dchg": discharging, "dsg": discharging, "disch": discharging, "dischg": discharging, "dischrg": discharging, "dis": discharging, "dcha": discharging, "disc": discharging, "dchrg": discharging,
	"discharging": discharging, "entladen": discharging, "entladung": discharging, "entlade": discharging, "descarga": discharging, "decharge": discharging, "load": discharging,
	"descargando": discharging, "out": discharging, "output": discharging, "drawn": discharging | counting, "consumed": discharging | counting, "used": discharging | counting,
	"charged": charging | counting, "geladen": charging | counting, "discharged": discharging | counting,
	"positive": positive, "pos": positive, "positiv": positive, "positivo": positive, "positif": positive, "negative": negative, "neg": negative, "negativ": negative,
	// cycle and step
	"cycle": aCycle, "cycles": aCycle, "cyc": aCycle, "zyklus": aCycle, "ciclo": aCycle, "cyclenumber": aCycle, "cycleindex": aCycle,
	"step": aStep, "state": aStep, "status": aStep, "mode": aStep, "phase": aStep, "schritt": aStep, "zustand": aStep, "modus": aStep, "estado": aStep, "etat": aStep,
	"etape": aStep, "paso": aStep, "modo": aStep, "md": aStep, "direction": aStep, "action": aStep, "event": aStep, "stepindex": aStep, "betriebsart": aStep,
	// which part of the battery
	"cell": aGroup, "cells": aGroup, "group": aGroup, "grp": aGroup, "zelle": aGroup, "celda": aGroup, "cellule": aGroup, "gruppe": aGroup, "grupo": aGroup, "groupe": aGroup,
	"element": aGroup, "elemento": aGroup, "celula": aGroup, "zell": aGroup, "brick": aGroup, "block": aGroup, "c": aGroup, "g": aGroup, "z": aGroup,
	"pack": aPack, "battery": aPack, "batt": aPack, "bat": aPack, "total": aPack, "terminal": aPack, "terminals": aPack, "stack": aPack, "string": aPack, "batterie": aPack,
	"bateria": aPack, "gesamt": aPack, "akku": aPack, "accu": aPack, "overall": aPack, "bank": aPack, "module": aPack, "modul": aPack, "bus": aPack, "sum": aPack,
	// not the measured value itself
	"max": aLimit, "maximum": aLimit, "minimum": aLimit, "mean": aLimit, "average": aLimit, "avg": aLimit, "median": aLimit, "highest": aLimit, "lowest": aLimit,
	"set": aLimit, "setpoint": aLimit, "target": aLimit, "limit": aLimit, "cutoff": aLimit, "range": aLimit, "delta": aLimit, "diff": aLimit, "difference": aLimit, "nominal": aLimit,
	"spread": aLimit, "deviation": aLimit, "rated": aLimit, "sollwert": aLimit, "soll": aLimit, "control": aLimit, "commanded": aLimit, "requested": aLimit,
	"allowed": aLimit, "mittelwert": aLimit, "promedio": aLimit, "moyenne": aLimit, "request": aLimit, "threshold": aLimit, "mittel": aLimit, "imbalance": aLimit,
	"resistance": other, "impedance": other, "ir": other, "esr": other, "dcir": other, "acr": other, "widerstand": other, "humidity": other, "pressure": other, "feuchte": other,
	"record": aRow, "index": aRow, "point": aRow, "row": aRow, "sample": aRow, "id": other, "serial": other, "comment": other, "note": other, "flag": other, "flags": other,
	"dv": other, "dt": other, "dq": other, "di": other, "dvdt": other, "dqdv": other, "soh": other, "duty": other, "pwm": other, "balance": other, "balancing": other, "bal": other,
	"frequency": other, "error": other, "alarm": other, "fault": other, "remark": other, "bemerkung": other, "label": other, "efficiency": other, "fan": other,
	"resistencia": other, "number": 0, "nr": 0, "no": 0,
}
