//! WebVTT and SubRip: blocks of lines, each with a line of two times.
//!
//! Of WebVTT (<https://www.w3.org/TR/webvtt1/>, section 4) notes, styles, regions, names of cues, settings and marks within
//! the text are passed over. SubRip is the same with a comma for the dot, and marks of its own in curly brackets.

use super::stamps::time;
use super::{Fault, Form, Found, ReadFault};

pub(super) fn found(lines: &[&str], form: Form, faults: &mut Vec<ReadFault>) -> Vec<Found> {
    let mut found: Vec<Found> = Vec::new();
    let mut at = 0;
    while at < lines.len() {
        if lines[at].trim().is_empty() {
            at += 1;
            continue;
        }
        let end = lines[at..].iter().position(|it| it.trim().is_empty()).map_or(lines.len(), |it| at + it);
        block(lines, at..end, form, &mut found, faults);
        at = end;
    }
    found
}

/// The lines between two blank ones. Where a blank line was forgotten, a block holds several captions.
fn block(
    lines: &[&str],
    range: std::ops::Range<usize>,
    form: Form,
    found: &mut Vec<Found>,
    faults: &mut Vec<ReadFault>,
) {
    let times: Vec<usize> = range.clone().filter(|it| lines[*it].contains("-->")).collect();
    let first = times.first().copied().unwrap_or(range.end);
    // What stands before the times is the caption's number or name; only the first block's may be a header.
    let before: Vec<usize> = (range.start..first).collect();
    let opens = before.first().map_or("", |it| lines[*it].trim());
    let is_header = found.is_empty() && opens.starts_with("WEBVTT");
    let is_note = ["NOTE", "STYLE", "REGION"].iter().any(|it| {
        opens.strip_prefix(it).is_some_and(|rest| rest.is_empty() || rest.starts_with(char::is_whitespace))
    });
    if form == Form::WebVtt && (is_header || is_note) && times.is_empty() {
        return;
    }
    let is_number = |it: &usize| lines[*it].trim().bytes().all(|it| it.is_ascii_digit());
    if times.is_empty() && !before.iter().all(is_number) {
        faults.push(ReadFault { line: range.start + 1, fault: Fault::NoTime });
        return;
    }
    // A name is one line; more is text that has lost its time.
    if before.len() > 1 && !is_header {
        faults.push(ReadFault { line: range.start + 1, fault: Fault::NoTime });
    }
    for (nth, line) in times.iter().enumerate() {
        let next = times.get(nth + 1).copied();
        // The number of the next caption is none of this one's words.
        let end = match next {
            Some(next) if next > line + 1 && is_number(&(next - 1)) => next - 1,
            Some(next) => next,
            None => range.end,
        };
        let text: Vec<String> = (line + 1..end).map(|it| unmarked(lines[it])).collect();
        let text: Vec<&str> = text.iter().map(|it| it.trim()).filter(|it| !it.is_empty()).collect();
        match stretch(lines[*line]) {
            None => faults.push(ReadFault { line: line + 1, fault: Fault::UnreadableTime }),
            Some(_) if text.is_empty() => faults.push(ReadFault { line: line + 1, fault: Fault::NoText }),
            Some((from, to)) => {
                found.push(Found { line: line + 1, from, to: Some(to), text: text.join("\n") });
            }
        }
    }
}

/// `00:00:01.000 --> 00:00:03.000 align:start`
fn stretch(line: &str) -> Option<(crate::Time, crate::Time)> {
    let (from, rest) = line.split_once("-->")?;
    let to = rest.split_whitespace().next()?;
    Some((time(from)?, time(to)?))
}

/// A line without its marks (`<i>`, `<00:00:01.000>`, `{\an8}`), and with the characters that are written as names.
fn unmarked(line: &str) -> String {
    let mut text = String::with_capacity(line.len());
    let mut rest = line;
    while let Some(at) = rest.find(['<', '{']) {
        text.push_str(&rest[..at]);
        rest = &rest[at..];
        let (close, is_mark) = match rest.starts_with('<') {
            true => ('>', rest[1..].starts_with(|it: char| it.is_alphanumeric() || it == '/')),
            false => ('}', rest[1..].starts_with('\\')),
        };
        match rest.find(close).filter(|_| is_mark) {
            Some(end) => rest = &rest[end + 1..],
            None => {
                text.push_str(&rest[..1]);
                rest = &rest[1..];
            }
        }
    }
    text.push_str(rest);
    let named = [("&lt;", "<"), ("&gt;", ">"), ("&nbsp;", "\u{a0}"), ("&lrm;", ""), ("&rlm;", "")];
    let text = named.iter().fold(text, |text, (name, it)| text.replace(name, it));
    text.replace("&amp;", "&")
}
