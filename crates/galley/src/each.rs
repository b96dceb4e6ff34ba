//! Commands that say something of every puzzle of a pack, or of the one that is named.

use serde::Serialize;
use study::Study;

use crate::job::With;
use crate::json;
use crate::load::load;
use crate::outcome::{Failure, Outcome};
use crate::studies::{Depth, Found, Target};
use crate::trouble;

/// Which puzzles are meant.
#[derive(Debug)]
pub(crate) struct Each {
    /// The pack, or the puzzle file.
    pub(crate) target: Target,
    /// The id of the one that is meant; none for all.
    pub(crate) puzzle: Option<String>,
}

/// The puzzles, studied.
#[derive(Debug)]
pub(crate) struct EachFound {
    found: Found,
    /// Whether one puzzle was named, by its file or its id.
    is_one: bool,
}

impl Each {
    /// Reads and studies the puzzles.
    ///
    /// # Errors
    ///
    /// If they cannot be read, or the work is interrupted.
    pub(crate) fn find(&self, depth: Depth, with: &With) -> Result<EachFound, Failure> {
        let mut loaded = load(&self.target.path)?;
        let is_one = self.puzzle.is_some() || !loaded.is_pack;
        let file = self.puzzle.as_ref().map(|id| loaded.file_of(id, &self.target.path)).transpose()?;
        if let (Depth::Verdict, Some(id)) = (depth, &self.puzzle) {
            loaded = loaded.only(id, &self.target.path)?;
        }
        // A walkthrough depends on what the puzzles before it teach, so they are studied too.
        let mut found = self.target.study_loaded(loaded, depth, with)?;
        if let Some(file) = file {
            found.narrow(&file);
        }
        Ok(EachFound { found, is_one })
    }
}

impl EachFound {
    /// The puzzles that could be read.
    pub(crate) fn studies(&self) -> Vec<&Study> {
        self.found.studies().collect()
    }

    /// Everything that was found.
    pub(crate) fn inner(&self) -> &Found {
        &self.found
    }

    /// The same, to add what is wrong with other files of the pack.
    pub(crate) fn inner_mut(&mut self) -> &mut Found {
        &mut self.found
    }

    /// Refuses sealed puzzles, which is a trouble of the pack: those of which `what` would be told if they were
    /// open.
    #[must_use]
    pub(crate) fn refusing_sealed(mut self, what: &str, is_meant: impl Fn(&Study) -> bool) -> EachFound {
        let sealed: Vec<_> = (self.found.studies())
            .filter(|it| it.is_sealed() && is_meant(it))
            .map(|it| trouble::sealed(it, what, self.found.file_of(it)))
            .collect();
        self.found.troubles.extend(sealed);
        self
    }

    /// What is told of each puzzle, in words or as a document. Of a file that cannot be read there is a
    /// document too, made of nothing.
    pub(crate) fn outcome<T: Serialize>(
        &self,
        with: &With,
        in_words: impl Fn(&Study) -> Option<String>,
        document: impl Fn(Option<&Study>) -> T,
    ) -> Outcome {
        let result = match (with.is_json, self.is_one) {
            (false, _) => self.found.studies().filter_map(in_words).collect::<Vec<_>>().join("\n"),
            (true, false) => json::text(&self.found.document_of_all(document)),
            (true, true) => json::text(&self.found.document_of_one(document)),
        };
        Outcome {
            problems: self.found.problems(with),
            result,
            note: String::new(),
            has_errors: self.found.has_errors(),
        }
    }
}
