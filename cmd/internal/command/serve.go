package command

import (
	"context"
	"fmt"
	"net"
	"os"
	"os/signal"
	"slices"
	"strings"
	"syscall"
	"time"

	"github.com/spf13/pflag"

	"hotroom/cmd/internal/web"
)

func serve() Verb {
	return Verb{
		Name:    "serve",
		Summary: "the HTTP API and the page",
		Help: "Answers over HTTP until it is interrupted; /openapi.json describes what it takes. " +
			"When a file of the knowledge or the rules changes, everything is read and checked " +
			"anew and taken at once; a broken edit changes nothing, and /readyz says what is " +
			"wrong. Nothing is open to other web origins unless it is said so. The client limit " +
			"counts the address that connects: behind a proxy, let the proxy limit. A signal to " +
			"stop turns /readyz red first, and what is in flight is finished. With --token-file and " +
			"--knowledge, whoever sends the token as Authorization: Bearer TOKEN may record runs.",
		Example: "  hotroom serve\n" +
			"  hotroom serve --listen :8080 --knowledge ./knowledge --rate 50 --frame-ancestors https://guide.example",
		Bind: bindServe,
	}
}

// serving is what serve was told.
type serving struct {
	options web.Options
	listen  string
	token   string // its file
	log     string
}

// details are the words that --log takes.
func details() []string { return []string{"requests", "events", "errors"} }

func bindServe(flags *pflag.FlagSet) Run {
	var o serving
	flags.StringVar(&o.listen, "listen", "127.0.0.1:8080", "`ADDRESS` to listen on; port 0 takes a free one")
	flags.StringVar(&o.token, "token-file", "", "`FILE` whose first line lets clients record runs with POST /v1/runs (default: nobody may)")
	flags.StringSliceVar(&o.options.Origins, "cors-origin", nil, "web `ORIGINS` whose pages may read answers: https://guide.example, or * for all")
	flags.StringSliceVar(&o.options.Frames, "frame-ancestors", nil, "web `ORIGINS` whose pages may frame answers, or * for all")
	flags.Float64Var(&o.options.Rate, "rate", 0, "requests a second for each client; 0 for no limit")
	flags.IntVar(&o.options.Burst, "burst", 0, "requests at once for each client (default: twice the rate)")
	flags.IntVar(&o.options.CacheMB, "cache-mb", 64, "most `MIB` of answers that are kept")
	flags.DurationVar(&o.options.Drain, "drain", 3*time.Second, "how long /readyz is red before the listener closes")
	flags.StringVar(&o.log, "log", "requests", "what is logged on stderr as JSON: `requests`, events or errors")
	return func(ctx context.Context, s *Session, args []string) error {
		if len(args) > 0 {
			return &usage{"serve takes no arguments: name the address with --listen"}
		}
		if err := o.check(); err != nil {
			return err
		}
		return s.serve(ctx, o)
	}
}

// check refuses flags that contradict what they are for.
func (o *serving) check() error {
	at := slices.Index(details(), o.log)
	if at < 0 {
		return &usage{fmt.Sprintf("--log %q is not known: give %s", o.log, strings.Join(details(), ", "))}
	}
	o.options.Detail = web.Detail(at)
	switch {
	case !(o.options.Rate >= 0 && o.options.Rate <= 1e6):
		return &usage{fmt.Sprintf("--rate %g is not possible: give requests a second, or 0 for no limit", o.options.Rate)}
	case o.options.Burst < 0:
		return &usage{fmt.Sprintf("--burst %d is not possible: give 1 or more", o.options.Burst)}
	case o.options.CacheMB < 1 || o.options.CacheMB > 1<<20:
		return &usage{fmt.Sprintf("--cache-mb %d is not possible: give 1 or more", o.options.CacheMB)}
	case o.options.Drain < 0 || o.options.Drain > time.Hour:
		return &usage{fmt.Sprintf("--drain %s is not possible: give a time such as 3s", o.options.Drain)}
	}
	for flag, origins := range map[string][]string{"cors-origin": o.options.Origins, "frame-ancestors": o.options.Frames} {
		for _, origin := range origins {
			if !web.IsOrigin(origin) {
				return &usage{fmt.Sprintf("--%s %q is no web origin: write it as https://guide.example, or *", flag, origin)}
			}
		}
	}
	return nil
}

// serve loads once, listens, and answers until the context ends.
func (s *Session) serve(ctx context.Context, o serving) error {
	if err := o.readToken(s); err != nil {
		return err
	}
	snapshot, _, err := s.Snapshot()
	if err != nil {
		return err
	}
	hangups, forget := hangups(ctx)
	defer forget()
	signal.Ignore(syscall.SIGPIPE) // a log that nobody reads any more is no reason to end
	defer signal.Reset(syscall.SIGPIPE)
	o.options.Source, o.options.Program, o.options.Build = s.source(), Version(), build(Version())
	o.options.Log, o.options.Reload = s.Err, hangups
	server, err := web.New(snapshot, o.options)
	if err != nil {
		return err
	}
	listener, err := (&net.ListenConfig{}).Listen(ctx, "tcp", o.listen)
	if err != nil {
		return fmt.Errorf("nothing can listen on %s (%w): choose another address with --listen, or port 0 for a free one", o.listen, err)
	}
	s.Say("hotroom serves http://%s", listener.Addr())
	return server.Serve(ctx, listener)
}

// readToken takes the token out of its file, where one was given.
func (o *serving) readToken(s *Session) error {
	if o.token == "" {
		return nil
	}
	if s.Knowledge == "" {
		s.Say("nothing can be recorded, since the embedded demo cannot be written: give a folder with --knowledge")
	}
	var err error
	o.options.Token, err = web.ReadToken(o.token)
	return err
}

// hangups gives a word whenever the process is told to read its files again
// (SIGHUP).
func hangups(ctx context.Context) (asked <-chan struct{}, forget func()) {
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, syscall.SIGHUP)
	out := make(chan struct{})
	ctx, cancel := context.WithCancel(ctx)
	go func() {
		for {
			select {
			case <-ctx.Done():
				return
			case <-signals:
				select {
				case out <- struct{}{}:
				case <-ctx.Done():
					return
				}
			}
		}
	}()
	return out, func() { signal.Stop(signals); cancel() }
}
