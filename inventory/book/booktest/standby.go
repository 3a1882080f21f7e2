package booktest

import (
	"errors"
	"fmt"
	"os"
	"testing"
)

// StandBy makes a second server that follows s and takes over when it is
// promoted. From then on s acknowledges nothing that has not reached it.
// Whoever makes it removes it.
func (s *Server) StandBy(t testing.TB) (_ *Server, err error) {
	dir, err := os.MkdirTemp("", "lungwort-pg-")
	if err != nil {
		return nil, err
	}
	by := &Server{dir: dir}
	defer func() {
		if err != nil {
			err = errors.Join(err, by.Remove())
		}
	}()
	if err := giveAway(dir); err != nil {
		return nil, err
	}
	if by.port, err = freePort(); err != nil {
		return nil, err
	}
	out, err := by.program("pg_basebackup", "-D", by.data(), "-d", s.URL("postgres"), "--write-recovery-conf", "--checkpoint=fast", "--no-sync")
	if err != nil {
		return nil, err
	}
	if said, err := out.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("pg_basebackup: %w: %s", err, said)
	}
	if err := by.Start(); err != nil {
		return nil, err
	}
	s.Run(t, "postgres", `ALTER SYSTEM SET synchronous_standby_names = '*'`, `SELECT pg_reload_conf()`)
	return by, nil
}

// Promote makes a stand-by the server that takes writing.
func (s *Server) Promote(t testing.TB) {
	t.Helper()
	s.Run(t, "postgres", `SELECT pg_promote()`)
}
