//! What a pack teaches: a chart of techniques against puzzles.

use crate::ink::Tone;
use crate::svg::{FIGURE_WIDTH, Num, escape, figure, fitted, group, path, picture, stretch, type_of};

/// How a puzzle meets a technique.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Met {
    /// It is the first that uses it.
    Introduced,
    /// It uses what is known by then.
    Practised,
    /// It does not use it.
    Not,
}

/// One technique of the chart.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct CoverageRow<'a> {
    /// The technique's name.
    pub label: &'a str,
    /// One entry a puzzle, in the order of the pack; missing ones count as not met.
    pub cells: Vec<Met>,
}

/// Room for the names of techniques.
const LEFT: f64 = 215.0;
const TOP: f64 = 22.0;
const ROW: f64 = 18.0;
const TYPE: f64 = 13.0;
/// The chart is at least so wide with its names.
const WIDTH: f64 = 420.0;
/// Puzzles are at most and at least so far from each other.
const PITCH: (f64, f64) = (18.0, 9.0);

/// Draws which of a pack's puzzles introduce and practise which techniques, as an SVG element.
///
/// Puzzles are numbered from 1 along the head. A filled square stands where a puzzle introduces a technique, a ring
/// where it practises one; both have a title of their own, and each technique has a sentence in the description.
/// `title` is the accessible name; `puzzles` are the titles of the puzzles, in the order of the pack.
pub fn coverage_chart(title: &str, puzzles: &[&str], rows: &[CoverageRow]) -> String {
    let pitch = ((WIDTH - LEFT) / puzzles.len().max(1) as f64).clamp(PITCH.1, PITCH.0);
    let chart = Chart { puzzles, rows, pitch };
    let width = (LEFT + pitch * puzzles.len() as f64 + 10.0).max(WIDTH);
    let height = TOP + ROW * rows.len() as f64 + 6.0;
    let layers = [chart.lines(width), chart.names(), chart.numbers(), chart.marks()];
    picture("galley-coverage", (width, height), title, &chart.described(), &layers.concat())
}

struct Chart<'a> {
    puzzles: &'a [&'a str],
    rows: &'a [CoverageRow<'a>],
    pitch: f64,
}

impl Chart<'_> {
    fn x(&self, at: usize) -> f64 {
        LEFT + self.pitch * (at as f64 + 0.5)
    }

    fn y(&self, at: usize) -> f64 {
        TOP + ROW * (at as f64 + 0.5)
    }

    /// A level line below each technique.
    fn lines(&self, width: f64) -> String {
        let lines = (0..=self.rows.len()).map(|at| {
            let y = TOP + ROW * at as f64;
            stretch((2.0, y), (width - 2.0, y))
        });
        path(&Tone::Rule.line(1.0), &lines.collect::<String>())
    }

    fn names(&self) -> String {
        let names = (self.rows.iter().enumerate())
            .map(|(at, it)| figure((2.0, self.y(at)), TYPE, escape(&fitted(it.label, LEFT - 8.0, TYPE))));
        group(&type_of(Tone::Ink, TYPE, "start"), &names.collect::<String>())
    }

    /// The numbers of the puzzles; only every fifth where all would touch.
    fn numbers(&self) -> String {
        let room = TYPE * (FIGURE_WIDTH * self.puzzles.len().to_string().len() as f64 + 0.3);
        let every = if self.pitch >= room { 1 } else { 5 };
        let shown = (0..self.puzzles.len()).filter(|at| (at + 1).is_multiple_of(every));
        let numbers = shown.map(|at| figure((self.x(at), TOP / 2.0), TYPE, at + 1));
        group(&type_of(Tone::Grey, TYPE, "middle"), &numbers.collect::<String>())
    }

    fn marks(&self) -> String {
        let half = self.pitch * 0.32;
        let mut marks = String::new();
        for (row, technique) in self.rows.iter().enumerate() {
            for (at, met) in technique.cells.iter().enumerate().take(self.puzzles.len()) {
                let (x, y) = (self.x(at), self.y(row));
                let says = |verb: &str| {
                    escape(&format!("{}. {} {verb} {}", at + 1, self.puzzles[at], technique.label))
                };
                marks += &match met {
                    Met::Introduced => {
                        let (fill, side) = (Tone::Blue.fill(), Num(2.0 * half));
                        let (left, top, title) = (Num(x - half), Num(y - half), says("introduces"));
                        format!(
                            "<rect {fill} x=\"{left}\" y=\"{top}\" width=\"{side}\" height=\"{side}\">\
                             <title>{title}</title></rect>"
                        )
                    }
                    Met::Practised => {
                        let (line, title) = (Tone::Grey.line(1.5), says("practises"));
                        let (x, y, radius) = (Num(x), Num(y), Num(half * 0.8));
                        format!(
                            "<circle {line} cx=\"{x}\" cy=\"{y}\" r=\"{radius}\"><title>{title}</title></circle>"
                        )
                    }
                    Met::Not => String::new(),
                };
            }
        }
        marks
    }

    /// A sentence a technique.
    fn described(&self) -> String {
        let numbers = |row: &CoverageRow, wanted: Met| {
            let met = row.cells.iter().enumerate().filter(|it| *it.1 == wanted);
            met.map(|it| (it.0 + 1).to_string()).collect::<Vec<_>>().join(", ")
        };
        let sentence = |row: &CoverageRow| {
            let parts = [("introduced in", Met::Introduced), ("practised in", Met::Practised)]
                .map(|(verb, met)| (verb, numbers(row, met)))
                .into_iter()
                .filter(|it| !it.1.is_empty())
                .map(|(verb, numbers)| format!("{verb} {numbers}"));
            match parts.collect::<Vec<_>>().join("; ") {
                it if it.is_empty() => format!("{}: not met.", row.label),
                it => format!("{}: {it}.", row.label),
            }
        };
        self.rows.iter().map(sentence).collect::<Vec<_>>().join(" ")
    }
}
