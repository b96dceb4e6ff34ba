//! Markup in everything that a pack, a solver or another program may write stays text on every page.

use std::collections::BTreeSet;
use std::fs;

use axum::http::{Method, StatusCode};
use serde_json::json;

use super::{SOUND, Trial};

/// Markup that tells where it was written.
fn evil(place: &str) -> String {
    format!("<i data-evil={place}>\"'&")
}

/// The same as a text of TOML or JSON.
fn quoted(place: &str) -> String {
    serde_json::to_string(&evil(place)).unwrap()
}

/// Keys of a puzzle's file that may hold any line, and those that may not, so that the line is quoted in a problem.
const FREE: [&str; 5] = ["title", "setter", "permission", "note", "reason"];
const FAULTY: [&str; 17] = [
    "recording",
    "format",
    "sealed",
    "size",
    "box",
    "grid",
    "shelf",
    "state",
    "received",
    "approved",
    "record",
    "release",
    "intends",
    "features",
    "chapters",
    "said",
    "sandwich",
];

/// A puzzle's file with markup in every key that may hold it.
fn puzzle(id: &str) -> String {
    let of = |key: &str| quoted(&format!("{id}-{key}"));
    let shelf = quoted("shelf");
    let free: String = FREE.iter().skip(2).map(|it| format!("{it} = {}\n", of(it))).collect();
    let intends = of("intends");
    format!("intends = [{intends}]\nshelf = {shelf}\n{free}{SOUND}")
        .replace("\"Sound\"", &of("title"))
        .replace("\"Fern\"", &of("setter"))
        .replace("# the only one", &format!("# {}", evil("comment")))
}

/// A trial of a pack with markup in it wherever there is a place for it.
async fn marked() -> Trial {
    let mut puzzles: Vec<(String, String)> = vec![
        ("sound".to_owned(), puzzle("sound")),
        ("sealed".to_owned(), format!("sealed = true\n{}", puzzle("sealed"))),
        ("declined".to_owned(), format!("state = \"declined\"\n{}", puzzle("declined"))),
        ("many".to_owned(), puzzle("many").replace("1 . | . .", ". . | . .")),
        ("none".to_owned(), puzzle("none").replace(". . | 4 .", ". . | 4 1")),
        ("unknown".to_owned(), format!("{} = 1\n", quoted("key"))),
    ];
    for key in FAULTY {
        let text: String =
            SOUND.lines().filter(|it| !it.starts_with(key)).map(|it| format!("{it}\n")).collect();
        let text =
            if key == "grid" { "format = 1\ntitle = \"G\"\nsetter = \"G\"\n".to_owned() } else { text };
        for (at, value) in [quoted(key), format!("[{}]", quoted(key))].iter().enumerate() {
            puzzles.push((format!("faulty-{key}-{at}"), format!("{key} = {value}\n{text}")));
        }
    }
    let puzzles: Vec<(&str, &str)> = puzzles.iter().map(|it| (&it.0[..], &it.1[..])).collect();
    let trial = Trial::of(&puzzles).await;
    let write = |file: &str, text: String| {
        let path = trial.path().join(file);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    };
    let lines =
        ["title", "editor", "licence"].map(|it| format!("{it} = {}\n", quoted(&format!("pack-{it}"))));
    let lists = ["knows", "booklets", "errata", "order"]
        .map(|it| format!("{it} = [{}]\n", quoted(&format!("pack-{it}"))));
    let setter = |it: &str| format!("{it} = {}\n", quoted(&format!("setter-{it}")));
    write(
        "pack.toml",
        format!(
            "format = 1\n{}{}base_url = {}\nshelves = [{}]\n{} = 1\n[pins]\n{} = 1\n[setters.{}]\n{}{}{}",
            lines.concat(),
            lists.concat(),
            quoted("pack-base_url"),
            quoted("shelf"),
            quoted("pack-key"),
            quoted("pack-pins"),
            quoted("sound-setter"),
            setter("credit"),
            setter("link"),
            setter("wishes"),
        ),
    );
    trial.look_again().await;
    let reading = trial.desk.view().reading;
    let sound = reading.read.pack.entries.iter().find(|it| it.id.as_str() == "sound");
    let sound = sound.unwrap_or_else(|| {
        let faults = reading.problems.iter().filter(|it| it.file == "puzzles/sound.toml");
        panic!("{:?}", faults.map(|it| &it.message).collect::<Vec<_>>())
    });
    let fingerprint = packfile::fingerprint(&sound.puzzle);
    let solve = json!({
        "format": 1, "puzzle": "sound", "solver": evil("file-solver"), "kind": "regular", "fingerprint": fingerprint,
        "started": evil("file-started"), "entries": [{"at": 3.0, "cell": "r1c2", "digit": 2}],
        "outcome": "gave up",
    });
    write("solves/sound-a.json", solve.to_string());
    write("solves/sound-b.json", solve.to_string().replace("regular", "<i data-evil=file-kind>"));
    let rehearsal = json!({
        "format": 1, "puzzle": "sound", "kind": "recording", "seconds": 9.0, "started": evil("rehearsal-started"),
        "fingerprint": evil("rehearsal-fingerprint"), "events": [],
    });
    write("rehearsals/sound.json", rehearsal.to_string());
    let notes =
        ["opening", "close", "target"].map(|it| format!("{it} = {}\n", quoted(&format!("notes-{it}"))));
    write("notes/sound.toml", format!("format = 1\n{}", notes.concat()));
    write("captions/<i data-evil=captions>.vtt", "WEBVTT\n".to_owned());
    write("out/<i data-evil=out>.html", evil("in-out"));
    write("out/report.html", String::new());
    write("puzzles/<i data-evil=file-name>.toml", SOUND.to_owned());
    write("calibration.json", format!("{{{}: 1}}", quoted("calibration")));
    trial.look_again().await;
    let begun = json!({"id": "a-solve-of-mine", "puzzle": "sound", "fingerprint": fingerprint, "solver": evil("solver"), "kind": "regular"});
    assert_eq!(trial.post("/api/1/solves", &begun).await.status, StatusCode::CREATED);
    trial
}

