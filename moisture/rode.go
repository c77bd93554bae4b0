package moisture

import "math"

// Rode is moisture content after the differential rule for scanning: the slope is a weighted mean
// of both boundary slopes, by the distances from the boundary curves. It has no memory of turning
// points, so small loops do not close and creep towards the middle ("pumping"); it serves only as
// a bracket for [Scan].
//
//	rising:  du/dh = [0.1 (u-ua)^2 ud' + (u-ud)^2 ua'] / (ud-ua)^2
//	falling: du/dh = [(u-ua)^2 ud' + 0.1 (u-ud)^2 ua'] / (ud-ua)^2
//
// Source: Rode 1990 (memory); the factor 0.1 is part of the rule.
type Rode struct {
	U  float64 // kg/kg
	At float64 // RH, 0..1
}

// rodeStep is the longest step of humidity in the integration.
const rodeStep = 0.001

// Go moves the wood to humidity h (0..1, clipped; NaN is ignored) in steps of at most 0.1 points,
// each by the classical fourth-order rule of Runge and Kutta.
func (r *Rode) Go(b *Branches, h float64) {
	h = clipRH(h)
	if math.IsNaN(h) {
		return
	}
	n := math.Ceil(math.Abs(h-r.At) / rodeStep)
	from := r.At
	for i := range int(n) {
		a, d := from+(h-from)*float64(i)/n, (h-from)/n
		k1 := rodeSlope(b, a, r.U, d > 0)
		k2 := rodeSlope(b, a+d/2, r.U+d/2*k1, d > 0)
		k3 := rodeSlope(b, a+d/2, r.U+d/2*k2, d > 0)
		k4 := rodeSlope(b, a+d, r.U+d*k3, d > 0)
		r.U += d / 6 * (k1 + 2*k2 + 2*k3 + k4)
		r.clip(b, a+d)
	}
	r.At = h
}

// clip keeps the wood between the boundary curves.
func (r *Rode) clip(b *Branches, h float64) {
	lo, hi := b.ads(h), b.des(h)
	r.U = min(max(r.U, min(lo, hi)), max(lo, hi))
}

func rodeSlope(b *Branches, h, u float64, rising bool) float64 {
	ua, ud := b.ads(h), b.des(h)
	da, dd := b.Ads.Slope(RH(h), b.T), b.Des.Slope(RH(h), b.T)
	return RodeSlope(u, ua, ud, da, dd, rising)
}

// RodeSlope returns the slope of the scanning curve through the moisture content u (kg/kg), from the
// wetting curve's ua and slope da and the drying curve's ud and dd at the same humidity. Between them it
// blends the slopes by the square of the distances; where they meet it is their mean. Source: Rode 1990
// (memory).
func RodeSlope(u, ua, ud, da, dd float64, rising bool) float64 {
	if ud-ua <= 0 {
		return (da + dd) / 2
	}
	fromAds, fromDes := (u-ua)*(u-ua)*dd, (u-ud)*(u-ud)*da
	if rising {
		fromAds *= 0.1
	} else {
		fromDes *= 0.1
	}
	return (fromAds + fromDes) / ((ud - ua) * (ud - ua))
}
