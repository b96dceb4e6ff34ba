//! Finds the steps a person could take, and chooses the walkthrough.
//!
//! A [`View`] is a position as a person sees it: what is known, and why. Each [`Technique`] lists the
//! steps it offers there. [`explain()`] takes the easiest step again and again; where no technique
//! helps it makes a [small argument](small_argument), so every puzzle with one solution is explained
//! to the end without a guess. Every step has passed `replay` before it counts. Wording is not done
//! here: steps leave as data.

mod classic;
mod explain;
mod layouts;
mod order;
mod sandwich;
pub mod small_argument;
mod survey;
mod technique;
mod view;

pub use explain::{Explained, Settings, Stopped, explain, solve};
pub use survey::{Survey, survey};
pub use technique::{TECHNIQUES, Technique, technique};
pub use view::View;
