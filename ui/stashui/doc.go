// Package stashui answers one question: what is on the shelf? The place lists
// lengths and leftovers, shows the one chosen to scale with its history, and takes
// in purchases, leftovers and stretch tests. It must not know SQL or other places;
// it leads to them by routes. Open stash.go first, then detail.go and forms.go.
package stashui
