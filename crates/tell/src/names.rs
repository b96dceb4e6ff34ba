//! What the techniques are called, and a sentence about each.
//!
//! `reason` keeps the registry of techniques; a test holds the two lists together.

use trail::TechniqueId;

/// The words for a technique.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct TechniqueWords {
    /// The technique.
    pub id: TechniqueId,
    /// Its name in running text.
    pub name: &'static str,
    /// One plain sentence on how it works.
    pub description: &'static str,
}

/// Every technique that has words, the small argument last.
pub fn known_techniques() -> &'static [TechniqueWords] {
    &WORDS
}

/// The technique's name in running text, for instance `hidden single`; the id's own name if it has no
/// words here.
pub fn technique_name(id: TechniqueId) -> &'static str {
    words(id).map_or(id.name(), |it| it.name)
}

/// One plain sentence on how the technique works; empty if it has no words here.
pub fn technique_description(id: TechniqueId) -> &'static str {
    words(id).map_or("", |it| it.description)
}

fn words(id: TechniqueId) -> Option<&'static TechniqueWords> {
    WORDS.iter().find(|it| it.id == id)
}

const fn of(id: &'static str, name: &'static str, description: &'static str) -> TechniqueWords {
    TechniqueWords { id: TechniqueId::new(id), name, description }
}

