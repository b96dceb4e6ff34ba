//! What was measured on all puzzles together.

use std::time::Duration;

use trail::{Branch, End};

#[derive(Default)]
pub(crate) struct Whole {
    pub(crate) n_failed: usize,
    /// Puzzles from outside that are not at hand.
    pub(crate) n_missing: usize,
    pub(crate) n_steps: usize,
    /// Puzzles whose walkthrough has more steps of last resort than are read out.
    pub(crate) n_not_teachable: usize,
    /// Of all puzzles together: by ease, and chosen.
    pub(crate) efforts: (u64, u64),
    /// By puzzle.
    pub(crate) arguments: Vec<usize>,
    /// By puzzle: steps in which something is followed to an end.
    pub(crate) followed: Vec<usize>,
    pub(crate) finding: Vec<Duration>,
    pub(crate) explaining_by_ease: Vec<Duration>,
    pub(crate) explaining: Vec<Duration>,
    /// By step: cells cited beside the house looked at.
    pub(crate) beside: Vec<usize>,
    /// By small argument: houses held in view.
    pub(crate) in_view: Vec<usize>,
    /// By step of something followed to an end: houses held in view.
    pub(crate) followed_in_view: Vec<usize>,
    pub(crate) n_smallest: usize,
    /// By conclusion of a small argument.
    pub(crate) told: Vec<Told>,
    pub(crate) judging: Vec<Duration>,
}

impl Whole {
    pub(crate) fn print(self) {
        let percent = |part: f64, whole: f64| 100.0 * part / whole.max(1.0);
        let n_puzzles = self.arguments.len();
        let n_without = self.arguments.iter().filter(|it| **it == 0).count();
        let n_arguments: usize = self.arguments.iter().sum();
        println!("{n_puzzles} explained and replayed, {} not, {} not at hand", self.n_failed, self.n_missing);
        println!(
            "{n_without} without arguments ({:.1}%); {n_arguments} arguments in {} steps ({:.2}%), {} proven the \
             smallest when found",
            percent(n_without as f64, n_puzzles as f64),
            self.n_steps,
            percent(n_arguments as f64, self.n_steps as f64),
            self.n_smallest,
        );
        println!("{} not teachable yet", self.n_not_teachable);
        println!(
            "effort {} by ease, {} chosen ({:.1}%)",
            self.efforts.0,
            self.efforts.1,
            percent(self.efforts.1 as f64, self.efforts.0 as f64),
        );
        spread("found and replayed", self.finding);
        spread("explained, the easiest step again and again", self.explaining_by_ease);
        spread("explained, chosen", self.explaining);
        spread("cells cited beside the house looked at, by step", self.beside);
        spread("arguments, by puzzle", self.arguments);
        spread("steps followed to an end, by puzzle", self.followed);
        spread("houses held in view, by argument", self.in_view);
        spread("houses held in view, by what is followed to an end", self.followed_in_view);
        let (cases, links): (Vec<_>, Vec<_>) = self.told.into_iter().map(|it| (it.cases, it.links)).unzip();
        spread("cases, by conclusion of an argument", cases);
        spread("links, by conclusion of an argument", links);
        spread("replay of a conclusion of an argument", self.judging);
    }
}

fn spread<T: Ord + std::fmt::Debug>(what: &str, mut values: Vec<T>) {
    values.sort();
    let Some(last) = values.len().checked_sub(1) else { return println!("{what}: none") };
    let at = |percent: usize| &values[last * percent / 100];
    println!(
        "{what}: {} of them, median {:.1?}, 90th percentile {:.1?}, 99th {:.1?}, most {:.1?}",
        last + 1,
        at(50),
        at(90),
        at(99),
        at(100)
    );
}

/// How much there is to tell about a conclusion of a small argument.
pub(crate) struct Told {
    cases: usize,
    links: usize,
}

impl Told {
    pub(crate) fn of(branch: &Branch) -> Told {
        let mut told = Told { cases: 1, links: branch.chain.len() };
        if let End::Split(parts) = &branch.end {
            for part in parts.iter().map(Told::of) {
                told.cases += part.cases;
                told.links += part.links;
            }
        }
        told
    }
}
