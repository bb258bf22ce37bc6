package page

import (
	"os"
	"path/filepath"
)

// Documents is where a person looks for her files: Documents in her home, or her home.
func Documents() string {
	dir, err := os.UserHomeDir()
	if err != nil {
		return "."
	}
	docs := filepath.Join(dir, "Documents")
	if info, err := os.Stat(docs); err == nil && info.IsDir() {
		return docs
	}
	return dir
}
