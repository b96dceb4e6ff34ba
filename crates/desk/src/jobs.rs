//! Long work beside the pages: begun by a request, done in its turn, told as it goes on, broken off when asked.
//!
//! One job of a kind runs at a time, the others wait; it has the cores but one, so that pages stay quick. Whoever was away
//! asks for all jobs as they are: nothing is told only once. A job that is broken off leaves nothing behind.
//!
//! Left out: jobs outlive no desk. What they wrote stays; what was made and not kept can be made again from its seed.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use serde::Serialize;
use tokio::sync::watch;
use utoipa::ToSchema;

use crate::failure::Failure;
use crate::pressing::Pressed;
use crate::setting::SetPuzzles;

/// Jobs that are over are remembered up to so many, the newest.
const MOST_REMEMBERED: usize = 30;
/// So many may wait.
const MOST_WAITING: usize = 20;

/// What a job does. Of each kind one runs at a time.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, ToSchema)]
#[serde(rename_all = "lowercase")]
pub(crate) enum Kind {
    /// Makes everything that is written of the pack.
    Press,
    /// Sets puzzles that teach what the pack lacks.
    Set,
}

/// How far a job is.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, ToSchema)]
#[serde(rename_all = "lowercase")]
pub(crate) enum JobState {
    /// Another of its kind runs.
    Waiting,
    /// It is being done.
    Running,
    /// It is done.
    Done,
    /// It could not be done.
    Failed,
    /// Somebody broke it off, and nothing is left of it.
    Cancelled,
}

/// A job as it is now.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct JobNow {
    /// Its number, from 1 since the desk was started.
    pub(crate) id: u64,
    /// What it does.
    pub(crate) kind: Kind,
    /// What it is about, in a few words.
    pub(crate) title: String,
    /// How far it is.
    pub(crate) state: JobState,
    /// What it is at, what came of it, or why it failed.
    pub(crate) says: String,
    /// The next move, if it failed.
    pub(crate) help: Option<String>,
    /// How much is done of what it is at, if that can be counted.
    pub(crate) done: Option<u64>,
    /// How much there is of that.
    pub(crate) of: Option<u64>,
}

/// What came of a job.
#[derive(Clone, Debug)]
pub(crate) enum Yield {
    /// The outputs were written.
    Pressed(Pressed),
    /// Puzzles were set.
    Set(SetPuzzles),
}

/// The work of a job. It looks now and then whether it is to go on.
pub(crate) type Work = Box<dyn FnOnce(&Watched) -> Result<Yield, Failure> + Send>;

/// All jobs of a desk.
#[derive(Clone, Debug)]
pub(crate) struct Jobs(Arc<Inner>);

#[derive(Debug)]
struct Inner {
    jobs: Mutex<Vec<Job>>,
    /// Anew with every change.
    changed: watch::Sender<u64>,
}

struct Job {
    now: JobNow,
    is_cancelled: Arc<AtomicBool>,
    work: Option<Work>,
    yielded: Option<Yield>,
}

impl std::fmt::Debug for Job {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.now.fmt(f)
    }
}

/// The job from within: whether it is to go on, and where it tells how far it is.
#[derive(Clone, Debug)]
pub struct Watched {
    jobs: Arc<Inner>,
    id: u64,
    is_cancelled: Arc<AtomicBool>,
}

impl Watched {
    /// Whether somebody has broken the job off, or the desk ends.
    pub fn is_cancelled(&self) -> bool {
        self.is_cancelled.load(Ordering::Relaxed)
    }

    /// Tells what the job is at, and how much of it is done if that can be counted: so many of so many.
    pub fn tell(&self, says: &str, counted: Option<(u64, u64)>) {
        self.jobs.change(self.id, |it| {
            says.clone_into(&mut it.now.says);
            (it.now.done, it.now.of) = counted.unzip();
        });
    }
}

/// Why no job was begun: too many wait.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) struct TooMany;

impl Jobs {
    pub(crate) fn new() -> Jobs {
        Jobs(Arc::new(Inner { jobs: Mutex::default(), changed: watch::Sender::new(0) }))
    }

    /// Begins a job, or has it wait for its turn. It needs a tokio runtime.
    pub(crate) fn begin(&self, kind: Kind, title: String, work: Work) -> Result<JobNow, TooMany> {
        let id = {
            let mut jobs = self.0.lock();
            if jobs.iter().filter(|it| it.now.state == JobState::Waiting).count() >= MOST_WAITING {
                return Err(TooMany);
            }
            let id = jobs.last().map_or(1, |it| it.now.id + 1);
            let (state, says) = (JobState::Waiting, "It waits for its turn.".to_owned());
            let now = JobNow { id, kind, title, state, says, help: None, done: None, of: None };
            jobs.push(Job { now, is_cancelled: Arc::default(), work: Some(work), yielded: None });
            id
        };
        self.0.forget_old();
        Inner::start_next(&self.0, kind);
        Ok(self.one(id).unwrap_or_else(|| unreachable!("what has just begun is remembered")))
    }

    /// All that are remembered, the newest first.
    pub(crate) fn all(&self) -> Vec<JobNow> {
        self.0.lock().iter().rev().map(|it| it.now.clone()).collect()
    }

    /// The one with that number.
    pub(crate) fn one(&self, id: u64) -> Option<JobNow> {
        self.0.lock().iter().find(|it| it.now.id == id).map(|it| it.now.clone())
    }

