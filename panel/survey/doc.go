// Package survey looks at many panels and several stores at once: which panels to look at first, and where
// each would stand best.
//
// [Read] turns a list of stores (TOML, format 1) into [Stores]; [Stores.Survey] works the panels out side by
// side, each by closed forms and realisations ([assessment.Assess] at setting Quick), in a fixed order: the
// same bits on any number of cores. A panel that fails is told, and the others go on.
//
// # The list of stores
//
// Panels are named by their accession number, or by the name of their file where they have none. Records are
// named from the list's folder.
//
//	[store.NAME]     name, record, or low_rh_pct and high_rh_pct; places (how many panels it has room for), panels
//	[rack.NAME]      store, panels: in the order in which one walks past them
//	[stay]           panels that are not moved
//	[together.NAME]  panels that stand in one store
//
// # What is worked out
//
// In a store the wood of a panel comes into balance with the running means of the air over the time that its
// boards take to follow, or with both ends of a band, each taken as held for a season: the cautious side. Of
// 100 panels of this description so many reach a limit there.
//
// Four groups are told, no ranks: those to look at first (in their present store more than 20 of 100), next
// (more than 5), those that can wait, and those about which nothing can be told yet: behind a finding that
// stands before the figures, with an unknown whose two answers differ more than tenfold, or without a climate.
// How much is known of a panel is told beside its group and is not mixed with it.
//
// # Placement
//
// With so many places in each store, the placement with the fewest expected panels at a limit is found
// exactly, by shortest augmenting paths (see assign). Panels that nothing can be told about stay where they are.
package survey
