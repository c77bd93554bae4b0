package plan

// plateShear adds the shear through the thickness of the four-node plate with assumed shear strains
// (MITC4; E. N. Dvorkin and K.-J. Bathe 1984): the strain xz is taken at the middles of the lower and
// upper side and runs straight between them, yz at the left and right one. It does not lock.
//
//	strain xz = w,x + bx,  yz = w,y + by
func (e *element) plateShear(a, b, sx, sy float64) {
	// rows of the strain at the sides: xz below and above, yz left and right
	var row [4][12]float64
	sides := [4][2]int{{0, 1}, {3, 2}, {0, 3}, {1, 2}}
	for k, s := range sides {
		length, turn := a, 1
		if k > 1 {
			length, turn = b, 2
		}
		row[k][3*s[0]], row[k][3*s[1]] = -1/length, 1/length
		row[k][3*s[0]+turn], row[k][3*s[1]+turn] = 0.5, 0.5
	}
	for k, s := range [2]float64{sx, sy} {
		lo, hi := &row[2*k], &row[2*k+1]
		f := s * a * b / 6 // of (1-eta)/2 and (1+eta)/2: a b/3 with itself, a b/6 with the other
		for i := range 12 {
			for j := range 12 {
				e.bb[i][j] += f * (2*lo[i]*lo[j] + 2*hi[i]*hi[j] + lo[i]*hi[j] + hi[i]*lo[j])
			}
		}
	}
}
