package cli

import (
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"golang.org/x/term"

	"ampstead/secret"
)

// passphraseVariable is the environment variable that may hold the passphrase.
const passphraseVariable = "AMPSTEAD_PASSPHRASE"

type passphraseCommand struct {
	Passphrase string `placeholder:"FILE" help:"File that holds the new passphrase; without it the AMPSTEAD_PASSPHRASE environment variable, or it is asked for."`
}

// Run sets this machine's passphrase and stores its hash.
func (c *passphraseCommand) Run(r *run) error {
	path, err := secret.Place()
	if err != nil {
		return badInput(err)
	}
	text, err := givenPassphrase(c.Passphrase)
	if err == nil && text == "" {
		text, err = askPassphrase(r)
	}
	if err != nil {
		return notGiven(r, err)
	}
	stored, err := secret.Hash(r.ctx, text)
	if err != nil {
		return notGiven(r, err)
	}
	if err := secret.Save(path, stored); err != nil {
		return badInput(err)
	}
	fmt.Fprintf(r.Stdout, "The passphrase is set; only its hash is kept, in %s.\nA page that is being served takes it from its next start.\n", path)
	return nil
}

// notGiven is a mistake of the person's, unless they interrupted.
func notGiven(r *run, err error) error {
	if r.ctx.Err() != nil {
		return r.ctx.Err()
	}
	return badInput(err)
}

// lanPassphrase returns the hash that --lan lets people in by: that of the
// passphrase given for this run, or the one stored, or of one asked for now. What
// is new is stored for the next time.
func lanPassphrase(r *run, file string) (stored string, err error) {
	path, err := secret.Place()
	if err != nil {
		return "", badInput(err)
	}
	text, err := givenPassphrase(file)
	if err != nil {
		return "", badInput(err)
	}
	kept, err := secret.Load(path)
	if text == "" && !errors.Is(err, secret.ErrNone) {
		return kept, badInput(err)
	}
	if text == "" {
		if text, err = askPassphrase(r); err != nil {
			return "", notGiven(r, err)
		}
	} else if err == nil {
		if same, err := secret.Verify(r.ctx, kept, text); err == nil && same {
			return kept, nil
		}
	}
	stored, err = secret.Hash(r.ctx, text)
	if err != nil {
		return "", notGiven(r, err)
	}
	if err := secret.Save(path, stored); err != nil {
		fmt.Fprintf(r.Stderr, "ampstead: %v; the passphrase holds until this program ends\n", err)
	}
	return stored, nil
}

// givenPassphrase is the one in a file or the environment; "" where there is
// neither. Errors: the file; secret.Check.
func givenPassphrase(file string) (string, error) {
	text := os.Getenv(passphraseVariable)
	from := passphraseVariable
	if file != "" {
		var err error
		if text, err = readPassphrase(file); err != nil {
			return "", err
		}
		from = file
	}
	if file == "" && text == "" {
		return "", nil
	}
	if err := secret.Check(text); err != nil {
		return "", fmt.Errorf("%s: %w", from, err)
	}
	return text, nil
}

func readPassphrase(name string) (string, error) {
	file, err := os.Open(name)
	if err != nil {
		return "", err
	}
	defer file.Close()
	text, err := io.ReadAll(io.LimitReader(file, 2*secret.Longest))
	return strings.TrimSpace(string(text)), err
}

// errNoPassphrase says how to give one.
var errNoPassphrase = fmt.Errorf("--lan needs a passphrase of at least %d characters: set one with ampstead passphrase, put it in a file and name it with --passphrase, or in %s", secret.Shortest, passphraseVariable)

// askPassphrase asks for a new passphrase twice on the terminal, without showing
// it. Errors: there is no terminal; the two differ; secret.Check.
func askPassphrase(r *run) (string, error) {
	terminal, ok := r.Stdin.(*os.File)
	if !ok || !term.IsTerminal(int(terminal.Fd())) {
		return "", errNoPassphrase
	}
	fmt.Fprintf(r.Stderr, "Whoever uses Ampstead over the network gives a passphrase. At least %d characters.\n", secret.Shortest)
	first, err := readHidden(r, terminal, "New passphrase: ")
	if err != nil {
		return "", err
	}
	if err := secret.Check(first); err != nil {
		return "", err
	}
	second, err := readHidden(r, terminal, "The same again: ")
	if err != nil {
		return "", err
	}
	if first != second {
		return "", errors.New("the two passphrases differ; nothing was set")
	}
	return first, nil
}

// readHidden reads a line without showing it. An interruption ends it and gives
// the terminal back as it was.
func readHidden(r *run, terminal *os.File, prompt string) (string, error) {
	before, err := term.GetState(int(terminal.Fd()))
	if err != nil {
		return "", err
	}
	fmt.Fprint(r.Stderr, prompt)
	defer fmt.Fprintln(r.Stderr)
	type line struct {
		text []byte
		err  error
	}
	typed := make(chan line, 1)
	go func() {
		text, err := term.ReadPassword(int(terminal.Fd()))
		typed <- line{text, err}
	}()
	select {
	case l := <-typed:
		return string(l.text), l.err
	case <-r.ctx.Done():
		return "", errors.Join(r.ctx.Err(), term.Restore(int(terminal.Fd()), before))
	}
}
