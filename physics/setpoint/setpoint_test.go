package setpoint_test

import (
	"testing"

	"ampstead/internal/figuretest"
	"ampstead/physics/setpoint"
)

func TestFiguresAreWhole(t *testing.T) { figuretest.Whole(t, setpoint.Figures()) }

func TestFiguresRefuseNonsense(t *testing.T) {
	figuretest.Refuse(t, setpoint.TailCurrent, "capacity=0 Ah|current=10 A", "capacity")
	figuretest.Refuse(t, setpoint.ChargeShare, "limit=10 A|total=0 A|allowed=5 A", "total")
	figuretest.Refuse(t, setpoint.StorageVoltage, "cell=cheese", "cheese")
	figuretest.Refuse(t, setpoint.RestartVoltage, "cell=nmc532|setting=49 V|series=12|side=left", "side")
	figuretest.Refuse(t, setpoint.SettingTime, "of=tea", "tea")
	figuretest.Refuse(t, setpoint.SpreadAlarm, "spread=30 mV|error=5 mV|step=0 V", "step")
	figuretest.Refuse(t, setpoint.AcidTail, "capacity=0 Ah", "capacity")
	figuretest.Refuse(t, setpoint.BankDraw, "powers=10|voltage=0 V", "voltage")
}
