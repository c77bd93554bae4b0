package moisture

import "math"

// Branches are the two boundary curves of a wood: wetting (Ads) and drying (Des). Closure is the
// humidity at which they are taken to meet; 0 stands for 1. T is the temperature at which both are
// read, °C (curves without a temperature term do not use it).
//
// Printed curves of one wood are fitted apart, so they need not meet at the closure and may cross.
// Scanning takes the drying curve as lying on the wetting curve wherever it would lie below, and
// moves the closure down to the uppermost crossing; curves that cross everywhere have no
// hysteresis, and their mean is used.
type Branches struct {
	Ads, Des Isotherm
	Closure  RH
	T        Celsius
}

// closure is where the branches of a wood are joined: the humidity, and the moisture content of the
// drying curve there.
type closure struct{ h, us float64 }

const (
	closureStep = 0.01 // RH, search of the uppermost crossing
	bisections  = 60
)

// join finds the closure: the stated one, or the uppermost crossing below it, or 0 when the drying
// curve lies nowhere above the wetting curve.
func (b *Branches) join() closure {
	top := float64(b.Closure)
	if !(top > 0 && top < 1) {
		top = 1
	}
	lo, hi := top, top
	for lo > 0 && b.gap(lo) <= 0 {
		lo, hi = lo-closureStep, lo
	}
	if lo <= 0 {
		return closure{}
	}
	for range bisections {
		if hi-lo <= 0 {
			break
		}
		if mid := (lo + hi) / 2; b.gap(mid) > 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	return closure{h: lo, us: b.des(lo)}
}

func (b *Branches) ads(h float64) float64 { return float64(b.Ads.MC(RH(h), b.T)) }
func (b *Branches) des(h float64) float64 { return float64(b.Des.MC(RH(h), b.T)) }
func (b *Branches) gap(h float64) float64 { return b.des(h) - b.ads(h) }

// retained is the share Lf of the water above the wetting curve that wood keeps when dried to h.
func (b *Branches) retained(c closure, h float64) float64 {
	ua := b.ads(h)
	return kept(ua, b.des(h), c.us)
}

// kept is Lf = (D-H)/(us-H), held between 0 and 1.
func kept(ua, ud, us float64) float64 {
	if us <= ua {
		return 1
	}
	return min(max((ud-ua)/(us-ua), 0), 1)
}

// dryness finds the humidity between lo and hi at which the retained share is l; the share rises
// with humidity.
func (b *Branches) dryness(c closure, l, lo, hi float64) float64 {
	for range bisections {
		if mid := (lo + hi) / 2; b.retained(c, mid) > l {
			hi = mid
		} else {
			lo = mid
		}
	}
	return (lo + hi) / 2
}

// ScanDrying is the moisture content on a first drying scan in the similarity form of independent
// domains: H(h) + Lf(h) (H(h1)-H(h)), Lf = (D-H)/(us-H). All arguments in kg/kg: wetting and drying
// curve at the present humidity, wetting curve at the humidity where drying began, closure value.
//
// Source: form after Mualem 1974, type II (memory).
func ScanDrying(ads, des, adsStart, us float64) float64 {
	return ads + kept(ads, des, us)*(adsStart-ads)
}

// ScanWetting is the moisture content on a first wetting scan that left the drying curve:
// H(h) + Lf(h1) (us-H(h)). All arguments in kg/kg: wetting curve at the present humidity, wetting
// and drying curve at the humidity where wetting began, closure value.
//
// Source: form after Mualem 1974, type II (memory).
func ScanWetting(ads, adsStart, desStart, us float64) float64 {
	return ads + kept(adsStart, desStart, us)*(us-ads)
}

// between returns moisture content and slope at h for the share r of the way from wetting to drying.
func (b *Branches) between(r, h float64) (u, slope float64) {
	u = (1-r)*b.ads(h) + r*b.des(h)
	slope = (1-r)*b.Ads.Slope(RH(h), b.T) + r*b.Des.Slope(RH(h), b.T)
	return u, slope
}

func clipRH(h float64) float64 {
	if math.IsNaN(h) {
		return h
	}
	return min(max(h, 0), 1)
}
