//! Holds the answers beside the verdict (what is spare, what mends, what settles, what contradicts, what
//! is a twin) against slow searches written for reading.

#[path = "../agreement/listed_rule.rs"]
mod listed_rule;
#[path = "../agreement/plain_search.rs"]
#[allow(dead_code, reason = "shared with the other tests, which ask more of it")]
mod plain_search;
#[path = "../agreement/seeded.rs"]
#[allow(dead_code, reason = "shared with the other tests, which draw more kinds of puzzle")]
mod seeded;

mod any_input;
mod conflict;
mod drawn;
mod mend;
mod most;
mod settle;
mod spare;
mod twins;
