package terminal

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"

	"golang.org/x/term"
)

// lines is where the station reads from.
type lines interface {
	// next shows the prompt and reads a line; io.EOF when the person leaves.
	next(prompt string) (string, error)
	io.Writer
	close()
}

// open reads with line editing where in and out are a terminal, and plain lines
// otherwise.
func open(in io.Reader, out io.Writer) (lines, error) {
	fin, ok1 := in.(*os.File)
	fout, ok2 := out.(*os.File)
	if ok1 && ok2 && term.IsTerminal(int(fin.Fd())) && term.IsTerminal(int(fout.Fd())) {
		return openTerm(fin, fout)
	}
	scan := bufio.NewScanner(in)
	scan.Buffer(nil, 1<<20)
	return &piped{scan: scan, Writer: out}, nil
}

// colours reports whether out should get colours: it is a terminal that knows
// them, and NO_COLOR is not set.
func colours(out io.Writer) bool {
	f, ok := out.(*os.File)
	return ok && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb" && term.IsTerminal(int(f.Fd()))
}

type piped struct {
	scan *bufio.Scanner
	io.Writer
}

func (p *piped) next(prompt string) (string, error) {
	fmt.Fprint(p.Writer, prompt)
	if !p.scan.Scan() {
		fmt.Fprintln(p.Writer)
		if err := p.scan.Err(); err != nil {
			return "", err
		}
		return "", io.EOF
	}
	fmt.Fprintln(p.Writer, clean(p.scan.Text()))
	return p.scan.Text(), nil
}

func (p *piped) close() {}

// edited is a terminal in raw mode: history by the arrow keys, Ctrl-C and Ctrl-D
// leave.
type edited struct {
	*term.Terminal
	fd    int
	state *term.State
}

func openTerm(in, out *os.File) (lines, error) {
	state, err := term.MakeRaw(int(in.Fd()))
	if err != nil {
		return nil, fmt.Errorf("set up the terminal: %w", err)
	}
	t := term.NewTerminal(struct {
		io.Reader
		io.Writer
	}{in, out}, "")
	if w, h, err := term.GetSize(int(out.Fd())); err == nil && w > 0 {
		_ = t.SetSize(w, h) // a size that is refused leaves the usual 80 columns
	}
	return &edited{t, int(in.Fd()), state}, nil
}

func (e *edited) next(prompt string) (string, error) {
	e.SetPrompt(prompt)
	line, err := e.ReadLine()
	if errors.Is(err, io.EOF) {
		fmt.Fprintln(e) // the shell goes on in a line of its own
	}
	return line, err
}

func (e *edited) close() { _ = term.Restore(e.fd, e.state) }
