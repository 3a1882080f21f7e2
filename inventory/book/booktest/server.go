package booktest

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/jackc/pgx/v5"

	"lungwort/inventory/book"
)

// Server is a PostgreSQL server of a test's own, on a socket in a temporary
// folder and on a free port of the loopback. It runs as a user without rights,
// for it refuses to run as an administrator, and trusts everybody.
type Server struct {
	dir  string
	port int
	run  *process // nil: stopped
	made atomic.Int32
}

// programs is where Debian's package puts the server.
const programs = "/usr/lib/postgresql/*/bin"

// keeper is the role the server is made with.
const keeper = "keeper"

// NewServer makes a server and starts it. Whoever makes it removes it.
func NewServer() (_ *Server, err error) {
	dir, err := os.MkdirTemp("", "lungwort-pg-")
	if err != nil {
		return nil, err
	}
	s := &Server{dir: dir}
	defer func() {
		if err != nil {
			err = errors.Join(err, s.Remove())
		}
	}()
	if err := giveAway(dir); err != nil {
		return nil, err
	}
	if s.port, err = freePort(); err != nil {
		return nil, err
	}
	out, err := s.program("initdb", "-D", s.data(), "-U", keeper, "-A", "trust", "--locale=C", "-E", "UTF8", "--no-sync", "--no-instructions")
	if err != nil {
		return nil, err
	}
	if said, err := out.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("initdb: %w: %s", err, said)
	}
	return s, s.Start()
}

func (s *Server) data() string { return filepath.Join(s.dir, "data") }

// program prepares one of the server's programs, as the user without rights.
func (s *Server) program(name string, args ...string) (*exec.Cmd, error) {
	found, err := filepath.Glob(filepath.Join(programs, name))
	if err != nil || len(found) == 0 {
		return nil, fmt.Errorf("there is no %s in %s: install Debian's package postgresql, as \"make test\" does", name, programs)
	}
	cmd := exec.Command(found[len(found)-1], args...)
	cmd.Dir = s.dir
	cmd.Env = []string{"LC_ALL=C", "PATH=/usr/bin:/bin"}
	asNobody(cmd)
	return cmd, nil
}

// Start starts the server, again where it was stopped, and waits until it
// answers. Nothing has to last, so it never waits for the disk.
func (s *Server) Start(settings ...string) error {
	args := []string{"-D", s.data(), "-k", s.dir, "-h", "127.0.0.1", "-p", strconv.Itoa(s.port)}
	for _, setting := range append([]string{
		"fsync=off", "full_page_writes=off", "max_connections=200", "shared_buffers=64MB",
		"deadlock_timeout=50ms", "log_min_messages=fatal",
	}, settings...) {
		args = append(args, "-c", setting)
	}
	cmd, err := s.program("postgres", args...)
	if err != nil {
		return err
	}
	log, err := os.Create(filepath.Join(s.dir, "log"))
	if err != nil {
		return err
	}
	defer log.Close()
	cmd.Stdout, cmd.Stderr = log, log
	if s.run, err = start(cmd); err != nil {
		return err
	}
	return s.await()
}

// await asks until the server answers.
func (s *Server) await() error {
	const patience = 20 * time.Second
	ctx, cancel := context.WithTimeout(context.Background(), patience)
	defer cancel()
	for {
		conn, err := pgx.Connect(ctx, s.URL("postgres"))
		if err == nil {
			return conn.Close(ctx)
		}
		select {
		case <-s.run.ended:
			log, _ := os.ReadFile(filepath.Join(s.dir, "log"))
			return fmt.Errorf("the server ended: %s", log)
		case <-ctx.Done():
			return fmt.Errorf("the server does not answer: %w", err)
		case <-time.After(5 * time.Millisecond):
		}
	}
}

// Stop stops the server at once, as a power cut would: it drops every
// connection and puts itself right at its next start.
func (s *Server) Stop() error {
	if s.run == nil {
		return nil
	}
	err := s.run.end()
	s.run = nil
	return err
}

// Remove stops the server and takes all it kept away.
func (s *Server) Remove() error {
	return errors.Join(s.Stop(), os.RemoveAll(s.dir))
}

// URL is the address of a database on the server's socket.
func (s *Server) URL(database string) string {
	return fmt.Sprintf("postgres://%s@/%s?host=%s&port=%d", keeper, database, url.QueryEscape(s.dir), s.port)
}

// Port is the server's port on the loopback.
func (s *Server) Port() int { return s.port }

// Dir is the server's folder.
func (s *Server) Dir() string { return s.dir }

// Log is what the server has written down since it was started.
func (s *Server) Log(t testing.TB) string {
	t.Helper()
	log, err := os.ReadFile(filepath.Join(s.dir, "log"))
	if err != nil {
		t.Fatal(err)
	}
	return string(log)
}

// Empty makes a database with nothing in it and returns its name.
func (s *Server) Empty(t testing.TB) string {
	t.Helper()
	name := fmt.Sprintf("book%d", s.made.Add(1))
	s.Run(t, "postgres", "CREATE DATABASE "+name+" TEMPLATE template0")
	return name
}

// Run runs statements in a database as the server's keeper.
func (s *Server) Run(t testing.TB, database string, statements ...string) {
	t.Helper()
	ctx := context.Background()
	conn, err := pgx.Connect(ctx, s.URL(database))
	if err != nil {
		t.Fatalf("server of the test: %v", err)
	}
	defer conn.Close(ctx)
	for _, statement := range statements {
		if _, err := conn.Exec(ctx, statement); err != nil {
			t.Fatalf("%s: %v", statement, err)
		}
	}
}

// freePort returns a port nobody listens on.
func freePort() (int, error) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		return 0, err
	}
	return l.Addr().(*net.TCPAddr).Port, l.Close()
}

// shared is the server of all tests of one test program.
var shared struct {
	sync.Mutex
	server *Server
}

// Shared returns the server of the test program, started when it is first
// asked for. The program's TestMain runs its tests as Serving.
func Shared(t testing.TB) *Server {
	t.Helper()
	shared.Lock()
	defer shared.Unlock()
	if shared.server == nil {
		s, err := NewServer()
		if err != nil {
			t.Fatalf("server for the tests: %v", err)
		}
		shared.server = s
	}
	return shared.server
}

// Serving runs the tests of a program and then takes their server away.
type Serving struct{ *testing.M }

// Run runs the tests.
func (s Serving) Run() int {
	code := s.M.Run()
	shared.Lock()
	defer shared.Unlock()
	if shared.server == nil {
		return code
	}
	if err := shared.server.Remove(); err != nil {
		fmt.Fprintln(os.Stderr, "server of the tests:", err)
		return max(code, 1)
	}
	shared.server = nil
	return code
}

// OnServer returns a fresh book with the given migrations in a database of its
// own, closed when the test ends. Its clock shows Start and stands still.
func OnServer(t testing.TB, sets ...book.Set) *book.Book {
	t.Helper()
	return OnServerAt(t, NewClock(), sets...)
}

// OnServerAt is OnServer with a clock the test keeps hold of.
func OnServerAt(t testing.TB, clock *Clock, sets ...book.Set) *book.Book {
	t.Helper()
	s := Shared(t)
	return create(t, s.URL(s.Empty(t)), clock, sets)
}
