//! Facts, the reasons for them, and walkthroughs.
//!
//! A [`Fact`] is a claim with its reason. A [`Trail`] grows one [`Step`] at a time, and a fact can
//! cite only facts that are already there, so every trail is free of circles by construction.
//! [`Trail::needed_for`] drops what a goal does not need. Nothing here finds steps, judges them or
//! words them: `reason`, `replay` and `tell` do.

mod argument;
mod chain;
mod cites;
mod fact;
mod technique;
mod walkthrough;

pub use argument::{Argument, Because, Branch, End, Link, Misfit, Side};
pub use chain::{Follows, Inference, Stated};
pub use cites::{Cited, Cites};
pub use fact::{Fact, FactId, Origin, Proposal, PushError, Step, StepId, Trail};
pub use technique::TechniqueId;
pub use walkthrough::{Passage, Theme, Walkthrough};
