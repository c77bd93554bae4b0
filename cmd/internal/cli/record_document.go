package cli

import (
	"crypto/sha256"
	"encoding/hex"
	"math"
	"time"

	"crossgrain/cmd/internal/report"
	"crossgrain/moisture/record"
	"crossgrain/moisture/record/logger"
	"crossgrain/moisture/record/terms"
)

// month30 is the window of the moving mean (EN 15757).
const month30 = 30 * 24 * time.Hour

// study is a record with all that was worked out from it.
type study struct {
	judge
	rec   *record.Record
	stats record.Stats
	band  record.Band
	mean  []float64 // moving mean of 30 days (fraction) at each reading; nil: the record is too short
	flag  []string  // of each reading; nil: nothing was noticed, or all of it was taken out

	noticed  []record.Flag   // of the record as it was read
	verdicts []terms.Verdict // one a set of terms
}

// studyOf works out what needs no choices.
func (j judge) study(rec *record.Record) (*study, error) {
	st := &study{judge: j, rec: rec}
	st.flags()
	st.stats = st.rec.Stats()
	floor := record.NoFloor
	if j.floor {
		floor = record.PerSide
	}
	st.band = st.rec.HistoricBand(record.BandOptions{Floor: floor})
	if st.band.Moving.Readings > 0 {
		st.mean = st.band.Moving.Mean
	}
	for _, t := range j.terms {
		st.verdicts = append(st.verdicts, t.Judge(st.rec, j.reading))
	}
	return st, nil
}

// stamp writes a moment: RFC 3339 in the record's zone, or the civil time where no zone is known.
func (st *study) stamp(t time.Time) string {
	switch {
	case t.IsZero():
		return ""
	case st.rec.Zone == nil:
		return t.Format("2006-01-02T15:04:05")
	}
	return t.In(st.rec.Zone).Format(time.RFC3339)
}

// document writes the study down.
func (st *study) document(reading *logger.Reading, files []logger.File) report.RoomRecord {
	s := st.stats
	doc := report.RoomRecord{
		Head: head("record"), Rows: s.Readings, First: st.stamp(s.From), Last: st.stamp(s.To),
		IntervalS: s.Step.Seconds(), Guesses: reading.Guesses, Cautions: report.RecordCautions(),
		RH: report.RecordRH{
			MeanPct: 100 * s.MeanRH, MinPct: 100 * s.MinRH, MaxPct: 100 * s.MaxRH,
			P1Pct: 100 * s.RH.P1, P7Pct: 100 * s.RH.P7, P50Pct: 100 * s.RH.P50, P93Pct: 100 * s.RH.P93, P99Pct: 100 * s.RH.P99,
		},
		Hours: report.RecordHours{Covered: s.HoursCovered, Above75: s.HoursAbove75, Below25: s.HoursBelow25, In40To60: s.Hours40To60},
	}
	if st.rec.Zone != nil {
		doc.Zone = st.rec.Zone.String()
	}
	doc.CoveredPct = covered(s)
	if st.rec.T != nil && s.WithoutTemperature < s.Readings {
		doc.Temperature = &report.RecordTemperature{
			MeanC: s.MeanT, MinC: s.MinT, MaxC: s.MaxT, Missing: s.WithoutTemperature,
			P1C: s.T.P1, P7C: s.T.P7, P50C: s.T.P50, P93C: s.T.P93, P99C: s.T.P99,
		}
	}
	for _, g := range s.Gaps {
		doc.Gaps = append(doc.Gaps, report.RecordGap{From: st.stamp(g.From), To: st.stamp(g.To), Hours: g.To.Sub(g.From).Hours()})
	}
	for _, m := range s.Months {
		doc.Months = append(doc.Months, report.RecordMonth{Month: m.Start.Format("2006-01"), CoveredPct: 100 * m.Covered})
	}
	st.read(&doc, reading, files)
	st.judged(&doc)
	if st.wood != nil {
		doc.Wood, _ = moistureOf(st.rec, st.wood, s.From)
	}
	doc.Series = st.series(doc.Temperature != nil)
	doc.Sentences = doc.Opening()
	return doc
}

// covered is the share, in per cent, of the time between the first and the last reading for which
// readings stand.
func covered(s record.Stats) float64 {
	length := s.To.Sub(s.From).Hours() + s.Step.Hours()
	if !(length > 0) {
		return math.NaN()
	}
	return min(100, 100*(s.HoursCovered)/length)
}

// read says how the files were read.
func (st *study) read(doc *report.RoomRecord, reading *logger.Reading, files []logger.File) {
	for i, f := range reading.Files {
		out := report.RecordFile{
			Name: f.Name, Encoding: f.Encoding, Delimiter: f.Delimiter, Decimal: f.Decimal, Dates: f.Dates, Zone: f.Zone,
			Unit: f.Unit, Channel: f.Channel, Channels: f.Channels, Columns: f.Columns, Lines: f.Lines, Rows: f.Rows,
			First: st.stamp(f.First), Last: st.stamp(f.Last),
		}
		if i < len(files) {
			sum := sha256.Sum256(files[i].Data)
			out.SHA256 = hex.EncodeToString(sum[:])
		}
		if doc.Channel == "" && len(f.Channels) > 1 {
			doc.Channel = f.Channel
		}
		doc.Files = append(doc.Files, out)
	}
	for _, s := range reading.SetAside {
		doc.SetAside = append(doc.SetAside, report.RecordSetAside{File: s.File, Reason: s.Reason, Count: s.Count, Lines: s.Lines})
	}
}

// series is the cleaned series of the CSV form.
func (st *study) series(withC bool) report.RecordSeries {
	s := report.RecordSeries{Time: make([]string, len(st.rec.Times)), RH: make([]float64, len(st.rec.RH)), Flag: st.flag}
	for i, t := range st.rec.Times {
		s.Time[i], s.RH[i] = st.stamp(t), 100*st.rec.RH[i]
	}
	if withC {
		s.TC = st.rec.T
	}
	return s
}
