package moisture

// Branches are the two boundary curves of a wood: wetting (Ads) and drying (Des). Closure is the
// humidity at which they are taken to meet.
type Branches struct {
	Ads, Des Isotherm
	Closure  RH
}
