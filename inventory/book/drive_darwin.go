package book

import (
	"slices"

	"golang.org/x/sys/unix"
)

// networkDrive names how the folder dir reaches another machine, or returns
// nothing for a disk of this one.
func networkDrive(dir string) string {
	var found unix.Statfs_t
	if unix.Statfs(dir, &found) != nil {
		return "" // opening the book will say why
	}
	name := unix.ByteSliceToString(found.Fstypename[:])
	if slices.Contains([]string{"nfs", "smbfs", "afpfs", "webdav", "ftp"}, name) {
		return name
	}
	return ""
}
