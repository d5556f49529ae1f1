// Wellshown keeps the proof that each person who looks after a child at home on
// a ventilator has been seen to do each skill well, lately enough, by someone
// entitled to say so.
package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"os"
	"os/signal"
	"strings"
	"syscall"
)

const usage = `wellshown COMMAND

  serve            serve pages and the API until stopped
  work             do what was put off, without serving, until stopped; a service does so too
  migrate          bring the database up to the newest schema
  found            found an agency with its first administrator (found -h)
  demo             make the demo agency, if it is not there
  up               migrate, make the demo in an empty database, leave papers in ./out, serve
  report KIND      draw a paper: certificate, overdue, readiness, transcript (report -h)
  keys KIND FILE   make the keys that secrets are sealed and the ledger is signed with (keys -h)
  rebuild          make the index of standings anew and say what was wrong in it
  verify           recompute the ledger from the records and name what does not match (verify -h)
  seal             seal once what waits in the ledger; a service does so by itself
  head CODE        print the newest signed head of an agency's ledger, to keep
  proof CODE ID    print what proves a demonstration of an agency, to keep
  receipt FILE     check a proof that was kept, without any database (receipt -h)
  score FILE       the rules alone: outcome of a sheet (score -h)
  standing FILE    the rules alone: standing on some days (standing -h)

Settings come from the environment and are listed in the README.
`

func main() {
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	context.AfterFunc(ctx, stop) // a second signal ends the program at once
	slog.SetDefault(slog.New(slog.NewJSONHandler(os.Stderr, nil)))
	os.Exit(run(ctx, os.Args[1:], os.Stdin, os.Stdout, os.Stderr))
}

// run picks the command. It answers 0 when it did what was asked, 1 when it could
// not, 2 when it was asked wrongly.
func run(ctx context.Context, args []string, in io.Reader, out, errw io.Writer) int {
	if len(args) == 0 {
		fmt.Fprint(errw, usage)
		return exitUsage
	}
	switch args[0] {
	case "score":
		return runScore(args[1:], in, out, errw)
	case "standing":
		return runStanding(args[1:], in, out, errw)
	case "help", "-h", "--help":
		fmt.Fprint(out, usage)
		return exitAnswered
	}
	if c, known := plain[args[0]]; known {
		return finish(c.run(ctx, args, out), errw)
	}
	switch args[0] {
	case "found":
		return finish(runFound(ctx, args[1:], out), errw)
	case "seal":
		return finish(runSeal(ctx, args[1:], out), errw)
	case "keys":
		return finish(runKeys(ctx, args[1:], out), errw)
	case "verify":
		return finish(runVerify(ctx, args[1:], out), errw)
	case "head":
		return finish(runHead(ctx, args[1:], out), errw)
	case "proof":
		return finish(runProof(ctx, args[1:], out), errw)
	case "receipt":
		return finish(runReceipt(args[1:], out), errw)
	case "report":
		return finish(runReport(ctx, args[1:], out), errw)
	}
	fmt.Fprintf(errw, "wellshown: there is no command %q\n\n%s", args[0], usage)
	return exitUsage
}

// plainCommand takes no arguments. Most change something, so one that is meant
// otherwise than it is written must not begin.
type plainCommand struct {
	do   func(context.Context, []string, io.Writer) error
	says string
}

var plain = map[string]plainCommand{
	"serve":   {runServe, "Serves pages and the API until stopped. HOST, PORT and BASE_URL say where."},
	"work":    {runWork, "Does what was put off, such as mail, without serving, until stopped. A service does so as well, unless JOBS is elsewhere."},
	"migrate": {runMigrate, "Brings the database of DATABASE_URL up to the newest schema."},
	"demo":    {runDemo, "Makes the demo agency, if it is not there. One that was broken off is thrown away and made anew."},
	"up":      {runUp, "Migrates, makes the demo in an empty database, leaves papers in ./out, and serves until stopped."},
	"rebuild": {runRebuild, "Makes the index of standings anew from the records and says what was wrong in it; then the exit code is 1."},
}

func (c plainCommand) run(ctx context.Context, args []string, out io.Writer) error {
	says := fmt.Sprintf("wellshown %s\n\n%s It takes no arguments; settings come from the environment and are listed in the README.\n", args[0], c.says)
	switch {
	case len(args) == 1:
		return c.do(ctx, nil, out)
	case len(args) == 2 && asksHow(args[1]):
		_, err := fmt.Fprint(out, says)
		return err
	}
	return usageError(fmt.Sprintf("%s takes no arguments, and got %q\n\n%s", args[0], strings.Join(args[1:], " "), says))
}

// asksHow reports whether an argument asks how a command is used.
func asksHow(arg string) bool { return arg == "-h" || arg == "--help" || arg == "-help" }

func finish(err error, errw io.Writer) int {
	if err == nil {
		return exitAnswered
	}
	fmt.Fprintf(errw, "wellshown: %v\n", err)
	if _, wrong := err.(usageError); wrong {
		return exitUsage
	}
	return exitRefused
}

// usageError is a command asked wrongly.
type usageError string

func (e usageError) Error() string { return string(e) }
