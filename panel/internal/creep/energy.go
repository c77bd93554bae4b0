package creep

// Energy is the account of a strip since its start, per area of the panel, N/mm (times 1000:
// J/m2). Mean stress of a step times change of strain; it closes to rounding:
//
//	Support = Swelling + Elastic + Softening + Creep + Set
//
// Creep may be negative while crept strain comes back; around a loop that ends as it began it is
// what was lost, 0 or more, and so is Set.
type Energy struct {
	Support   float64 // work of what holds the strip on the strip
	Swelling  float64 // work done against the free movement; negative when swelling drives
	Elastic   float64 // stored in the layers and coats, over that at the start
	Softening float64 // taken out of the elastic store by a falling modulus, less what a rising one puts in
	Creep     float64 // gone into Kelvin chains and moisture-driven elements
	Set       float64 // gone into crushing
}

// Energy returns the account since the start.
func (s *Strip) Energy() Energy { return s.energy }

// Error returns what is missing in the account.
func (e Energy) Error() float64 {
	return e.Support - e.Swelling - e.Elastic - e.Softening - e.Creep - e.Set
}

// book enters layer i, before its state is renewed.
func (s *Strip) book(i int, stress, e1, creep, set float64) {
	t, e0 := s.spec.Layers[i], s.elastic[i]
	mean := t * (s.stress[i] + stress) / 2
	s.energy.Swelling += mean * (s.free[i] - s.free0[i])
	s.energy.Creep += mean * creep
	s.energy.Set += mean * set
	s.energy.Elastic += t * (stress*e1 - s.stress[i]*e0) / 2
	s.energy.Softening += t * e0 * e1 * (s.modulus[i] - s.next[i]) / 2
	s.free0[i] = s.free[i]
}

// bookCoat enters a coat and renews its state.
func (s *Strip) bookCoat(c *coat) {
	if c.Thickness == 0 {
		return
	}
	e1, k1 := s.at.Eps+s.at.Kappa*c.arm-c.free-c.zero.Strain, s.at.Kappa-c.zero.Curvature
	now, bend := c.axial(), c.bending()
	old := now * c.was / c.factor
	s.energy.Swelling += (old*c.strain + now*e1) / 2 * (c.free - c.before)
	s.energy.Elastic += (now*e1*e1 - old*c.strain*c.strain) / 2
	s.energy.Softening += c.strain * e1 * (old - now) / 2
	oldBend := bend * c.was / c.factor
	s.energy.Elastic += (bend*k1*k1 - oldBend*c.curvature*c.curvature) / 2
	s.energy.Softening += c.curvature * k1 * (oldBend - bend) / 2
	c.strain, c.curvature = e1, k1
}

// bookSupport enters what the support did.
func (s *Strip) bookSupport() {
	s.energy.Support += (s.was.N+s.at.N)/2*(s.at.Eps-s.was.Eps) + (s.was.M+s.at.M)/2*(s.at.Kappa-s.was.Kappa)
	s.was = s.at
}
