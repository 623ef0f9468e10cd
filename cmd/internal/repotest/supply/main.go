// Command supply shows what the program is made of: the licences of its
// modules, what is known to be wrong with them, and that its binary is the same
// wherever it is built. It serves the repository and is no part of the program;
// the script supply beside the other checks gives it its input.
package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
)

func main() {
	if err := run(context.Background(), os.Args[1:], os.Stdin, os.Stdout, os.Stderr); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// run does what the first argument names. What it makes goes to out, what is to
// be said of it to say.
func run(ctx context.Context, args []string, in io.Reader, out, say io.Writer) error {
	if len(args) == 0 {
		return errors.New("name what to do: licences, list, notices, vulnerabilities, binaries or bill")
	}
	rest := args[1:]
	switch args[0] {
	case "licences":
		return checkLicences(ctx, out)
	case "list":
		return listLicences(ctx, out)
	case "notices":
		return notices(ctx, out)
	case "vulnerabilities":
		return vulnerabilities(in, out)
	case "binaries":
		return binaries(rest, out)
	case "bill":
		return bill(ctx, rest, out, say)
	}
	return fmt.Errorf("%q is nothing that can be done: licences, list, notices, vulnerabilities, binaries or bill", args[0])
}
