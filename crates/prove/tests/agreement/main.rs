//! Holds `prove` against other opinions: a plain search written for reading, a general SAT solver,
//! published counts and solutions, and properties that any right answer has.

mod clauses;
mod comparison;
mod counts;
mod exchange;
mod general_solver;
mod limits;
mod listed;
mod listed_rule;
mod plain_search;
mod properties;
mod published;
mod seeded;
mod sizes;
mod stops;
