//! Changing a file of the pack, and noting what other programs change, with what it was before kept in the history.

use std::sync::Arc;

use super::Desk;
use crate::answers::Refused;
use crate::aside::aside;
use crate::folder::{Digest, PACK_FILE, PUZZLES, Reading, Unwritten, is_whole};
use crate::store::{Change, ChangedBy, Unkept};
use crate::token::Token;

impl Desk {
    /// Changes a file that was `began_from` when the edit began, or with none makes one; what it was before is kept.
    /// Gives the digest that it has then.
    pub(crate) async fn write(
        self: &Arc<Desk>,
        file: &str,
        began_from: Option<Digest>,
        text: String,
    ) -> Result<Digest, Refused> {
        let _one_at_a_time = self.writing.lock().await;
        let after = Digest::of(text.as_bytes());
        let path = self.folder.root().join(file);
        let before = match began_from {
            None => None,
            Some(_) if path.exists() && !self.folder.holds(&path) => return Err(Refused::outside_pack(file)),
            Some(digest) => {
                let bytes = tokio::fs::read(&path).await.map_err(|_| Refused::changed_meanwhile(file))?;
                if Digest::of(&bytes) != digest {
                    return Err(Refused::changed_meanwhile(file));
                }
                Some((digest.to_string(), String::from_utf8_lossy(&bytes).into_owned()))
            }
        };
        if began_from == Some(after) {
            return Ok(after);
        }
        let id = Token::new().map_err(|it| Refused::failed(&it))?.to_string();
        let digest_after = after.to_string();
        let change = Change {
            file,
            by: ChangedBy::Desk,
            before: before.as_ref().map(|it| (&it.0[..], &it.1[..])),
            after: (&digest_after, &text),
        };
        self.store.note_change(&id, change).await.map_err(|it| Refused::unkept(self, &it))?;
        let (desk, name) = (Arc::clone(self), file.to_owned());
        let written = aside(move || desk.folder.write(&name, began_from, &text)).await;
        let refused = match written {
            Ok(Ok(())) => None,
            Ok(Err(Unwritten::ChangedMeanwhile)) => Some(Refused::changed_meanwhile(file)),
            Ok(Err(Unwritten::OutsidePack)) => Some(Refused::outside_pack(file)),
            Ok(Err(Unwritten::NoRoom(failure))) => Some(Refused::no_room(&failure)),
            Ok(Err(Unwritten::Failed(failure))) => Some(Refused::failed(&failure)),
            Err(refused) => Some(refused),
        };
        if let Some(refused) = refused {
            // A note too many is only a line in the history that changes nothing.
            _ = self.store.forget_change(&id).await;
            return Err(refused);
        }
        // Read before anything else is written or looked at, so that what another program did is told from this.
        let desk = Arc::clone(self);
        if let Ok(Ok(reading)) = aside(move || desk.folder.read()).await {
            self.take(reading).await;
        }
        Ok(after)
    }

    /// Notes what other programs have changed since `old`; with none, since the desk was last open, as far as it knew the
    /// file then. Gives how many that are.
    pub(super) async fn note_changes_elsewhere(
        &self,
        old: Option<&Reading>,
        new: &Reading,
    ) -> Result<usize, Unkept> {
        let mut n_noted = 0;
        for (file, bytes) in &new.files {
            let was = old.and_then(|it| it.files.get(file));
            let has_history = file == PACK_FILE || file.starts_with(PUZZLES);
            if was == Some(bytes) || !has_history || !is_whole(bytes) {
                continue;
            }
            let last = self.store.last_change_of(file).await?;
            let after = Digest::of(bytes).to_string();
            // What was written here is noted already.
            if last.as_ref().map_or(old.is_none(), |it| it.digest_after == after) {
                continue;
            }
            let text = |bytes: &[u8]| String::from_utf8_lossy(bytes).into_owned();
            let before = match (last, was) {
                (Some(it), _) => Some((it.digest_after, it.text_after)),
                (None, Some(bytes)) => Some((Digest::of(bytes).to_string(), text(bytes))),
                (None, None) => None,
            };
            let change = Change {
                file,
                by: ChangedBy::Elsewhere,
                before: before.as_ref().map(|it| (&it.0[..], &it.1[..])),
                after: (&after, &text(bytes)),
            };
            let Ok(id) = Token::new() else { continue };
            self.store.note_change(&id.to_string(), change).await?;
            n_noted += 1;
        }
        Ok(n_noted)
    }
}
