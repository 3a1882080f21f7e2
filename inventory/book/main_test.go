package book_test

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"os"
	"os/exec"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"go.uber.org/goleak"

	"lungwort/inventory/book"
	"lungwort/inventory/book/booktest"
	"lungwort/inventory/refusal"
)

// roleVariable makes the test program play another program on the same book.
const roleVariable = "BOOK_TEST_ROLE"

func TestMain(m *testing.M) {
	book.SetPatience(50 * time.Millisecond)
	if role := os.Getenv(roleVariable); role != "" {
		play(role, os.Getenv("BOOK_TEST_PATH"))
		os.Exit(0)
	}
	goleak.VerifyTestMain(booktest.Serving{M: m})
}

// play does what another program would and says how it went.
func play(role, path string) {
	o := book.Options{Sets: []book.Set{things}}
	var b *book.Book
	var err error
	switch role {
	case "open", "hold":
		b, err = book.Open(ctx, path, o)
	case "look":
		b, err = book.OpenReadOnly(ctx, path, o)
	case "create":
		b, err = book.Create(ctx, path, o)
	}
	if err != nil {
		fmt.Printf("%s: %v\n", refusal.KindOf(err), err)
		return
	}
	if role == "hold" {
		holdOn(b)
	}
	fmt.Println("fine", b.Close())
}

// holdOn writes one thing, starts on another, and never ends it.
func holdOn(b *book.Book) {
	_ = b.Write(ctx, func(tx *book.Tx) error {
		_, err := addThing(tx, "kept")
		return err
	})
	_ = b.Write(ctx, func(tx *book.Tx) error {
		_, err := addThing(tx, "lost")
		fmt.Println("holding", err)
		_, _ = io.Copy(io.Discard, os.Stdin)
		return err
	})
}

// other prepares another program that plays role on the book at path.
func other(t *testing.T, role, path string) *exec.Cmd {
	t.Helper()
	self, err := os.Executable()
	require.NoError(t, err)
	cmd := exec.CommandContext(context.Background(), self)
	cmd.Env = append(os.Environ(), roleVariable+"="+role, "BOOK_TEST_PATH="+path)
	cmd.Stderr = os.Stderr
	return cmd
}

// startHolding lets another program hold the book at path until the returned
// function kills it.
func startHolding(t *testing.T, path string) (kill func()) {
	t.Helper()
	cmd := other(t, "hold", path)
	_, err := cmd.StdinPipe()
	require.NoError(t, err)
	out, err := cmd.StdoutPipe()
	require.NoError(t, err)
	require.NoError(t, cmd.Start())
	killed := false
	kill = func() {
		if !killed {
			killed = true
			require.NoError(t, cmd.Process.Kill())
			_ = cmd.Wait() // says that it was killed
		}
	}
	t.Cleanup(kill)
	line, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err)
	require.Equal(t, "holding <nil>\n", line)
	return kill
}
