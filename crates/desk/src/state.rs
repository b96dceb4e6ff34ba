//! The desk itself: the folder, the store, and what was found out about the pack as it is now.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

use pack::PuzzleId;
use study::{Compared, StudiedPack, Study, TwinKind};
use tokio::sync::{broadcast, watch};

use crate::answers::Refused;
use crate::doors::{Door, Public};
use crate::failure::Failure;
use crate::folder::{Digest, Folder, Reading, Unwritten};
use crate::jobs::Jobs;
use crate::pressing::Press;
use crate::store::{Change, Store, Unkept};
use crate::studying::{BrokenOff, Studying};
use crate::token::Token;

/// What happened, for pages that are open.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum News {
    /// Files were changed, here or by another program.
    Files,
    /// Everything is found out about the files as they are.
    Studied,
    /// Test solves have gone on, or something else that lies beside the puzzles.
    Solves,
    /// The folder cannot be read at the moment.
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
    /// Which of its puzzles are twins, as far as that is known.
    pub(crate) twins: Arc<[TwinsFound]>,
    /// Why the folder or the store could not be read since.
    pub(crate) trouble: Option<Failure>,
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
    studying: Mutex<Studying>,
    is_ending: AtomicBool,
    /// One write at a time: each is held against what the one before has left.
    writing: tokio::sync::Mutex<()>,
}

