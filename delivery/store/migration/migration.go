// Package migration holds the tables of persons and promises as numbered SQL
// files. A file that has been released is never edited; a change is a new
// file.
package migration

import "embed"

// Files are the migrations in the order of their names.
//
//go:embed *.sql
var Files embed.FS
