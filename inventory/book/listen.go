package book

import (
	"context"
	"errors"
	"time"

	"github.com/jackc/pgx/v5"
)

// News is what a desk hears of a book it shares with others.
type News string

// The news of a book.
const (
	Written News = "written" // another desk wrote
	Lost    News = "lost"    // nothing can be heard, read or written any more
	Back    News = "back"    // the book can be reached again: read everything anew
)

// Listen tells what is heard of the book until ctx ends, and why when it is
// Lost. It comes back by itself. Acts of this book's own are no news. A file has
// one writer, of whom nothing is heard.
func (b *Book) Listen(ctx context.Context, tell func(news News, why error)) error {
	return b.engine.listen(ctx, tell)
}

func (inFile) listen(ctx context.Context, _ func(News, error)) error {
	<-ctx.Done()
	return ctx.Err()
}

const (
	// quiet is how long nothing is heard before the server is asked whether it
	// is still there.
	quiet = 5 * time.Second
	// gathered is how long further news may come in before it is told, so that
	// a burst of acts is one piece of news.
	gathered = 100 * time.Millisecond
	// The pauses between two attempts to come back.
	firstPause, longestPause = 250 * time.Millisecond, 4 * time.Second
)

func (s *server) listen(ctx context.Context, tell func(News, error)) error {
	away, pause := false, firstPause
	for {
		err := s.hear(ctx, func() {
			if away {
				away, pause = false, firstPause
				tell(Back, nil)
			}
		}, func() { tell(Written, nil) })
		if ctx.Err() != nil {
			return ctx.Err()
		}
		if !away {
			away = true
			tell(Lost, s.explain(err))
		}
		select {
		case <-ctx.Done():
			return ctx.Err()
		case <-time.After(pause):
			pause = min(2*pause, longestPause)
		}
	}
}

// hear listens on a connection of its own until that breaks.
func (s *server) hear(ctx context.Context, ready, written func()) (err error) {
	conn, err := pgx.ConnectConfig(ctx, s.config.Copy())
	if err != nil {
		return err
	}
	defer func() {
		closing, done := context.WithTimeout(context.WithoutCancel(ctx), reach)
		defer done()
		_ = conn.Close(closing) // what broke it says more
	}()
	if _, err := conn.Exec(ctx, "LISTEN "+newsChannel); err != nil {
		return err
	}
	if err := s.current(conn.QueryRow(ctx, countSteps)); err != nil {
		return err
	}
	ready()
	for {
		news, err := s.await(ctx, conn, quiet)
		if err != nil {
			return err
		}
		if !news {
			if err := ping(ctx, conn); err != nil {
				return err
			}
			continue
		}
		for more := true; more; {
			if more, err = s.await(ctx, conn, gathered); err != nil {
				return err
			}
		}
		written()
	}
}

// await waits for news of other desks, and reports whether there was any.
func (s *server) await(ctx context.Context, conn *pgx.Conn, d time.Duration) (bool, error) {
	waiting, done := context.WithTimeout(ctx, d)
	defer done()
	for {
		n, err := conn.WaitForNotification(waiting)
		switch {
		case err == nil && n.Payload != s.desk:
			return true, nil
		case err == nil:
		case ctx.Err() == nil && errors.Is(waiting.Err(), context.DeadlineExceeded) && !conn.IsClosed():
			return false, nil
		default:
			return false, err
		}
	}
}

func ping(ctx context.Context, conn *pgx.Conn) error {
	asking, done := context.WithTimeout(ctx, reach)
	defer done()
	return conn.Ping(asking)
}
