package benchlog

import (
	"fmt"
	"strings"
	"testing"
)

// typical values of a role, so that a header can be tried with a file.
func typical(role byte, i int) string {
	switch role {
	case 't':
		return fmt.Sprint(i)
	case 'v':
		return fmt.Sprintf("%.3f", 14.8-0.01*float64(i))
	case 'g':
		return fmt.Sprintf("%.4f", 3.7-0.0025*float64(i))
	case 'i':
		return fmt.Sprintf("%.1f", -2.0+float64(i%2)*0.1)
	case 'q', '+', '-', 'w':
		return fmt.Sprintf("%.4f", 0.01*float64(i))
	case 'T':
		return "25.5"
	case 'p':
		return fmt.Sprintf("%.1f", 14.8*2)
	case 'c':
		return "1"
	case '#':
		return []string{"Rest", "Discharge"}[i/20]
	case '%':
		return fmt.Sprint(80 - i/2)
	case 'x':
		return fmt.Sprint(7 * (i % 3))
	}
	return "0"
}

// TestHeaders tries headers in the styles of many loggers. The letters are the
// roles of letters, with T for a temperature and x for what is not used.
func TestHeaders(t *testing.T) {
	tests := []struct{ header, roles string }{
		{"time_s,voltage_v,current_a,group1_v,group2_v,temperature1_c,tester_ah,tester_wh", "tviggTqw"},
		{"Data_Point,Test_Time(s),Step_Time(s),Step_Index,Cycle_Index,Current(A),Voltage(V),Charge_Capacity(Ah),Discharge_Capacity(Ah),Internal_Resistance(Ohm)", "xtx#civ+-x"},
		{"time/s,Ecell/V,<I>/mA,Q/mA.h,cycle number,Temperature/°C", "tviqcT"},
		{"Elapsed Time [s],Pack Voltage [V],Pack Current [A],Cell 1 [V],Cell 2 [V],Cell 3 [V],Max Cell [V],Min Cell [V],Cell Delta [mV],Ambient [°C],NTC 1 [°C]", "tvigggxxxxT"},
		{"Zeit in s,Spannung in V,Strom in A,Temperatur in °C,Ladezustand in %", "tviT%"},
		{"Tiempo (s),Tensión (V),Corriente (A),Temperatura (°C),Capacidad (Ah)", "tviTq"},
		{"Temps (s),Tension (V),Courant (A),Température (°C),Énergie (Wh)", "tviTw"},
		{"Zeit,Gesamtspannung,Ladestrom,Zelle1,Zelle2,Zelltemperatur", "tviggT"},
		{"t,U,I,T", "tviT"},
		{"t,u1,u2,u3,i", "tgggi"},
		{"ms,mV,mA", "tvi"},
		{"timestamp,v1,v2,v3,v4,v,i,t1,t2", "tggggviTT"},
		{"Time,C01,C02,C03,C04,VBAT,IBAT,SOC", "tggggvi%"},
		{"Time(h:min:s.ms),Voltage(V),Current(mA),Capacity(mAh),Energy(Wh),Step Type", "tviqw#"},
		{"Test Time,Bus Voltage (V),Load Voltage (V),Current (mA),Power (mW)", "tvxip"},
		{"sec,volts,amps,mAh,watts", "tviqp"},
		{"Timestamp;Battery voltage [V];Battery current [A];State of charge [%];Battery temperature [°C];Consumed Ah", "tvi%T-"},
		{"uptime_ms,pack_mv,pack_ma,cell0_mv,cell1_mv,cell2_mv,temp0_c,balance0", "tvigggTx"},
		{"TotalTime,CellVoltage1,CellVoltage2,PackVoltage,PackCurrent,TempMax,TempCell1", "tggvixT"},
		{"Record number,State,Jump,Cycle,Steps,Current(A),Voltage(V),Time(s),Set voltage (V)", "x#xcxivtx"},
		{"min,V,A,Ah", "tviq"},
		{"h,V,A,W,°C", "tvipT"},
		{"module1_v,module2_v,module3_v,total_v,current_a,elapsed_s", "gggvit"},
		{"Time [s],Voltage [V],Charge Current [A],Discharge Current [A]", "tvii"},
		{"datalogger time (sec),Ch Voltage V,Ch Current A,cell temperature 1 (C),cell temperature 2 (C)", "tviTT"},
		{"t(s),V(V),I(A),dV/dt,dQ/dV,Q(Ah)", "tvixxq"},
		{"time_s,brick_v_1,brick_v_2,pack_volts,pack_amps,t_coolant_in_c", "tggviT"},
	}
	for _, tt := range tests {
		sep := pick(strings.Contains(tt.header, ";"), ";", ",")
		var b strings.Builder
		b.WriteString(tt.header + "\n")
		for i := range 40 {
			for k := range len(tt.roles) {
				if k > 0 {
					b.WriteString(sep)
				}
				b.WriteString(typical(tt.roles[k], i))
			}
			b.WriteByte('\n')
		}
		_, sum := readAll(t, tt.header, b.String(), Options{})
		got := strings.ReplaceAll(strings.ReplaceAll(rolesOf(sum.Layout), "°", "T"), ".", "x")
		if got != tt.roles {
			t.Errorf("%s\n got %s\nwant %s", tt.header, got, tt.roles)
		}
	}
}

func TestUnits(t *testing.T) {
	for text, want := range map[string]float64{"mV": 1e-3, "V": 1, "A.h": 1, "mA·h": 1e-3, "kWh": 1e3, "deg C": 1, "°F": 5.0 / 9, "Sekunden": 1, "h": 3600, "[mA]": 1e-3} {
		if u, ok := unitOf(trimBrackets(text)); !ok || u.scale != want {
			t.Errorf("%s: %+v %v", text, u, ok)
		}
	}
	for _, text := range []string{"", "volts per cell", "x", "10"} {
		if u, ok := unitOf(text); ok {
			t.Errorf("%q is %+v", text, u)
		}
	}
}
