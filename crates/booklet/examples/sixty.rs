//! How long a booklet of 60 puzzles takes, from the studied pack to the bytes: `cargo run -p booklet --example sixty`, or
//! with forms, `-- a4 large`. The demo's puzzles, each five times under names of their own.

#![allow(clippy::print_stdout, reason = "it is what this program is for")]
#![allow(clippy::disallowed_methods, reason = "a measurement reads the clock")]

use std::error::Error;
use std::time::Instant;

use booklet::{Edition, booklet, read_back};
use pack::{Entry, Form, PackInfo, PuzzleId};
use packfile::{SourceFile, read_puzzle};
use primer::Primer;
use study::{StudiedPack, study};

fn main() -> Result<(), Box<dyn Error>> {
    let forms: Vec<Form> = std::env::args().skip(1).map(|it| it.parse()).collect::<Result<_, _>>()?;
    let forms = if forms.is_empty() { vec![Form::default()] } else { forms };
    let entries = demo()?;
    let many = (0..5).flat_map(|copy| entries.iter().map(move |it| (copy, it)));
    let studies = many.filter_map(|(copy, it)| {
        let id = PuzzleId::new(&format!("{}-{copy}", it.id))?;
        Some(study(Entry { id, sealed: false, ..it.clone() }, false))
    });
    let info =
        PackInfo { base_url: Some("https://example.org/lantern-room/".to_owned()), ..PackInfo::default() };
    let pack = StudiedPack::new(info, studies.take(60).collect());
    for form in forms {
        let start = Instant::now();
        let made = booklet(&pack, &Primer::default(), &Edition { issued: None, form })?;
        let set = start.elapsed().as_secs_f64();
        let n_read = read_back(&made.bytes)?.len();
        let all = start.elapsed().as_secs_f64();
        let name = if form == Form::default() { "a4".to_owned() } else { form.to_string() };
        println!(
            "{name}: {n_read} puzzles set in {set:.1} s, read back after {all:.1} s, {} KiB",
            made.bytes.len() / 1024
        );
    }
    Ok(())
}

fn demo() -> Result<Vec<Entry>, Box<dyn Error>> {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../demo/lantern-room/puzzles");
    let mut paths: Vec<_> =
        std::fs::read_dir(folder)?.map(|it| it.map(|it| it.path())).collect::<Result<_, _>>()?;
    paths.sort();
    let mut entries = Vec::new();
    for path in paths {
        let name = path.file_name().and_then(|it| it.to_str()).unwrap_or_default().to_owned();
        entries.extend(read_puzzle(&SourceFile::new(name, std::fs::read(&path)?)).0.ok());
    }
    Ok(entries)
}
