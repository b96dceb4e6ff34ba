//! Files of captions as they are found, good and bad.

use proptest::prelude::*;

use super::*;
use crate::{Time, webvtt};

fn said(text: &str) -> Vec<(u64, u64, String)> {
    read(text.as_bytes()).captions.into_iter().map(|it| (it.from.0, it.to.0, it.text)).collect()
}

fn faults(bytes: &[u8]) -> Vec<(usize, Fault)> {
    read(bytes).faults.into_iter().map(|it| (it.line, it.fault)).collect()
}

fn owned(expected: &[(u64, u64, &str)]) -> Vec<(u64, u64, String)> {
    expected.iter().map(|(from, to, text)| (*from, *to, (*text).to_owned())).collect()
}

#[test]
fn webvtt_is_read_without_what_is_not_said() {
    let file = "WEBVTT - spoken\nKind: captions\n\nNOTE\nnot said\n\nSTYLE\n::cue { color: red }\n\n\
                opening\n00:00.500 --> 00:02.000 align:start\n<v Fern>Look <b>here</b>\nat 6 &amp; 9\n\n\
                00:00:02.000 --> 00:00:04.250\na &lt; b <00:00:03.000><c>now</c>\n";
    assert_eq!(said(file), owned(&[(500, 2_000, "Look here\nat 6 & 9"), (2_000, 4_250, "a < b now")]));
    assert_eq!(faults(file.as_bytes()), []);
    assert_eq!(read(file.as_bytes()).form, Form::WebVtt);
}

#[test]
fn subrip_is_read_as_it_is_commonly_written() {
    let file = "1\r\n00:00:00,500 --> 00:00:02,000\r\n{\\an8}<i>Look here</i>\r\n2\r\n\
                00:00:02,000 --> 00:00:04,250\r\n5\r\n\r\n3\r\n00:00:05,000 --> 00:00:06,000\r\nand done";
    let expected = [(500, 2_000, "Look here"), (2_000, 4_250, "5"), (5_000, 6_000, "and done")];
    assert_eq!(said(file), owned(&expected), "a number that is said is kept, a caption's number is not");
    assert_eq!(faults(file.as_bytes()), []);
}

#[test]
fn paragraphs_with_times_are_read() {
    for file in [
        "[0:00] So here\nwe go.\n\n[0:25] This one [laughs] is five.\n",
        "(0:00) So here\nwe go. (00:00:25) This one [laughs] is five.",
        "0:00\nSo here\nwe go.\n00:25\nThis one [laughs] is five.",
    ] {
        let expected = [(0, 25_000, "So here\nwe go."), (25_000, 26_750, "This one [laughs] is five.")];
        assert_eq!(said(file), owned(&expected), "{file}");
        assert_eq!(faults(file.as_bytes()), []);
    }
}

#[test]
fn every_fault_has_its_line() {
    use Fault::*;
    for (file, expected) in [
        ("WEBVTT\n\n00:01.000 --> 00:03.000\na\n\n00:02.000 --> 00:04.000\nb", vec![(6, Overlapping)]),
        ("WEBVTT\n\n00:03.000 --> 00:01.000\na", vec![(3, Backward)]),
        ("WEBVTT\n\n00:08.000 --> 00:09.000\na\n\n00:02.000 --> 00:04.000\nb", vec![(6, OutOfOrder)]),
        ("WEBVTT\n\nno time\nhere\n\n00:02.000 --> 00:04.000\nb", vec![(3, NoTime)]),
        (
            "WEBVTT\n\n00:02.000 --> 00:99.000\na\n\n00:03.000 --> 00:04.000\n",
            vec![(1, NothingSpoken), (3, UnreadableTime), (6, NoText)],
        ),
        ("Title\n[0:05] a\n[0:75] b\n[0:20]\n", vec![(1, BeforeFirstTime), (3, UnreadableTime), (4, NoText)]),
        ("", vec![(1, NothingSpoken)]),
        ("[0:00] [music]\n[0:05] (applause)", vec![(1, NothingSpoken)]),
        (
            "WEBVTT\n\n00:01.000 --> 00:02.000\nover and over again\n\n00:02.000 --> 00:03.000\n\
             over and over again",
            vec![(6, Repeated)],
        ),
    ] {
        assert_eq!(faults(file.as_bytes()), expected, "{file}");
    }
}

#[test]
fn a_caption_that_ends_too_early_lasts_until_the_next() {
    let file = "WEBVTT\n\n00:03.000 --> 00:01.000\na\n\n00:05.000 --> 00:06.000\nb";
    assert_eq!(said(file), owned(&[(3_000, 5_000, "a"), (5_000, 6_000, "b")]));
}

#[test]
fn what_rolls_up_is_read_once() {
    let file = "WEBVTT\n\n00:01.000 --> 00:02.000\nso this must be\n\n00:02.000 --> 00:03.000\n\
                so this must be\na five then\n\n00:03.000 --> 00:04.000\na five then\nfive\n\n\
                00:04.000 --> 00:05.000\nfive\n";
    let texts: Vec<String> = said(file).into_iter().map(|it| it.2).collect();
    assert_eq!(texts, ["so this must be", "a five then", "five", "five"], "a short word may be said twice");
}

