//! Notices what other programs do to the pack's files.
//!
//! The system says when something changes; a second is all that a page may lag behind. Where the system cannot say, as
//! on some shared disks, the folder is looked at again now and then.

use std::sync::Arc;
use std::time::Duration;

use notify::{RecommendedWatcher, RecursiveMode, Watcher};
use tokio::sync::mpsc;
use tokio::time::{sleep, timeout};

use crate::folder::{BESIDE, PUZZLES};
use crate::state::{Desk, News};

/// Programs that save a file do several things to it; they are waited for so long.
const SETTLING: Duration = Duration::from_millis(60);
/// How often the folder is looked at where the system says what changes, and where it does not.
const SELDOM: Duration = Duration::from_secs(4);
const OFTEN: Duration = Duration::from_millis(800);

/// Looks at the folder whenever something in it changes. It never ends by itself.
pub(crate) async fn watch(desk: Arc<Desk>) {
    let (tell, mut told) = mpsc::channel::<()>(1);
    // Held here too, so that there is something to wait for even without a watcher.
    let _held = tell.clone();
    let mut watcher = notify::recommended_watcher(move |event: notify::Result<notify::Event>| {
        let is_change = event.is_ok_and(|it| !it.kind.is_access());
        if is_change {
            // A channel that is full says already that there is something to look at.
            _ = tell.try_send(());
        }
    })
    .ok();
    let mut beside = desk.folder().beside_stamp();
    loop {
        // Again and again: the folder of puzzles may be made, moved or taken away.
        let is_watched = watcher.as_mut().is_some_and(|it| attend(it, &desk));
        desk.look_again().await;
        let looking = Arc::clone(&desk);
        if let Ok(now) = tokio::task::spawn_blocking(move || looking.folder().beside_stamp()).await
            && now != beside
        {
            beside = now;
            desk.tell(News::Solves);
        }
        let pause = if is_watched { SELDOM } else { OFTEN };
        if let Ok(Some(())) = timeout(pause, told.recv()).await {
            sleep(SETTLING).await;
            while told.try_recv().is_ok() {}
        }
    }
}

/// Watches the folder, that of its puzzles, and those beside. Whether all are watched that are there.
fn attend(watcher: &mut RecommendedWatcher, desk: &Desk) -> bool {
    let root = desk.folder().root();
    let folders = [PUZZLES].into_iter().chain(BESIDE).map(|it| root.join(it)).filter(|it| it.is_dir());
    [root.to_owned()]
        .into_iter()
        .chain(folders)
        .all(|it| watcher.watch(&it, RecursiveMode::NonRecursive).is_ok())
}
