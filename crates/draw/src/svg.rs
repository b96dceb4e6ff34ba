//! The few pieces of SVG that every picture is made of.

use std::fmt;

use crate::ink::Tone;

/// Faces for figures: serifs whose figures stand on the line and are equally wide.
const FIGURES: &str = "Charter, 'Bitstream Charter', 'Palatino Linotype', Palatino, 'URW Palladio L', \
    'Source Serif 4', 'Noto Serif', Cambria, serif";

/// How high the middle of a figure lies above the line it stands on, as a part of the type size.
/// Between 0.33 and 0.37 in common faces. Used instead of `dominant-baseline`, on which renderers
/// differ.
const MIDDLE: f64 = 0.35;

/// How wide a figure is in the widest common serif, as a part of the type size.
pub(crate) const FIGURE_WIDTH: f64 = 0.64;

/// A number with at most two decimals and no needless ones.
#[derive(Clone, Copy)]
pub(crate) struct Num(pub(crate) f64);

impl fmt::Display for Num {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = format!("{:.2}", self.0);
        let text = text.trim_end_matches('0').trim_end_matches('.');
        f.write_str(if text == "-0" { "0" } else { text })
    }
}

/// A text from outside, safe in element content and in quoted attributes.
///
/// Characters that XML forbids become U+FFFD, white space becomes single spaces between words, and
/// the controls that reorder bidirectional text are dropped, so that a text cannot reach beyond
/// itself.
pub(crate) fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for it in text.split_whitespace().collect::<Vec<_>>().join(" ").chars() {
        match it {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}' => {}
            '\u{fffe}' | '\u{ffff}' => out.push('\u{fffd}'),
            it if it.is_control() => out.push('\u{fffd}'),
            it => out.push(it),
        }
    }
    out
}

/// A whole picture on its own paper.
///
/// `class` is added to the picture's classes; `title` becomes its accessible name and `description`
/// its accessible description, if it has any.
pub(crate) fn picture(
    class: &str,
    (width, height): (f64, f64),
    title: &str,
    description: &str,
    content: &str,
) -> String {
    let (width, height) = (Num(width), Num(height));
    let title = escape(title);
    let description = match escape(description) {
        it if it.is_empty() => it,
        it => format!("<desc>{it}</desc>"),
    };
    let paper = Tone::Paper.fill();
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"galley-picture {class}\" \
         viewBox=\"0 0 {width} {height}\" width=\"{width}\" height=\"{height}\" role=\"img\" \
         aria-label=\"{title}\" font-family=\"{FIGURES}\"><title>{title}</title>\
         {description}<rect {paper} width=\"{width}\" height=\"{height}\"/>{content}</svg>"
    )
}

/// A group that gives `attributes` to its content; nothing if there is no content.
pub(crate) fn group(attributes: &str, content: &str) -> String {
    match content.is_empty() {
        true => String::new(),
        false => format!("<g {attributes}>{content}</g>"),
    }
}

/// A path; nothing if it has no stretch.
pub(crate) fn path(attributes: &str, data: &str) -> String {
    match data.is_empty() {
        true => String::new(),
        false => format!("<path {attributes} d=\"{data}\"/>"),
    }
}

/// One straight stretch of a path.
pub(crate) fn stretch(from: (f64, f64), to: (f64, f64)) -> String {
    let (x, y) = (Num(from.0), Num(from.1));
    match (from.0 == to.0, from.1 == to.1) {
        (_, true) => format!("M{x} {y}H{}", Num(to.0)),
        (true, _) => format!("M{x} {y}V{}", Num(to.1)),
        _ => format!("M{x} {y}L{} {}", Num(to.0), Num(to.1)),
    }
}

/// A rectangle.
pub(crate) fn rect(attributes: &str, (x, y): (f64, f64), (width, height): (f64, f64)) -> String {
    let (x, y, width, height) = (Num(x), Num(y), Num(width), Num(height));
    format!("<rect {attributes} x=\"{x}\" y=\"{y}\" width=\"{width}\" height=\"{height}\"/>")
}

/// A text of that type size whose figures have their middle at height `y`; its anchor is the group's.
/// The content must be safe (see [`escape`]).
pub(crate) fn figure((x, y): (f64, f64), size: f64, content: impl fmt::Display) -> String {
    format!("<text x=\"{}\" y=\"{}\">{content}</text>", Num(x), Num(y + MIDDLE * size))
}

/// Attributes for a group of texts.
pub(crate) fn type_of(tone: Tone, size: f64, anchor: &str) -> String {
    format!("{} font-size=\"{}\" text-anchor=\"{anchor}\"", tone.fill(), Num(size))
}

/// As much of a name as fits into `width`, cut with an ellipsis; nothing if not even three letters
/// do. Letters are taken to be 0.6 of the type size wide, which is on the safe side for most scripts.
pub(crate) fn fitted(name: &str, width: f64, type_size: f64) -> String {
    let room = (width / (type_size * 0.6)) as usize;
    let n_letters = name.chars().count();
    match room {
        _ if n_letters <= room => name.to_owned(),
        0..=3 => String::new(),
        _ => name.chars().take(room - 1).collect::<String>().trim_end().to_owned() + "…",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_are_cut_to_the_room_they_have() {
        assert_eq!(fitted("Dusk", 100.0, 13.0), "Dusk");
        assert_eq!(fitted("Small hours", 60.0, 13.0), "Small…");
        assert_eq!(fitted("Small hours", 20.0, 13.0), "");
        assert_eq!(fitted("宵の口の宵の口の", 40.0, 13.0), "宵の口の…");
    }

    #[test]
    fn numbers_are_short() {
        let printed: Vec<String> = [0.0, -0.001, 1.0, 10.0, 2.5, 1.0 / 3.0, -7.25]
            .into_iter()
            .map(|it| Num(it).to_string())
            .collect();
        assert_eq!(printed, ["0", "0", "1", "10", "2.5", "0.33", "-7.25"]);
    }

    #[test]
    fn no_text_reaches_beyond_itself() {
        assert_eq!(escape("a\t\n b"), "a b");
        assert_eq!(escape("\"'<&>"), "&quot;&#39;&lt;&amp;&gt;");
        assert_eq!(escape("a\u{0}b\u{7f}\u{9f}\u{ffff}"), "a\u{fffd}b\u{fffd}\u{fffd}\u{fffd}");
        assert_eq!(escape("\u{202e}abc\u{2067}"), "abc");
        assert_eq!(escape("שלום"), "שלום");
    }
}
