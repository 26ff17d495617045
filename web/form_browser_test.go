package web

import (
	"context"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// A charger is added, filled in, taken back and removed with a phone.
func TestFormInABrowser(t *testing.T) {
	v := visit(t, "curlew-draft")
	at := v.serve()
	ctx := browse(t)
	t.Run("adds a charger, fills it in and removes it", func(t *testing.T) { addsACharger(t, ctx, v, at) })
	t.Run("takes a new name along", func(t *testing.T) { renamesInPlace(t, ctx, v, at) })
	t.Run("finds a value", func(t *testing.T) { findsAValue(t, ctx, at) })
	t.Run("keeps what could not be sent", func(t *testing.T) { keepsUnsent(t, ctx, v, at) })
}

const awake = `document.documentElement.classList.contains("live")`

func js[T any](t *testing.T, ctx context.Context, script string) T {
	t.Helper()
	return run(t, ctx, chromedp.Evaluate[T](script))
}

func until(t *testing.T, ctx context.Context, script string) {
	t.Helper()
	if _, err := chromedp.Run(ctx, chromedp.Poll[bool](script)); err != nil {
		state := js[string](t, ctx, `document.getElementById("say").textContent + " | " + document.activeElement.outerHTML.slice(0, 200)`)
		t.Fatalf("%s: %v; the page: %s", script, err, state)
	}
}

func addsACharger(t *testing.T, ctx context.Context, v *visitor, at string) {
	before := v.onDisk()
	run(t, ctx, chromedp.Navigate(at+"/rig"))
	until(t, ctx, awake)
	js[bool](t, ctx, `(() => { const a = document.getElementById("a-charge"); a.open = true; a.querySelector("[value=mains]").checked = true; a.querySelector("[name='new.name']").value = "shore charger"; a.querySelector("button").click(); return true; })()`)
	section := `document.getElementById("s-charge.shore_charger")`
	until(t, ctx, section+` !== null && `+section+`.open && document.activeElement.id === "charge.shore_charger.name"`)
	until(t, ctx, `document.getElementById("say").textContent.startsWith("Added.")`)
	contains(t, "file", v.onDisk(), "name: shore charger\n    kind: mains\n    limit: 60 A   # CHECK: an example")
	if wide := js[int](t, ctx, "document.documentElement.scrollWidth"); wide > 390 {
		t.Errorf("the page is %d px wide", wide)
	}

	limit := `document.getElementById("charge.shore_charger.limit")`
	fill(t, ctx, limit, "35")
	until(t, ctx, limit+`.getAttribute("aria-invalid") === "true" && document.getElementById("charge.shore_charger.limit-wrong").textContent.includes("such as")`)
	fill(t, ctx, limit, "35 A")
	until(t, ctx, `document.getElementById("say").textContent.startsWith("Saved.") && !`+limit+`.hasAttribute("aria-invalid")`)
	contains(t, "file", v.onDisk(), "limit: 35 A\n")

	// A value that is not given yet lies folded away, and stays where it is when typed.
	js[bool](t, ctx, section+`.querySelectorAll(".more").forEach((m) => m.open = true) === undefined`)
	js[bool](t, ctx, section+`.querySelector("[name='v:charge.shore charger.stop_input'][value=yes]").click() === undefined`)
	until(t, ctx, section+`.querySelector("[name='w:charge.shore charger.stop_input']").value === "yes"`)
	contains(t, "file", v.onDisk(), "stop_input: yes")

	js[bool](t, ctx, section+`.querySelector("[value='remove:charge.shore charger']").click() === undefined`)
	until(t, ctx, section+` === null`)
	if v.onDisk() != before {
		t.Error("added and removed, the file is another one")
	}
	until(t, ctx, `document.activeElement.name === "step"`)
	js[bool](t, ctx, `document.querySelector("#did [value=undo]").click() === undefined`)
	until(t, ctx, section+` !== null`)
	js[bool](t, ctx, `document.querySelector("#did [value=redo]").click() === undefined`)
	until(t, ctx, section+` === null`)
}

func renamesInPlace(t *testing.T, ctx context.Context, v *visitor, at string) {
	run(t, ctx, chromedp.Navigate(at+"/rig?at=inverters.mains%20inverter.name#inverters.mains_inverter.name"))
	name := `document.getElementById("inverters.mains_inverter.name")`
	until(t, ctx, awake+` && document.activeElement === `+name)
	js[bool](t, ctx, `(`+name+`.value = "", true)`)
	run(t, ctx, chromedp.KeyEvent("big inverter\t"))
	until(t, ctx, `document.getElementById("s-inverters.big_inverter") !== null && document.getElementById("s-inverters.big_inverter").open`)
	if strings.Contains(v.onDisk(), "mains inverter") {
		t.Error("something still has the old name")
	}
	until(t, ctx, `document.activeElement.closest("#s-inverters\\.big_inverter") !== null`) // the visitor is still in it
}

func findsAValue(t *testing.T, ctx context.Context, at string) {
	run(t, ctx, chromedp.Navigate(at+"/rig?open=heater"))
	until(t, ctx, awake)
	js[bool](t, ctx, `document.getElementById("find").focus() === undefined`)
	run(t, ctx, chromedp.KeyEvent("roof equalise"))
	until(t, ctx, `document.querySelectorAll("#sections .field").length === 1`)
	js[bool](t, ctx, `document.querySelector("[data-all]").click() === undefined`)
	until(t, ctx, `document.querySelector(".found-for") === null && document.getElementById("s-heater").open`)
}

// keepsUnsent takes the program away from a page that is open: what is typed then waits,
// also while the page is closed, and is sent when the program answers again.
func keepsUnsent(t *testing.T, ctx context.Context, v *visitor, at string) {
	run(t, ctx, chromedp.Navigate(at+"/rig?open=heater"))
	until(t, ctx, awake)
	js[bool](t, ctx, `(() => { window.real = window.fetch; window.fetch = () => Promise.reject(new TypeError("gone")); return true; })()`)
	fill(t, ctx, `document.getElementById("heater.power")`, "81 W")
	until(t, ctx, `document.querySelector("#unsaved .waits") !== null && document.getElementById("unsaved").textContent.includes("heater, power: 81 W")`)
	if strings.Contains(v.onDisk(), "81 W") {
		t.Fatal("it was saved all the same")
	}
	js[bool](t, ctx, `(() => { window.fetch = window.real; document.querySelector("#unsaved [data-do=again]").click(); return true; })()`)
	until(t, ctx, `document.querySelector("#unsaved .waits") === null`)
	contains(t, "file", v.onDisk(), "power: 81 W")

	js[bool](t, ctx, `(() => { window.fetch = () => Promise.reject(new TypeError("gone")); return true; })()`)
	fill(t, ctx, `document.getElementById("heater.power")`, "71 W")
	until(t, ctx, `document.querySelector("#unsaved .waits") !== null`)
	run(t, ctx, chromedp.Navigate(at+"/rig")) // closed and opened again
	until(t, ctx, awake+` && document.querySelector("#unsaved .waits") === null`)
	contains(t, "file", v.onDisk(), "power: 71 W")
}
