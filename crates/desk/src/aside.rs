//! Work that takes a while, done beside the thread that answers.
//!
//! A fault of Galley's in it is told as one, and the desk goes on. What computes takes its turn: so many at once as the
//! machine has cores, and those who were invited have turns of their own, so that nobody who asks often keeps the editors
//! waiting. It ends soon after nobody waits for the answer any more, or the desk ends.
//!
//! Left out: a limit on how many wait. Whoever waits holds a request and nothing else.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread::available_parallelism;

use tokio::sync::Semaphore;
use tokio::task::{JoinError, spawn_blocking};

use crate::answers::Refused;
use crate::state::Desk;

/// Reads, writes, or computes what takes no time worth speaking of.
pub(crate) async fn aside<T: Send + 'static>(
    work: impl FnOnce() -> T + Send + 'static,
) -> Result<T, Refused> {
    spawn_blocking(work).await.map_err(|it| lost(&it))
}

/// Computes in turn. `work` is told how to find out whether it is to be left; proofs find that out by themselves.
pub(crate) async fn in_turn<T: Send + 'static>(
    desk: &Arc<Desk>,
    turns: &Turns,
    work: impl FnOnce(&IsLeft) -> T + Send + 'static,
) -> Result<T, Refused> {
    let turn = Arc::clone(&turns.0).acquire_owned().await.map_err(|_| Refused::ending())?;
    let waiting = Waiting::default();
    let (is_left, desk) = (waiting.is_left(desk), Arc::clone(desk));
    let found = aside(move || {
        // Kept until the work is done, though nobody may wait for it by then.
        let _turn = turn;
        let asked = is_left.clone();
        prove::interruptible(move || asked.is_so(), || work(&is_left))
    });
    let found = found.await?;
    // What was broken off is no answer.
    if desk.is_ending() { Err(Refused::ending()) } else { Ok(found) }
}

/// Why work that was begun gave nothing: the desk ends, or Galley is at fault.
pub(crate) fn lost(it: &JoinError) -> Refused {
    if it.is_panic() { Refused::fault() } else { Refused::ending() }
}

/// How many may compute at once.
#[derive(Debug)]
pub(crate) struct Turns(Arc<Semaphore>);

impl Turns {
    /// So many, or with none as many as the machine has cores.
    pub(crate) fn new(n: Option<usize>) -> Turns {
        let n_cores = || available_parallelism().map_or(1, usize::from);
        Turns(Arc::new(Semaphore::new(n.unwrap_or_else(n_cores))))
    }

    /// How many are free.
    #[cfg(test)]
    pub(crate) fn n_free(&self) -> usize {
        self.0.available_permits()
    }
}

/// Somebody waits for the answer while this lives.
#[derive(Debug, Default)]
pub(crate) struct Waiting(Arc<AtomicBool>);

impl Waiting {
    /// How the work finds out whether anybody still does.
    pub(crate) fn is_left(&self, desk: &Arc<Desk>) -> IsLeft {
        IsLeft { by_asker: Arc::clone(&self.0), desk: Arc::clone(desk) }
    }
}

impl Drop for Waiting {
    fn drop(&mut self) {
        self.0.store(true, Ordering::Relaxed);
    }
}

/// Whether nobody waits any more, or the desk ends.
#[derive(Clone, Debug)]
pub(crate) struct IsLeft {
    by_asker: Arc<AtomicBool>,
    desk: Arc<Desk>,
}

impl IsLeft {
    pub(crate) fn is_so(&self) -> bool {
        self.by_asker.load(Ordering::Relaxed) || self.desk.is_ending()
    }
}
