package page

import (
	"bytes"
	"fmt"
	"io"
	"path"
	"strings"

	"crossgrain/panel/intake"
)

// readAll reads at most most bytes.
func readAll(r io.Reader, most int64) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, most+1))
	if err == nil && int64(len(data)) > most {
		err = fmt.Errorf("the file is larger than %d MB", most>>20)
	}
	return data, err
}

// isList says whether a file is a list of panels rather than a logger's record: a heading of a number and a size are read in it.
func (s *Server) isList(name string, data []byte) bool {
	ending := strings.ToLower(path.Ext(name))
	if ending == ".xls" || bytes.HasPrefix(bytes.TrimSpace(data), []byte("{")) {
		return false
	}
	l, err := intake.Read(name, data, intake.Options{})
	if err != nil {
		return false
	}
	number, size := false, false
	for _, c := range l.Columns {
		switch c.Field {
		case intake.Accession:
			number = true
		case intake.Height, intake.Width, intake.Size, intake.Thickness:
			size = true
		}
	}
	return number && size
}
