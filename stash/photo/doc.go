// Package photo answers one question: what of this file may be kept as a picture?
//
// Read takes the bytes of a JPEG, PNG or WebP file and returns the picture turned
// upright. It looks at the header first: what would unpack to more pixels than a camera
// makes is refused before anything is unpacked. Keep makes of such a file what a library
// keeps: a JPEG of bounded size and a thumbnail, written anew from the pixels alone, so
// that nothing of the file's metadata (place, time, camera, names) comes along.
//
// The package must not know files, libraries or windows: bytes in, bytes out.
//
// Open photo.go first, then orientation.go.
package photo
