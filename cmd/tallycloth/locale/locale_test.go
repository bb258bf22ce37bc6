package locale

import "testing"

func TestNameless(t *testing.T) {
	for _, c := range []struct {
		env  map[string]string
		want bool
	}{
		{map[string]string{}, false},
		{map[string]string{"LANG": "C"}, false},
		{map[string]string{"LANG": "C.UTF-8"}, true},
		{map[string]string{"LANG": "en_GB.UTF-8"}, false},
		{map[string]string{"LC_ALL": "de_AT.UTF-8", "LANG": "C.UTF-8"}, false},
		{map[string]string{"LC_MESSAGES": "C.UTF-8", "LANG": "de_AT.UTF-8"}, true},
	} {
		if got := nameless(func(name string) string { return c.env[name] }); got != c.want {
			t.Errorf("%v: %v", c.env, got)
		}
	}
}
