//! Changing a file of the pack, with what it was before kept in the history.

use std::sync::Arc;

use super::Desk;
use crate::answers::Refused;
use crate::aside::aside;
use crate::folder::{Digest, Unwritten};
use crate::store::Change;
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
}
