package main

import (
	"bytes"
	"crypto/sha256"
	"debug/elf"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"
)

// binaries compares two builds of the program, named first; the other arguments
// are paths of the machine that built them.
func binaries(args []string, out io.Writer) error {
	if len(args) < 2 {
		return errors.New("name two builds of the program, then the paths that must not be in them")
	}
	one, err := os.ReadFile(args[0])
	if err != nil {
		return err
	}
	two, err := os.ReadFile(args[1])
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "sha256 %x\nsha256 %x\n", sha256.Sum256(one), sha256.Sum256(two))
	if !bytes.Equal(one, two) {
		return fmt.Errorf("two builds of the same files differ, from byte %d on", differ(one, two))
	}
	if err := errors.Join(static(one), traceless(one, args[2:])); err != nil {
		return err
	}
	fmt.Fprintf(out, "two builds are the same %d bytes, static, without a path of the machine\n", len(one))
	return nil
}

// differ is the first place where two texts differ.
func differ(a, b []byte) int {
	for i := range min(len(a), len(b)) {
		if a[i] != b[i] {
			return i
		}
	}
	return min(len(a), len(b))
}

// static fails a program that needs a loader or libraries of the system.
func static(program []byte) error {
	f, err := elf.NewFile(bytes.NewReader(program))
	if err != nil {
		return fmt.Errorf("the program is no ELF file: %w", err)
	}
	for _, p := range f.Progs {
		if p.Type == elf.PT_INTERP {
			return errors.New("the program is not static: it names a loader (PT_INTERP)")
		}
	}
	needed, err := f.ImportedLibraries()
	if err != nil {
		return err
	}
	if len(needed) > 0 {
		return fmt.Errorf("the program is not static: it needs %s (DT_NEEDED)", strings.Join(needed, ", "))
	}
	return nil
}

// traceless fails a program with one of the paths in it.
func traceless(program []byte, paths []string) error {
	var all []error
	for _, path := range paths {
		if path == "" {
			all = append(all, errors.New("a path that must not be in the program is empty"))
			continue
		}
		if i := bytes.Index(program, []byte(path)); i >= 0 {
			all = append(all, fmt.Errorf("the program tells where it was built: %s stands at byte %d", path, i))
		}
	}
	return errors.Join(all...)
}
