//! Writing WebVTT, the W3C's format of captions and chapters.
//!
//! By its syntax (<https://www.w3.org/TR/webvtt1/>, section 4): the first line says WEBVTT and a blank one
//! follows; a cue is a line of times and then its text, up to a blank line; no text holds `-->`; ampersands and angle
//! brackets are escaped. Chapters are cues that do not overlap.

use crate::{Caption, Chapter, Time};

/// The captions as a WebVTT file, in order of their beginnings.
///
/// A caption that is shown for no time at all, or says nothing, cannot be written and is left out.
pub fn webvtt(captions: &[Caption]) -> String {
    let mut captions: Vec<&Caption> = captions.iter().collect();
    captions.sort_by_key(|it| (it.from, it.to));
    let cues = captions.iter().map(|it| cue(it.from, it.to, &it.text));
    file(cues)
}

/// The chapters as a WebVTT file, each up to the next and the last to the end of the recording.
pub fn chapters_webvtt(chapters: &[Chapter], total: Time) -> String {
    let ends = chapters.iter().skip(1).map(|it| it.at).chain([total]);
    let cues = chapters.iter().zip(ends).map(|(it, end)| cue(it.at, end, &it.title.replace('\n', " ")));
    file(cues)
}

fn file(cues: impl Iterator<Item = Option<String>>) -> String {
    let cues: String = cues.flatten().collect();
    format!("WEBVTT\n{cues}")
}

/// One cue with the blank line before it.
fn cue(from: Time, to: Time, text: &str) -> Option<String> {
    let lines: Vec<String> = text.lines().map(escaped).filter(|it| !it.is_empty()).collect();
    (from < to && !lines.is_empty()).then(|| format!("\n{from} --> {to}\n{}\n", lines.join("\n")))
}

/// A line as it may stand in a cue. Escaping every `>` also undoes `-->`.
fn escaped(line: &str) -> String {
    // A control character has no place in a text, and a null would end it for some readers.
    let line: String = line.chars().map(|it| if it.is_control() { ' ' } else { it }).collect();
    line.trim().replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn caption(from: u64, to: u64, text: &str) -> Caption {
        Caption { from: Time(from), to: Time(to), text: text.to_owned() }
    }

    #[test]
    fn captions_are_written_in_order_and_escaped() {
        let captions = [
            caption(2_000, 4_000, "then\n\nthis --> <b>&"),
            caption(0, 1_500, "first"),
            caption(4_000, 4_000, "never shown"),
            caption(5_000, 6_000, " \n"),
        ];
        assert_eq!(
            webvtt(&captions),
            "WEBVTT\n\n00:00:00.000 --> 00:00:01.500\nfirst\n\n\
             00:00:02.000 --> 00:00:04.000\nthen\nthis --&gt; &lt;b&gt;&amp;\n"
        );
    }

    #[test]
    fn chapters_follow_each_other_without_a_gap() {
        let chapters = [(0, "Opening"), (41_250, "Place the crusts")]
            .map(|(at, title)| Chapter { at: Time(at), title: title.to_owned() });
        assert_eq!(
            chapters_webvtt(&chapters, Time(90_000)),
            "WEBVTT\n\n00:00:00.000 --> 00:00:41.250\nOpening\n\n\
             00:00:41.250 --> 00:01:30.000\nPlace the crusts\n"
        );
        assert_eq!(chapters_webvtt(&[], Time(5)), "WEBVTT\n");
    }
}
