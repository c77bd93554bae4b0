package cli

import (
	"crypto/sha256"
	"encoding/hex"
	"io"
	"os"
	"runtime/debug"
	"strings"
)

// Version returns the version that the program was built from, or "devel" where the build does
// not say.
func Version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "devel"
	}
	return versionOf(info)
}

func versionOf(info *debug.BuildInfo) string {
	if v := info.Main.Version; v != "" && v != "(devel)" {
		return v
	}
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" && len(s.Value) >= 12 {
			return "devel-" + s.Value[:12]
		}
	}
	return "devel"
}

// build tells one build of the program from another, for what is kept between runs: the version, and of a build without a release of
// its own the sum of the program itself.
func build() string {
	v := Version()
	if !strings.HasPrefix(v, "devel") {
		return v
	}
	exe, err := os.Executable()
	if err != nil {
		return v
	}
	f, err := os.Open(exe)
	if err != nil {
		return v
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return v
	}
	return v + " " + hex.EncodeToString(h.Sum(nil))
}
