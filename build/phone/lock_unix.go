//go:build unix

package main

import (
	"os"
	"path/filepath"
	"syscall"
)

// lock waits until no other build of the phone app runs in this tree, and keeps
// others out until this program ends: two at once would mix their files.
func lock() error {
	if err := os.MkdirAll(scratch, 0o755); err != nil {
		return err
	}
	f, err := os.Create(filepath.Join(scratch, "phone.lock"))
	if err != nil {
		return err
	}
	held = f
	return syscall.Flock(int(f.Fd()), syscall.LOCK_EX)
}

// held keeps the file open, and with it the lock, until the program ends.
var held *os.File
