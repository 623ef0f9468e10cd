package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// The two uses of a module.
const (
	inProgram = "program"
	inTests   = "tests"
)

// program is the package that is shipped.
const program = "hotroom/cmd/hotroom"

// systems are those that a binary is likely made for.
func systems() []string { return []string{"darwin", "linux", "windows"} }

// A module is one that something here is compiled from.
type module struct {
	Path, Version, Dir string

	Main  bool
	use   string
	files []string // licences and notices, of the module and of the folders used
}

func (m module) String() string { return strings.TrimSpace(m.Path + " " + m.Version) }

// listed is what go list prints of a package.
type listed struct {
	Dir      string
	Standard bool
	Module   *module
}

// modules lists all modules but our own, by use and name; Go's own library is
// the module std, without a version since each toolchain has its own.
func modules(ctx context.Context) ([]module, error) {
	all := map[string]*module{}
	for _, system := range systems() {
		if err := gather(ctx, all, inProgram, system, program); err != nil {
			return nil, err
		}
	}
	if err := gather(ctx, all, inTests, "linux", "-test", "hotroom/..."); err != nil {
		return nil, err
	}
	var list []module
	for _, path := range slices.Sorted(maps.Keys(all)) {
		list = append(list, *all[path])
	}
	slices.SortStableFunc(list, func(a, b module) int { return strings.Compare(a.use, b.use) })
	return list, nil
}

// gather adds the modules of the named packages and of all that they import.
// What is there already keeps its use.
func gather(ctx context.Context, all map[string]*module, use, system string, packages ...string) error {
	out, err := goTool(ctx, system, append([]string{"list", "-deps", "-json=Dir,Standard,Module"}, packages...)...)
	if err != nil {
		return err
	}
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		var p listed
		if err := d.Decode(&p); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return fmt.Errorf("go list's output cannot be read: %w", err)
		}
		if err := add(ctx, all, use, p); err != nil {
			return err
		}
	}
}

func add(ctx context.Context, all map[string]*module, use string, p listed) error {
	switch {
	case p.Standard && all["std"] == nil:
		root, err := goTool(ctx, "", "env", "GOROOT")
		if err != nil {
			return err
		}
		dir := strings.TrimSpace(string(root))
		p.Module, p.Dir = &module{Path: "std", Dir: dir}, dir
	case p.Module == nil || p.Module.Main:
		return nil
	}
	m, ok := all[p.Module.Path]
	if !ok {
		m = p.Module
		m.use = use
		all[m.Path] = m
	}
	return m.collect(p.Dir)
}

// collect adds the licence files of a package's folder and of those above it.
func (m *module) collect(folder string) error {
	for ; strings.HasPrefix(folder, m.Dir); folder = filepath.Dir(folder) {
		entries, err := os.ReadDir(folder)
		if err != nil {
			return err
		}
		for _, e := range entries {
			file := filepath.Join(folder, e.Name())
			if (licenceFile.MatchString(e.Name()) || noticeFile.MatchString(e.Name())) && !slices.Contains(m.files, file) {
				m.files = append(m.files, file)
			}
		}
	}
	slices.Sort(m.files)
	return nil
}

// top is the folder of the repository.
func top(ctx context.Context) (string, error) {
	out, err := goTool(ctx, "", "list", "-m", "-f", "{{.Dir}}")
	return strings.TrimSpace(string(out)), err
}

// goTool runs the go command, for a system where one is named.
func goTool(ctx context.Context, system string, args ...string) ([]byte, error) {
	c := exec.CommandContext(ctx, "go", args...)
	c.Env = append(os.Environ(), "CGO_ENABLED=0")
	if system != "" {
		c.Env = append(c.Env, "GOOS="+system, "GOARCH=amd64")
	}
	var said bytes.Buffer
	c.Stderr = &said
	out, err := c.Output()
	if err != nil {
		return nil, fmt.Errorf("go %s: %w\n%s", strings.Join(args, " "), err, said.String())
	}
	return out, nil
}
