// Package e2ehook answers one question: where on the screen is a widget, and what
// does it show? Programs built with the tag e2e answer it on a unix socket, for tests
// that press real keys and buttons; all others have no socket. It must not change
// anything. Open hook.go first.
package e2ehook