/// Every page, of every puzzle and every solve.
fn pages(trial: &Trial) -> Vec<String> {
    let routes =
        include_str!("../pages.rs").split(".route(\"").skip(1).map(|it| it.split('"').next().unwrap());
    let routes: Vec<&str> = routes.filter(|it| !it.contains("{name}") && !it.contains("{*name}")).collect();
    assert!(routes.len() > 10, "{routes:?}");
    let reading = trial.desk.view().reading;
    let files = reading.files.keys().filter_map(|it| it.strip_prefix("puzzles/")?.strip_suffix(".toml"));
    let ids: Vec<&str> = files.filter(|it| !it.contains('<')).collect();
    assert!(ids.len() > 20, "{ids:?}");
    let of = |route: &str| -> Vec<String> {
        match (route.contains("{id}"), route.starts_with("/puzzles/")) {
            (false, _) => vec![route.to_owned()],
            (true, true) => ids.iter().map(|it| route.replace("{id}", it)).collect(),
            (true, false) => vec![route.replace("{id}", "a-solve-of-mine")],
        }
    };
    routes.into_iter().flat_map(of).collect()
}

#[tokio::test]
async fn markup_in_any_text_stays_text_on_every_page() {
    let trial = marked().await;
    let mut seen = BTreeSet::new();
    let mut check = |path: &str, text: &str| {
        assert!(!text.contains("<i data-evil"), "{path} has markup of the pack's: {text}");
        // In what a page hands its script as JSON the mark is written as JSON writes it.
        let ends_attribute = text.replace("\\\"'&", "").contains("\"'&");
        assert!(!ends_attribute, "{path} has a mark that ends an attribute");
        for after in text.split("&lt;i data-evil=").skip(1) {
            seen.insert(after.split("&gt;").next().unwrap().to_owned());
        }
    };
    for path in pages(&trial) {
        let page = trial.get(&path).await;
        assert!(matches!(page.status.as_u16(), 200 | 404), "{path}: {} {}", page.status, page.text);
        check(&path, &page.text);
    }
    // What the interface gives is no page, but for pictures.
    for it in trial.described().await {
        if it.method != Method::GET || it.path.ends_with("/news") {
            continue;
        }
        let answer = trial.get(&it.address()).await;
        let kind = answer.headers["content-type"].to_str().unwrap().to_owned();
        let is_picture = kind == "image/svg+xml";
        let is_data = ["application/json", "text/plain; charset=utf-8", "text/calendar; charset=utf-8"];
        assert!(is_picture || is_data.contains(&&kind[..]), "{}: {kind}", it.path);
        if is_picture {
            check(&it.path, &answer.text);
        }
    }
    // The pages do show them, each as it was written.
    let shown = [
        "pack-title",
        "pack-key",
        "shelf",
        "sound-title",
        "sound-setter",
        "sound-note",
        "declined-reason",
        "setter-credit",
        "setter-wishes",
        "solver",
        "file-solver",
        "out",
        "key",
        "sealed-title",
        "many-title",
        "none-title",
        "state",
        "file-name",
    ];
    let missing: Vec<&str> = shown.into_iter().filter(|it| !seen.contains(*it)).collect();
    assert!(missing.is_empty(), "not shown: {missing:?}; shown: {seen:?}");
}
