package paper_test

import (
	"bytes"
	"context"
	"io"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"

	"tallycloth/planner/exchange/sheet"
	"tallycloth/ui/paper"
	"tallycloth/ui/say"
)

// writers are one of each kind of file that goes out, by their endings.
func writers(t *testing.T) map[string]func(io.Writer) error {
	t.Helper()
	s, g := studio(t)
	made, err := s.CuttingSheet(context.Background(), g.ID)
	if err != nil {
		t.Fatal(err)
	}
	cutting, err := paper.Sheet(say.Voice{}, made, sheet.A4)
	if err != nil {
		t.Fatal(err)
	}
	shelf, err := s.Cloths(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	labels, err := paper.Labels(say.Voice{}, shelf, sheet.LabelsA4, 0)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]func(io.Writer) error{"sheet.pdf": cutting.PDF, "labels.pdf": labels.PDF}
	for name, w := range map[string]paper.Way{"tiles.pdf": paper.Tiled, "page.pdf": paper.OnePDF, "page.svg": paper.OneSVG, "plot.dxf": paper.OneDXF} {
		d, err := paper.Document(paper.LayoutPage(say.Voice{}, made, made.Cloths[0]), w, sheet.Full{Paper: sheet.A4})
		if err != nil {
			t.Fatal(err)
		}
		out[name] = w.Write(d)
	}
	return out
}

// files are the names and contents of all in a folder.
func files(t *testing.T, folder string) map[string]string {
	t.Helper()
	all, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, f := range all {
		b, err := os.ReadFile(filepath.Join(folder, f.Name()))
		if err != nil {
			t.Fatal(err)
		}
		out[f.Name()] = string(b)
	}
	return out
}

// smallDisk is a folder on a disk of its own with 3 kB left, or ok is false where this process may not
// mount one.
func smallDisk(t *testing.T) (folder string, ok bool) {
	t.Helper()
	folder = t.TempDir()
	if err := syscall.Mount("tmpfs", folder, "tmpfs", 0, "size=256k"); err != nil {
		t.Logf("no disk can be mounted here (%v): a limit on files stands for it", err)
		return "", false
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(folder, syscall.MNT_DETACH); err != nil {
			t.Error(err)
		}
	})
	if err := os.WriteFile(filepath.Join(folder, "filler"), make([]byte, 252<<10), 0o600); err != nil {
		t.Fatal(err)
	}
	return folder, true
}

// limited names the variable that makes the test of the limit run in this process.
const limited = "TALLYCLOTH_FILE_LIMIT"

// A disk that is really full, a file system of 256 kB in memory, or a limit of 3 kB on the size of files: each kind
// of file is refused with a sentence, none is left half written, and those that were there stay as they were.
func TestFullDisk(t *testing.T) {
	all := writers(t)
	refused := func(t *testing.T, folder, want string) {
		t.Helper()
		if err := os.WriteFile(filepath.Join(folder, "old.pdf"), []byte("%PDF, of last week"), 0o600); err != nil {
			t.Fatal(err)
		}
		before := files(t, folder)
		for name, write := range all {
			told := say.Error(paper.Save(filepath.Join(folder, name), filepath.Ext(name), write))
			if !strings.Contains(told, want) || !strings.Contains(told, name) {
				t.Errorf("%s: %s", name, told)
			}
		}
		after := files(t, folder)
		if len(after) != len(before) || after["old.pdf"] != before["old.pdf"] {
			t.Errorf("%d files are there, %d before", len(after), len(before))
		}
	}
	t.Run("limit", func(t *testing.T) {
		if os.Getenv(limited) == "" { // a process of its own: the limit holds for whatever writes in it
			cmd := exec.Command(os.Args[0], "-test.run=^TestFullDisk$/^limit$")
			cmd.Env = append(os.Environ(), limited+"=1")
			if out, err := cmd.CombinedOutput(); err != nil {
				t.Errorf("%v: %s", err, out)
			}
			return
		}
		folder := t.TempDir()
		signal.Ignore(syscall.SIGXFSZ)
		if err := syscall.Setrlimit(syscall.RLIMIT_FSIZE, &syscall.Rlimit{Cur: 3 << 10, Max: 3 << 10}); err != nil {
			t.Fatal(err)
		}
		refused(t, folder, "too large to be kept")
	})
	if os.Getenv(limited) != "" {
		return
	}
	if folder, ok := smallDisk(t); ok {
		refused(t, folder, "There is no room left on the disk")
		if err := os.Remove(filepath.Join(folder, "filler")); err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := all["labels.pdf"](&b); err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(folder, "labels.pdf")
		if err := paper.Save(path, ".pdf", all["labels.pdf"]); err != nil {
			t.Errorf("there is room again: %v", err)
		}
		if info, err := os.Stat(path); err != nil || info.Size() < int64(b.Len())/2 {
			t.Errorf("%v, %v", info, err)
		}
	}
}

// A folder that is gone and one without the right to write, tried as a user without rights, also where the test
// runs as root: a sentence each, and nothing is left behind.
func TestFoldersThatRefuse(t *testing.T) {
	all := writers(t)
	folder := t.TempDir()
	for path, rights := range map[string]os.FileMode{filepath.Dir(folder): 0o755, folder: 0o555} {
		if err := os.Chmod(path, rights); err != nil {
			t.Fatal(err)
		}
	}
	runtime.LockOSThread() // the rights of files are those of a thread; it ends with the test
	if os.Geteuid() == 0 {
		const nobody = 65534
		if err := syscall.Setfsuid(nobody); err != nil {
			t.Fatal(err)
		}
		defer func() {
			if err := syscall.Setfsuid(0); err != nil {
				t.Error(err)
			}
		}()
	}
	for name, write := range all {
		told := say.Error(paper.Save(filepath.Join(folder, name), filepath.Ext(name), write))
		if !strings.Contains(told, "You may not write into "+folder) {
			t.Errorf("%s: %s", name, told)
		}
		told = say.Error(paper.Save(filepath.Join(folder, "gone", name), filepath.Ext(name), write))
		if !strings.Contains(told, "There is no folder "+filepath.Join(folder, "gone")) {
			t.Errorf("%s: %s", name, told)
		}
	}
	if left := files(t, folder); len(left) != 0 {
		t.Errorf("%d files are left behind", len(left))
	}
}
