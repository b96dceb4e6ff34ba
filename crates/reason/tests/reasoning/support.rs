//! What several areas need: puzzles from a seed, and claims in short form.

pub(crate) mod seeded;
pub(crate) mod shorthand;
