package drillsample

import (
	"math"

	"ampstead/drill"
)

// Strip is the trace of the roof solar stuck in full sun: the cells rise, the
// alarm sounds, the relay opens the contactor.
func Strip() *drill.Strip {
	s := &drill.Strip{Fault: Stuck, Scene: Sun, HarmLo: 3.0, HarmHi: 4.25, FrostC: 0, HotMax: 60}
	s.Out = drill.Outcome{Fault: Stuck, Scene: Sun, Outcome: drill.Near, FirstLayer: "alarm high", FirstAt: 900, Acts: acts(), WorstV: 4.246, MarginMV: 4, Side: "high",
		HighV: 4.246, LowV: 4.02, HotC: 27, ColdC: 24, HarmAt: -1, AlarmAt: 900, ReactS: -1, PeakShare: 1}
	for i := range 361 {
		t := float64(i) * 60
		high, amps := 4.246-0.19*math.Exp(-t/500), 34.0
		if t > 1260 {
			high, amps = 4.19+0.03*math.Exp(-(t-1260)/900), 0
		}
		s.Time = append(s.Time, t)
		s.HighV, s.LowV = append(s.HighV, high), append(s.LowV, high-0.031)
		s.BankA, s.BusV = append(s.BankA, amps), append(s.BusV, 12*high+amps*0.006)
		s.ColdC, s.HotC = append(s.ColdC, 24+t/15000), append(s.HotC, 24+t/8000)
		s.SoC = append(s.SoC, 0.9+math.Min(t, 1260)/36000)
	}
	return s
}

// Frost is the trace of a charge in frost that nobody notices: it comes to harm
// without any layer acting.
func Frost() *drill.Strip {
	s := Strip()
	s.Fault, s.Scene = "frost switch: stuck closed", Dawn
	s.Out = drill.Outcome{Fault: s.Fault, Scene: Dawn, Outcome: drill.Harm, Harm: "frost charge", FirstAt: -1, WorstV: 3.71, MarginMV: 540, Side: "high",
		HighV: 3.71, LowV: 3.62, HotC: 1, ColdC: -3, FrostAh: 6.4, HarmAt: 3600, AlarmAt: -1, ReactS: -1, Silent: true, PeakShare: 1}
	for i, t := range s.Time {
		s.HighV[i], s.LowV[i] = 3.62+t/240000, 3.60+t/240000
		s.BankA[i] = 34 * math.Max(0, math.Min(1, (t-3000)/6000))
		s.ColdC[i], s.HotC[i] = -3+t/9000, -2+t/7000
	}
	return s
}
