// Package settingsui is the place Settings: the few choices of the person, each with a line
// that says what it does and effective at once, and the care of the library itself: back-ups,
// going back to one after seeing what would change, moving it, opening another. What is done
// with files is asked of page.Libraries. Open settings.go first.
package settingsui
