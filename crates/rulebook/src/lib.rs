//! The puzzle, and what each rule of it means.
//!
//! One file a rule. A rule says which fillings satisfy it, twice: as a predicate
//! ([`Rule::allows`]), which is the definition, and as a list of [`Ways`], which is what provers and
//! checkers compute with; a brute-force test holds the two together. Claims about a filling
//! ([`Claim`]) are defined here in the same two forms. Nothing here knows how to solve.

mod claim;
mod classic;
mod puzzle;
mod rule;
mod sandwich;
mod ways;

pub use claim::Claim;
pub use classic::first_repeat;
pub use puzzle::{Clue, ClueId, Puzzle};
pub use rule::{RULES, Rule, RuleId, rule};
pub use sandwich::{SANDWICH, Sandwich, crusts, filling_digits, filling_sets, filling_total};
pub use ways::{Between, Way, Ways};
