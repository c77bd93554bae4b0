package moisture

import "math"

// halfSpace is the share of a board's change taken up through one face as long as the other face
// does not feel it: (exp(x^2) erfc x - 1 + 2x/sqrt(pi))/Bi, x = Bi sqrt(fo); 2 sqrt(fo/pi) without film.
// Carslaw and Jaeger 1959, 2.7.
func halfSpace(bi, fo float64) float64 {
	switch {
	case bi == 0:
		return 0
	case math.IsInf(bi, 1):
		return 2 * math.Sqrt(fo/math.Pi)
	}
	x := bi * math.Sqrt(fo)
	if x < 0.01 { // first terms of the series; the difference above would lose digits
		return bi * fo * (1 - 4*x/(3*math.Sqrt(math.Pi)) + x*x/2 - 8*x*x*x/(15*math.Sqrt(math.Pi)))
	}
	return (erfcx(x) - 1 + 2*x/math.Sqrt(math.Pi)) / bi
}

// halfSpaceRate is the derivative of halfSpace: Bi exp(x^2) erfc x, or 1/sqrt(pi fo) without film.
func halfSpaceRate(bi, fo float64) float64 {
	if math.IsInf(bi, 1) {
		return 1 / math.Sqrt(math.Pi*fo)
	}
	return bi * erfcx(bi*math.Sqrt(fo))
}

// lean is half the uptake less its first moment from the face: the share of the first moment about
// the middle of the board.
func lean(bi, fo float64) float64 {
	if bi == 0 {
		return 0
	}
	e := halfSpace(bi, fo)
	if math.IsInf(bi, 1) {
		return e/2 - fo
	}
	return e/2 - (fo - e/bi)
}

// halfSpaceAt is the share of the change at depth x/h from the face.
func halfSpaceAt(bi, x, fo float64) float64 {
	if bi == 0 || fo == 0 {
		if fo == 0 && x == 0 && math.IsInf(bi, 1) {
			return 1
		}
		return 0
	}
	d := x / (2 * math.Sqrt(fo))
	if math.IsInf(bi, 1) {
		return math.Erfc(d)
	}
	// erfc(d) - exp(Bi x + Bi^2 fo) erfc(d + Bi sqrt(fo)), the product written without overflow
	return math.Erfc(d) - math.Exp(-d*d)*erfcx(d+bi*math.Sqrt(fo))
}

// erfcx is exp(x^2) erfc(x) for x >= 0.
func erfcx(x float64) float64 {
	if x < 10 {
		return math.Exp(x*x) * math.Erfc(x)
	}
	y := 1 / (2 * x * x) // asymptotic, the next term is below 1e-10 of the first
	return (1 - y*(1-3*y*(1-5*y*(1-7*y)))) / (x * math.Sqrt(math.Pi))
}

// highest finds the argument of the highest value of a function with one peak, by golden section in
// the logarithm of the argument.
func highest(lo, hi float64, f func(float64) float64) float64 {
	g := (math.Sqrt(5) - 1) / 2
	a, b := math.Log(lo), math.Log(hi)
	c, d := b-g*(b-a), a+g*(b-a)
	fc, fd := f(math.Exp(c)), f(math.Exp(d))
	for b-a > 1e-8 {
		if fc > fd {
			b, d, fd = d, c, fc
			c = b - g*(b-a)
			fc = f(math.Exp(c))
		} else {
			a, c, fc = c, d, fd
			d = a + g*(b-a)
			fd = f(math.Exp(d))
		}
	}
	return math.Exp((a + b) / 2)
}
