package panel_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"crossgrain/panel"
)

// FuzzRead: any text gives a panel or problems that can be printed and lie in the text; a panel
// reads back the same and can be put together.
func FuzzRead(f *testing.F) {
	for _, pattern := range []string{"/*.toml", "/bad/*.toml"} {
		files, _ := filepath.Glob(folder + pattern)
		for _, name := range files {
			src, err := os.ReadFile(name)
			require.NoError(f, err)
			f.Add(src)
		}
	}
	f.Add(panel.Template())
	f.Fuzz(func(t *testing.T, src []byte) {
		p, problems := panel.Read("fuzz", src)
		if len(problems) > 0 {
			require.Nil(t, p)
			require.NotEmpty(t, problems.Error())
			for _, q := range problems {
				require.LessOrEqual(t, q.Line, 2+bytes.Count(src, []byte("\n")))
			}
			return
		}
		text := write(t, p)
		again, problems := panel.Read("again", []byte(text))
		require.NoError(t, problems.Err(), text)
		require.Equal(t, text, write(t, again))
		p.Gates()
		p.NotUsed()
		o, err := p.Realise(nil)
		require.Equal(t, o == nil, err != nil)
		if o != nil {
			finite(t, o)
		}
	})
}
