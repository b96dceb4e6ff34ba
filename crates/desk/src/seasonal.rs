//! The season as the desk knows it: from the files, and from the test solves in its store.

use std::sync::Arc;

use packfile::LoggedSolve;
use season::{Season, Seen, day_at};
use study::StudiedPack;

use crate::answers::Refused;
use crate::aside::aside;
use crate::folder::{Beside, Reading};
use crate::state::{Desk, study_of};
use crate::{clock, logged};

/// The season, and what it was derived from.
pub(crate) struct Seasonal {
    pub(crate) reading: Arc<Reading>,
    pub(crate) pack: Arc<StudiedPack>,
    pub(crate) beside: Beside,
    pub(crate) season: Season,
}

impl Seasonal {
    /// Once everything is found out.
    pub(crate) async fn of(desk: &Arc<Desk>) -> Result<Seasonal, Refused> {
        let (reading, pack) = desk.studied().await?;
        let mut beside = beside(desk).await?;
        beside.solves.extend(kept(desk, &pack, &beside).await?);
        let seen = Seen {
            solves: &beside.solves,
            rehearsals: &beside.rehearsals,
            notes: beside.notes.clone(),
            captioned: beside.captioned.clone(),
            today: day_at(clock::now()),
        };
        let season = Season::of(&pack, &seen);
        Ok(Seasonal { reading, pack, beside, season })
    }
}

async fn beside(desk: &Arc<Desk>) -> Result<Beside, Refused> {
    let desk = Arc::clone(desk);
    aside(move || desk.folder().beside()).await?.map_err(|it| Refused::failed(&it))
}

/// The test solves in the store, but for those that were written into the pack's folder.
async fn kept(desk: &Arc<Desk>, pack: &StudiedPack, beside: &Beside) -> Result<Vec<LoggedSolve>, Refused> {
    let unkept = |it| Refused::unkept(desk, &it);
    let mut solves = Vec::new();
    for begun in desk.store.solves().await.map_err(unkept)? {
        let Some(study) = study_of(pack, &begun.puzzle) else { continue };
        let is_written = |it: &LoggedSolve| {
            it.solve.puzzle == begun.puzzle
                && it.solve.solver == begun.solver
                && it.started.as_deref() == Some(&begun.begun_at)
        };
        if beside.solves.iter().any(is_written) {
            continue;
        }
        let events = desk.store.events_of(&begun.id).await.map_err(unkept)?;
        solves.push(LoggedSolve {
            file: String::new(),
            solve: logged::solve(&begun, &events, study.entry().puzzle.size()),
            fingerprint: Some(begun.fingerprint),
            started: Some(begun.begun_at),
        });
    }
    Ok(solves)
}
