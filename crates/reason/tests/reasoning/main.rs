//! Techniques by cases in text files, the registry, whole puzzles from a seed, and answers about them.

mod arguments;
mod cases;
mod corpus;
mod follow;
mod follow_chain;
mod judgements;
mod layouts;
#[path = "../../examples/measure/premises.rs"]
mod measured;
mod mutations;
mod open_claims;
mod openings;
mod premises;
mod rare;
mod reasons;
mod registry;
mod rules_of_thumb;
mod spare;
mod stuck;
mod support;
mod teachable;
mod textbook;
