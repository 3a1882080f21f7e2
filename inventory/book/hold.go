package book

import (
	"errors"
	"fmt"
	"io"
	"os"
	"os/user"
	"strings"
	"time"

	"github.com/gofrs/flock"
)

// hold is the claim of one program on one book: a locked file beside it that
// says who has it and since when. The system drops the lock when the program
// ends, however it ends.
type hold struct {
	lock *flock.Flock
}

// noteStart leaves the first byte alone: on Windows it is the locked range and
// no other program could read it.
const noteStart = 1

// noteLimit bounds what is believed of a note, in bytes.
const noteLimit = 200

// take claims the book at path, or refuses with who has it.
func take(path string, now time.Time) (*hold, error) {
	lock := flock.New(path+".lock", flock.SetPermissions(0o600))
	for {
		locked, err := lock.TryLock()
		if err != nil {
			return nil, explainFile(path, err)
		}
		if !locked {
			return nil, busy(path, readNote(lock.Path()))
		}
		if stillThere(lock) {
			break
		}
		// Its last owner removed the file between our opening and locking it.
		if err := lock.Unlock(); err != nil {
			return nil, explainFile(path, err)
		}
	}
	h := &hold{lock: lock}
	if err := writeNote(lock.Path(), now); err != nil {
		return nil, errors.Join(explainFile(path, err), h.release())
	}
	return h, nil
}

func stillThere(lock *flock.Flock) bool {
	held, err := lock.Stat()
	if err != nil {
		return false
	}
	named, err := os.Stat(lock.Path())
	return err == nil && os.SameFile(held, named)
}

// release gives the book up. The file goes while it is still locked, so that
// nobody can claim it in between; Windows keeps it, which does no harm.
func (h *hold) release() error {
	_ = os.Remove(h.lock.Path())
	return h.lock.Close()
}

func writeNote(path string, now time.Time) error {
	f, err := os.OpenFile(path, os.O_WRONLY, 0)
	if err != nil {
		return err
	}
	note := fmt.Sprintf("%s, process %d, since %s", whoami(), os.Getpid(), now.Format("Monday 2 January 2006 15:04 -07:00"))
	_, err = f.WriteAt([]byte(note+"\n"), noteStart)
	return errors.Join(err, f.Close())
}

// readNote returns who has the book, in words that follow "in use by".
func readNote(path string) string {
	const unknown = "another program"
	f, err := os.Open(path)
	if err != nil {
		return unknown
	}
	defer f.Close()
	note, err := io.ReadAll(io.NewSectionReader(f, noteStart, noteLimit))
	line, _, ended := strings.Cut(string(note), "\n")
	if err != nil || !ended {
		return unknown
	}
	return strings.ToValidUTF8(line, "?")
}

// whoami names the user and machine, as far as the system tells.
func whoami() string {
	name, machine := "somebody", "an unnamed machine"
	if u, err := user.Current(); err == nil {
		name = u.Username
	}
	if h, err := os.Hostname(); err == nil {
		machine = h
	}
	return name + " on " + machine
}