#[test]
fn other_encodings_are_read_and_said() {
    let text = "[0:00] naïve “five”";
    let utf16: Vec<u8> =
        [0xff, 0xfe].into_iter().chain(text.encode_utf16().flat_map(u16::to_le_bytes)).collect();
    let big: Vec<u8> =
        [0xfe, 0xff].into_iter().chain(text.encode_utf16().flat_map(u16::to_be_bytes)).collect();
    let western = b"[0:00] ok\n[0:05] na\xefve \x93five\x94".to_vec();
    for (bytes, fault) in
        [(utf16, (1, Fault::Utf16)), (big, (1, Fault::Utf16)), (western, (2, Fault::Windows1252))]
    {
        let it = read(&bytes);
        assert_eq!(it.captions.last().unwrap().text, "naïve “five”");
        assert_eq!(faults(&bytes), [fault]);
    }
    let marked = [&b"\xef\xbb\xbf"[..], text.as_bytes()].concat();
    assert_eq!(faults(&marked), [], "a mark before UTF-8 is no fault");
    assert_eq!(read(&marked).captions.len(), 1);
}

#[test]
fn hours_of_text_are_read() {
    let file: String =
        (0..20_000_u64).map(|it| format!("[{}] said {it}\n", Time::seconds(it * 2).clock())).collect();
    let it = read(file.as_bytes());
    assert_eq!((it.captions.len(), it.faults.len()), (20_000, 0));
    assert_eq!(it.captions.last().unwrap().from, Time::seconds(39_998));
}

/// A time of which some are nonsense.
fn some_time() -> impl Strategy<Value = String> {
    prop_oneof![
        8 => (0_u64..7_200_000).prop_map(|it| Time(it).to_string()),
        1 => Just("00:00:77.000".to_owned()),
        1 => Just("later".to_owned()),
    ]
}

proptest! {
    #[test]
    fn no_bytes_are_too_strange(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        read(&bytes);
        read(&[b"WEBVTT\n\n00:01.000 --> 00:02.000\n", &bytes[..]].concat());
    }

    #[test]
    fn no_text_is_too_strange(text in "([0-9:.,\\[\\]() <>{}\\\\&;a\r\n-]|-->|WEBVTT|NOTE|\\PC){0,120}") {
        let it = read(text.as_bytes());
        prop_assert_eq!(it.captions.len(), it.lines.len());
        prop_assert!(it.captions.iter().all(|it| it.from < it.to && !it.text.is_empty()));
        prop_assert!(it.captions.windows(2).all(|it| it[0].from <= it[1].from));
    }

    #[test]
    fn every_cue_is_kept_or_reported(
        cues in prop::collection::vec((some_time(), some_time(), "[a-z]{0,3}"), 0..20),
        webvtt in any::<bool>(),
    ) {
        let head = if webvtt { "WEBVTT\n\n" } else { "" };
        let cues: Vec<String> = cues.iter().map(|it| format!("{} --> {}\n{}\n\n", it.0, it.1, it.2)).collect();
        let file = format!("{head}{}", cues.concat());
        let it = read(file.as_bytes());
        for (at, _) in file.lines().enumerate().filter(|it| it.1.contains("-->")) {
            let line = at + 1;
            let is_lost = |it: &ReadFault| {
                it.line == line && matches!(it.fault, Fault::UnreadableTime | Fault::NoText | Fault::Repeated)
            };
            let kept = it.lines.iter().filter(|it| **it == line).count();
            let lost = it.faults.iter().filter(|it| is_lost(it)).count();
            prop_assert_eq!(kept + lost, 1, "line {}", line);
        }
    }

    #[test]
    fn every_paragraph_is_kept_or_reported(
        stamps in prop::collection::vec((some_time(), "[a-z]{0,3}"), 0..20),
    ) {
        let file: String = stamps.iter().map(|it| format!("[{}] {}\n", it.0, it.1)).collect();
        let it = read(file.as_bytes());
        let said: String = it.captions.iter().map(|it| it.text.as_str()).collect::<Vec<_>>().join("\n");
        let mut words: Vec<&str> = said.split_whitespace().filter(|it| !it.starts_with('[')).collect();
        let mut written: Vec<&str> = stamps.iter().map(|it| it.1.as_str()).filter(|it| !it.is_empty()).collect();
        words.sort_unstable();
        written.sort_unstable();
        // What cannot be a time at all is text.
        prop_assert_eq!(words, written);
        let nonsense = stamps.iter().filter(|it| it.0 == "00:00:77.000").count();
        let told = it.faults.iter().filter(|it| it.fault == Fault::UnreadableTime).count();
        prop_assert_eq!(nonsense, told);
    }

    #[test]
    fn what_is_written_is_read_again(
        spoken in prop::collection::vec((1_u64..4_000, "[a-zA-Z0-9&<>;-]{1,12}( [a-z<>&]{1,5}){0,3}"), 1..12),
    ) {
        let mut at = 0;
        let captions: Vec<Caption> = spoken.iter().enumerate().map(|(nth, (lasts, text))| {
            // Each text is another, so that none is taken for one that rolls up.
            let it = Caption { from: Time(at), to: Time(at + lasts), text: format!("{nth}. {text}") };
            at += lasts + 10;
            it
        }).collect();
        let it = read(webvtt(&captions).as_bytes());
        prop_assert_eq!(it.captions, captions);
        prop_assert_eq!(it.faults, Vec::new());
    }
}
