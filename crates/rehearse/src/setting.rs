//! What a walkthrough is said for: the puzzle, its place in a pack, and what the editor has noted.

use std::collections::BTreeMap;

use pack::{Notes, PuzzleId};
use study::{Account, StudiedPack, Study};
use trail::TechniqueId;

use crate::Pace;
use crate::stumbles::Stop;

/// A puzzle that is open and has a walkthrough, and all that bears on how it is told.
#[derive(Clone, Debug)]
pub struct Setting<'a> {
    pub(crate) study: &'a Study,
    pub(crate) account: &'a Account,
    /// The pack's title; may be blank.
    pub(crate) pack_title: String,
    /// Where the pack will be on the web.
    pub(crate) pack_address: Option<String>,
    /// Where the puzzle's page will be on the web.
    pub(crate) address: Option<String>,
    /// The title of the puzzle in which each technique was taught before.
    pub(crate) taught: BTreeMap<TechniqueId, String>,
    pub(crate) notes: Notes,
    pub(crate) pace: Pace,
    pub(crate) stops: Vec<Stop>,
}

impl<'a> Setting<'a> {
    /// The puzzle by itself; none if it is sealed or has no walkthrough.
    pub fn alone(study: &'a Study, pack_title: &str) -> Option<Setting<'a>> {
        let account = study.opened()?.account?;
        Some(Setting {
            study,
            account,
            pack_title: pack_title.to_owned(),
            pack_address: None,
            address: None,
            taught: BTreeMap::new(),
            notes: Notes::default(),
            pace: Pace::default(),
            stops: Vec::new(),
        })
    }

    /// The puzzle at its place in the pack; none if it is not in it, is sealed, or has no walkthrough.
    pub fn in_pack(pack: &'a StudiedPack, id: &PuzzleId) -> Option<Setting<'a>> {
        let study = pack.all().find(|it| it.entry().id == *id)?;
        let alone = Setting::alone(study, &pack.info().title)?;
        let taught_before = pack.studies().iter().take_while(|it| it.entry().id != *id);
        let mut taught = BTreeMap::new();
        for it in taught_before {
            let techniques = it.opened().and_then(|it| it.account).map(|it| it.techniques());
            let from_start = &pack.info().knows;
            for technique in techniques.into_iter().flatten().filter(|it| !from_start.contains(it)) {
                taught.entry(*technique).or_insert_with(|| it.entry().title.clone());
            }
        }
        let pack_address = site::pack_address(pack.info());
        Some(Setting { taught, pack_address, address: site::puzzle_address(pack.info(), id), ..alone })
    }

    /// The puzzle, with everything found out about it.
    pub fn study(&self) -> &'a Study {
        self.study
    }

    /// Its walkthrough.
    pub fn account(&self) -> &'a Account {
        self.account
    }

    /// The pack's title; may be blank.
    pub fn pack_title(&self) -> &str {
        &self.pack_title
    }

    /// The same with what the editor has noted. A pace that is noted is the one that counts.
    #[must_use]
    pub fn noted(self, notes: Notes) -> Setting<'a> {
        let pace = notes.words_a_minute.map_or(self.pace, Pace::speaking);
        Setting { notes, pace, ..self }
    }

    /// The same at that pace, unless the notes say one.
    #[must_use]
    pub fn at_pace(self, pace: Pace) -> Setting<'a> {
        let pace = self.notes.words_a_minute.map_or(pace, Pace::speaking);
        Setting { pace, ..self }
    }

    /// The same with where testers stopped.
    #[must_use]
    pub fn tested(self, stops: Vec<Stop>) -> Setting<'a> {
        Setting { stops, ..self }
    }
}
