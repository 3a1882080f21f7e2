package delivery

import (
	"cmp"
	"time"
)

// usualLock is after how many minutes without a key the window locks. Common
// practice, no source.
const usualLock = 10

// LockMinutes returns after how many minutes without a key the window locks.
func (p Programme) LockMinutes() int { return cmp.Or(p.LockAfter, usualLock) }

// LockWait is LockMinutes as a duration.
func (p Programme) LockWait() time.Duration { return time.Duration(p.LockMinutes()) * time.Minute }