    /// What came of the one with that number, if it is done.
    pub(crate) fn yielded(&self, id: u64) -> Option<Yield> {
        self.0.lock().iter().find(|it| it.now.id == id).and_then(|it| it.yielded.clone())
    }

    /// Changes what came of one.
    pub(crate) fn change_yield(&self, id: u64, change: impl FnOnce(&mut Yield)) {
        self.0.change(id, |it| {
            if let Some(yielded) = &mut it.yielded {
                change(yielded);
            }
        });
    }

    /// Breaks one off: at once if it waits, else as soon as it looks. Says whether there is such a job.
    pub(crate) fn cancel(&self, id: u64) -> bool {
        let is_there = self.one(id).is_some();
        self.0.change(id, |it| {
            it.is_cancelled.store(true, Ordering::Relaxed);
            match it.now.state {
                JobState::Waiting => {
                    it.is_over(JobState::Cancelled, "Broken off before it began.".to_owned())
                }
                JobState::Running => "It is being broken off.".clone_into(&mut it.now.says),
                _ => {}
            }
        });
        is_there
    }

    /// Breaks all off, for the desk ends.
    pub(crate) fn cancel_all(&self) {
        for it in self.all() {
            self.cancel(it.id);
        }
    }

    /// Whatever changes from now on, and once at the beginning.
    pub(crate) fn listen(&self) -> watch::Receiver<u64> {
        self.0.changed.subscribe()
    }
}

impl Inner {
    fn lock(&self) -> MutexGuard<'_, Vec<Job>> {
        self.jobs.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn change(&self, id: u64, change: impl FnOnce(&mut Job)) {
        if let Some(it) = self.lock().iter_mut().find(|it| it.now.id == id) {
            change(it);
        }
        self.changed.send_modify(|it| *it += 1);
    }

    /// Lets go of the oldest that are over.
    fn forget_old(&self) {
        let mut jobs = self.lock();
        while jobs.len() > MOST_REMEMBERED {
            let Some(at) = jobs.iter().position(|it| it.now.state.is_over()) else { return };
            jobs.remove(at);
        }
    }

    /// Starts the first that waits, if none of its kind runs.
    fn start_next(inner: &Arc<Inner>, kind: Kind) {
        let mut jobs = inner.lock();
        let is_of_kind = |it: &&mut Job| it.now.kind == kind;
        if jobs.iter().any(|it| it.now.kind == kind && it.now.state == JobState::Running) {
            return;
        }
        let mut waiting = jobs.iter_mut().filter(is_of_kind).filter(|it| it.now.state == JobState::Waiting);
        let Some(job) = waiting.next() else { return };
        let Some(work) = job.work.take() else { return };
        job.now.state = JobState::Running;
        job.now.says = "It begins.".to_owned();
        let id = job.now.id;
        let watched = Watched { jobs: Arc::clone(inner), id, is_cancelled: Arc::clone(&job.is_cancelled) };
        drop(jobs);
        inner.changed.send_modify(|it| *it += 1);
        let inner = Arc::clone(inner);
        tokio::spawn(async move {
            let done = tokio::task::spawn_blocking(move || on_spare_cores(work, &watched)).await;
            let fault = |_| Err(Failure::new("the work broke off by a fault of Galley's", "try once more"));
            let done = done.unwrap_or_else(fault);
            inner.change(id, |it| it.ends(done));
            Inner::start_next(&inner, kind);
        });
    }
}

/// Does the work on all cores but one, which the pages have.
fn on_spare_cores(work: Work, watched: &Watched) -> Result<Yield, Failure> {
    let n_cores = std::thread::available_parallelism().map_or(1, |it| it.get().saturating_sub(1).max(1));
    let cores = rayon::ThreadPoolBuilder::new().num_threads(n_cores).build();
    let cores = cores.map_err(|it| Failure::new(format!("no work can be begun: {it}"), "try once more"))?;
    cores.install(|| work(watched))
}

impl Job {
    fn ends(&mut self, done: Result<Yield, Failure>) {
        match done {
            Ok(it) => {
                self.is_over(JobState::Done, it.in_short());
                self.yielded = Some(it);
            }
            Err(_) if self.is_cancelled.load(Ordering::Relaxed) => {
                self.is_over(JobState::Cancelled, "Broken off. Nothing is left of it.".to_owned());
            }
            Err(failure) => {
                self.is_over(JobState::Failed, format!("{}.", tell::capital(&failure.message)));
                self.now.help = Some(format!("{}.", tell::capital(&failure.help)));
            }
        }
    }

    fn is_over(&mut self, state: JobState, says: String) {
        self.now.state = state;
        self.now.says = says;
        (self.now.done, self.now.of) = (None, None);
        self.work = None;
    }
}

impl Yield {
    /// What came of it, in a sentence.
    fn in_short(&self) -> String {
        match self {
            Yield::Pressed(it) if it.has_errors => "Written; the pack has problems.".to_owned(),
            Yield::Pressed(_) => "Everything is written.".to_owned(),
            Yield::Set(it) => it.in_short(),
        }
    }
}

impl JobState {
    pub(crate) fn is_over(self) -> bool {
        !matches!(self, JobState::Waiting | JobState::Running)
    }

    /// As a page says it.
    pub(crate) fn in_words(self) -> &'static str {
        match self {
            JobState::Waiting => "waiting",
            JobState::Running => "at work",
            JobState::Done => "done",
            JobState::Failed => "failed",
            JobState::Cancelled => "broken off",
        }
    }
}
