//! Solves are simulated by the model's own definition with parameters that are known, and fitted back.

mod matching;
mod recovery;
mod refusals;
mod simulated;
