// Package house holds the tests that keep the house in order: which package
// may use which, and what may stand where.
package house
