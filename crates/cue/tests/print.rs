//! Cue sheets as PDF: what is on their pages, read back by a renderer's text extraction where there is one.

use std::process::{Command, Stdio};

use cue::in_print;
use pack::{Entry, Notes};
use packfile::{SourceFile, read_puzzle};
use rehearse::{Plan, Setting};
use study::study;

fn entry() -> Entry {
    let text = include_str!("../../../demo/lantern-room/puzzles/first-light.toml");
    let file = SourceFile::new("puzzles/first-light.toml", text);
    Entry { sealed: false, ..read_puzzle(&file).0.unwrap() }
}

/// The text of a PDF file by poppler, with single spaces; none where it is not installed.
fn text(pdf: &[u8], name: &str) -> Option<String> {
    let path = std::env::temp_dir().join(format!("galley-cue-{}-{name}.pdf", std::process::id()));
    std::fs::write(&path, pdf).unwrap();
    let said = Command::new("pdftotext").arg(&path).arg("-").stderr(Stdio::null()).output().ok();
    std::fs::remove_file(&path).unwrap();
    let said = String::from_utf8(said?.stdout).unwrap();
    Some(said.split_whitespace().collect::<Vec<_>>().join(" "))
}

#[test]
#[expect(clippy::print_stdout, reason = "it says why it is skipped")]
fn everything_that_is_said_is_printed() {
    let study = study(entry(), false);
    let setting = Setting::alone(&study, "The lantern room").unwrap();
    let plan = Plan::new(&setting);
    let pdf = in_print(&setting, &plan).unwrap();
    assert_eq!(in_print(&setting, &plan).unwrap(), pdf, "equal plans give equal bytes");
    let Some(text) = text(&pdf, "said") else {
        println!("skipped: pdftotext is not installed");
        return;
    };
    // Where a line ends a word may be parted, and running heads come in between: short pieces are looked for.
    let pieces = |it: &str| {
        it.split_whitespace().collect::<Vec<_>>().chunks(3).map(|it| it.join(" ")).collect::<Vec<_>>()
    };
    let (mut found, mut all) = (0, 0);
    for line in plan.script.cues().flat_map(|it| it.says.lines()).chain(plan.script.opening_lines()) {
        for it in pieces(line) {
            all += 1;
            found += usize::from(text.contains(&it));
        }
    }
    assert!(all > 200 && found * 100 >= all * 97, "{found} of {all}");
    for it in [&plan.script.total().clock()[..], "Before you begin", "New here", "Close"] {
        assert!(text.contains(it), "{it}");
    }
}

#[test]
fn whatever_a_pack_says_can_be_printed() {
    let hostile =
        ["#panic()", "灯\u{0}a灯", "\u{202e}drawkcab", "*a_b* $x$ `y` <z> @w", &"long ".repeat(600)];
    for it in hostile {
        let entry = Entry { title: it.to_owned(), setter: it.to_owned(), ..entry() };
        let study = study(entry, false);
        let notes = Notes {
            opening: it.to_owned(),
            close: it.to_owned(),
            questions: vec![it.to_owned()],
            ..Notes::default()
        };
        let setting = Setting::alone(&study, it).unwrap().noted(notes);
        let pdf = in_print(&setting, &Plan::new(&setting)).unwrap();
        assert!(pdf.starts_with(b"%PDF-"), "{it}");
    }
}
