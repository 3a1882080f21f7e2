// Package realwindow holds the test that drives the real program in a real
// window by keys and scans. It needs Xvfb and xdotool and the built program, so
// it runs only with the build tag realwindow: see "make test".
package realwindow
