//! Writes the site of a pack folder, so that a person can look at it:
//! `cargo run -p site --example sample_site -- demo/lantern-room target/sample-site`.
//! Seals are broken, so that every page is there to be looked at.
#![allow(clippy::print_stdout)]

use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};

use packfile::{SourceFile, read_pack};
use study::{StudiedPack, study};

fn main() -> Result<(), Box<dyn Error>> {
    let mut arguments = std::env::args().skip(1).map(PathBuf::from);
    let (Some(pack), Some(out)) = (arguments.next(), arguments.next()) else {
        return Err("give a pack folder and a folder to write".into());
    };
    let site = site::site(&studied(&pack)?);
    for (path, bytes) in &site.files {
        let path = out.join(path);
        fs::create_dir_all(path.parent().unwrap_or(&out))?;
        fs::write(path, bytes)?;
    }
    let read = site::read_back(&site.files)?;
    println!("{} files, {} puzzles read back, left out: {:?}", site.files.len(), read.len(), site.left_out);
    Ok(())
}

fn studied(folder: &Path) -> Result<StudiedPack, Box<dyn Error>> {
    let info = SourceFile::new("pack.toml", fs::read(folder.join("pack.toml"))?);
    let mut names = Vec::new();
    for file in fs::read_dir(folder.join("puzzles"))? {
        names.push(file?.file_name().to_string_lossy().into_owned());
    }
    names.sort();
    let file = |name: &String| -> Result<SourceFile, Box<dyn Error>> {
        Ok(SourceFile::new(format!("puzzles/{name}"), fs::read(folder.join("puzzles").join(name))?))
    };
    let files = names.iter().map(file).collect::<Result<Vec<_>, _>>()?;
    let pack = read_pack(Some(&info), &files).0.pack;
    let studies = pack.entries.into_iter().map(|it| study(it, true)).collect();
    Ok(StudiedPack::new(pack.info, studies))
}
