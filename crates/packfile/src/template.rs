//! The files of a new pack, with remarks that teach the format.

use toml::Value;

/// A `pack.toml` with that title. It reads without problems if the title is not empty and fits on one
/// line.
pub fn pack_template(title: &str) -> String {
    PACK.replace("{title}", &value(title))
}

/// A puzzle file with that title and setter, an empty grid and no clues. It reads without problems if
/// both are not empty and fit on one line.
pub fn puzzle_template(title: &str, setter: &str) -> String {
    // Cut first, so that a title that looks like a place to fill in is left as it is.
    let (before, after) = PUZZLE.split_once("{setter}").unwrap_or((PUZZLE, ""));
    format!("{}{}{after}", before.replace("{title}", &value(title)), value(setter))
}

fn value(text: &str) -> String {
    Value::String(text.to_owned()).to_string()
}

const PACK: &str = r##"# A pack: this file, and one file a puzzle in the folder `puzzles`.
# A line that begins with # is a remark. Take the # away to use a line.

format = 1                                # the format of this file
title = {title}
# editor = "…"                            # who edits the pack
# licence = "CC-BY-4.0"                   # how it may be used
# base_url = "https://example.org/pack/"  # where its site will be

# Your own tiers, easiest first:
# shelves = ["Dusk", "Night", "Small hours"]

# The order of the puzzles, by file name without `.toml`. Without this line one is proposed.
# order = ["first-light", "low-tide"]

# What solvers are taken to know before the first puzzle; docs/techniques.md lists all names:
# knows = ["last-empty-cell", "hidden-single", "naked-single"]

# Tables come last. Places that a proposed order keeps, the most that a shelf takes, what an order costs:
# [pins]
# first-light = 1
# [limits.Dusk]
# minutes = 15
# hardest = "naked-pair"
# [weights]
# new_at_once = 10
"##;

const PUZZLE: &str = r##"# One puzzle. The file's name without `.toml` is the puzzle's id: lower-case letters, digits, hyphens.

format = 1
title = {title}
setter = {setter}
# permission = "granted 2026-10-02"  # the setter's permission to print it
# intends = ["outside digits"]       # what the setter meant it to teach
# sealed = true                      # until you have solved it, show no digit and no step of its solution
# note = "…"                         # for your own eyes
# shelf = "Dusk"                     # the tier it is meant for
# state = "pool"                     # in, pool, later or declined; without it, it is in the pack
# reason = "…"                       # why it is in that state
# features = "naked-pair"            # what its walkthrough should show
# said = ["first of the pack"]       # what a recording says of its place

# Other sizes than 9x9, and boxes that are wider or higher than usual (columns x rows):
# size = "6x6"
# box = "3x2"

# One row a line: a digit for a given, a dot for an empty cell. Spaces and rules are for the eye.
grid = """
. . . | . . . | . . .
. . . | . . . | . . .
. . . | . . . | . . .
------+-------+------
. . . | . . . | . . .
. . . | . . . | . . .
. . . | . . . | . . .
------+-------+------
. . . | . . . | . . .
. . . | . . . | . . .
. . . | . . . | . . .
"""

# The sums of the digits between the 1 and the 9: beside the rows from the top, above the columns from
# the left. A dot where there is no clue. Without sandwich clues, leave out these three lines.
[sandwich]
rows    = ". . . . . . . . ."
columns = ". . . . . . . . ."
"##;
