package document

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
)

// ReadFile reads a file of at most so many bytes. A pipe, a device or a folder
// is refused before it is opened, since opening one may wait for ever and
// reading one may never end.
func ReadFile(fsys fs.FS, name string, most int64) (src []byte, err error) {
	info, err := fs.Stat(fsys, name)
	if err != nil {
		return nil, err
	}
	if err := fit(info, most); err != nil {
		return nil, err
	}
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	src = make([]byte, 0, info.Size()+1)
	return readAtMost(f, src, most)
}

// Reason gives what went wrong with a file without its name or names, which
// stand elsewhere in the message.
func Reason(err error) error {
	if p, ok := errors.AsType[*fs.PathError](err); ok {
		return p.Err
	}
	if l, ok := errors.AsType[*os.LinkError](err); ok {
		return l.Err
	}
	return err
}

// fit says why a file is not to be opened.
func fit(info fs.FileInfo, most int64) error {
	switch {
	case info.IsDir():
		return errors.New("it is a folder, not a file")
	case !info.Mode().IsRegular():
		return errors.New("it is a pipe or a device, not a file")
	case info.Size() > most:
		return tooLarge(most)
	}
	return nil
}

func tooLarge(most int64) error {
	if most < 1<<20 {
		return fmt.Errorf("it is larger than %d KiB", most>>10)
	}
	return fmt.Errorf("it is larger than %d MiB", most>>20)
}

// readAtMost reads on into src, for a file may have grown since it was looked
// at.
func readAtMost(f io.Reader, src []byte, most int64) ([]byte, error) {
	for {
		n, err := f.Read(src[len(src):cap(src)])
		src = src[:len(src)+n]
		switch {
		case int64(len(src)) > most:
			return nil, tooLarge(most)
		case errors.Is(err, io.EOF):
			return src, nil
		case err != nil:
			return nil, err
		}
		if len(src) == cap(src) {
			src = append(src, 0)[:len(src)]
		}
	}
}
