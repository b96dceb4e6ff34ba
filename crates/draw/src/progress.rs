//! How a board filled: cells against minutes, of one solve or several beside each other.

use crate::curve::{round_step, short};
use crate::ink::Tone;
use crate::svg::{Num, escape, figure, fitted, group, path, picture, stretch, type_of};

/// How one board filled.
#[derive(Clone, PartialEq, Debug)]
pub struct ProgressLine<'a> {
    /// Whose it is.
    pub name: &'a str,
    /// Minutes, and how many cells were filled then; rising. Minutes that are not finite or are less than 0 are passed
    /// over.
    pub points: Vec<(f64, usize)>,
    /// Whether it is what was expected, drawn with dashes.
    pub is_expected: bool,
}

const WIDTH: f64 = 420.0;
const HEIGHT: f64 = 256.0;
const LEFT: f64 = 34.0;
const RIGHT: f64 = 410.0;
const TOP: f64 = 52.0;
const BOTTOM: f64 = 212.0;
/// Type size of every label: 10 pixels when the picture is shrunk to 320.
const TYPE: f64 = 13.0;
/// Steps of cells up the side.
const N_STEPS: usize = 3;

/// Draws how boards of `n_cells` cells to be filled went, as an SVG element. `title` is the accessible name; when each line
/// reached its end is in the description.
pub fn progress_curve(title: &str, lines: &[ProgressLine], n_cells: usize) -> String {
    let plot = Plot::new(lines, n_cells);
    let said: Vec<String> = lines.iter().filter_map(|it| plot.says(it)).collect();
    let layers = [plot.ticks(), plot.names(lines), lines.iter().map(|it| plot.line(it)).collect()];
    picture("galley-curve", (WIDTH, HEIGHT), title, &said.join(" "), &layers.concat())
}

struct Plot {
    n_cells: usize,
    /// Minutes between ticks.
    step: f64,
    /// Steps to the right edge.
    n_steps: u32,
}

impl Plot {
    fn new(lines: &[ProgressLine], n_cells: usize) -> Plot {
        let longest = lines.iter().flat_map(usable).map(|it| it.0).fold(0.0, f64::max);
        let step = round_step(longest);
        Plot { n_cells: n_cells.max(1), step, n_steps: ((longest / step).ceil() as u32).clamp(1, 5) }
    }

    fn x(&self, minutes: f64) -> f64 {
        LEFT + (RIGHT - LEFT) * (minutes / (self.step * f64::from(self.n_steps))).min(1.0)
    }

    fn y(&self, cells: usize) -> f64 {
        BOTTOM - (BOTTOM - TOP) * (cells as f64 / self.n_cells as f64).min(1.0)
    }

    /// `Tansy: 57 of 57 cells after 14 minutes.`
    fn says(&self, line: &ProgressLine) -> Option<String> {
        let (minutes, cells) = usable(line).last()?;
        Some(format!("{}: {cells} of {} cells after {} minutes.", line.name, self.n_cells, short(minutes)))
    }

    fn ticks(&self) -> String {
        let (mut lines, mut cells, mut minutes) = (String::new(), String::new(), String::new());
        for at in 0..=N_STEPS {
            let of = self.n_cells * at / N_STEPS;
            cells += &figure((LEFT - 7.0, self.y(of)), TYPE, of);
            if at > 0 {
                lines += &stretch((LEFT, self.y(of)), (RIGHT, self.y(of)));
            }
        }
        for at in 0..=self.n_steps {
            let it = self.step * f64::from(at);
            minutes += &figure((self.x(it), BOTTOM + 14.0), TYPE, short(it));
        }
        let foot = path(&Tone::Ink.line(1.25), &stretch((LEFT, BOTTOM), (RIGHT, BOTTOM)));
        let dotted = format!("{} stroke-dasharray=\"1 3\"", Tone::Rule.line(1.0));
        let units = figure((RIGHT, BOTTOM + 33.0), TYPE, "minutes");
        let up = group(&type_of(Tone::Grey, TYPE, "start"), &figure((2.0, 12.0), TYPE, "cells filled"));
        path(&dotted, &lines)
            + &foot
            + &group(&type_of(Tone::Grey, TYPE, "end"), &(cells + &units))
            + &group(&type_of(Tone::Grey, TYPE, "middle"), &minutes)
            + &up
    }

    /// Whose the lines are, each with a piece of its line; of more than two the first two.
    fn names(&self, lines: &[ProgressLine]) -> String {
        let room = (RIGHT - LEFT) / 2.0;
        let named = lines.iter().take(2).enumerate().map(|(at, it)| {
            let left = LEFT + room * at as f64;
            let name = escape(&fitted(it.name, room - 34.0, TYPE));
            path(&pen(it), &stretch((left, 33.0), (left + 22.0, 33.0)))
                + &group(&type_of(Tone::Ink, TYPE, "start"), &figure((left + 28.0, 33.0), TYPE, name))
        });
        named.collect()
    }

    fn line(&self, line: &ProgressLine) -> String {
        let mut data = format!("M{} {}", Num(self.x(0.0)), Num(self.y(0)));
        for (minutes, cells) in usable(line) {
            data += &format!("L{} {}", Num(self.x(minutes)), Num(self.y(cells)));
        }
        path(&format!("{} stroke-linejoin=\"round\"", pen(line)), &data)
    }
}

fn usable(line: &ProgressLine) -> impl Iterator<Item = (f64, usize)> {
    line.points.iter().copied().filter(|it| it.0.is_finite() && it.0 >= 0.0)
}

fn pen(line: &ProgressLine) -> String {
    match line.is_expected {
        true => format!("{} stroke-dasharray=\"5 4\"", Tone::Grey.line(1.75)),
        false => Tone::Blue.line(2.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn line(name: &str, points: &[(f64, usize)]) -> String {
        let line = ProgressLine { name, points: points.to_vec(), is_expected: name == "expected" };
        progress_curve("Solves", &[line], 57)
    }

    #[test]
    fn the_end_of_each_line_is_said() {
        let drawn = line("Tansy", &[(2.0, 10), (14.0, 57)]);
        assert!(drawn.contains("Tansy: 57 of 57 cells after 14 minutes."), "{drawn}");
        assert!(line("expected", &[(1.0, 3)]).contains("stroke-dasharray=\"5 4\""));
    }

    #[test]
    fn nothing_leaves_the_frame_and_no_number_is_none() {
        for points in [&[][..], &[(f64::NAN, 3), (-1.0, 2)], &[(0.0, 0)], &[(1e9, 500)]] {
            let drawn = line("a <b>", points);
            assert!(!drawn.contains("NaN") && !drawn.contains("<b>"), "{drawn}");
            let data = drawn.split("d=\"M").last().unwrap().split('"').next().unwrap();
            let numbers = data.split(['L', ' ']).map(|it| it.parse::<f64>().unwrap());
            assert!(
                numbers.into_iter().all(|it| (LEFT..=RIGHT).contains(&it) || (TOP..=BOTTOM).contains(&it))
            );
        }
    }
}
