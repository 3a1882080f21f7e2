package book

import (
	"database/sql"
	"time"
)

// Stamp is an instant as the book keeps it, in two INTEGER columns. Scan into
// and bind its two fields.
type Stamp struct {
	Millis int64 // milliseconds since 1970-01-01T00:00:00Z
	Offset int64 // minutes east of UTC on the clock of whoever wrote it down
}

// StampOf returns t to the millisecond.
func StampOf(t time.Time) Stamp {
	_, seconds := t.Zone()
	return Stamp{Millis: Instant(t), Offset: int64(seconds / 60)}
}

// Time returns the instant on the clock it was written down with.
func (s Stamp) Time() time.Time {
	if s.Offset == 0 {
		return FromInstant(s.Millis)
	}
	return FromInstant(s.Millis).In(time.FixedZone("", int(s.Offset)*60))
}

// MaybeStamp is a Stamp whose two columns may be NULL.
type MaybeStamp struct {
	Millis sql.Null[int64]
	Offset sql.Null[int64]
}

// MaybeStampOf returns t to the millisecond, and NULLs for the zero time.
func MaybeStampOf(t time.Time) MaybeStamp {
	if t.IsZero() {
		return MaybeStamp{}
	}
	s := StampOf(t)
	return MaybeStamp{
		Millis: sql.Null[int64]{V: s.Millis, Valid: true},
		Offset: sql.Null[int64]{V: s.Offset, Valid: true},
	}
}

// Time returns the instant, or the zero time for NULL.
func (m MaybeStamp) Time() time.Time {
	if !m.Millis.Valid {
		return time.Time{}
	}
	return Stamp{Millis: m.Millis.V, Offset: m.Offset.V}.Time()
}

// Instant returns t in milliseconds since 1970-01-01T00:00:00Z, rounded down.
func Instant(t time.Time) int64 { return t.UnixMilli() }

// FromInstant returns the instant of ms milliseconds since
// 1970-01-01T00:00:00Z, in UTC.
func FromInstant(ms int64) time.Time { return time.UnixMilli(ms).UTC() }

// stored returns t as it would be read back.
func stored(t time.Time) time.Time { return FromInstant(Instant(t)) }
