//! The words: ids and data come in, plain English sentences go out.
//!
//! [`says`] words a step for print, [`says_in`] in another [`Voice`], [`where_what_why`] in a margin,
//! [`hints()`] and [`ways_in`] the ways into a puzzle;
//! [`claim`] words a fact, [`technique_name`] and [`technique_description`] a technique,
//! [`passage_titles`] the passages (in another voice [`passage_titles_in`]), [`rules()`] the rules of a puzzle,
//! [`because`] the answer to a question, [`conflict`], [`change`] and [`fewest_additions`] what would make a puzzle
//! sound, [`why_minutes`] how long it takes, [`why_here`] why it stands where it stands, [`worth()`] what it teaches.
//! This is the only crate where wording lives, so a new rule or technique gets its words here and nowhere
//! else. A technique's argument is worded once, for print; the voices differ as `voice` says. The text is
//! plain: no markup, no colour, nothing that a screen reader would stumble over. Sentences have at
//! most thirty words (signs of a sum are not counted); lines end only where a case of a small argument
//! begins or closes.
//!
//! A step is worded from its argument and from what it cites, and its conclusions from the facts it
//! still has: a walkthrough may have dropped some of those the argument once had. Nothing here judges
//! whether a step is right; `replay` does.

mod almost_locked;
mod answers;
mod cases;
mod chains;
mod claims;
mod classic;
mod crusts;
mod days;
mod drills;
mod earlier;
mod hints;
mod inferences;
mod landmarks;
mod lists;
mod marks;
mod minutes;
mod misfits;
mod moved;
mod names;
mod page;
mod places;
mod prose;
mod read_out;
mod refs;
mod repairs;
mod rules;
mod sheet;
mod sums;
mod telling;
mod titles;
mod voice;
mod worth;

pub use answers::{
    because, because_of, counterexample, judged, nothing_leads_there, opposite_not_yet, true_but_not_yet,
    untrue, would_have_taken, wrong_board,
};
pub use claims::claim;
pub use days::day;
pub use drills::{drill_answer, drill_question};
pub use hints::{hints, ways_in, where_what_why};
pub use landmarks::{as_easy, landmark};
pub use lists::{capital, cells, count, digits, list};
pub use marks::{CellMark, cell_marks};
pub use minutes::{basis, limit_reached, no_narrow_place, shares, steps, wait, why_minutes};
pub use moved::{Against, OrderChanges, order_changes, too_much_for_shelf, unsettled};
pub use names::{TechniqueWords, known_techniques, technique_description, technique_name};
pub use page::exchange_explanation;
pub use places::{costs, flaws, ordinal, why_here};
pub use repairs::{
    change, conflict, fewest_additions, mends_summary, n_solutions, single_givens, slip, to_print,
};
pub use rules::{RuleWords, rules};
pub use sheet::{NOT_YET_TAUGHT, NOTHING_FOUND, mistake, resting_on_notes};
pub use telling::{says, says_in};
pub use titles::{passage_titles, passage_titles_in};
pub use voice::Voice;
pub use worth::{as_meant, technique_meant, worth};
