//! One puzzle, ready to answer.

use draw::{Board, Scale};
use grid::{Cell, CellSet, Grid, Size};
use prove::{Limit, Verdict, verdict};
use reason::{
    Known, Mistake, Next, Position, Search, Settings, Solved, Written, mistake, n_steps_to, next_step, rank,
};
use rulebook::{Claim, Puzzle};
use trail::{Origin, StepId, Trail};

use crate::answers::{self, Answer, Drawn, Hint, Pencil, Said, Settles, Why, WhyStep};
use crate::page::{NoPuzzle, Page};
use crate::sheet::{self, NoSheet};

/// Nodes that proving a page's puzzle may take; it was proved within fewer before it was published.
const PROOF: Limit = Limit(40_000_000);

/// A puzzle that questions can be asked about.
#[derive(Debug)]
pub struct Player {
    puzzle: Puzzle,
    solution: Grid,
    taught: Known,
    /// From the page to the solution; made when it is first asked for.
    walkthrough: Option<Trail>,
}

impl Player {
    /// The player of the puzzle that a page embeds, in the JSON that `site` writes.
    ///
    /// # Errors
    ///
    /// If it is no puzzle with exactly one solution.
    pub fn new(page: &str) -> Result<Player, NoPuzzle> {
        let page = Page::read(page)?;
        let puzzle = page.puzzle().ok_or(NoPuzzle::Unreadable)?;
        let Verdict::One(solution) = verdict(&puzzle, PROOF) else { return Err(NoPuzzle::Unsound) };
        Ok(Player { puzzle, solution, taught: Known::only(page.taught()), walkthrough: None })
    }

    /// The step of least effort from the sheet, by what has been taught if that leads on; what is wrong if something
    /// is.
    ///
    /// # Errors
    ///
    /// If the sheet cannot be read; so for all questions.
    pub fn hint(&mut self, sheet: &str) -> Result<String, NoSheet> {
        let written = sheet::read(&self.puzzle, sheet)?;
        Ok(answers::text(&self.unless_wrong(&written, || self.next(&written))))
    }

    /// Whether everything on the sheet is right.
    ///
    /// # Errors
    ///
    /// See [`Player::hint`].
    pub fn check(&self, sheet: &str) -> Result<String, NoSheet> {
        let written = sheet::read(&self.puzzle, sheet)?;
        Ok(answers::text(&self.unless_wrong(&written, || Answer::Fits)))
    }

    /// Why the cell (row by row, from 0) holds the digit that is written there.
    ///
    /// # Errors
    ///
    /// See [`Player::hint`].
    pub fn why(&mut self, sheet: &str, cell: usize) -> Result<String, NoSheet> {
        let written = sheet::read(&self.puzzle, sheet)?;
        let size = self.puzzle.size();
        let cell = size.cells().nth(cell).ok_or(NoSheet)?;
        let digit = written.ink.get(cell).ok_or(NoSheet)?;
        let answer = match self.solution.get(cell) == Some(digit) {
            true => self.because(Claim::Is(cell, digit)),
            false => self.mistake(&Mistake::Digit(cell, digit)),
        };
        Ok(answers::text(&answer))
    }

    /// Whether the cell's digit can be known from the sheet, within so many steps and by techniques alone, whoever has
    /// taught them.
    ///
    /// # Errors
    ///
    /// See [`Player::hint`].
    pub fn follows(&self, sheet: &str, cell: usize, digit: u8, within: usize) -> Result<String, NoSheet> {
        let written = sheet::read(&self.puzzle, sheet)?;
        let size = self.puzzle.size();
        let cell = size.cells().nth(cell).ok_or(NoSheet)?;
        let digit = size.digit(digit).ok_or(NoSheet)?;
        let answer = self.unless_wrong(&written, || match self.solution.get(cell) == Some(digit) {
            true => self.known(&written, Claim::Is(cell, digit), within),
            false => self.mistake(&Mistake::Digit(cell, digit)),
        });
        Ok(answers::text(&answer))
    }

