package book

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The numbers are those of statfs(2), Linux man-pages.
func TestKindsOfDrives(t *testing.T) {
	for magic, want := range map[uint32]string{
		0x6969: "NFS", 0x517b: "SMB", 0xff534d42: "SMB", 0xfe534d42: "SMB", 0x5346414f: "AFS", 0x00c36400: "Ceph", 0x564c: "NCP",
		0xef53: "" /* ext4 */, 0x9123683e: "" /* btrfs */, 0x01021994: "" /* tmpfs */, 0x58465342: "" /* XFS */, 0x794c7630: "" /* overlay */, 0x65735546: "", /* FUSE: local as often */
	} {
		assert.Equal(t, want, driveOfType(magic), "%#x", magic)
	}
}
