package species_test

import (
	"math"
	"reflect"
	"testing"

	"github.com/stretchr/testify/assert"

	"crossgrain/species"
)

var spruceTree = species.Numbers{ER: 1046, ET: 693, GRT: 54, NuRT: 0.4915, SwellR: 0.17, SwellT: 0.34,
	TensionR: 6.18, TensionT: 4.80, CompressionR: 5, CompressionT: 6}

func TestRingAngleSigns(t *testing.T) {
	ex, ez, g := species.RingAngle(90).Strain(0.01, 0.02) // quarter-sawn: the width is radial
	assert.InDelta(t, 0.01, ex, 1e-15)
	assert.InDelta(t, 0.02, ez, 1e-15)
	assert.InDelta(t, 0, g, 1e-15)
	ex, ez, g = species.RingAngle(0).Strain(0.01, 0.02) // flat-sawn: the width is tangential
	assert.InDelta(t, 0.02, ex, 1e-15)
	assert.InDelta(t, 0.01, ez, 1e-15)
	assert.InDelta(t, 0, g, 1e-15)

	for a := species.RingAngle(-90); a <= 90; a += 7.5 {
		ex, ez, g := a.Strain(0.01, 0.02)
		assert.InDelta(t, 0.03, ex+ez, 1e-15, "the sum does not turn with the axes")
		mx, mz, mg := (-a).Strain(0.01, 0.02)
		assert.InDelta(t, ex, mx, 1e-15)
		assert.InDelta(t, ez, mz, 1e-15)
		assert.InDelta(t, g, -mg, 1e-15, "the lean turns the shear round")
		dry, _, _ := a.Strain(-0.01, -0.02)
		assert.Less(t, dry, 0.0, "drying shrinks")
		assert.InDelta(t, a.Swell(spruceTree), species.RingAngle(-a).Swell(spruceTree), 1e-12)
	}
}

func TestModulusByRingAngle(t *testing.T) {
	assert.InDelta(t, 1046, species.RingAngle(90).ModulusHeld(spruceTree), 1e-9)
	assert.InDelta(t, 693, species.RingAngle(0).ModulusHeld(spruceTree), 1e-9)
	for a := species.RingAngle(-90); a <= 90; a += 5 {
		free, held := a.Modulus(spruceTree), a.ModulusHeld(spruceTree)
		assert.GreaterOrEqual(t, held, free-1e-9, "%v", a)
		assert.InDelta(t, free, (-a).Modulus(spruceTree), 1e-9)
	}
	// An isotropic plane has one modulus at every angle, free or held.
	iso := species.Numbers{ER: 1000, ET: 1000, NuRT: 0.25, GRT: 400}
	for a := species.RingAngle(0); a <= 90; a += 15 {
		assert.InDelta(t, 1000, a.Modulus(iso), 1e-9)
		assert.InDelta(t, 1000, a.ModulusHeld(iso), 1e-9)
	}
}

func TestStrengthByRingAngle(t *testing.T) {
	assert.InDelta(t, 6.18, species.RingAngle(90).Tension(spruceTree), 1e-12)
	assert.InDelta(t, 4.80, species.RingAngle(0).Tension(spruceTree), 1e-12)
	assert.InDelta(t, 5.49, species.RingAngle(45).Tension(spruceTree), 1e-12)
	assert.InDelta(t, 5.5, species.RingAngle(-45).Compression(spruceTree), 1e-12)
}

func TestRingAngleWords(t *testing.T) {
	for a, want := range map[species.RingAngle]string{
		90: "quarter-sawn", -90: "quarter-sawn", 60: "quarter-sawn", 59: "in between", 45: "in between", -45: "in between",
		31: "in between", 30: "flat-sawn", 0: "flat-sawn", -10: "flat-sawn",
	} {
		assert.Equal(t, want, a.Words(), "%v", float64(a))
	}
}

func TestTwoBooksCannotMix(t *testing.T) {
	slow, fast := reflect.TypeFor[species.SlowLimit](), reflect.TypeFor[species.FastLimit]()
	held, _ := reflect.TypeFor[species.HeldStrain]().MethodByName("Share")
	elastic, _ := reflect.TypeFor[species.ElasticStrain]().MethodByName("Share")
	assert.Equal(t, slow, held.Type.In(1))
	assert.Equal(t, fast, elastic.Type.In(1))
	assert.False(t, slow.ConvertibleTo(fast), "not even by a conversion")
	assert.False(t, fast.ConvertibleTo(slow))
}

func TestLimits(t *testing.T) {
	// Richard, Mecklenburg and Tumosa 1998; Hoadley 1998: elastic limit 0.5 to 1 %.
	assert.Equal(t, 0.004, species.SlowYield().Value)
	b := species.SlowBreak()
	assert.Equal(t, [3]float64{0.009, 0.006, 0.012}, [3]float64{b.Value, b.Low, b.High})
	c := species.CompressionSlow()
	assert.Equal(t, [3]float64{0.0075, 0.005, 0.010}, [3]float64{c.Value, c.Low, c.High})
	assert.InDelta(t, 0.5, species.HeldStrain(0.0045).Share(b), 1e-12)
	assert.Equal(t, 0.0, species.HeldStrain(0).Share(b))
	assert.Less(t, species.HeldStrain(-0.001).Share(b), 0.0)
}

func TestFastBreak(t *testing.T) {
	// Maas and Wittel: f/E at 65 % RH is 0.0059 R and 0.0069 T.
	assert.InDelta(t, 0.0059, spruceTree.FastBreak(90).Value, 0.00005)
	assert.InDelta(t, 0.0069, spruceTree.FastBreak(0).Value, 0.00005)
	at45 := spruceTree.FastBreak(45)
	assert.InDelta(t, (6.18/1046+4.80/693)/2*0.0037/0.0018, at45.Value, 1e-9, "onset ratio of Kunecky and others 2025")
	assert.Less(t, at45.Value, 5.49/200.22, "strength over modulus alone would be twice that")
	for a := species.RingAngle(-90); a <= 90; a += 5 {
		l := spruceTree.FastBreak(a)
		assert.True(t, l.Low < l.Value && l.Value < l.High)
		assert.False(t, math.IsNaN(l.Value))
		assert.LessOrEqual(t, l.Value, a.Tension(spruceTree)/a.Modulus(spruceTree)+1e-12)
	}
	assert.InDelta(t, 1, species.ElasticStrain(at45.Value).Share(at45), 1e-12)
}
