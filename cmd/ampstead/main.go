// Command ampstead plans and keeps a vehicle's house battery made from salvaged
// electric-car modules. See the README.
package main

import (
	"context"
	"os"
	"os/signal"
	"syscall"

	"ampstead/cli"
)

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	p := cli.Program{Args: os.Args[1:], Stdin: os.Stdin, Stdout: os.Stdout, Stderr: os.Stderr}
	code := p.Run(ctx)
	stop()
	os.Exit(code)
}
