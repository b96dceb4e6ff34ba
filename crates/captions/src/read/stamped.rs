//! Plain text with a time in brackets before each paragraph: `[0:25] So this one ...`, or the time alone in its line.

use super::stamps::time;
use super::{Fault, Found, ReadFault};
use crate::Time;

pub(super) fn found(lines: &[&str], faults: &mut Vec<ReadFault>) -> Vec<Found> {
    let mut found: Vec<Found> = Vec::new();
    for (at, line) in lines.iter().enumerate() {
        let line_number = at + 1;
        for piece in pieces(line) {
            match piece {
                Piece::At(from) => {
                    found.push(Found { line: line_number, from, to: None, text: String::new() });
                }
                Piece::Unreadable => {
                    faults.push(ReadFault { line: line_number, fault: Fault::UnreadableTime });
                }
                Piece::Said(text) => {
                    if found.is_empty() {
                        faults.push(ReadFault { line: line_number, fault: Fault::BeforeFirstTime });
                        found.push(Found { line: line_number, from: Time(0), to: None, text: String::new() });
                    }
                    let text_so_far = &mut found.last_mut().expect("one was put there").text;
                    if !text_so_far.is_empty() {
                        text_so_far.push('\n');
                    }
                    text_so_far.push_str(text);
                }
            }
        }
    }
    let silent = found.iter().filter(|it| it.text.is_empty());
    faults.extend(silent.map(|it| ReadFault { line: it.line, fault: Fault::NoText }));
    found.retain(|it| !it.text.is_empty());
    found
}

enum Piece<'a> {
    At(Time),
    /// Looks like a time and is none; what is said after it belongs to the time before.
    Unreadable,
    Said(&'a str),
}

/// A line cut at its times.
fn pieces(line: &str) -> Vec<Piece<'_>> {
    if let Some(it) = time(line) {
        return vec![Piece::At(it)];
    }
    let mut pieces = Vec::new();
    let mut begins = 0;
    let mut at = 0;
    while let Some(open) = line[at..].find(['[', '(']).map(|it| at + it) {
        let close = if line[open..].starts_with('[') { ']' } else { ')' };
        let Some(end) = line[open..].find(close).map(|it| open + it) else { break };
        let inside = line[open + 1..end].trim();
        let is_like_a_time = inside.contains(':')
            && inside.chars().all(|it| it.is_ascii_digit() || [':', '.', ',', '-'].contains(&it));
        if is_like_a_time {
            push_said(&line[begins..open], &mut pieces);
            pieces.push(time(inside).map_or(Piece::Unreadable, Piece::At));
            begins = end + 1;
            at = end + 1;
        } else {
            at = open + 1;
        }
    }
    push_said(&line[begins..], &mut pieces);
    pieces
}

fn push_said<'a>(text: &'a str, pieces: &mut Vec<Piece<'a>>) {
    if !text.trim().is_empty() {
        pieces.push(Piece::Said(text.trim()));
    }
}
