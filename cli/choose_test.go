package cli

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"

	"ampstead/internal/choosesample"
	"ampstead/internal/golden"
	"ampstead/sheet"
)

func TestChooseText(t *testing.T) {
	var out bytes.Buffer
	file := exampleFile(t)
	text := &chooseText{w: &out, res: choosesample.Result(), sys: system(file.Rig)}
	text.print(file)
	golden.Check(t, "choose-sample.golden", out.Bytes())
	table := false
	for i, line := range strings.Split(out.String(), "\n") {
		n := len([]rune(line))
		table = table && line != "" || strings.HasPrefix(line, "SIDE BY SIDE")
		if n > textWidth && !strings.Contains(line, "--ask") || table && n > abreastWide {
			t.Errorf("line %d is %d characters long: %s", i+1, n, line)
		}
	}
}

func TestAskText(t *testing.T) {
	var out bytes.Buffer
	printAsk(&out, exampleFile(t), &sheet.AskLists(choosesample.Result())[0])
	golden.Check(t, "choose-ask.golden", out.Bytes())
}

func TestChooseFlags(t *testing.T) {
	for _, c := range []struct {
		c    chooseCommand
		want string
	}{
		{chooseCommand{Years: 3, Designs: 1}, ""}, {chooseCommand{Years: 3, Designs: 9, Search: true, Budget: "9", Apply: "1", Out: "x"}, ""}, {chooseCommand{Years: 1, Designs: 1, Short: "20 h"}, ""},
		{chooseCommand{Designs: 1}, "--years 0"}, {chooseCommand{Years: 1, Search: true}, "--designs 0"}, {chooseCommand{Years: 1, Designs: 1, Budget: "9"}, "add --search"},
		{chooseCommand{Years: 1, Designs: 1, Out: "x"}, "--apply NAME"}, {chooseCommand{Years: 1, Designs: 1, Search: true, Apply: "1"}, "--out FILE"},
		{chooseCommand{Years: 1, Designs: 1, Search: true, Apply: "1", Out: "x", Write: true}, "give one"}, {chooseCommand{Years: 1, Designs: 1, Search: true, Apply: "1", Write: true, stageFlags: stageFlags{Set: []string{"a=b"}}}, "--write with --set"},
		{chooseCommand{Years: 1, Designs: 1, Ask: "x", stageFlags: stageFlags{JSON: true}}, "--ask prints"},
	} {
		err := c.c.check(c.c.Search)
		if c.want == "" && err != nil || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%+v: %v, want %q", c.c, err, c.want)
		}
	}
}

// A search that was interrupted says where it is kept and how to go on, and ends
// as an interruption does.
func TestStoppedSearch(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	file, res := exampleFile(t), choosesample.Result()
	res.Search.Stopped, res.Search.Designs = true, 120
	for _, c := range []chooseCommand{{}, {Resume: "kept.json", stageFlags: stageFlags{JSON: true}}} {
		var out, said bytes.Buffer
		err := c.stopped(&run{&Program{Stdout: &out, Stderr: &said}, ctx}, file, res)
		if !errors.Is(err, context.Canceled) {
			t.Errorf("it ended with %v", err)
		}
		name := "search.json"
		if c.JSON {
			name = "kept.json"
		}
		if want := "120 of 1000 rigs were tried and are kept in " + name + "; go on with the same options and --resume " + name; !strings.Contains(said.String(), want) {
			t.Errorf("said %q, want %q", said.String(), want)
		}
		if (out.Len() == 0) != c.JSON {
			t.Errorf("JSON %v: printed %q", c.JSON, out.String())
		}
	}
}

func TestDesignOf(t *testing.T) {
	res := choosesample.Result()
	for name, want := range map[string]string{"4": choosesample.Longest, choosesample.Longest: choosesample.Longest, "0": "", "9": "", "": ""} {
		d := designOf(res, name)
		if got := d != nil; got != (want != "") || got && d.Name != want {
			t.Errorf("%q: %+v", name, d)
		}
	}
}

func TestBroken(t *testing.T) {
	for text, want := range map[string]string{"": "", "one two": "one two", "one two three": "one two|three", "lead-acid-agm": "lead-acid-|agm", "abcdefghijklm": "abcdefghij|klm", "a ööööööööööö": "a|öööööööööö|ö"} {
		if got := strings.Join(broken(text, 10), "|"); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
