package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"
	"syscall"

	"golang.org/x/term"

	"crosslay/bot"
	"crosslay/bot/chat"
	"crosslay/internal/matrix"
	"crosslay/internal/serve"
)

// matrixCmd is what is done once for a homeserver.
type matrixCmd struct {
	Login matrixLoginCmd `cmd:"" help:"Log the bot in at its homeserver, once."`
}

type matrixLoginCmd struct {
	Homeserver string `help:"Address of the homeserver; asked for without it." placeholder:"URL"`
	User       string `help:"Account of the bot; asked for without it." placeholder:"@NAME:SERVER"`
	DB         string `name:"db" default:"crosslay.db" help:"Database file beside which the secrets are kept." placeholder:"FILE"`
	secretsFlag
}

// Run asks for what is missing, logs in and says what to keep.
func (c *matrixLoginCmd) Run() error {
	ctx, stop := signal.NotifyContext(context.Background(), syscall.SIGINT, syscall.SIGTERM)
	defer stop()
	return c.login(ctx, &asker{in: bufio.NewReader(os.Stdin), out: os.Stdout}, os.Stdout)
}

func (c *matrixLoginCmd) login(ctx context.Context, a *asker, out io.Writer) error {
	if !matrix.Encrypts {
		fmt.Fprintln(out, "This build has no encryption: encrypted rooms will be refused. If you want them, stop here, build with -tags goolm and log in with that.")
	}
	dir := c.dir(c.DB)
	cred, err := c.credentials(ctx, a)
	if err != nil {
		return err
	}
	cred.Dir = dir
	l, err := matrix.LogIn(ctx, cred)
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "Logged in as %s, device %s. The files are in %s: back them up, show them to nobody.\n", l.User, l.Device, dir)
	if l.RecoveryKey != "" {
		fmt.Fprintf(out, "Recovery key, shown only now. Write it down and keep it away from this machine:\n\n    %s\n\n", l.RecoveryKey)
	}
	if l.Trouble != nil {
		return l.Trouble
	}
	_, err = fmt.Fprintln(out, "Next: start crosslay serve, invite the bot to the rooms of the department file, and run crosslay vet --online.")
	return err
}

// credentials asks for what the command line does not say. The homeserver is
// looked for before the rest is asked.
func (c *matrixLoginCmd) credentials(ctx context.Context, a *asker) (matrix.Credentials, error) {
	cred := matrix.Credentials{Homeserver: a.unless(c.Homeserver, "Homeserver (https://matrix.example.org): ")}
	if a.err != nil {
		return cred, a.err
	}
	if err := matrix.Reach(ctx, cred); err != nil {
		return cred, err
	}
	cred.User = a.unless(c.User, "The bot's account (@crosslay:example.org): ")
	if cred.User == "" && a.err == nil {
		return cred, errors.New("no account was given; write it like @crosslay:example.org")
	}
	cred.Password = a.secret("Its password: ")
	if matrix.Encrypts {
		cred.Recovery = a.secret("Recovery key of an earlier login, or Enter for a new identity: ")
	}
	return cred, a.err
}

// asker asks a person on the terminal, or reads lines from a script. After its
// first error it asks no more.
type asker struct {
	in  *bufio.Reader
	out io.Writer
	err error
}

// unless asks if there is no answer yet.
func (a *asker) unless(given, question string) string {
	if given != "" {
		return given
	}
	return a.ask(question)
}

func (a *asker) ask(question string) string {
	if a.err != nil {
		return ""
	}
	fmt.Fprint(a.out, question)
	line, err := a.in.ReadString('\n')
	if err != nil && line == "" && !errors.Is(err, io.EOF) {
		a.err = err
	}
	return strings.TrimSpace(line)
}

// secret asks without showing what is typed.
func (a *asker) secret(question string) string {
	if a.err != nil || !term.IsTerminal(int(os.Stdin.Fd())) {
		return a.ask(question)
	}
	fmt.Fprint(a.out, question)
	text, err := term.ReadPassword(int(os.Stdin.Fd()))
	fmt.Fprintln(a.out)
	a.err = err
	return strings.TrimSpace(string(text))
}

func openMatrix(p parts) (serve.Backend, error) {
	account, err := matrix.LoadAccount(p.secrets)
	if err != nil {
		return nil, err
	}
	if !matrix.Encrypts {
		p.log.Warn("this build has no encryption: encrypted Matrix rooms are refused")
	}
	cfg := matrixConfig(account, p.secrets, p.setup)
	cfg.Log = p.log
	cfg.Cursor = func(ctx context.Context, name string) (string, error) { return p.store.Cursor(ctx, matrix.Name, name) }
	cfg.Past = func(ctx context.Context, id string) (chat.Event, bool, error) {
		return p.store.Heard(ctx, matrix.Name, id)
	}
	return matrix.Open(context.Background(), cfg)
}

func matrixConfig(account matrix.Account, secrets string, setup func() bot.Setup) matrix.Config {
	return matrix.Config{
		Account: account, Dir: secrets,
		Rooms: func() []string {
			var list []string
			for _, place := range roomsOn(setup(), matrix.Name) {
				list = append(list, place.Room)
			}
			return list
		},
		Known: func(account string) bool {
			_, known := setup().Dept.PersonAt(matrix.Name, account)
			return known
		},
	}
}

func inspectMatrix(ctx context.Context, setup bot.Setup, secrets string, rooms []chat.Place) []string {
	account, err := matrix.LoadAccount(secrets)
	if err != nil {
		return []string{err.Error()}
	}
	return matrix.Inspect(ctx, matrixConfig(account, secrets, func() bot.Setup { return setup }), rooms)
}
