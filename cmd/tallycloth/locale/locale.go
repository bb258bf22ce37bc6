package locale

import "os"

func init() {
	if os.Getenv("LANGUAGE") == "" && nameless(os.Getenv) {
		os.Setenv("LANGUAGE", "en")
	}
}

// nameless says whether the locale has an encoding but no language: "C.UTF-8". The first
// variable that is set counts (GNU gettext manual, "Locale Environment Variables").
func nameless(env func(string) string) bool {
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		if v := env(name); v != "" {
			return len(v) > 1 && v[:2] == "C."
		}
	}
	return false
}
