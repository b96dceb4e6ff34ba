//! The curve of a pack: how long each puzzle takes, in the order of the pack.

use crate::ink::Tone;
use crate::svg::{FIGURE_WIDTH, Num, escape, figure, fitted, group, path, picture, stretch, type_of};

/// One puzzle of the pack.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct CurvePoint<'a> {
    /// The puzzle's title.
    pub label: &'a str,
    /// Expected minutes; none if they are not known. Anything but a finite number of at least 0
    /// counts as not known.
    pub minutes: Option<f64>,
    /// Fewest and most minutes to expect, if known; the order does not matter.
    pub range: Option<(f64, f64)>,
    /// The editor's tier. Neighbours on one shelf are drawn as a group.
    pub shelf: Option<&'a str>,
}

const WIDTH: f64 = 420.0;
const HEIGHT: f64 = 240.0;
const LEFT: f64 = 34.0;
const RIGHT: f64 = 410.0;
const TOP: f64 = 40.0;
const BOTTOM: f64 = 200.0;
/// Type size of every label: 10 pixels when the picture is shrunk to 320.
const TYPE: f64 = 13.0;

/// Draws the expected minutes of a pack's puzzles in pack order, as an SVG element.
///
/// Puzzles are numbered from 1 along the foot; each point has its puzzle's title and minutes as a
/// title of its own, and all of them are in the description. A range is a thin upright line, an
/// unknown value a small cross on the foot line. `title` is the accessible name.
pub fn minutes_curve(title: &str, points: &[CurvePoint]) -> String {
    let plot = Plot::new(points);
    let layers = [plot.ticks(), plot.shelves(), plot.numbers(), plot.ranges(), plot.line(), plot.dots()];
    let described: Vec<String> =
        points.iter().enumerate().map(|(at, it)| format!("{}.", plot.says(at, it))).collect();
    picture("galley-curve", (WIDTH, HEIGHT), title, &described.join(" "), &layers.concat())
}

/// The points with the scale they are drawn to.
struct Plot<'a> {
    points: &'a [CurvePoint<'a>],
    /// Distance between puzzles.
    pitch: f64,
    /// Minutes between ticks.
    step: f64,
    /// Steps up to the top.
    n_steps: u32,
}

