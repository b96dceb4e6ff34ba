//! Commands about one puzzle at its place in the pack.

use pack::PuzzleId;

use crate::job::With;
use crate::load::{load, shown};
use crate::outcome::{Failure, Outcome};
use crate::studies::{Depth, Found, Target};
use crate::{json, trouble};

/// Which puzzle is meant.
#[derive(Debug)]
pub(crate) struct One {
    /// The pack, or the puzzle file.
    pub(crate) target: Target,
    /// The puzzle's id, if a pack was named.
    pub(crate) puzzle: Option<String>,
}

impl One {
    /// Reads and studies the pack up to the puzzle, which takes for granted what those before it teach; and the puzzle's
    /// id, unless its file cannot be read. A sealed one is refused, which is a trouble of the pack: `what` would be told of
    /// it.
    ///
    /// # Errors
    ///
    /// If there is no such puzzle, no puzzle is named, or the work is interrupted.
    pub(crate) fn find(&self, what: &str, with: &With) -> Result<(Found, Option<PuzzleId>), Failure> {
        let loaded = load(&self.target.path)?;
        let id = match &self.puzzle {
            Some(id) => Some(id.clone()),
            None if loaded.is_pack => {
                let message = format!("{} is a pack, and this is about one puzzle", shown(&self.target.path));
                return Err(Failure::new(message, loaded.which()));
            }
            None => loaded.pack.entries.first().map(|it| it.id.to_string()),
        };
        let file = id.as_ref().map(|it| loaded.file_of(it, &self.target.path)).transpose()?;
        let mut found = self.target.study_loaded(loaded, Depth::Walkthrough, with)?;
        if let Some(file) = file {
            found.narrow(&file);
        }
        let sealed: Vec<_> = (found.studies())
            .filter(|it| it.is_sealed())
            .map(|it| trouble::sealed(it, what, found.file_of(it)))
            .collect();
        found.troubles.extend(sealed);
        Ok((found, id.and_then(|it| PuzzleId::new(&it))))
    }
}

impl Found {
    /// What is left to say of a puzzle that is sealed, cannot be read or has no walkthrough.
    pub(crate) fn outcome_of_nothing(&self, with: &With) -> Outcome {
        Outcome {
            problems: self.problems(with),
            result: match with.is_json {
                true => json::text(&self.document_of_one(|_| json::Nothing {})),
                false => String::new(),
            },
            note: String::new(),
            has_errors: self.has_errors(),
        }
    }
}
