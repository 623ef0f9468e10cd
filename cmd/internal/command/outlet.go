package command

import "io"

// outlet keeps the error of writing what cobra itself prints, which may not
// tell it.
type outlet struct {
	to     io.Writer
	failed error
}

func (o *outlet) Write(text []byte) (int, error) {
	n, err := o.to.Write(text)
	if err != nil {
		o.failed = err
	}
	return n, err
}
