//! Words for what a technique is worth in a puzzle, and for how that compares with what its setter meant.

use study::Worth;
use trail::TechniqueId;

use crate::names::{known_techniques, technique_name};

/// `needed: there is no walkthrough without it`.
pub fn worth(it: Worth) -> String {
    match it {
        Worth::Needed => "needed: there is no walkthrough without it".to_owned(),
        Worth::Saves(seconds) => match (seconds + 30) / 60 {
            0 | 1 => "saves about 1 minute".to_owned(),
            n => format!("saves about {n} minutes"),
        },
        Worth::Avoidable => "avoidable: it goes as quickly without".to_owned(),
    }
}

/// How what the setter meant a puzzle to teach compares with what the techniques of its walkthrough are worth.
pub fn as_meant(meant: &str, worths: &[(TechniqueId, Worth)]) -> String {
    match technique_meant(meant) {
        None => "no technique is called that, so it is not checked".to_owned(),
        Some(id) => match worths.iter().find(|it| it.0 == id) {
            Some((_, found)) => worth(*found),
            None => "its walkthrough does not use that".to_owned(),
        },
    }
}

/// The technique that a setter's words name, by its name in running text or in files.
pub fn technique_meant(meant: &str) -> Option<TechniqueId> {
    let meant = meant.trim();
    let is_meant = |id: TechniqueId| technique_name(id).eq_ignore_ascii_case(meant) || id.name() == meant;
    known_techniques().iter().map(|it| it.id).find(|it| is_meant(*it))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_was_meant_is_held_against_what_was_found() {
        let pair = TechniqueId::new("naked-pair");
        let worths = [(pair, Worth::Saves(100))];
        for meant in ["naked pair", " Naked pair", "naked-pair"] {
            assert_eq!(technique_meant(meant), Some(pair));
            assert_eq!(as_meant(meant, &worths), "saves about 2 minutes");
        }
        assert_eq!(as_meant("hidden pair", &worths), "its walkthrough does not use that");
        assert!(as_meant("patience", &worths).ends_with("it is not checked"));
        assert_eq!(worth(Worth::Saves(30)), "saves about 1 minute");
    }
}