static WORDS: [TechniqueWords; 52] = [
    of(
        "last-empty-cell",
        "last empty cell",
        "When one cell of a row, column or box is empty, it takes the missing digit.",
    ),
    of("hidden-single", "hidden single", "A digit with one place left in a row, column or box goes there."),
    of("naked-single", "naked single", "A cell with one digit left holds that digit."),
    of(
        "locked-candidates",
        "locked candidates",
        "When all places of a digit in one house also lie in a second house, the digit goes nowhere else \
         in the second.",
    ),
    of(
        "naked-pair",
        "naked pair",
        "Two cells of a house that can hold only the same two digits use both of them up.",
    ),
    of(
        "naked-triple",
        "naked triple",
        "Three cells of a house that can hold only the same three digits use all of them up.",
    ),
    of(
        "naked-quad",
        "naked quad",
        "Four cells of a house that can hold only the same four digits use all of them up.",
    ),
    of(
        "hidden-pair",
        "hidden pair",
        "Two digits of a house that fit only the same two cells leave no room there for others.",
    ),
    of(
        "hidden-triple",
        "hidden triple",
        "Three digits of a house that fit only the same three cells leave no room there for others.",
    ),
    of(
        "hidden-quad",
        "hidden quad",
        "Four digits of a house that fit only the same four cells leave no room there for others.",
    ),
    of(
        "x-wing",
        "X-wing",
        "When a digit's only places in two parallel lines lie in the same two crossing lines, those two \
         have it nowhere else.",
    ),
    of(
        "swordfish",
        "swordfish",
        "When a digit's only places in three parallel lines lie in the same three crossing lines, those \
         three have it nowhere else.",
    ),
    of(
        "jellyfish",
        "jellyfish",
        "When a digit's only places in four parallel lines lie in the same four crossing lines, those \
         four have it nowhere else.",
    ),
    of(
        "x-wing-with-spare",
        "X-wing with a spare cell",
        "Where spare cells of one box spoil an X-wing, a cell that sees them all and would lose the digit \
         to the X-wing loses it either way.",
    ),
    of(
        "swordfish-with-spare",
        "swordfish with a spare cell",
        "Where spare cells of one box spoil a swordfish, a cell that sees them all and would lose the \
         digit to the swordfish loses it either way.",
    ),
    of(
        "jellyfish-with-spare",
        "jellyfish with a spare cell",
        "Where spare cells of one box spoil a jellyfish, a cell that sees them all and would lose the \
         digit to the jellyfish loses it either way.",
    ),
    of(
        "xy-wing",
        "XY-wing",
        "Whichever of two digits a cell takes, one of two others is left with the same third digit; a \
         cell that sees both loses it.",
    ),
    of(
        "xyz-wing",
        "XYZ-wing",
        "Whichever of three digits a cell takes, it or one of two others holds a certain one; a cell that \
         sees all three loses it.",
    ),
    of(
        "chain",
        "chain",
        "Suppose that a cell is not a digit and follow what comes of it: either the supposition \
         contradicts itself, or one end of the chain is true.",
    ),
    of(
        "chain-through-clues",
        "chain through clues",
        "A chain with links from clues: what a clue says of one cell of its line once another is \
         known.",
    ),
    of(
        "joined-pairs",
        "joined pairs",
        "Two cells hold only the same two digits, and each place for one of these in some house sees \
         one of the cells; so one cell takes the other.",
    ),
    of(
        "two-colour-chain",
        "two-colour chain",
        "Along houses with just two places for a digit, its places are yes and no by turns; what sees \
         both kinds, or a kind that meets itself, loses it.",
    ),
    of(
        "chain-of-equal-pairs",
        "chain of equal pairs",
        "Cells that hold only the same two digits, each in sight of the next, take turns; a cell that \
         sees two that differ is neither digit.",
    ),
    of(
        "almost-locked-sets",
        "almost locked sets",
        "Two groups of cells each have one digit more than cells; where they share a digit that only \
         one of them can hold, the other holds all its other digits.",
    ),
    of(
        "line-and-box-share-a-set",
        "line and box share a set",
        "Some cells of a line and of a box it crosses hold as many digits as they are, so the line or \
         the box has each digit there.",
    ),
    of("crusts-adjacent", "crusts side by side", "A clue of 0 puts the two crusts of the line side by side."),
    of(
        "crusts-at-ends",
        "crusts at the ends",
        "A clue as large as all filling digits together puts the crusts at the two ends of the line.",
    ),
    of(
        "crust-distance",
        "crust distance",
        "The largest and the smallest digits show how few and how many cells a sum can take, and so how \
         far apart the crusts are.",
    ),
    of(
        "crust-reach",
        "reach of the crusts",
        "Trying every pair of places for the crusts of a line shows cells that none of them uses, and \
         cells that all of them use.",
    ),
    of(
        "sees-both-crusts",
        "sees both crusts",
        "A cell that can be neither of the two crust digits is filling.",
    ),
    of(
        "crusts-found",
        "both crusts found",
        "Once both crusts of a row, column or box are known, the rest of it is filling.",
    ),
    of(
        "crust-places",
        "two places for the crusts",
        "When only two cells of a row, column or box can be crusts, they are.",
    ),
    of(
        "crusts-confined",
        "crusts confined",
        "When all places left for the crusts of one house also lie in a second house, the second has no \
         crust elsewhere.",
    ),
    of(
        "crust-held",
        "crust held in a box",
        "Where one crust of a box is known and a line must have the other inside the box, the rest of \
         the box has none.",
    ),
    of(
        "crust-among",
        "crust among a few cells",
        "When the two crusts of a house cannot both lie outside a second house, one of them is in the cells \
         that both share.",
    ),
    of(
        "crusts-shared",
        "two crusts shared out",
        "When two separate parts of a house have a crust each, the rest of it has none.",
    ),
    of(
        "crusts-in-turn",
        "crusts in turn",
        "Along known crusts that share houses the two crust digits take turns; a cell that sees one of each \
         kind is filling.",
    ),
    of(
        "crust-turn-settled",
        "turn of the crusts settled",
        "Where crusts take turns and one way round leaves a house no place for a crust digit, it is the \
         other way round.",
    ),
    of(
        "filling-sets",
        "filling sets",
        "Listing the sets of digits that make a clue shows digits that are always or never between the \
         crusts.",
    ),
    of(
        "outside-digits",
        "outside digits",
        "What a clue leaves of all filling digits is the sum outside the crusts, which can often be \
         made in few ways.",
    ),
    of(
        "crust-mates",
        "crusts that go together",
        "A crust of a line needs a place for the other crust at the right distance; a cell without \
         one is no crust.",
    ),
    of(
        "crust-sums",
        "crusts against the sum",
        "If the clue cannot be made with a crust in a cell, wherever the other crust may be, the cell \
         is filling; if it cannot without, it is a crust.",
    ),
    of(
        "sum-partners",
        "partners in the sum",
        "With the crusts placed, a digit stays in a cell only if the other cells can complete the sum with \
         it.",
    ),
    of(
        "partners-anywhere",
        "partners wherever the crusts are",
        "A digit that finds no partners for the sum, wherever the crusts still can be, is not in its cell.",
    ),
    of(
        "neighbour-trials",
        "ways tried on the neighbours",
        "Where a clue can be made in few ways, each is tried on the lines and boxes around; what only \
         the failing ways have is ruled out.",
    ),
    of(
        "spent-clue",
        "spent clue",
        "Once the filling of a line is known, cells sure to lie between the crusts hold only its digits, \
         and cells sure to lie outside hold none of them.",
    ),
    of(
        "side-holds",
        "digit held to one side",
        "A digit that must lie between the crusts, or outside them, is in one of the cells of that side \
         which can hold it.",
    ),
    of(
        "held-digit",
        "held digit",
        "When a digit of a line is in one of a few cells, a cell that sees all of them cannot hold it.",
    ),
    of(
        "last-in-sum",
        "last of the sum",
        "The last empty cell between the crusts takes what is left of the clue.",
    ),
    of(
        "last-outside",
        "last outside digit",
        "The last empty cell outside the crusts takes what is left of the outside sum.",
    ),
    of(
        "followed-to-an-end",
        "followed to an end",
        "A digit or a crust is tried and followed from house to house; if one of a few houses has no way \
         left in the end, it goes.",
    ),
    of(
        "small-argument",
        "small argument",
        "Supposing the opposite and following it for a few moves ends in something that cannot be.",
    ),
];
