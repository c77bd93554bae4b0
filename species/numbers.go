package species

import (
	"crossgrain/moisture"
	"crossgrain/tables"
)

// Numbers are the plain values of one wood, one draw: 12 % moisture content, 20 degC, short
// loading, clear wood. NaN stands for a value that the wood lacks (see Wood.Numbers).
type Numbers struct {
	Density                    float64 // kg/m3 at 12 % MC
	SwellR, SwellT, SwellL     float64 // strain per unit of MC (kg/kg), i.e. 0.30 for 0.30 % per % MC
	EL, ER, ET                 float64 // MPa, short
	GLR, GLT, GRT              float64 // MPa, short
	NuRT, NuLT                 float64 // first letter stress, second strain
	TensionR, TensionT         float64 // strength, MPa (short tests)
	CompressionR, CompressionT float64 // stress at the proportional limit, MPa
	Rolling                    float64 // rolling shear strength, MPa
	GcStart, GcPlateau         float64 // toughness of a crack along the grain, at start and when running, N/mm
	PerMC                      PerMC
	Diffusion                  float64 // across the grain at 12 % MC, m2/s
}

// PerMC is how stiffness and strength across the grain change per unit of MC, relative to 12 %:
// -3 means -3 % per % MC.
type PerMC struct{ ER, ET, GRT, TensionR, TensionT, Compression float64 }

// Sorption is how a wood takes up water: the mean curve decides, the branches bound it.
type Sorption struct {
	Mean     moisture.Isotherm
	Branches moisture.Branches
	Source   string
	Grade    tables.Grade
	Borrowed string // name of the stand-in, or "" for the wood's own curve
}

// Draw holds independent standard normals that move the properties of one wood together: dense
// pieces are stiffer, stronger, tougher and move more. The zero Draw is nominal.
type Draw struct{ Density, Swelling, Stiffness, Strength, Toughness, Diffusion float64 }
