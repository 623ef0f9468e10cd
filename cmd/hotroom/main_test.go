package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"hotroom": main})
}

func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		Setup: func(e *testscript.Env) error {
			logs, err := filepath.Abs("../../testdata/logs")
			e.Setenv("LOGS", logs)
			return err
		},
		Cmds:          map[string]func(*testscript.TestScript, bool, []string){"exitcode": exitCode},
		UpdateScripts: os.Getenv("UPDATE_SCRIPTS") != "",
	})
}
