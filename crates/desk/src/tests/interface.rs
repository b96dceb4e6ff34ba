//! The pages use the interface as it describes itself, and nothing else.

use std::collections::BTreeSet;
use std::fs;
use std::path::Path;

use super::doors::PAGES;
use super::{Described, Trial};

/// A question that a script asks: the method, and the address with `{}` where something is put in.
type Asked = (String, String);

/// The scripts of the desk, each with its name.
fn scripts() -> Vec<(String, String)> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("play");
    let files = fs::read_dir(folder).unwrap().map(|it| it.unwrap().path());
    let scripts = files.filter(|it| it.extension().is_some_and(|it| it == "js"));
    scripts
        .map(|it| (it.file_name().unwrap().to_string_lossy().into_owned(), fs::read_to_string(&it).unwrap()))
        .collect()
}

/// A text or a template as it is written in a script, from its first mark on; what is put into it becomes `{}`.
fn literal(script: &str) -> Option<String> {
    let mark = script.chars().next().filter(|it| ['"', '`'].contains(it))?;
    let inside = &script[1..];
    let inside = &inside[..inside.find(mark)?];
    let mut text = String::new();
    let mut rest = inside;
    while let Some((before, after)) = rest.split_once("${") {
        text += before;
        text += "{}";
        rest = after.split_once('}')?.1;
    }
    Some(text + rest)
}

/// Every question of a script, and what in it could not be read.
fn asked(script: &str) -> (Vec<Asked>, Vec<String>) {
    let (mut found, mut unread) = (Vec::new(), Vec::new());
    for after in script.split("await ask(").skip(1) {
        let (method, after) = after.split_once(", ").unwrap();
        let method = method.trim_matches('"').to_owned();
        match literal(after) {
            Some(it) => found.push((method, it)),
            None => unread.push(format!("{method} {}", after.split([',', ')']).next().unwrap())),
        }
    }
    (found, unread)
}

/// Whether the description has it. What is put into an address may stand for a word of it, too.
fn is_described(routes: &[Described], (method, path): &Asked) -> bool {
    let whole = format!("/api/1{path}");
    let parts: Vec<&str> = whole.split('/').collect();
    routes.iter().any(|it| {
        let described: Vec<&str> = it.path.split('/').collect();
        let is_alike = |(a, b): (&&str, &&str)| a == b || b.starts_with('{') || a.contains("{}");
        it.method.as_str() == method
            && described.len() == parts.len()
            && parts.iter().zip(&described).all(is_alike)
    })
}

#[tokio::test]
async fn scripts_ask_for_nothing_that_is_not_described() {
    let routes = Trial::new().await.described().await;
    // Where the address has a name of its own in the script: what it stands for.
    let named = [
        ("places.js", "PUT path", &["`/pack/pins/${id}`", "`/puzzles/${id}/standing`"][..], "PUT"),
        ("places.js", "POST `${path}/weighed`", &["`/pack/pins/${id}`", "`/puzzles/${id}/standing`"], "POST"),
        ("reading.js", "GET place", &["`/puzzles/${part.dataset.puzzle}/steps/${number}/board`"], "GET"),
    ];
    let mut all = BTreeSet::new();
    for (name, script) in scripts() {
        let (found, unread) = asked(&script);
        for it in unread {
            let known = named.iter().find(|known| known.0 == name && known.1 == it);
            let known = known.unwrap_or_else(|| panic!("{name} asks for {it}, of which nothing is known"));
            for text in known.2 {
                assert!(script.contains(text), "{name} no longer has {text}");
                all.insert((known.3.to_owned(), literal(text).unwrap()));
            }
        }
        for (method, path) in found {
            if let Some(rest) = path.strip_prefix("{}") {
                let is_path = |it: &&(&str, &str, &[&str], &str)| it.0 == name && it.1.starts_with(&method);
                let known = named.iter().find(is_path).unwrap_or_else(|| panic!("{name}: {path}"));
                let paths = known.2.iter().map(|it| literal(it).unwrap() + rest);
                all.extend(paths.map(|it| (method.clone(), it)));
            } else {
                all.insert((method, path));
            }
        }
        // There is no other way out of a script.
        let n_ways = ["fetch(", "EventSource(", "XMLHttpRequest", "sendBeacon", "WebSocket", "await import("]
            .map(|it| script.matches(it).count());
        let expected = if name == "api.js" { [2, 2, 0, 0, 0, 0] } else { [0; 6] };
        assert_eq!(n_ways, expected, "{name} asks by itself");
    }
    assert!(all.len() > 35, "{all:?}");
    for it in &all {
        assert!(is_described(&routes, it), "no such route: {} {}", it.0, it.1);
    }
    for wrong in [("GET", "/puzzle/{}"), ("POST", "/puzzles/{}/board"), ("PUT", "/pack")] {
        let wrong = (wrong.0.to_owned(), wrong.1.to_owned());
        assert!(!is_described(&routes, &wrong), "{wrong:?}");
    }
}

#[tokio::test]
async fn pages_lead_to_nothing_of_the_interface_that_is_not_described() {
    let trial = Trial::new().await;
    let routes = trial.described().await;
    let mut n_found = 0;
    for page in PAGES {
        let text = trial.get(page).await.text;
        for after in text.split("\"/api/1").skip(1) {
            let path = after.split(['"', '?']).next().unwrap().to_owned();
            assert!(is_described(&routes, &("GET".to_owned(), path.clone())), "{page}: {path}");
            n_found += 1;
        }
    }
    assert!(n_found >= 2, "{n_found}");
}
