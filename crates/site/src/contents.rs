//! What of a pack is published, in order, as the pages ask about it.

use grid::Size;
use pack::{Coverage, Day, PackInfo};
use primer::Primer;
use study::{Published, StudiedPack};
use tell::RuleWords;
use trail::TechniqueId;

use crate::address::address;

/// The puzzles of the site, and what they teach.
#[derive(Debug)]
pub(crate) struct Contents<'a> {
    pub(crate) info: &'a PackInfo,
    /// In pack order.
    pub(crate) published: Vec<Published<'a>>,
    /// On how many logged solves its minutes are calibrated.
    pub(crate) n_solves: usize,
    pub(crate) primer: &'a Primer,
    /// The day on which the site comes out.
    pub(crate) issued: Option<Day>,
    coverage: Vec<Coverage>,
}

impl<'a> Contents<'a> {
    /// Of all puzzles those that may be published.
    pub(crate) fn new(pack: &'a StudiedPack, primer: &'a Primer, issued: Option<Day>) -> Contents<'a> {
        Contents {
            primer,
            issued,
            info: pack.info(),
            published: pack.published(),
            n_solves: pack.n_solves(),
            coverage: pack.coverage(),
        }
    }

    /// Whether there is a feed: it needs an address and a day.
    pub(crate) fn has_feed(&self) -> bool {
        self.issued.is_some() && address(self.info, "").is_some() && !self.published.is_empty()
    }

    /// The puzzles in stretches of one shelf each.
    pub(crate) fn shelves(&self) -> impl Iterator<Item = &[Published<'a>]> {
        self.published.chunk_by(|a, b| a.shelf == b.shelf)
    }

    /// The techniques that solvers are taken to know before the first puzzle, easiest first.
    pub(crate) fn known(&self) -> Vec<TechniqueId> {
        self.coverage.iter().filter(|it| it.is_known).map(|it| it.technique).collect()
    }

    /// The techniques that are not known from the start and that the puzzle is the first to use, easiest first.
    pub(crate) fn new_in(&self, puzzle: &Published) -> Vec<TechniqueId> {
        let id = &puzzle.study.entry().id;
        self.coverage.iter().filter(|it| it.taught_in() == Some(id)).map(|it| it.technique).collect()
    }

    /// The techniques that solvers of the puzzle at that place know: from the start, from the puzzles before it, and
    /// what it brings itself; easiest first.
    pub(crate) fn taught_by(&self, at: usize) -> Vec<TechniqueId> {
        let so_far: Vec<TechniqueId> = self.published[..=at].iter().flat_map(|it| self.new_in(it)).collect();
        let is_taught = |it: &&Coverage| it.is_known || so_far.contains(&it.technique);
        self.coverage.iter().filter(is_taught).map(|it| it.technique).collect()
    }

    /// The techniques that the puzzle uses, easiest first.
    pub(crate) fn used_in(&self, puzzle: &Published) -> Vec<TechniqueId> {
        let id = &puzzle.study.entry().id;
        self.coverage.iter().filter(|it| it.puzzles.contains(id)).map(|it| it.technique).collect()
    }

    /// Every rule that some puzzle has, told once; with the size where there is more than one.
    pub(crate) fn rules(&self) -> Vec<(Option<Size>, RuleWords)> {
        let puzzles = self.published.iter().map(|it| &it.study.entry().puzzle);
        let mut rules: Vec<(Size, RuleWords)> = Vec::new();
        for puzzle in puzzles {
            for told in tell::rules(puzzle) {
                let size = puzzle.size();
                match rules.iter_mut().find(|(of, it)| (*of, &it.name) == (size, &told.name)) {
                    // Boards with bare lines have a sentence more.
                    Some((_, known)) if known.full.len() < told.full.len() => *known = told,
                    Some(_) => {}
                    None => rules.push((size, told)),
                }
            }
        }
        let one_size = rules.iter().all(|it| it.0 == rules[0].0);
        rules.into_iter().map(|(size, told)| ((!one_size).then_some(size), told)).collect()
    }
}
