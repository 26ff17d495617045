package live

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"time"
)

// commandTime is how long the alarm command may run, afterlife how long what it
// started may hold on to its pipes.
const (
	commandTime = 20 * time.Second
	afterlife   = 2 * time.Second
)

// command runs a program with an alarm as JSON on its standard input, and the
// words of it in its environment.
type command struct {
	words []string
	rig   string
	hide  string // variable that it must not see
}

func (c *command) run(ctx context.Context, a Alarm) error {
	ctx, cancel := context.WithTimeout(ctx, commandTime)
	defer cancel()
	text, err := json.Marshal(noticeOf(c.rig, a))
	if err != nil {
		return err
	}
	cmd := exec.CommandContext(ctx, c.words[0], c.words[1:]...)
	cmd.Stdin = bytes.NewReader(append(text, '\n'))
	cmd.Env = append(c.environment(), "AMPSTEAD_RIG="+c.rig, "AMPSTEAD_ALARM="+a.Key, "AMPSTEAD_STATE="+a.state(), "AMPSTEAD_WHAT="+a.What)
	cmd.WaitDelay = afterlife
	err = cmd.Run()
	var exit *exec.ExitError
	switch {
	case ctx.Err() == context.DeadlineExceeded:
		return fmt.Errorf("it took longer than %s", duration(commandTime))
	case errors.As(err, &exit):
		return errors.New(exit.ProcessState.String())
	}
	return err
}

// environment is our own without what is secret in it.
func (c *command) environment() []string {
	var list []string
	for _, e := range os.Environ() {
		name, _, _ := strings.Cut(e, "=")
		if name != c.hide && !strings.HasPrefix(name, "AMPSTEAD_") {
			list = append(list, e)
		}
	}
	return list
}
