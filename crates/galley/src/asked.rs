//! What a question is about: one puzzle that is open, with its solution and walkthrough.

use grid::Size;
use reason::{Solved, Unanswered};
use study::Study;

use crate::job::With;
use crate::load::{Loaded, load, shown};
use crate::outcome::Failure;
use crate::studies::{Depth, Found, Target};
use crate::trouble;

/// The puzzle that a question is about, before anything is found out about it.
#[derive(Debug)]
pub(crate) struct Asked<'a> {
    target: &'a Target,
    loaded: Loaded,
}

impl<'a> Asked<'a> {
    /// Reads the puzzle: the one with that id, or the one whose file was named.
    ///
    /// # Errors
    ///
    /// If it is not there, or a pack was named and no puzzle of it.
    pub(crate) fn read(target: &'a Target, puzzle: Option<&str>) -> Result<Asked<'a>, Failure> {
        let loaded = load(&target.path)?;
        let loaded = match puzzle {
            Some(id) => loaded.only(id, &target.path)?,
            None if loaded.is_pack => {
                let message =
                    format!("{} is a pack, and the question is about one puzzle", shown(&target.path));
                return Err(Failure::new(message, loaded.which()));
            }
            None => loaded,
        };
        Ok(Asked { target, loaded })
    }

    /// The size of the board; none if the file cannot be read.
    pub(crate) fn size(&self) -> Option<Size> {
        self.loaded.pack.entries.first().map(|it| it.puzzle.size())
    }

    /// Studies the puzzle. A sealed one is refused, which is a trouble of the pack.
    ///
    /// # Errors
    ///
    /// If the work is interrupted.
    pub(crate) fn study(self, with: &With) -> Result<Found, Failure> {
        let mut found = self.target.study_loaded(self.loaded, Depth::Walkthrough, with)?;
        let sealed: Vec<_> = (found.pack.all())
            .filter(|it| it.is_sealed())
            .map(|it| trouble::sealed(it, "the answer", found.file_of(it)))
            .collect();
        found.troubles.extend(sealed);
        Ok(found)
    }
}

/// What an answer is found from; none if the puzzle is sealed, or has not one solution and a walkthrough.
pub(crate) fn solved(study: &Study) -> Option<Solved<'_>> {
    let opened = study.opened()?;
    Some(Solved {
        puzzle: &study.entry().puzzle,
        solution: opened.solution?,
        walkthrough: opened.account?.explained.walkthrough().trail(),
    })
}

/// The failure of a question that should have an answer.
pub(crate) fn unanswered(why: &Unanswered) -> Failure {
    let message = match why {
        Unanswered::Untrue => "what is asked about is not true",
        Unanswered::NotReached => "the walkthrough does not lead there, which is a fault of Galley's",
        Unanswered::Refused(..) => "a step did not pass its check, which is a fault of Galley's",
    };
    Failure::new(message, "send the puzzle's file and the question to Galley's makers")
}
