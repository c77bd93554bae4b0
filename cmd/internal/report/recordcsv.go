package report

import (
	"bufio"
	"io"
	"strconv"
)

// WriteCSV writes the cleaned series: time, humidity, temperature, and what was noticed. Gaps stay
// gaps; an empty cell means that there is no number. Humidity has the digits of the source, to 0.001.
func (r RoomRecord) WriteCSV(w io.Writer) error {
	b := bufio.NewWriter(w)
	_, _ = b.WriteString("time,rh_pct,t_c,flag\n") // errors come back from Flush
	s := r.Series
	var line []byte
	for i, t := range s.Time {
		line = append(line[:0], t...)
		line = append(line, ',')
		line = appendReading(line, s.RH[i])
		line = append(line, ',')
		if s.TC != nil {
			line = appendReading(line, s.TC[i])
		}
		line = append(line, ',')
		if s.Flag != nil {
			line = append(line, s.Flag[i]...)
		}
		_, _ = b.Write(append(line, '\n'))
	}
	return b.Flush()
}

// appendReading writes a reading to three decimals, without noughts at the end; nothing for NaN.
func appendReading(to []byte, v float64) []byte {
	if numeral(v) == "null" {
		return to
	}
	from := len(to)
	to = strconv.AppendFloat(to, v, 'f', 3, 64)
	for to[len(to)-1] == '0' {
		to = to[:len(to)-1]
	}
	if to[len(to)-1] == '.' {
		to = to[:len(to)-1]
	}
	if string(to[from:]) == "-0" {
		to = append(to[:from], '0')
	}
	return to
}
