//go:build !linux && !darwin && !windows

package book

// networkDrive is not known on this system.
func networkDrive(string) string { return "" }