    fn known(&self, written: &Written, claim: Claim, within: usize) -> Answer {
        let board = self.board(written);
        let (notes, pencilled) = written.notes();
        let position = Position { board: &board, notes: &notes, pencilled };
        match n_steps_to(position, claim, within, Settings::TECHNIQUES_ALONE) {
            Some(steps) => Answer::Follows { steps },
            None => Answer::NotYet,
        }
    }

    /// The puzzle with what is in ink as if it were printed.
    fn board(&self, written: &Written) -> Puzzle {
        Puzzle::new(written.ink.clone(), self.puzzle.clues().iter().copied())
    }

    /// The digits that each cell does not see, to be pencilled in.
    ///
    /// # Errors
    ///
    /// See [`Player::hint`].
    pub fn pencil(&self, sheet: &str) -> Result<String, NoSheet> {
        let written = sheet::read(&self.puzzle, sheet)?;
        Ok(answers::text(&Pencil { pencil: sheet::unseen(self.puzzle.size(), &written) }))
    }

    /// The answer, unless something is wrong or nothing is left.
    fn unless_wrong(&self, written: &Written, answer: impl FnOnce() -> Answer) -> Answer {
        match mistake(&self.puzzle, written, &self.solution) {
            Some(it) => self.mistake(&it),
            None if written.ink.is_full() => Answer::Done,
            None => answer(),
        }
    }

    fn next(&self, written: &Written) -> Answer {
        let board = self.board(written);
        let (notes, pencilled) = written.notes();
        let position = Position { board: &board, notes: &notes, pencilled };
        let alone = Settings { known: self.taught, ..Settings::TECHNIQUES_ALONE };
        let attempts = [alone, Settings::TECHNIQUES_ALONE, Settings::THOROUGH];
        let found = attempts.into_iter().find_map(|it| next_step(position, &self.solution, it));
        let hint = found.and_then(|it| self.hint_of(&board, written, &it));
        hint.map_or_else(|| Answer::None { text: tell::NOTHING_FOUND.to_owned() }, Answer::Hint)
    }

    fn hint_of(&self, board: &Puzzle, written: &Written, next: &Next) -> Option<Hint> {
        let size = self.puzzle.size();
        let trail = next.trail();
        let (last, step) = trail.steps().next_back()?;
        let [look_at, what, why] = tell::hints(board, trail)?;
        let noted = tell::resting_on_notes(&noted(trail));
        let steps: Vec<StepId> = trail.steps().map(|it| it.0).collect();
        let hardest = steps.iter().map(|it| trail.step(*it).technique()).max_by_key(|it| rank(*it));
        let is_taught = steps.iter().all(|it| self.taught.has(trail.step(*it).technique()));
        Some(Hint {
            technique: step.technique().name(),
            name: tell::technique_name(step.technique()),
            hardest: hardest.unwrap_or(step.technique()).name(),
            taught: is_taught,
            look_at: Said { text: look_at, cells: looked_at(board, trail, last) },
            what: Said { text: what, cells: Vec::new() },
            why: Drawn {
                text: noted.into_iter().chain([why]).collect::<Vec<_>>().join("\n"),
                picture: picture(board, trail, &steps),
            },
            settles: settles(size, written, &next.settles),
        })
    }

    fn because(&mut self, goal: Claim) -> Answer {
        let none = || Answer::None { text: tell::NOTHING_FOUND.to_owned() };
        let easiest = Settings { search: Search::EasiestNext, ..Settings::WHATEVER_IT_TAKES };
        if self.walkthrough.is_none() {
            self.walkthrough = reason::solve(&self.puzzle, &self.solution, easiest).ok();
        }
        let Some(walkthrough) = &self.walkthrough else { return none() };
        let solved = Solved { puzzle: &self.puzzle, solution: &self.solution, walkthrough };
        let Ok(why) = reason::why(solved, goal, easiest) else { return none() };
        let trail = why.trail();
        let step = |(id, step): (StepId, &trail::Step)| WhyStep {
            technique: step.technique().name(),
            name: tell::technique_name(step.technique()),
            text: tell::says(&self.puzzle, trail, id),
            picture: picture(&self.puzzle, trail, &[id]),
        };
        Answer::Why(Why {
            text: tell::because(self.puzzle.size(), why.goal, why.by, why.seen_in, trail.n_steps()),
            steps: trail.steps().map(step).collect(),
        })
    }

