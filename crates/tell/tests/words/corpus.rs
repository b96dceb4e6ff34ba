//! Whole walkthroughs to try the words on: the demo pack's puzzles and some from seeds.

use std::path::Path;
use std::sync::OnceLock;

use grid::Size;
use packfile::{SourceFile, read_puzzle};
use prove::{Limit, Verdict};
use reason::{Known, Search, Settings, explain};
use replay::Checked;
use rulebook::Puzzle;
use trail::{TechniqueId, Trail, Walkthrough};

use crate::seeded;

/// Side, sandwich clues, and seeds.
const SEEDED: [(u8, usize, std::ops::Range<u64>); 5] =
    [(9, 18, 0..4), (9, 14, 0..1), (9, 0, 0..1), (6, 6, 0..4), (4, 8, 0..2)];

/// Those told with the easier techniques alone, so that small arguments abound.
const ARGUED: [(u8, usize, std::ops::Range<u64>); 3] = [(9, 18, 0..2), (9, 0, 0..1), (6, 6, 0..6)];

/// A puzzle with its walkthrough.
pub(crate) struct Walked {
    pub(crate) name: String,
    pub(crate) puzzle: Puzzle,
    explained: Checked,
}

impl Walked {
    pub(crate) fn walkthrough(&self) -> &Walkthrough {
        self.explained.walkthrough()
    }

    pub(crate) fn trail(&self) -> &Trail {
        self.walkthrough().trail()
    }
}

/// All of them, explained once for all tests.
pub(crate) fn corpus() -> &'static [Walked] {
    static WALKED: OnceLock<Vec<Walked>> = OnceLock::new();
    WALKED.get_or_init(|| {
        let known = Known::up_to(TechniqueId::new("naked-single"));
        let argued = Settings { known, search: Search::EasiestNext, ..Settings::WHATEVER_IT_TAKES };
        demo()
            .into_iter()
            .chain(seeded(&SEEDED, Settings::WHATEVER_IT_TAKES))
            .chain(seeded(&ARGUED, argued))
            .collect()
    })
}

fn demo() -> Vec<Walked> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../demo/lantern-room/puzzles");
    let mut paths: Vec<_> = std::fs::read_dir(folder).unwrap().map(|it| it.unwrap().path()).collect();
    paths.sort();
    let puzzle = |path: &Path| {
        let name = path.file_stem().unwrap().to_str().unwrap().to_owned();
        let file = SourceFile::new(format!("{name}.toml"), std::fs::read_to_string(path).unwrap());
        (name, read_puzzle(&file).0.unwrap().puzzle)
    };
    paths
        .iter()
        .map(|it| puzzle(it))
        .map(|(name, puzzle)| walk(name, puzzle, Settings::WHATEVER_IT_TAKES))
        .collect()
}

fn seeded(of: &[(u8, usize, std::ops::Range<u64>)], settings: Settings) -> Vec<Walked> {
    let each = of.iter().cloned().flat_map(|it| it.2.map(move |seed| (it.0, it.1, seed)));
    each.map(|(side, n_clues, seed)| {
        let made = seeded::puzzle(Size::of_side(side).unwrap(), n_clues, seed);
        walk(format!("seed {seed} on {side}x{side} with {n_clues} clues"), made.puzzle, settings)
    })
    .collect()
}

fn walk(name: String, puzzle: Puzzle, settings: Settings) -> Walked {
    let Verdict::One(solution) = prove::verdict(&puzzle, Limit(200_000)) else {
        panic!("{name}: not one solution")
    };
    let explained = explain(&puzzle, &solution, settings);
    let explained = explained.unwrap_or_else(|stopped| panic!("{name}: {stopped:?}"));
    Walked { name, puzzle, explained }
}
