package command

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// Prompt reads questions one after another; it returns the exit code.
type Prompt func(ctx context.Context, s *Session) int

// Main runs one command line and returns the exit code.
func Main(ctx context.Context, args []string, streams Streams, prompt Prompt) int {
	s := NewSession(streams)
	exit := exitAnswered
	root := s.root(args)
	root.RunE = func(*cobra.Command, []string) error {
		ctx, stop := s.listen(ctx)
		defer stop()
		exit = prompt(ctx, s)
		return nil
	}
	if err := s.execute(ctx, root, args); err != nil {
		return s.Report(err)
	}
	return exit
}

// RunLine runs the words of one line typed at the prompt: a verb with its
// flags. Common flags in it hold for that line only.
func (s *Session) RunLine(ctx context.Context, words []string) int {
	before := s.Options
	defer func() { s.Options = before }()
	root := s.root(words)
	root.CompletionOptions.DisableDefaultCmd = true
	return s.Report(s.execute(ctx, root, words))
}

func (s *Session) execute(ctx context.Context, root *cobra.Command, args []string) error {
	if args == nil {
		args = []string{} // nil would make cobra take the process's own
	}
	root.SetArgs(args)
	s.helpFailed = nil
	out := &outlet{to: s.Out}
	root.SetOut(out)
	if err := root.ExecuteContext(ctx); err != nil && out.failed == nil {
		return err
	}
	if out.failed != nil {
		return unwritten(out.failed)
	}
	return s.helpFailed
}

// root builds cobra's tree from the table: of the verb alone where the words
// begin with one, since the flags of all others take a good part of a short
// program's time.
func (s *Session) root(words []string) *cobra.Command {
	root := &cobra.Command{
		Use:           "hotroom",
		Args:          s.noSuchVerb,
		RunE:          func(*cobra.Command, []string) error { return nil },
		SilenceErrors: true,
		SilenceUsage:  true,
	}
	root.SetIn(s.In)
	root.SetErr(s.Err)
	root.SuggestionsMinimumDistance = 2 // letters; cobra's own choice
	root.SetHelpFunc(func(c *cobra.Command, _ []string) { s.helpFailed = s.help(c) })
	root.SetFlagErrorFunc(func(c *cobra.Command, err error) error {
		return &usage{fmt.Sprintf("%v: `%s --help` lists the flags", err, c.CommandPath())}
	})
	root.SetHelpCommand(s.helpVerb())
	s.Options.bind(root.PersistentFlags())
	root.Flags().BoolVar(&s.Strict, "strict", s.Strict, "stop at the first piped line that fails")
	root.PersistentPreRunE = func(*cobra.Command, []string) error { return s.checkFailOn() }
	if len(words) > 0 {
		if v, ok := Find(words[0]); ok {
			root.CompletionOptions.DisableDefaultCmd = true
			root.AddCommand(s.command(v))
			return root
		}
	}
	root.Version = Version()
	for _, v := range Verbs() {
		root.AddCommand(s.command(v))
	}
	return root
}

func (s *Session) command(v Verb) *cobra.Command {
	c := &cobra.Command{
		Use:   strings.TrimSpace(v.Name + " " + v.Args),
		Short: v.Summary,
	}
	run := v.Bind(c.Flags())
	c.RunE = func(c *cobra.Command, args []string) error {
		ctx := c.Context()
		if !v.Brief {
			var stop func()
			ctx, stop = s.listen(ctx)
			defer stop()
		}
		return run(ctx, s, args)
	}
	if v.TakesBoards() {
		c.ValidArgsFunction = s.completeNames("board")
	}
	c.Flags().VisitAll(func(f *pflag.Flag) {
		if kind := kindOf(f); kind != "" {
			_ = c.RegisterFlagCompletionFunc(f.Name, s.completeNames(kind)) // fails only for a flag that is not there
		}
	})
	return c
}

// helpVerb is "hotroom help VERB".
func (s *Session) helpVerb() *cobra.Command {
	return &cobra.Command{
		Use: "help [VERB]",
		RunE: func(c *cobra.Command, args []string) error {
			about, _, err := c.Root().Find(args)
			if err != nil || len(args) > 0 && about == c.Root() {
				return &usage{fmt.Sprintf("there is no verb %q to explain: `hotroom help` lists them", strings.Join(args, " "))}
			}
			return s.help(about)
		},
	}
}

// help explains the program or a verb; what cobra adds explains itself.
func (s *Session) help(c *cobra.Command) error {
	if c == c.Root() {
		return s.printRoot()
	}
	if v, ok := Find(c.Name()); ok {
		return s.PrintVerb(v, "hotroom ")
	}
	return c.Usage()
}

func (s *Session) completeNames(kind string) cobra.CompletionFunc {
	return func(c *cobra.Command, named []string, _ string) ([]cobra.Completion, cobra.ShellCompDirective) {
		snapshot, _, err := s.Snapshot()
		if err != nil {
			return nil, cobra.ShellCompDirectiveError
		}
		with := s.Known
		for flag, field := range map[string]*string{"board": &with.Board, "chip": &with.Chip} {
			if f := c.Flags().Lookup(flag); f != nil && f.Changed {
				*field = f.Value.String()
			}
		}
		fitting := Completions(snapshot.Base(), kind, with)
		fitting = slices.DeleteFunc(fitting, func(name string) bool { return slices.Contains(named, name) })
		return fitting, cobra.ShellCompDirectiveNoFileComp
	}
}

// noSuchVerb refuses a first word that is no verb.
func (s *Session) noSuchVerb(root *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	mend := "`hotroom help` lists the verbs"
	if like := root.SuggestionsFor(args[0]); len(like) > 0 {
		mend = "did you mean `hotroom " + like[0] + "`?"
	} else if strings.Contains(args[0], " ") || len(args) > 2 {
		mend = "to ask in a sentence, write `hotroom ask \"…\"`"
	}
	return &usage{fmt.Sprintf("there is no verb %q: %s", args[0], mend)}
}

// failable are the verdicts that --fail-on takes, the worst last; each stands
// for itself and what is worse.
func failable() []string { return []string{"with-care", "unknown", "no"} }

func (s *Session) checkFailOn() error {
	if s.FailOn == "" || slices.Contains(failable(), s.FailOn) {
		return nil
	}
	return &usage{fmt.Sprintf("--fail-on %q is no verdict that can fail: give %s", s.FailOn, strings.Join(failable(), ", "))}
}

// failed reports whether a verdict meets --fail-on.
func (s *Session) failed(verdict string) bool {
	at := slices.Index(failable(), s.FailOn)
	return at >= 0 && slices.Index(failable(), verdict) >= at
}
