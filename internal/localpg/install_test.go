package localpg

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// fakeDebian is a machine whose only program is an apt-get of ours, which
// notes its arguments and what the packaging was told.
type fakeDebian struct {
	root   string
	places searchPlaces
	told   []string
}

func newFakeDebian(t *testing.T, aptGet string) *fakeDebian {
	root := t.TempDir()
	write(t, filepath.Join(root, "bin/apt-get"), "#!/bin/sh\ncd "+root+"\n"+aptGet, 0o755)
	t.Setenv("PATH", filepath.Join(root, "bin")+":/bin:/usr/bin")
	return &fakeDebian{root: root, places: searchPlaces{
		path:      filepath.Join(root, "none"),
		patterns:  []string{filepath.Join(root, "pg/*/bin")},
		packaging: filepath.Join(root, "createcluster.d"),
	}}
}

func (d *fakeDebian) obtain(t *testing.T, root bool) error {
	return d.places.installPostgres(t.Context(), root, func(line string) { d.told = append(d.told, line) })
}

func (d *fakeDebian) read(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(d.root, name))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

const goodAptGet = `echo "$DEBIAN_FRONTEND $*" >>calls
cat createcluster.d/* >told
if [ "$1" = install ]; then
  mkdir -p pg/17/bin
  for p in initdb postgres; do echo '#!/bin/sh' >pg/17/bin/$p; chmod +x pg/17/bin/$p; done
fi
`

func TestObtain_InstallsOnDebianAsRootAndSaysSo(t *testing.T) {
	debian := newFakeDebian(t, goodAptGet)
	if err := debian.obtain(t, true); err != nil {
		t.Fatal(err)
	}
	want := "noninteractive update\nnoninteractive install -y --no-install-recommends postgresql\n"
	if got := debian.read(t, "calls"); got != want {
		t.Errorf("apt-get was called with\n%swant\n%s", got, want)
	}
	if got := debian.read(t, "told"); !strings.Contains(got, "create_main_cluster = false") {
		t.Errorf("during the install the packaging was told %q: it would start a server", got)
	}
	if left, _ := os.ReadDir(debian.places.packaging); len(left) != 0 {
		t.Errorf("the packaging is still told after the install: %v", left)
	}
	if len(debian.told) != 3 {
		t.Errorf("the caller was told %q, want the intent and two commands", debian.told)
	}

	if err := debian.obtain(t, true); err != nil || debian.read(t, "calls") != want {
		t.Errorf("with PostgreSQL there, it was installed again (%v)", err)
	}
}

func TestObtain_ChangesNothingWithoutRoot(t *testing.T) {
	debian := newFakeDebian(t, goodAptGet)
	if err := debian.obtain(t, false); !errors.Is(err, ErrNoPostgres) {
		t.Errorf("the error is %v, want ErrNoPostgres", err)
	}
	if _, err := os.Stat(filepath.Join(debian.root, "calls")); !os.IsNotExist(err) {
		t.Error("apt-get was called without root")
	}
}

func TestObtain_PassesOnWhatAptGetSays(t *testing.T) {
	debian := newFakeDebian(t, "echo 'E: no network' >&2\nexit 100\n")
	err := debian.obtain(t, true)
	if err == nil || !strings.Contains(err.Error(), "E: no network") || !strings.Contains(err.Error(), "DATABASE_URL") {
		t.Errorf("the error is %v, want apt-get's reason and what else to do", err)
	}
	if left, _ := os.ReadDir(debian.places.packaging); len(left) != 0 {
		t.Errorf("the packaging is still told after a failed install: %v", left)
	}
}
