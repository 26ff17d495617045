package cli

import (
	"context"
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"

	"ampstead/examples"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"ampstead": func() {
			p := Program{Args: os.Args[1:], Stdin: os.Stdin, Stdout: os.Stdout, Stderr: os.Stderr}
			os.Exit(p.Run(context.Background()))
		},
	})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata",
		RequireExplicitExec: true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"example": unpackExample,
			"status":  expectStatus,
		},
	})
}

// unpackExample writes an example rig: example NAME FOLDER.
func unpackExample(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: example NAME FOLDER")
	}
	ts.Check(unpack(args[0], ts.MkAbs(args[1])))
	_, err := examples.Read(args[0])
	ts.Check(err)
}

// expectStatus runs a command and compares its exit status: status 1 ampstead fit.
func expectStatus(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: status CODE COMMAND ...")
	}
	err := ts.Exec(args[1], args[2:]...)
	got := "0"
	if exit, ok := err.(interface{ ExitCode() int }); ok {
		got = string(rune('0' + exit.ExitCode()))
	} else if err != nil {
		ts.Fatalf("%v", err)
	}
	if got != args[0] {
		ts.Fatalf("exit status %s, want %s", got, args[0])
	}
}
