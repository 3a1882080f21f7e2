package console

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"os"
	"strings"

	"golang.org/x/term"

	"lungwort/delivery"
	"lungwort/delivery/store"
	"lungwort/inventory/refusal"
)

// signIn is who gives a command, for a book that asks for a name.
type signIn struct {
	user string
	file string // of the passphrase
}

// passphraseSetting is the environment variable a passphrase may stand in.
const passphraseSetting = "LUNGWORT_PASSPHRASE"

// early reads the flags that must be known before the rest are parsed.
func (s *signIn) early(args []string) {
	for name, into := range map[string]*string{"user": &s.user, "passphrase-file": &s.file} {
		if text := early(args, name); text != "" {
			*into = text
		}
	}
}

// enter signs in whoever gives the command. Where no name is given and the book
// asks for one, the desk itself refuses what needs one: an audit or a copy
// shows nobody's name.
func (p *Program) enter(ctx context.Context, desk *store.Desk) error {
	if p.signIn.user == "" {
		return nil
	}
	access, err := desk.Access(ctx)
	if err != nil {
		return err
	}
	if !access.On {
		return refusal.New(refusal.Invalid, "This book asks nobody for a name.", "Leave --user out; facts carry the name of the system's user.")
	}
	text, err := p.passphrase()
	if err != nil {
		return err
	}
	return desk.SignIn(ctx, p.signIn.user, text)
}

// passphrase reads the passphrase from its file, the environment or the
// terminal.
func (p *Program) passphrase() (string, error) {
	if p.signIn.file != "" {
		return readPassphrase(p.signIn.file)
	}
	if text, set := os.LookupEnv(passphraseSetting); set {
		return text, nil
	}
	stdin := int(os.Stdin.Fd())
	if !term.IsTerminal(stdin) {
		return "", refusal.New(refusal.Locked, "No passphrase was given for "+p.signIn.user+".",
			"Give --passphrase-file FILE, set "+passphraseSetting+", or run the command in a terminal.")
	}
	fmt.Fprintf(p.Err, "Passphrase of %s: ", p.signIn.user)
	text, err := term.ReadPassword(stdin)
	fmt.Fprintln(p.Err)
	return string(text), err
}

// readPassphrase reads the first line of a file; - is what comes in.
func readPassphrase(file string) (string, error) {
	in := io.Reader(os.Stdin)
	if file != "-" {
		f, err := os.Open(file)
		if err != nil {
			return "", refusal.New(refusal.NotFound, "The passphrase file "+file+" can't be read.", "Check its name and who may read it.").Because(err)
		}
		defer f.Close()
		in = f
	}
	line, err := bufio.NewReader(in).ReadString('\n')
	if err != nil && err != io.EOF {
		return "", err
	}
	return strings.TrimRight(line, "\r\n"), nil
}

// The forms of acts that take a new passphrase, which never stands on a command
// line.
type (
	addUser struct {
		Name string        `act:"name" help:"by which they sign in"`
		Role delivery.Role `act:"role" help:"coordinator, driver desk, warehouse, on call or read-only"`
		File string        `act:"new-passphrase-file" help:"file whose first line is the passphrase; - reads it from what comes in"`
	}
	setPassphrase struct {
		Name string `act:"name" help:"whose"`
		File string `act:"new-passphrase-file" help:"file whose first line is the passphrase; - reads it from what comes in"`
	}
)

func userAdded(_ context.Context, _ *store.Desk, v any) (delivery.Act, error) {
	f := v.(*addUser)
	text, err := readPassphrase(f.File)
	return delivery.AddUser{Name: f.Name, Role: f.Role, Passphrase: text}, err
}

func passphraseSet(_ context.Context, _ *store.Desk, v any) (delivery.Act, error) {
	f := v.(*setPassphrase)
	text, err := readPassphrase(f.File)
	return delivery.SetPassphrase{Name: f.Name, Passphrase: text}, err
}
