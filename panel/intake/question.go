package intake

// The questions that a list can raise; closed names: added, never renamed.
const (
	NumberMissing  = "number_missing"
	NumberTwice    = "number_twice"
	NumberDate     = "number_date"
	NumberExponent = "number_exponent"
	NumberZeros    = "number_zeros"
	NumberDash     = "number_dash"
	SizeMissing    = "size_missing"
	SizeDiffers    = "size_differs"
	FramedDepth    = "framed_depth"
	ThickDepth     = "thickness_depth"
	NoUnit         = "no_unit"
	NotRead        = "not_read"
	NotAWord       = "not_a_word"
	WoodUnknown    = "wood_unknown"
	CrackGrain     = "crack_grain"
	SupportUnclear = "support_unclear"
	JoinUnclear    = "join_unclear"
	WarpBare       = "warp_bare"
	NotFit         = "not_fit"
	NotRecorded    = "not_recorded"
	FileChanged    = "file_changed"
	FileLoses      = "file_loses"
	FileGone       = "file_gone"
	ColumnDepth    = "column_depth"
)

// IDs lists the questions in the order in which they are told: what keeps a panel from being written
// comes first.
func IDs() []string {
	return []string{
		NumberMissing, NumberTwice, NumberDate, NumberExponent, SizeMissing, NoUnit, NumberZeros, NumberDash, FileChanged, FileLoses, FileGone,
		ColumnDepth, ThickDepth, FramedDepth, SizeDiffers, NotRead, NotAWord, WoodUnknown, CrackGrain, SupportUnclear, JoinUnclear, WarpBare, NotFit, NotRecorded,
	}
}

// Question is one thing that the list leaves open.
type Question struct {
	ID        string
	Line      int    // of the list; 0 for the list as a whole
	Accession string // as typed
	Store     string
	Place     string
	Heading   string // of the column
	Cell      string // as typed
	Detail    string // what was understood, or what may stand there
}
