//! Finds the steps a person could take, and chooses the walkthrough.
//!
//! A [`View`] is a position as a person sees it: what is known, and why. Each [`Technique`] lists the
//! steps it offers there. [`explain()`] chooses steps that together take little effort; where no
//! technique helps it makes a [small argument](small_argument), so every puzzle with one solution is
//! explained to the end without a guess. [`why()`] gives the short proof of one cell's digit, kind or missing
//! candidate, and [`judge_claim`] says whether a claim follows from a board as far as it is filled.
//! Every step has passed `replay` before it counts. Wording is not done here: steps leave as data.

mod by_then;
mod chains;
mod chosen;
mod classic;
mod effort;
mod explain;
mod following;
mod grounds;
mod judgement;
mod known;
mod late;
mod layouts;
mod least_effort;
mod mistake;
mod next;
mod offer;
mod openings;
mod order;
mod parts;
mod proof;
mod sandwich;
pub mod small_argument;
mod steps;
mod survey;
mod technique;
mod trim;
mod view;
mod why;

pub use effort::effort;
pub use explain::{
    Explained, FEATURED, Search, Settings, Stopped, explain, explain_within, solve, solve_as_far,
};
pub use judgement::{Judged, Judgement, easiest_to, judge_claim, n_steps_to, shortest_to};
pub use known::Known;
pub use mistake::{Mistake, Written, mistake};
pub use next::{Next, Position, next_step};
pub use openings::openings;
pub use parts::Part;
pub use survey::{Survey, survey};
pub use technique::{TECHNIQUES, Technique, by_ease, named, rank, technique};
pub use view::View;
pub use why::{Solved, Unanswered, Why, why};
