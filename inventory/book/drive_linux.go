package book

import "golang.org/x/sys/unix"

// networkDrive names how the folder dir reaches another machine, or returns
// nothing for a disk of this one. The numbers are those of statfs(2).
func networkDrive(dir string) string {
	var found unix.Statfs_t
	if unix.Statfs(dir, &found) != nil {
		return "" // opening the book will say why
	}
	return driveOfType(uint32(found.Type))
}

func driveOfType(magic uint32) string {
	switch magic {
	case unix.NFS_SUPER_MAGIC:
		return "NFS"
	case unix.SMB_SUPER_MAGIC, unix.CIFS_SUPER_MAGIC, unix.SMB2_SUPER_MAGIC:
		return "SMB"
	case unix.AFS_SUPER_MAGIC, unix.AFS_FS_MAGIC:
		return "AFS"
	case unix.CODA_SUPER_MAGIC:
		return "Coda"
	case unix.CEPH_SUPER_MAGIC:
		return "Ceph"
	case unix.NCP_SUPER_MAGIC:
		return "NCP"
	}
	return ""
}
