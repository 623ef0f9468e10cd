package command

import (
	"context"

	"github.com/spf13/pflag"

	"hotroom/cmd/internal/publish"
)

func publishGuide() Verb {
	return Verb{
		Name:    "publish",
		Summary: "static pages, cards and charts for a buying guide",
		Help: "Writes the whole guide as files that any web server can hold: index.html, a page for " +
			"each board, a card and a chart for each board, chip and room word, and index.json. " +
			"The same knowledge gives the same bytes. Files that have not changed are left alone, " +
			"and files of an earlier guide that are needed no more are removed; nothing else in " +
			"the folder is touched.",
		Example: "  hotroom publish --out guide\n" +
			"  hotroom publish --out guide --rooms normal,hot",
		Bind: bindPublish,
	}
}

func bindPublish(flags *pflag.FlagSet) Run {
	out := flags.String("out", "", "`DIR` to write into")
	rooms := flags.StringSlice("rooms", nil, "room `WORDS` of the knowledge (default: all)")
	return func(ctx context.Context, s *Session, args []string) error {
		if len(args) > 0 {
			return &usage{"publish takes no arguments: name the folder with --out"}
		}
		if *out == "" {
			return &usage{"publish needs a folder: --out guide"}
		}
		return s.publish(ctx, *out, *rooms)
	}
}

func (s *Session) publish(ctx context.Context, out string, rooms []string) error {
	snapshot, _, err := s.Snapshot()
	if err != nil {
		return err
	}
	r, err := publish.Guide(ctx, snapshot, out, publish.Options{Rooms: rooms, Program: Version(), Progress: s.progress()})
	if err != nil {
		return err
	}
	s.Say("published to %s: %s written, %d unchanged, %d removed", out, count(r.Written, "file"), r.Unchanged, r.Removed)
	return nil
}
