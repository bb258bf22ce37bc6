package page

// Libraries is what can be done with the library as a whole. What closes the window opens
// another one when it is done, also when it failed, and says there what went wrong.
type Libraries interface {
	// Folder is where the library lies.
	Folder() string
	// Return puts the back-up at path in the library's place.
	Return(path string)
	// Move takes the library into another folder; an error says why it cannot begin.
	Move(folder string) error
	// Open opens the library in another folder, now and when the program starts.
	Open(folder string) error
	// Looks says in a few words what Open would find in a folder, LooksNew whether Move may go there.
	Looks(folder string) (string, error)
	LooksNew(folder string) (string, error)
}
