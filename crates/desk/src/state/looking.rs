//! Looking at the files again, and what is said while something cannot be read.

use std::sync::Arc;

use super::{Desk, News, Troubles};
use crate::aside::aside;
use crate::failure::Failure;
use crate::folder::Reading;

impl Desk {
    /// Reads the folder again; if anything is another, says so, and has everything found out anew, which goes on behind.
    pub(crate) async fn look_again(self: &Arc<Desk>) {
        self.note_trouble(|it| &mut it.own, self.lost_own());
        if self.view.borrow().troubles.store.is_some() {
            let before = self.seals().await;
            if self.look_at_seals().await != before {
                self.renew(|_| {});
            }
        }
        // What is read while the desk writes would be from before.
        let _one_at_a_time = self.writing.lock().await;
        let desk = Arc::clone(self);
        let reading = match aside(move || desk.folder.read()).await {
            Ok(Ok(it)) => it,
            Ok(Err(failure)) => return self.note_trouble(|it| &mut it.folder, Some(failure)),
            Err(_) if self.is_ending() => return,
            Err(_) => return self.note_trouble(|it| &mut it.folder, Some(Failure::fault())),
        };
        self.note_trouble(|it| &mut it.folder, None);
        self.take(reading).await;
    }

    /// What was read is on the pages at once, if anything of it is new.
    pub(super) async fn take(self: &Arc<Desk>, reading: Reading) {
        let (is_first, is_same) = {
            let view = self.view.borrow();
            let old = &view.reading;
            (view.version == 0, old.files == reading.files && old.problems == reading.problems)
        };
        if !is_first && is_same {
            return;
        }
        let (old, new) = (self.view().reading, Arc::new(reading));
        self.renew(|view| view.reading = Arc::clone(&new));
        if !is_same {
            self.tell(News::Files);
        }
        // Told first: a disk that is busy keeps no change from being seen. One that the store cannot take is noted with the
        // file's next change.
        let noted = self.note_changes_elsewhere((!is_first).then_some(&old), &new).await;
        if noted.is_ok_and(|it| it > 0) {
            self.tell(News::Noted);
        }
    }

    /// Notes that something is wrong, or no longer wrong, and says so if that is new.
    pub(super) fn note_trouble(
        &self,
        of: impl Fn(&mut Troubles) -> &mut Option<Failure>,
        trouble: Option<Failure>,
    ) {
        let is_trouble = trouble.is_some();
        let is_new = self.view.send_if_modified(|view| {
            let place = of(&mut view.troubles);
            let is_new = *place != trouble;
            *place = trouble;
            is_new
        });
        if is_new {
            // Pages look again, and find what is wrong, or that nothing is.
            self.tell(if is_trouble { News::Trouble } else { News::Files });
        }
    }
}
