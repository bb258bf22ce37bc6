// Package assets answers one question: which files travel inside the program?
//
// Plain embedded bytes, no toolkit types, nothing of the program imported. Signs are in
// the folder icons, the font with its licence in the folder font.
//
// Open assets.go first.
package assets
