package book

import (
	"path/filepath"

	"golang.org/x/sys/windows"
)

// networkDrive names how the folder dir reaches another machine, or returns
// nothing for a disk of this one.
func networkDrive(dir string) string {
	root, err := windows.UTF16PtrFromString(filepath.VolumeName(dir) + `\`)
	if err != nil || windows.GetDriveType(root) != windows.DRIVE_REMOTE {
		return ""
	}
	return "a share"
}