    fn mistake(&self, it: &Mistake) -> Answer {
        let size = self.puzzle.size();
        let [near, which] = tell::mistake(&self.puzzle, it);
        let (house, cells): (_, CellSet) = match it {
            Mistake::Repeat { house, cells, .. } => (*house, *cells),
            Mistake::Clue { line, .. } => (*line, size.cells_of(*line).into_iter().collect()),
            Mistake::Digit(cell, _) | Mistake::Pencil(cell) | Mistake::Mark(cell, _) => {
                (size.houses_of(*cell)[0], [*cell].into_iter().collect())
            }
        };
        Answer::Mistake {
            near: Said { text: near, cells: indices(size, size.cells_of(house)) },
            which: Said { text: which, cells: indices(size, cells.iter()) },
        }
    }
}

/// The cells whose noted facts the steps rest on, in reading order.
fn noted(trail: &Trail) -> Vec<Cell> {
    let cited = trail.steps().flat_map(|(id, _)| trail.cites_of(id).facts);
    let noted = cited.map(|it| trail.fact(it)).filter(|it| *it.origin() == Origin::Noted);
    noted.filter_map(|it| it.claim().cell()).collect::<CellSet>().iter().collect()
}

/// The cells that a step is about: those of the houses it looks at, or else those it uses and settles.
fn looked_at(board: &Puzzle, trail: &Trail, step: StepId) -> Vec<usize> {
    let size = board.size();
    let (_, marks) = draw::marks_for(board, trail, &[step]);
    let houses: CellSet = marks.looked_at.iter().flat_map(|it| size.cells_of(*it)).collect();
    let cells = if houses.is_empty() { marks.premises | marks.conclusions } else { houses };
    indices(size, cells.iter())
}

fn picture(board: &Puzzle, trail: &Trail, steps: &[StepId]) -> String {
    let (digits, marks) = draw::marks_for(board, trail, steps);
    let board = Board {
        puzzle: board,
        digits: &digits,
        marks: &marks,
        title: "",
        scale: Scale::Small,
        coordinates: true,
    };
    draw::board(&board)
}

/// What of the claims can be written: digits, kinds of cells, and pencil marks without the digits that are out.
fn settles(size: Size, written: &Written, claims: &[Claim]) -> Settles {
    let mut settles = Settles::default();
    let unseen = sheet::unseen(size, written);
    for claim in claims {
        match *claim {
            Claim::Is(cell, digit) => settles.ink.push((size.index(cell), digit.get())),
            Claim::Crust(cell) => settles.marks.push((size.index(cell), "crust")),
            Claim::Filling(cell) => settles.marks.push((size.index(cell), "filling")),
            Claim::IsNot(cell, digit) => {
                let at = size.index(cell);
                let known = settles.pencil.iter().position(|it| it.0 == at).unwrap_or_else(|| {
                    let pencilled = written.pencil.iter().find(|it| it.0 == cell);
                    let digits = pencilled.map(|it| it.1.iter().map(|it| it.get()).collect());
                    settles.pencil.push((at, digits.unwrap_or_else(|| unseen[at].clone())));
                    settles.pencil.len() - 1
                });
                settles.pencil[known].1.retain(|it| *it != digit.get());
            }
            _ => {}
        }
    }
    settles
}

fn indices(size: Size, cells: impl IntoIterator<Item = Cell>) -> Vec<usize> {
    cells.into_iter().map(|it| size.index(it)).collect()
}
