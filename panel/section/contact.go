package section

import "fmt"

// Touch settles which faces of the open parts of the joins touch under the given loads, and changes the model
// so that Eval holds it: faces that would pass through one another are shut, shut faces that pull are opened,
// until nothing changes. Shut faces slide without friction. Between two calls the model is linear. It returns
// how many pairs of places touch. A state that does not settle is an error, and the last state stays.
func (m *Model) Touch(loads [][]float64) (int, error) {
	out := m.NewOut()
	for range maxTouch {
		if err := m.Eval(out, loads); err != nil {
			return 0, err
		}
		changed, shut := m.passed(out)
		if !changed {
			return shut, nil
		}
		if err := m.join(); err != nil {
			return 0, err
		}
	}
	return 0, fmt.Errorf("open joins do not settle into touching or apart in %d rounds", maxTouch)
}

const maxTouch = 40

// passed changes the state of the open pairs and says whether any changed.
func (m *Model) passed(o *Out) (changed bool, shut int) {
	for j, s := range m.seams {
		for i := range s.z {
			if !s.open[i] {
				continue
			}
			now := s.shut[i]
			if now {
				now = o.Joins[j].Force[i] <= 0
			} else {
				now = m.opening(o, j, i) < -1e-12*m.width
			}
			if now != s.shut[i] {
				s.shut[i], changed = now, true
			}
			if now {
				shut++
			}
		}
	}
	return changed, shut
}

// opening returns by how much pair i of join j stands apart, mm: its gap and what the boards do.
func (m *Model) opening(o *Out, j, i int) float64 {
	s := m.seams[j]
	beside := [extraCols]float64{colOne: 1}
	copy(beside[colAlong:], []float64{o.Stretch - o.Edgewise*m.width/2 - o.Bow*m.mid, o.Edgewise, o.Bow})
	r := make([]float64, 1)
	b := cut(m.chain.gap(j, i), m.chain.cols, 0, m.chain.cols)
	b.apply(r, nil, o.v, &beside)
	return s.Gap + r[0]
}
