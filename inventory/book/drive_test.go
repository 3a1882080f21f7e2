package book

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestAFileOnADiskOfThisMachineNeedsNoCaution(t *testing.T) {
	assert.Empty(t, networkDrive(t.TempDir()))
	assert.Empty(t, distant("/books/b.lungwort", ""))
}

func TestANetworkDriveIsNamed(t *testing.T) {
	says := distant("/books/b.lungwort", "NFS")
	assert.Contains(t, says, "/books/b.lungwort lies on a network drive (NFS)")
	assert.Contains(t, says, "PostgreSQL")
}
