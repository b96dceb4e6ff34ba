//! Writes the booklet of a pack folder and reads it back, to look at it: `sample PACK OUT.pdf`.
//!
//! An example reads files and the clock, as the library must not.
#![allow(clippy::disallowed_methods, clippy::print_stdout)]

use std::error::Error;
use std::fs;
use std::path::Path;
use std::time::Instant;

use booklet::{Edition, booklet, read_back};
use packfile::{SourceFile, read_pack};
use study::{StudiedPack, study};

fn main() -> Result<(), Box<dyn Error>> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [folder, out] = &arguments[..] else { return Err("usage: sample PACK OUT.pdf".into()) };
    let pack = read(Path::new(folder))?;

    let start = Instant::now();
    let booklet = booklet(&pack, &Edition { issued: None })?;
    println!("set in {:?}, {} bytes", start.elapsed(), booklet.bytes.len());
    println!("left out: {:?}; altered: {:?}", booklet.left_out, booklet.alterations);

    let start = Instant::now();
    let is_same = read_back(&booklet.bytes)? == booklet.printed;
    println!("read back in {:?}, {}", start.elapsed(), if is_same { "the same" } else { "different" });
    fs::write(out, booklet.bytes)?;
    Ok(())
}

fn read(folder: &Path) -> Result<StudiedPack, Box<dyn Error>> {
    let info = SourceFile::new("pack.toml", fs::read(folder.join("pack.toml"))?);
    let mut puzzles = Vec::new();
    for file in fs::read_dir(folder.join("puzzles"))? {
        let path = file?.path();
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        puzzles.push(SourceFile::new(format!("puzzles/{name}"), fs::read(&path)?));
    }
    let (read, problems) = read_pack(Some(&info), &puzzles);
    for problem in problems {
        println!("{problem:?}");
    }
    let studies = read.pack.entries.into_iter().map(|it| study(it, true)).collect();
    Ok(StudiedPack::new(read.pack.info, studies))
}
