// Package treatment sets beside one another what might be done with a panel: doing nothing first, then the
// options of its file, or sensible standard ones where it has none, those that go least far first.
//
// Each option is a panel of its own, put to the same question by package assessment; nothing is added up and
// nothing is ranked. What a change makes worse is told as plainly as what it makes better. What comes back in time
// when members let go is that of package response; an option that lets go in part lies between nothing and all.
//
// Surroundings change the air and not the panel: in a closed case the panel meets the air of that case, worked out
// by package scenario from a record, which is that of the room, or over a day, the panel as it is likewise where its file tells the
// volume of the case that it is kept in; over a season a case without a buffer that never ends holds
// nothing back, and the states over a range stay as they are.
package treatment
