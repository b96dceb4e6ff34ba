//! Techniques by cases in text files, the registry, whole puzzles from a seed, and answers about them.

mod arguments;
mod cases;
mod corpus;
mod follow;
mod follow_chain;
mod judgements;
mod layouts;
mod mutations;
mod rare;
mod reasons;
mod registry;
mod rules_of_thumb;
mod spare;
mod support;
mod teachable;
mod textbook;
