//! Says a walkthrough step by step, as somebody who points at the screen would.

use captions::Time;
use grid::{DigitSet, House, HouseKind, Size};
use rand::RngExt;
use rand::seq::IndexedRandom;
use rand_chacha::ChaCha8Rng;
use rulebook::{Claim, Puzzle, filling_digits, filling_total};
use trail::{Argument, Side, StepId, Walkthrough};

use super::Book;
use super::parts::{list, number};

/// A few words, and what is true of them.
pub(super) struct Said {
    pub(super) text: String,
    pub(super) step: Option<usize>,
    pub(super) pause: Time,
    pub(super) slip: Option<(u16, bool)>,
}

pub(super) struct Speaker<'a> {
    puzzle: &'a Puzzle,
    walkthrough: &'a Walkthrough,
    book: &'a Book,
    random: &'a mut ChaCha8Rng,
    said: Vec<Said>,
    step: Option<usize>,
    slip: Option<(u16, bool)>,
}

/// What a phrase is about.
#[derive(Default, Clone, Copy)]
struct About<'a> {
    d: u16,
    c: u16,
    h: &'a str,
    s: &'a [u16],
    t: u16,
    n: u16,
    m: u16,
    r: u16,
}

impl<'a> Speaker<'a> {
    pub(super) fn new(
        puzzle: &'a Puzzle,
        walkthrough: &'a Walkthrough,
        book: &'a Book,
        random: &'a mut ChaCha8Rng,
    ) -> Speaker<'a> {
        Speaker { puzzle, walkthrough, book, random, said: Vec::new(), step: None, slip: None }
    }

    pub(super) fn says(mut self) -> Vec<Said> {
        for it in self.book.opening {
            self.plain(it);
        }
        let mut passages: Vec<Vec<StepId>> =
            self.walkthrough.passages().iter().map(|it| it.steps.clone()).collect();
        // In every third talk two passages change places.
        if passages.len() > 3 && self.random.random_bool(0.33) {
            let at = self.random.random_range(1..passages.len() - 1);
            passages.swap(at, at + 1);
        }
        for id in passages.concat() {
            self.between();
            if self.random.random_bool(0.06) {
                continue;
            }
            self.step = Some(id.index());
            self.step(id);
            self.step = None;
        }
        for it in self.book.closing {
            self.plain(it);
        }
        self.said
    }

    fn size(&self) -> Size {
        self.puzzle.size()
    }

    /// What is said between two steps.
    fn between(&mut self) {
        let book = self.book;
        if self.random.random_bool(0.15) {
            self.one(book.chatter, About::default());
        }
        if self.random.random_bool(0.06) {
            let c = self.some_clue();
            self.one(book.elsewhere, About { c, ..About::default() });
        }
        if self.random.random_bool(0.04) {
            let d = self.random.random_range(1..=u16::from(self.size().side()));
            self.one(book.withdrawn, About { d, ..About::default() });
        }
        if self.random.random_bool(0.05) {
            self.one(book.no_sums, About::default());
        }
        if self.random.random_bool(0.06) {
            self.bound();
        }
    }

    fn some_clue(&mut self) -> u16 {
        let clues = self.puzzle.clues();
        clues.choose(self.random).map_or(0, |it| it.value)
    }

    /// A phrase of these, about that.
    fn one(&mut self, phrases: &[&'static str], about: About) {
        let phrase = *phrases.choose(self.random).expect("a book has phrases for everything");
        let mut text = String::new();
        if self.random.random_bool(0.4) {
            let filler = *self.book.fillers.choose(self.random).expect("fillers");
            text = format!("{filler} ");
        }
        let mut rest = phrase;
        while let Some((before, after)) = rest.split_once('{') {
            text.push_str(before);
            let (hole, after) = after.split_once('}').expect("holes are closed");
            let filled = match hole {
                "d" => number(about.d, self.random),
                "c" => number(about.c, self.random),
                "h" => about.h.to_owned(),
                "s" => list(about.s, self.random),
                "t" => number(about.t, self.random),
                "n" => number(about.n, self.random),
                "m" => number(about.m, self.random),
                "r" => number(about.r, self.random),
                it => panic!("no such hole: {it}"),
            };
            text.push_str(&filled);
            rest = after;
        }
        text.push_str(rest);
        let close = ["one nine", "1 9", "one and nine"];
        if let Some(it) = close.iter().find(|it| text.contains(**it) && self.size().side() == 9)
            && self.random.random_bool(0.25)
        {
            text = text.replacen(it, "19", 1);
        }
        self.plain(&text);
    }

    fn plain(&mut self, text: &str) {
        let pause = match self.random.random_range(0..60) {
            0 => Time::seconds(self.random.random_range(10..30)),
            1..8 => Time::seconds(self.random.random_range(2..6)),
            _ => Time(self.random.random_range(100..700)),
        };
        let (step, slip) = (self.step, self.slip.take());
        self.said.push(Said { text: text.to_owned(), step, pause, slip });
    }

    /// What is right, or with some luck something else; then sometimes put right at once.
    fn sum<'s>(&mut self, phrases: &[&'static str], right: u16, about: impl Fn(u16) -> About<'s>) {
        if !self.random.random_bool(0.3) {
            self.one(phrases, about(right));
            return;
        }
        let off = [1, 2, 10].choose(self.random).copied().unwrap_or(1);
        let wrong = if self.random.random_bool(0.5) && right > off + 2 { right - off } else { right + off };
        let corrected = self.random.random_bool(0.35);
        self.slip = Some((right, corrected));
        self.one(phrases, about(wrong));
        if corrected {
            let sorry = *self.book.corrections.choose(self.random).expect("corrections");
            let text = format!("{sorry} {}", number(right, self.random));
            self.plain(&text);
            // It follows at once.
            self.said.last_mut().expect("just said").pause = Time(150);
        }
    }

    fn summed(&mut self, digits: &[u16]) {
        if digits.len() > 1 {
            let book = self.book;
            self.sum(book.sums, digits.iter().sum(), |t| About { s: digits, t, ..About::default() });
        }
    }

    fn difference(&mut self, from: u16, less: u16) {
        let book = self.book;
        let less = [less];
        self.sum(book.differences, from - less[0], |r| About { s: &less, t: from, r, ..About::default() });
    }

    /// Some bound that holds for any line, or a wrong one.
    fn bound(&mut self) {
        let book = self.book;
        let digits: Vec<u16> = filling_digits(self.size()).iter().map(|it| u16::from(it.get())).collect();
        let n = self.random.random_range(2..digits.len().min(6));
        let (least, most): (u16, u16) = (digits[..n].iter().sum(), digits[digits.len() - n..].iter().sum());
        let n = n as u16;
        match self.random.random_range(0..2) {
            0 => self.sum_bound(book.most, most, n, false),
            _ => self.sum_bound(book.least, least, n, true),
        }
        if self.random.random_bool(0.4) {
            let c = self.some_clue();
            if let Some((fewest, most)) = cells(&digits, c).filter(|it| it.0 != it.1) {
                let fewest_is_said = self.random.random_bool(0.5);
                let (phrases, right) =
                    if fewest_is_said { (book.fewest_cells, fewest) } else { (book.most_cells, most) };
                let wrong = self.random.random_bool(0.3) && (fewest_is_said || right > 1);
                let n = if !wrong {
                    right
                } else if fewest_is_said {
                    right + 1
                } else {
                    right - 1
                };
                if wrong {
                    self.slip = Some((right, false));
                }
                self.one(phrases, About { c, n, ..About::default() });
            }
        }
    }

    /// Wrong bounds are such that what is said is not true: too low a most, too high a least.
    fn sum_bound(&mut self, phrases: &[&'static str], right: u16, n: u16, is_least: bool) {
        let wrong = self.random.random_bool(0.3);
        let t = if !wrong {
            right
        } else if is_least {
            right + 1
        } else {
            right - 1
        };
        if wrong {
            self.slip = Some((right, false));
        }
        self.one(phrases, About { n, t, ..About::default() });
    }

    fn step(&mut self, id: StepId) {
        let book = self.book;
        let step = self.walkthrough.trail().step(id).clone();
        let all = self.size();
        match step.argument() {
            Argument::OnePlace { house, digit, .. } => {
                self.one(
                    book.one_place,
                    About { d: digit.get().into(), h: kind(*house), ..About::default() },
                );
                return;
            }
            Argument::OneDigit { digit, .. } => {
                self.one(book.one_digit, About { d: digit.get().into(), ..About::default() });
                return;
            }
            Argument::LastCell { house, digit, .. } => {
                self.one(
                    book.last_cell,
                    About { d: digit.get().into(), h: kind(*house), ..About::default() },
                );
                return;
            }
            Argument::Remainder { clue, side, sum, placed, digit, .. } => {
                let c = self.puzzle.clue(*clue).map_or(0, |it| it.value);
                let s = digits(*placed);
                if *side == Side::Outside {
                    self.one(book.outside, About { c, ..About::default() });
                    self.difference(filling_total(all), c);
                }
                self.summed(&s);
                if s.len() > 1 && self.random.random_bool(0.5) {
                    self.difference(*sum, s.iter().sum());
                }
                let about = About { d: digit.get().into(), c: *sum, s: &s, ..About::default() };
                self.one(if s.is_empty() { book.whole } else { book.remainder }, about);
                return;
            }
            Argument::CrustDistance { clue, fewest, most, short, over, .. } => {
                let c = self.puzzle.clue(*clue).map_or(0, |it| it.value);
                let (short, over) = (digits(*short), digits(*over));
                if !short.is_empty() {
                    self.one(book.too_few, About { c, n: (*fewest).into(), s: &short, ..About::default() });
                    self.summed(&short);
                }
                if !over.is_empty() {
                    self.one(
                        book.too_many,
                        About { c, n: u16::from(*most) + 1, s: &over, ..About::default() },
                    );
                    self.summed(&over);
                }
                self.one(
                    book.distance,
                    About { c, n: (*fewest).into(), m: (*most).into(), ..About::default() },
                );
            }
            Argument::CrustsTouch { line, .. } => {
                self.one(book.touch, About { h: kind(*line), ..About::default() });
            }
            Argument::CrustsAtEnds { line, sum, .. } => {
                self.one(book.ends, About { c: *sum, h: kind(*line), ..About::default() });
            }
            Argument::Reach { fewest, most, line, .. } => {
                let about =
                    About { n: (*fewest).into(), m: (*most).into(), h: kind(*line), ..About::default() };
                self.one(book.reach, about);
            }
            Argument::SeesBothCrusts { .. } => self.one(book.no_crust, About::default()),
            Argument::CrustsFound { house, .. } | Argument::CrustPlaces { house, .. } => {
                self.one(book.crusts, About { h: kind(*house), ..About::default() });
            }
            Argument::Sets { clue, side, sum, sets, .. } => {
                let c = self.puzzle.clue(*clue).map_or(0, |it| it.value);
                if *side == Side::Outside {
                    self.one(book.outside, About { c, ..About::default() });
                    self.difference(filling_total(all), c);
                }
                self.one(book.combos, About { c: *sum, ..About::default() });
                for it in sets.iter().take(4) {
                    let s = digits(*it);
                    self.one(book.each_combo, About { s: &s, ..About::default() });
                    self.summed(&s);
                }
            }
            Argument::SharedDigits { digits: it, .. } | Argument::SharedCells { digits: it, .. } => {
                let s = digits(*it);
                self.one(book.pair, About { s: &s, ..About::default() });
            }
            _ => {}
        }
        self.conclusions(id);
    }

    fn conclusions(&mut self, id: StepId) {
        let book = self.book;
        let trail = self.walkthrough.trail();
        let claims: Vec<Claim> =
            trail.step(id).concludes().iter().map(|it| trail.fact(*it).claim()).collect();
        let mut crusts = 0;
        for it in claims.iter().take(3) {
            match it {
                Claim::Is(_, digit) => {
                    self.one(book.placed, About { d: digit.get().into(), ..About::default() });
                }
                Claim::IsNot(_, digit) => {
                    self.one(book.gone, About { d: digit.get().into(), ..About::default() });
                }
                Claim::Crust(_) if crusts == 0 => {
                    crusts += 1;
                    self.one(book.crusts, About { h: "box", ..About::default() });
                }
                Claim::Spent { filling, .. } => {
                    let s = digits(*filling);
                    self.one(book.pair, About { s: &s, ..About::default() });
                }
                _ => {}
            }
        }
        // Something is said of every step that is not left out.
        if self.said.last().is_none_or(|it| it.step != Some(id.index())) {
            self.one(book.no_crust, About::default());
        }
    }
}

fn kind(house: House) -> &'static str {
    match house.kind() {
        HouseKind::Row => "row",
        HouseKind::Column => "column",
        HouseKind::Box => "box",
    }
}

fn digits(set: DigitSet) -> Vec<u16> {
    set.iter().map(|it| u16::from(it.get())).collect()
}

/// The fewest and the most digits that make a sum, by trying.
fn cells(digits: &[u16], sum: u16) -> Option<(u16, u16)> {
    let sizes = (1_u32..1 << digits.len()).filter_map(|set| {
        let chosen = digits.iter().enumerate().filter(|it| set >> it.0 & 1 == 1);
        (chosen.map(|it| it.1).sum::<u16>() == sum).then(|| set.count_ones() as u16)
    });
    let sizes: Vec<u16> = sizes.collect();
    Some((*sizes.iter().min()?, *sizes.iter().max()?))
}