impl Desk {
    /// Opens the pack in that folder.
    ///
    /// # Errors
    ///
    /// If it cannot be read or written, or another desk works on it.
    pub(crate) async fn open(folder: Folder) -> Result<Desk, Failure> {
        let store = Store::open(&folder.own().join("desk.db")).await?;
        let reading = Arc::new(folder.read()?);
        let view = View { reading, pack: None, twins: Arc::default(), trouble: None };
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
            studying: Mutex::default(),
            is_ending: AtomicBool::new(false),
            writing: tokio::sync::Mutex::default(),
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

    /// The pack once everything is found out about it.
    pub(crate) async fn studied(&self) -> Result<(Arc<Reading>, Arc<StudiedPack>), Refused> {
        let mut views = self.view.subscribe();
        let view = views.wait_for(|it| it.pack.is_some()).await.map_err(|_| Refused::ending())?.clone();
        let pack = view.pack.ok_or_else(Refused::ending)?;
        Ok((view.reading, pack))
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

    /// Reads the folder again; if anything is another, says so, and finds everything out anew.
    pub(crate) async fn look_again(self: &Arc<Desk>) {
        let desk = Arc::clone(self);
        let read = tokio::task::spawn_blocking(move || desk.folder.read()).await;
        let reading = match read {
            Ok(Ok(it)) => it,
            Ok(Err(failure)) => return self.note_trouble(failure),
            Err(_) => return,
        };
        let is_same = {
            let view = self.view.borrow();
            view.trouble.is_none()
                && view.reading.files == reading.files
                && view.reading.problems == reading.problems
        };
        if !is_same {
            self.view.send_replace(View {
                reading: Arc::new(reading),
                pack: None,
                twins: Arc::default(),
                trouble: None,
            });
            self.tell(News::Files);
        }
        if self.view.borrow().pack.is_none() {
            self.study().await;
        }
    }

    fn note_trouble(&self, failure: Failure) {
        let is_new = self.view.borrow().trouble.as_ref() != Some(&failure);
        if is_new {
            self.view.send_modify(|it| it.trouble = Some(failure));
            self.tell(News::Trouble);
        }
    }

    /// Finds out everything about the files as they are; what has changed meanwhile is for the next look.
    pub(crate) async fn study(self: &Arc<Desk>) {
        let opened = match self.store.opened_seals().await {
            Ok(it) => it,
            Err(unkept) => {
                // Pages wait for the pack, so they are shown it, with every seal closed.
                self.note_trouble(unkept.failure(&self.folder.own().join("desk.db")));
                Vec::new()
            }
        };
        let reading = Arc::clone(&self.view.borrow().reading);
        let (desk, of) = (Arc::clone(self), Arc::clone(&reading));
        let found = tokio::task::spawn_blocking(move || {
            // What is no longer there need not be found out.
            let is_outdated = || !Arc::ptr_eq(&desk.view.borrow().reading, &of);
            let pack = desk.study_now(&of, &opened, None, &is_outdated)?;
            let twins = twins_in(&pack);
            Ok::<_, BrokenOff>((pack, twins))
        });
        let Ok(Ok((pack, twins))) = found.await else { return };
        let mut is_current = false;
        self.view.send_if_modified(|view| {
            is_current = Arc::ptr_eq(&view.reading, &reading);
            if is_current {
                view.pack = Some(Arc::new(pack));
                view.twins = twins;
            }
            is_current
        });
        if is_current {
            self.tell(News::Studied);
        }
    }

    /// The same, here and now, perhaps in another order. It computes: not for the thread that answers.
    pub(crate) fn study_now(
        &self,
        reading: &Reading,
        opened: &[String],
        order: Option<Vec<PuzzleId>>,
        is_outdated: &(dyn Fn() -> bool + Sync),
    ) -> Result<StudiedPack, BrokenOff> {
        let mut studying = self.studying.lock().unwrap_or_else(PoisonError::into_inner);
        let is_unsealed = |id: &PuzzleId| opened.iter().any(|it| it == id.as_str());
        let is_asked = || self.is_ending.load(Ordering::Relaxed) || is_outdated();
        studying.study(&reading.read.pack, &reading.calibrations.silent, is_unsealed, order, &is_asked)
    }

    /// Whether the desk is ending, so that long work should too.
    pub(crate) fn is_ending(&self) -> bool {
        self.is_ending.load(Ordering::Relaxed)
    }

    /// Opens or closes a seal at this desk, and finds everything out anew.
    pub(crate) async fn set_opened(self: &Arc<Desk>, puzzle: &str, opened: bool) -> Result<(), Unkept> {
        match opened {
            true => self.store.open_seal(puzzle).await?,
            false => self.store.close_seal(puzzle).await?,
        }
        self.view.send_modify(|it| it.pack = None);
        self.study().await;
        Ok(())
    }

    /// Changes a file that was `began_from` when the edit began, or with none makes one; what it was before is kept.
    /// Gives the digest that it has then.
    pub(crate) async fn write(
        self: &Arc<Desk>,
        file: &str,
        began_from: Option<Digest>,
        text: String,
    ) -> Result<Digest, Refused> {
        let one_at_a_time = self.writing.lock().await;
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
        let written = tokio::task::spawn_blocking(move || desk.folder.write(&name, began_from, &text)).await;
        let refused = match written {
            Ok(Ok(())) => None,
            Ok(Err(Unwritten::ChangedMeanwhile)) => Some(Refused::changed_meanwhile(file)),
            Ok(Err(Unwritten::OutsidePack)) => Some(Refused::outside_pack(file)),
            Ok(Err(Unwritten::Failed(failure))) => Some(Refused::failed(&failure)),
            Err(_) => Some(Refused::ending()),
        };
        if let Some(refused) = refused {
            // A note too many is only a line in the history that changes nothing.
            _ = self.store.forget_change(&id).await;
            return Err(refused);
        }
        drop(one_at_a_time);
        self.read_after_write().await;
        Ok(after)
    }

    /// What was written is on the pages at once; finding everything out goes on behind.
    async fn read_after_write(self: &Arc<Desk>) {
        let desk = Arc::clone(self);
        let Ok(Ok(reading)) = tokio::task::spawn_blocking(move || desk.folder.read()).await else { return };
        self.view.send_replace(View {
            reading: Arc::new(reading),
            pack: None,
            twins: Arc::default(),
            trouble: None,
        });
        self.tell(News::Files);
        let desk = Arc::clone(self);
        tokio::spawn(async move { desk.study().await });
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

/// The study of the puzzle with that id.
pub(crate) fn study_of<'a>(pack: &'a StudiedPack, id: &str) -> Option<&'a Study> {
    pack.all().find(|it| it.entry().id.as_str() == id)
}
