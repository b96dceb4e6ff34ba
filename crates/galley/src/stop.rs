//! Ctrl-C, or whatever else ends work early, turned into a question that long work asks now and then.

use std::fmt;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use crate::outcome::{FAILED, Failure};

/// Whether the person at the keyboard wants the work to end.
#[derive(Clone)]
pub(crate) struct Stop(Arc<dyn Fn() -> bool + Send + Sync>);

impl Stop {
    /// Starts to listen. The first Ctrl-C asks for a clean end; a second one ends the program at once,
    /// for a puzzle that takes too long to wait for.
    pub(crate) fn listen() -> Stop {
        let asked = Arc::new(AtomicBool::new(false));
        let heard = Arc::clone(&asked);
        // Without a handler Ctrl-C still ends the program, so it can do its work all the same.
        _ = ctrlc::set_handler(move || {
            if heard.swap(true, Ordering::Relaxed) {
                std::process::exit(i32::from(FAILED));
            }
        });
        Stop(Arc::new(move || asked.load(Ordering::Relaxed)))
    }

    /// When that says so.
    pub(crate) fn when(is_asked: impl Fn() -> bool + Send + Sync + 'static) -> Stop {
        Stop(Arc::new(is_asked))
    }

    /// Whether the work should end.
    pub(crate) fn is_asked(&self) -> bool {
        (self.0)()
    }

    /// Goes on only if nobody asked to stop.
    pub(crate) fn check(&self) -> Result<(), Failure> {
        if self.is_asked() { Err(Failure::interrupted()) } else { Ok(()) }
    }

    /// Answers a question of `prove`, which ends early when somebody asks to stop; the answer is thrown away
    /// then.
    pub(crate) fn interrupting<T>(&self, question: impl FnOnce() -> T) -> Result<T, Failure> {
        let stop = self.clone();
        let answer = prove::interruptible(move || stop.is_asked(), question);
        self.check()?;
        Ok(answer)
    }
}

impl fmt::Debug for Stop {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Stop({})", self.is_asked())
    }
}
