//! Finding everything out about the files as they are: one study at a time, and what has changed meanwhile makes it
//! outdated.

use std::sync::Arc;

use pack::PuzzleId;
use study::{Compared, StudiedPack};

use super::{Desk, News, TwinsFound, View};
use crate::answers::Refused;
use crate::failure::Failure;
use crate::folder::Reading;
use crate::store::Unkept;
use crate::studying::BrokenOff;

/// Why a study gave nothing.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Unstudied {
    /// It was no longer wanted, or the desk ends.
    BrokenOff,
    /// Galley is at fault.
    Fault,
}

impl From<Unstudied> for Refused {
    fn from(it: Unstudied) -> Refused {
        match it {
            Unstudied::BrokenOff => Refused::ending(),
            Unstudied::Fault => Refused::fault(),
        }
    }
}

impl Desk {
    /// The pack once everything is found out about it.
    pub(crate) async fn studied(&self) -> Result<(Arc<Reading>, Arc<StudiedPack>), Refused> {
        let mut views = self.view.subscribe();
        let is_known = |it: &View| it.pack.is_some() || it.fault.is_some();
        let view = views.wait_for(is_known).await.map_err(|_| Refused::ending())?.clone();
        match (view.pack, view.fault) {
            (Some(pack), _) => Ok((view.reading, pack)),
            (None, Some(fault)) => Err(Refused::failed(&fault)),
            (None, None) => Err(Refused::ending()),
        }
    }

    /// Changes what the pages show of the files and the seals. What was found out counts no more: it is found out anew,
    /// behind.
    pub(super) fn renew(self: &Arc<Desk>, change: impl FnOnce(&mut View)) {
        self.view.send_modify(|view| {
            change(view);
            view.version += 1;
            (view.pack, view.twins, view.fault) = (None, Arc::default(), None);
        });
        let desk = Arc::clone(self);
        tokio::spawn(async move { desk.study().await });
    }

    /// Finds out everything about the files as they are. Whatever changes meanwhile begins another.
    async fn study(self: &Arc<Desk>) {
        // The seals are read after the version, so that none is missed that was opened before.
        let View { reading, version, .. } = self.view();
        let opened = self.look_at_seals().await;
        let desk = Arc::clone(self);
        let is_outdated = move || desk.view.borrow().version != version;
        let found = self.study_for(reading, opened, None, is_outdated, |pack| {
            let twins = twins_in(&pack);
            (pack, twins)
        });
        let found = match found.await {
            Err(Unstudied::BrokenOff) => return,
            it => it.map_err(|_| Failure::fault()),
        };
        let is_current = self.view.send_if_modified(|view| {
            let is_current = view.version == version;
            if is_current {
                match found {
                    Ok((pack, twins)) => (view.pack, view.twins) = (Some(Arc::new(pack)), twins),
                    Err(fault) => view.fault = Some(fault),
                }
            }
            is_current
        });
        if is_current {
            self.tell(if self.view.borrow().fault.is_some() { News::Trouble } else { News::Studied });
        }
    }

    /// Studies what was read, perhaps in another order, and makes something of it, beside the thread that answers and
    /// after whatever is being studied; it is left as soon as it is unwanted.
    pub(crate) async fn study_for<T: Send + 'static>(
        self: &Arc<Desk>,
        reading: Arc<Reading>,
        opened: Arc<[String]>,
        order: Option<Vec<PuzzleId>>,
        is_unwanted: impl Fn() -> bool + Send + Sync + 'static,
        then: impl FnOnce(StudiedPack) -> T + Send + 'static,
    ) -> Result<T, Unstudied> {
        let mut studying = Arc::clone(&self.studying).lock_owned().await;
        let desk = Arc::clone(self);
        let found = tokio::task::spawn_blocking(move || {
            let is_asked = || desk.is_ending() || is_unwanted();
            if is_asked() {
                return Err(BrokenOff);
            }
            let is_unsealed = |id: &PuzzleId| opened.iter().any(|it| it == id.as_str());
            let (pack, calibration) = (&reading.read.pack, &reading.calibrations.silent);
            studying.study(pack, calibration, is_unsealed, order, &is_asked).map(then)
        });
        match found.await {
            Ok(Ok(it)) => Ok(it),
            Ok(Err(BrokenOff)) => Err(Unstudied::BrokenOff),
            Err(it) => Err(if it.is_panic() { Unstudied::Fault } else { Unstudied::BrokenOff }),
        }
    }

    /// Nothing is studied while this is held.
    #[cfg(test)]
    pub(crate) async fn hold_studies(&self) -> tokio::sync::OwnedMutexGuard<crate::studying::Studying> {
        Arc::clone(&self.studying).lock_owned().await
    }

    /// Opens or closes a seal at this desk, and has everything found out anew.
    pub(crate) async fn set_opened(self: &Arc<Desk>, puzzle: &str, opened: bool) -> Result<(), Unkept> {
        let mut seals = self.seals.lock().await;
        match opened {
            true => self.store.open_seal(puzzle).await?,
            false => self.store.close_seal(puzzle).await?,
        }
        // Though the store should not be readable when it is studied.
        let others = seals.iter().filter(|it| **it != *puzzle).cloned();
        *seals = others.chain(opened.then(|| puzzle.to_owned())).collect();
        drop(seals);
        self.renew(|_| {});
        Ok(())
    }

    /// The seals that were opened at this desk, as far as the store could be read.
    pub(crate) async fn seals(&self) -> Arc<[String]> {
        Arc::clone(&*self.seals.lock().await)
    }

    /// Reads which seals are open. While the store cannot be read they stay as they were.
    pub(super) async fn look_at_seals(&self) -> Arc<[String]> {
        // Held meanwhile, so that what was read before a seal was opened never takes the place of what was read after.
        let mut seals = self.seals.lock().await;
        let trouble = match self.store.opened_seals().await {
            Ok(it) => {
                *seals = it.into();
                None
            }
            Err(unkept) => Some(unkept.failure(&self.folder.own().join("desk.db"))),
        };
        self.note_trouble(|it| &mut it.store, trouble);
        Arc::clone(&seals)
    }
}

fn twins_in(pack: &StudiedPack) -> Arc<[TwinsFound]> {
    let compared: Vec<Compared> = pack.all().map(|it| Compared::of(it, it.entry().id.to_string())).collect();
    let found = study::twins(&compared).into_iter().map(|it| TwinsFound {
        kind: it.kind,
        puzzles: it.members.iter().map(|it| it.study.entry().id.clone()).collect(),
    });
    found.collect()
}