impl<'a> Plot<'a> {
    fn new(points: &'a [CurvePoint<'a>]) -> Plot<'a> {
        let ranges = points.iter().filter_map(range);
        let highest =
            points.iter().filter_map(minutes).chain(ranges.map(|(_, most)| most)).fold(0.0, f64::max);
        let step = round_step(highest);
        // From 1 to 5 steps; the conversion saturates for values beyond all use.
        let n_steps = ((highest / step).ceil() as u32).clamp(1, 5);
        Plot { points, pitch: (RIGHT - LEFT) / points.len().max(1) as f64, step, n_steps }
    }

    fn x(&self, at: usize) -> f64 {
        LEFT + self.pitch * (at as f64 + 0.5)
    }

    fn y(&self, minutes: f64) -> f64 {
        BOTTOM - (BOTTOM - TOP) * (minutes / (self.step * f64::from(self.n_steps))).min(1.0)
    }

    /// `3. First light: 12 minutes, from 9 to 16`.
    fn says(&self, at: usize, point: &CurvePoint) -> String {
        let minutes = match minutes(point) {
            Some(1.0) => "1 minute".to_owned(),
            Some(it) => format!("{} minutes", short(it)),
            None => "minutes not known".to_owned(),
        };
        let range = range(point).map(|(few, most)| format!(", from {} to {}", short(few), short(most)));
        let shelf = point.shelf.map(|it| format!(" ({it})"));
        let [range, shelf] = [range, shelf].map(Option::unwrap_or_default);
        format!("{}. {}{shelf}: {minutes}{range}", at + 1, point.label)
    }

    /// Level lines at round numbers of minutes, with their numbers.
    fn ticks(&self) -> String {
        let (mut lines, mut numbers) = (String::new(), String::new());
        for at in 0..=self.n_steps {
            let minutes = self.step * f64::from(at);
            let y = self.y(minutes);
            numbers += &figure((LEFT - 7.0, y), TYPE, short(minutes));
            if at > 0 {
                lines += &stretch((LEFT, y), (RIGHT, y));
            }
        }
        let foot = path(&Tone::Ink.line(1.25), &stretch((LEFT, BOTTOM), (RIGHT, BOTTOM)));
        let unit = group(&type_of(Tone::Grey, TYPE, "start"), &figure((2.0, 12.0), TYPE, "minutes"));
        let dotted = format!("{} stroke-dasharray=\"1 3\"", Tone::Rule.line(1.0));
        path(&dotted, &lines) + &foot + &group(&type_of(Tone::Grey, TYPE, "end"), &numbers) + &unit
    }

    /// A bracket over each shelf's puzzles with its name, where the name fits.
    fn shelves(&self) -> String {
        let (mut names, mut brackets) = (String::new(), String::new());
        let mut from = 0;
        for stretch_of in self.points.chunk_by(|a, b| a.shelf == b.shelf) {
            let (left, right) =
                (LEFT + self.pitch * from as f64, LEFT + self.pitch * (from + stretch_of.len()) as f64);
            from += stretch_of.len();
            let Some(shelf) = stretch_of.first().and_then(|it| it.shelf) else { continue };
            let (left, right) = (left + 2.0, right - 2.0);
            brackets += &stretch((left, 31.0), (right, 31.0));
            names += &figure(((left + right) / 2.0, 21.0), TYPE, escape(&fitted(shelf, right - left, TYPE)));
        }
        path(&Tone::Grey.line(1.25), &brackets) + &group(&type_of(Tone::Ink, TYPE, "middle"), &names)
    }

    /// The numbers of the puzzles; only round ones where all would touch.
    fn numbers(&self) -> String {
        let n_figures = self.points.len().to_string().len() as f64;
        let room = TYPE * (FIGURE_WIDTH * n_figures + 0.3);
        let round = (0..).flat_map(|power| [1, 2, 5].map(|it| it * 10usize.pow(power)));
        let every = round.take(20).find(|it| *it as f64 * self.pitch >= room).unwrap_or(usize::MAX);
        let shown = (0..self.points.len()).filter(|at| *at == 0 || (at + 1).is_multiple_of(every));
        // The first number gives way to the second if they would touch.
        let shown = shown.filter(|at| *at > 0 || every == 1 || self.pitch * (every - 1) as f64 >= room);
        let numbers = shown.map(|at| figure((self.x(at), BOTTOM + 14.0), TYPE, at + 1));
        let numbers = group(&type_of(Tone::Ink, TYPE, "middle"), &numbers.collect::<String>());
        let unit = figure((RIGHT, BOTTOM + 31.0), TYPE, "puzzle");
        numbers + &group(&type_of(Tone::Grey, TYPE, "end"), &unit)
    }

    fn ranges(&self) -> String {
        let half = (self.pitch * 0.2).min(4.0);
        let lines = self.points.iter().enumerate().filter_map(|(at, it)| Some((self.x(at), range(it)?)));
        let lines = lines.map(|(x, (few, most))| {
            let (low, high) = (self.y(few), self.y(most));
            stretch((x, low), (x, high))
                + &stretch((x - half, low), (x + half, low))
                + &stretch((x - half, high), (x + half, high))
        });
        path(&Tone::Grey.line(1.25), &lines.collect::<String>())
    }

    /// The curve, broken where a value is not known.
    fn line(&self) -> String {
        let mut data = String::new();
        let mut pen_is_down = false;
        for (at, point) in self.points.iter().enumerate() {
            let Some(minutes) = minutes(point) else {
                pen_is_down = false;
                continue;
            };
            let command = if pen_is_down { 'L' } else { 'M' };
            data += &format!("{command}{} {}", Num(self.x(at)), Num(self.y(minutes)));
            pen_is_down = true;
        }
        path(&format!("{} stroke-linejoin=\"round\"", Tone::Blue.line(2.0)), &data)
    }

    /// A dot a puzzle, or a cross where its minutes are not known, each with a title.
    fn dots(&self) -> String {
        let radius = (self.pitch * 0.35).min(4.5);
        let dot = |(at, point): (usize, &CurvePoint)| {
            let (x, title) = (self.x(at), escape(&self.says(at, point)));
            match minutes(point) {
                Some(minutes) => {
                    let (fill, x, y, radius) = (Tone::Blue.fill(), Num(x), Num(self.y(minutes)), Num(radius));
                    format!(
                        "<circle {fill} cx=\"{x}\" cy=\"{y}\" r=\"{radius}\"><title>{title}</title></circle>"
                    )
                }
                None => {
                    let (left, right) = (x - radius, x + radius);
                    let (top, bottom) = (BOTTOM - radius, BOTTOM + radius);
                    let data = stretch((left, top), (right, bottom)) + &stretch((left, bottom), (right, top));
                    format!("<path {} d=\"{data}\"><title>{title}</title></path>", Tone::Grey.line(1.5))
                }
            }
        };
        self.points.iter().enumerate().map(dot).collect()
    }
}

fn usable(minutes: f64) -> Option<f64> {
    (minutes.is_finite() && minutes >= 0.0).then_some(minutes)
}

fn minutes(point: &CurvePoint) -> Option<f64> {
    point.minutes.and_then(usable)
}

/// The range from the smaller to the larger value.
fn range(point: &CurvePoint) -> Option<(f64, f64)> {
    let (a, b) = point.range?;
    let (a, b) = (usable(a)?, usable(b)?);
    Some((a.min(b), a.max(b)))
}

/// The smallest round number of minutes that covers `highest` in at most five steps.
pub(crate) fn round_step(highest: f64) -> f64 {
    let minutes = [1.0, 2.0, 5.0, 10.0, 15.0, 20.0, 30.0, 60.0, 120.0, 180.0, 240.0, 300.0, 600.0];
    minutes.into_iter().find(|it| highest <= it * 5.0).unwrap_or_else(|| (highest / 5.0).ceil())
}

/// A number of minutes as a person says it: whole from 10 up, else with one decimal if it has any.
pub(crate) fn short(minutes: f64) -> String {
    match minutes >= 10.0 {
        true => format!("{minutes:.0}"),
        false => format!("{minutes:.1}").trim_end_matches(".0").to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ticks_are_round_and_few() {
        let cases = [
            (0.0, 1.0),
            (0.4, 1.0),
            (5.0, 1.0),
            (5.1, 2.0),
            (12.0, 5.0),
            (41.0, 10.0),
            (74.0, 15.0),
            (149.0, 30.0),
            (5000.0, 1000.0),
        ];
        for (highest, step) in cases {
            assert_eq!(round_step(highest), step, "{highest}");
        }
    }

    #[test]
    fn minutes_are_said_shortly() {
        let said: Vec<String> = [0.0, 0.24, 1.0, 7.55, 12.4, 61.0].into_iter().map(short).collect();
        assert_eq!(said, ["0", "0.2", "1", "7.5", "12", "61"]);
    }
}
