package journal

import (
	"bytes"
	"io/fs"
	"time"
)

// memory is a file that is not on the disk.
type memory struct {
	*bytes.Reader
	name string
}

func newMemory(name string, content []byte) *memory {
	return &memory{Reader: bytes.NewReader(content), name: name}
}

func (m *memory) Close() error               { return nil }
func (m *memory) Stat() (fs.FileInfo, error) { return m, nil }
func (m *memory) Name() string               { return m.name }
func (m *memory) Mode() fs.FileMode          { return 0o444 }
func (m *memory) ModTime() time.Time         { return time.Time{} }
func (m *memory) IsDir() bool                { return false }
func (m *memory) Sys() any                   { return nil }
