//! The desk itself: the folder, the store, and what was found out about the pack as it is now.

mod looking;
mod own;
mod studies;
mod writing;

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

use pack::PuzzleId;
use study::{StudiedPack, Study, TwinKind};
use tokio::sync::{Mutex, broadcast, watch};

use crate::aside::Turns;
use crate::doors::{Door, Public};
use crate::failure::Failure;
use crate::folder::{Folder, Held, Reading};
use crate::jobs::Jobs;
use crate::pressing::Press;
use crate::store::Store;
use crate::studying::Studying;
use crate::token::Token;

pub(crate) use own::kept_or_refused;

/// What happened, for pages that are open.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum News {
    /// Files were changed, here or by another program.
    Files,
    /// What another program changed is in the history.
    Noted,
    /// Everything is found out about the files as they are.
    Studied,
    /// Test solves have gone on, or something else that lies beside the puzzles.
    Solves,
    /// Something cannot be read or kept at the moment, or found out at all.
    Trouble,
    /// The desk ends.
    End,
}

/// The pack as it was last read, with what is known of it by now.
#[derive(Clone, Debug)]
pub(crate) struct View {
    /// The files.
    pub(crate) reading: Arc<Reading>,
    /// The pack; none while it is being studied.
    pub(crate) pack: Option<Arc<StudiedPack>>,
    /// Why nothing will be found out about the files as they are.
    fault: Option<Failure>,
    /// Which of its puzzles are twins, as far as that is known.
    pub(crate) twins: Arc<[TwinsFound]>,
    troubles: Troubles,
    /// Grows with whatever makes what was found out outdated; 0 before anything is.
    version: u64,
}

/// What is wrong at the moment, each for itself.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
struct Troubles {
    /// The folder cannot be read.
    folder: Option<Failure>,
    /// The store cannot be read.
    store: Option<Failure>,
    /// The desk's own folder is another than it was.
    own: Option<Failure>,
}

impl View {
    /// Whether nothing will be found out about the files as they are.
    pub(crate) fn is_given_up(&self) -> bool {
        self.fault.is_some()
    }

    /// Everything that is wrong at the moment.
    pub(crate) fn troubles(&self) -> impl Iterator<Item = &Failure> {
        let Troubles { folder, store, own } = &self.troubles;
        [own, folder, store, &self.fault].into_iter().flatten()
    }
}

/// Puzzles of the pack that are the same seen from another side, or have the same solution.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(crate) struct TwinsFound {
    pub(crate) kind: TwinKind,
    /// Their ids, in the order of the pack.
    pub(crate) puzzles: Vec<PuzzleId>,
}

/// Everything that the routes share.
#[derive(Debug)]
pub(crate) struct Desk {
    folder: Folder,
    pub(crate) store: Store,
    pub(crate) token: Token,
    /// Who may come in.
    pub(crate) door: Door,
    /// Stands in the addresses of the outputs, so that only the desk's own pages know them.
    pub(crate) shown: Token,
    pub(crate) jobs: Jobs,
    pub(crate) pressing: Option<Arc<dyn Press>>,
    view: watch::Sender<View>,
    news: broadcast::Sender<News>,
    /// Editors who have something computed.
    pub(crate) computing: Turns,
    /// Invited people who do.
    pub(crate) helping: Turns,
    studying: Arc<Mutex<Studying>>,
    /// The seals that were opened at this desk, as they were last read.
    seals: Mutex<Arc<[String]>>,
    is_ending: AtomicBool,
    /// One write at a time: each is held against what the one before has left.
    writing: Mutex<()>,
    /// The files of its own folder that the desk holds open.
    held: Vec<Held>,
}

impl Desk {
    /// Opens the pack in that folder.
    ///
    /// # Errors
    ///
    /// If it cannot be read or written, or another desk works on it.
    pub(crate) async fn open(folder: Folder) -> Result<Desk, Failure> {
        let (lock, path) = (folder.own().join("desk.lock"), folder.own().join("desk.db"));
        let store = Store::open(&path).await?;
        let held = [lock, path]
            .map(|it| Held::at(&it).map_err(|error| Failure::of_file(&it, "cannot be found", &error)));
        let held = held.into_iter().collect::<Result<_, _>>()?;
        let view = View {
            reading: Arc::new(folder.read()?),
            pack: None,
            fault: None,
            twins: Arc::default(),
            troubles: Troubles::default(),
            version: 0,
        };
        Ok(Desk {
            folder,
            store,
            token: Token::new()?,
            door: Door::new(None),
            shown: Token::new()?,
            jobs: Jobs::new(),
            pressing: None,
            view: watch::Sender::new(view),
            news: broadcast::Sender::new(64),
            computing: Turns::new(None),
            // One tester's question takes a second at most; with two turns they leave a core on most machines.
            helping: Turns::new(Some(2)),
            studying: Arc::default(),
            seals: Mutex::default(),
            is_ending: AtomicBool::new(false),
            writing: Mutex::default(),
            held,
        })
    }

    /// The same desk, reached at that address from elsewhere.
    pub(crate) fn reached_at(self, public: Option<Public>) -> Desk {
        Desk { door: Door::new(public), ..self }
    }

    pub(crate) fn folder(&self) -> &Folder {
        &self.folder
    }

    /// The pack as it is known now.
    pub(crate) fn view(&self) -> View {
        self.view.borrow().clone()
    }

    /// What happens from now on.
    pub(crate) fn listen(&self) -> broadcast::Receiver<News> {
        self.news.subscribe()
    }

    /// Tells all pages that are open.
    pub(crate) fn tell(&self, news: News) {
        // With no page open there is nobody to tell.
        _ = self.news.send(news);
    }

    /// Breaks off what is being found out, and tells all pages.
    pub(crate) fn end(&self) {
        self.is_ending.store(true, Ordering::Relaxed);
        self.jobs.cancel_all();
        self.tell(News::End);
    }

    /// Whether the desk is ending, so that long work should too.
    pub(crate) fn is_ending(&self) -> bool {
        self.is_ending.load(Ordering::Relaxed)
    }
}

/// The study of the puzzle with that id.
pub(crate) fn study_of<'a>(pack: &'a StudiedPack, id: &str) -> Option<&'a Study> {
    pack.all().find(|it| it.entry().id.as_str() == id)
}
