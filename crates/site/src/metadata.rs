//! What machines are told of a page, in the vocabulary of schema.org.

use serde_json::{Map, Value, json};

use crate::address::address;
use crate::contents::Contents;
use crate::frame::bare_pack_title;
use crate::{index, preview, puzzle, recording, words};
use pack::Entry;
use page::bare;
use study::Published;

/// The pack, a collection of its puzzles.
pub(crate) fn of_pack(contents: &Contents) -> String {
    let parts: Vec<Value> = contents.published.iter().map(|it| part(contents, it)).collect();
    let about = words::about(contents.published.len());
    embedded(whole(
        contents,
        &["Collection", "LearningResource"],
        index::PATH,
        preview::PACK_PATH,
        &[
            ("name", json!(bare_pack_title(contents.info))),
            ("description", json!(about)),
            ("hasPart", json!(parts)),
        ],
    ))
}

/// One puzzle, a learning resource that teaches techniques.
pub(crate) fn of_puzzle(contents: &Contents, it: &Published) -> String {
    let entry = it.study.entry();
    let used: Vec<&str> = contents.used_in(it).into_iter().map(tell::technique_name).collect();
    let path = puzzle::path(&entry.id);
    let mut all = whole(
        contents,
        &["Game", "LearningResource"],
        &path,
        &preview::path(&entry.id),
        &[
            ("name", json!(bare(&entry.title))),
            ("author", author(entry)),
            ("position", json!(it.number)),
            ("teaches", json!(used)),
            ("isPartOf", json!({"@type": "Collection", "name": bare_pack_title(contents.info)})),
        ],
    );
    if let Some(minutes) = it.study.minutes() {
        all.insert("timeRequired".to_owned(), json!(format!("PT{}M", minutes.to)));
    }
    if let Some(recording) = recording::out(entry, contents.issued) {
        let video = json!({"@type": "VideoObject", "name": bare(&entry.title), "url": recording});
        all.insert("video".to_owned(), video);
    }
    embedded(all)
}

/// Who set it, with where more of them can be found.
fn author(entry: &Entry) -> Value {
    let mut author = json!({"@type": "Person", "name": bare(entry.credited())});
    if let Some(link) = &entry.credit.link {
        author["url"] = json!(link);
    }
    author
}

/// A puzzle as a part of its pack.
fn part(contents: &Contents, it: &Published) -> Value {
    let entry = it.study.entry();
    let mut part = Map::from_iter([
        ("@type".to_owned(), json!("Game")),
        ("name".to_owned(), json!(bare(&entry.title))),
        ("position".to_owned(), json!(it.number)),
    ]);
    if let Some(address) = address(contents.info, &puzzle::path(&entry.id)) {
        part.insert("url".to_owned(), json!(address));
    }
    Value::Object(part)
}

fn whole(
    contents: &Contents,
    kinds: &[&str],
    path: &str,
    picture: &str,
    said: &[(&str, Value)],
) -> Map<String, Value> {
    let info = contents.info;
    let mut all = Map::new();
    let mut put = |key: &str, value: Value| _ = all.insert(key.to_owned(), value);
    put("@context", json!("https://schema.org"));
    put("@type", json!(kinds));
    put("inLanguage", json!("en"));
    said.iter().for_each(|it| put(it.0, it.1.clone()));
    if let Some(address) = address(info, path) {
        put("url", json!(address));
    }
    if let Some(picture) = address(info, picture) {
        put("image", json!(picture));
    }
    if let Some(licence) = &info.licence {
        put("license", json!(bare(licence)));
    }
    if !info.editor.trim().is_empty() {
        put("editor", json!({"@type": "Person", "name": bare(&info.editor)}));
    }
    all
}

/// As it can stand in a script element.
fn embedded(all: Map<String, Value>) -> String {
    Value::Object(all).to_string().replace('<', "\\u003c")
}
