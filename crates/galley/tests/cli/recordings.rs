//! Plans of recordings, what their logs give, and pictures.

use serde_json::Value;

use crate::support::Folder;

/// The plan of a puzzle as a document.
fn plan(folder: &Folder, puzzle: &str) -> Value {
    let told = folder.run(&["plan", "lamp-store", puzzle, "--json"]).code(0).stdout;
    serde_json::from_str::<Value>(&told).unwrap()["plan"].clone()
}

/// A log in which everything is said in so many times the planned time, with a pause of 20 seconds at 30.
fn log(plan: &Value, puzzle: &str, times: f64) -> String {
    let number = |it: &Value| it.as_f64().unwrap();
    let mut at = 0.0;
    let mut events = vec![serde_json::json!({"at": 0, "is": "opening"})];
    at += times * number(&plan["opening_takes"]);
    for step in plan["passages"].as_array().unwrap().iter().flat_map(|it| it["steps"].as_array().unwrap()) {
        events.push(serde_json::json!({"at": at, "is": "step", "step": step["step"], "key": step["key"]}));
        at += times * number(&step["takes"]);
    }
    events.push(serde_json::json!({"at": at, "is": "close"}));
    at += times * number(&plan["close_takes"]);
    events.push(serde_json::json!({"at": at, "is": "pause"}));
    events.push(serde_json::json!({"at": at + 20.0, "is": "resume"}));
    let log = serde_json::json!({
        "format": 1, "puzzle": puzzle, "kind": "recording", "seconds": at + 25.0, "events": events,
    });
    log.to_string()
}

#[test]
fn a_plan_says_what_to_say_and_for_how_long() {
    let folder = Folder::with_pack("a_plan_says_what_to_say_and_for_how_long");
    let told = folder.run(&["plan", "lamp-store", "first-light", "--divide", "1:00"]).code(0);
    for it in [
        "First light, by ",
        "about ",
        "145 words a minute (estimated)",
        "Credit and rules",
        "To ask",
        "In parts",
    ] {
        assert!(told.stdout.contains(it), "{it} in {}", told.stdout);
    }
    let plan = plan(&folder, "first-light");
    let takes = |it: &Value| it["takes"].as_f64().unwrap();
    let passages = plan["passages"].as_array().unwrap();
    let all: f64 = passages.iter().map(takes).sum();
    let around = plan["opening_takes"].as_f64().unwrap() + plan["close_takes"].as_f64().unwrap();
    assert_eq!(plan["total"].as_f64().unwrap(), all + around);
    for it in passages {
        assert_eq!(it["steps"].as_array().unwrap().iter().map(takes).sum::<f64>(), takes(it));
    }
    // A puzzle's file by itself has a plan, too.
    folder.run(&["plan", "lamp-store/puzzles/first-light.toml"]).code(0).prints("First light, by ");
}

#[test]
fn notes_are_started_once_and_read() {
    let folder = Folder::with_pack("notes_are_started_once_and_read");
    folder
        .run(&["plan", "lamp-store", "first-light", "--write"])
        .code(0)
        .says("wrote lamp-store/notes/first-light.toml");
    let started = folder.read("lamp-store/notes/first-light.toml");
    let key = plan(&folder, "first-light")["passages"][0]["steps"][0]["key"].as_str().unwrap().to_owned();
    let remark = format!("# \"{key}\" = \"\"\n");
    assert!(started.contains(&remark), "{started}");
    let noted = started
        .replace(&remark, &format!("\"{key}\" = \"Slowly.\"\n\"gone: r1c1 is 1\" = \"Kept.\"\n"))
        .replace("# target = \"12:00\"", "target = \"0:30\"");
    folder.write("lamp-store/notes/first-light.toml", &noted);
    folder
        .run(&["plan", "lamp-store", "first-light", "--write"])
        .code(0)
        .says("left lamp-store/notes/first-light.toml");
    assert_eq!(folder.read("lamp-store/notes/first-light.toml"), noted);
    let told = folder.run(&["plan", "lamp-store", "first-light"]).code(0);
    for it in ["Slowly.", "gone: r1c1 is 1: Kept.", "To keep to 0:30", "too long even then"] {
        assert!(told.stdout.contains(it), "{it} in {}", told.stdout);
    }
    folder.run(&["press", "lamp-store"]).code(0);
    assert!(folder.read("out/cue/first-light.html").contains("Slowly."));
    folder.write("lamp-store/notes/first-light.toml", "format = 1\ntarget = \"soon\"\n");
    folder.run(&["plan", "lamp-store", "first-light"]).code(1).says("error[not-a-length]");
    folder
        .run(&["plan", "lamp-store/puzzles/first-light.toml", "--write"])
        .code(2)
        .says("notes belong to a pack");
}

#[test]
fn a_log_gives_chapters_captions_cuts_and_text() {
    let folder = Folder::with_pack("a_log_gives_chapters_captions_cuts_and_text");
    let plan = plan(&folder, "first-light");
    folder.write("log.json", log(&plan, "first-light", 1.0));
    let run =
        folder.run(&["recording", "lamp-store", "first-light", "log.json", "--out", "recorded"]).code(0);
    run.prints("0:00 Credit and rules").says("wrote chapters, captions, cuts and text in recorded/");
    let names: Vec<String> = folder.all_in("recorded").into_keys().collect();
    let expected = [
        ".galley",
        "captions.vtt",
        "chapters.txt",
        "chapters.vtt",
        "cuts.edl",
        "cuts.txt",
        "text.txt",
        "title.txt",
    ];
    assert_eq!(names, expected);
    assert!(folder.read("recorded/captions.vtt").starts_with("WEBVTT\n\n00:00:00.000 --> "));
    let cuts = folder.read("recorded/cuts.txt");
    assert!(cuts.contains("20.0 s  away"), "{cuts}");
    assert!(folder.read("recorded/text.txt").contains("\n0:00 Credit and rules\n"));

    // With the cuts made, everything is that much shorter.
    folder.write("mine.txt", &cuts);
    let args = [
        "recording",
        "lamp-store",
        "first-light",
        "log.json",
        "--cuts",
        "mine.txt",
        "--out",
        "cut",
        "--json",
    ];
    let document: Value = serde_json::from_str(&folder.run(&args).code(0).stdout).unwrap();
    let seconds = |key: &str| document[key].as_f64().unwrap();
    assert!((seconds("total") - seconds("total_after_cuts") - 20.0).abs() < 1e-6);
    assert_eq!(document["steps_gone"], serde_json::json!([]));

    // The editor's own pace is learnt from a log in the pack.
    folder.write("lamp-store/rehearsals/one.json", log(&plan, "first-light", 2.0));
    let told = folder.run(&["plan", "lamp-store", "first-light"]).code(0);
    told.prints("(your own pace, from ");
}

#[test]
fn what_cannot_be_is_refused_with_a_next_move() {
    let folder = Folder::with_pack("what_cannot_be_is_refused_with_a_next_move");
    let log = log(&plan(&folder, "first-light"), "first-light", 1.0);
    folder.write("log.json", &log);
    folder.write("other.json", log.replace("first-light", "low-tide"));
    folder.write("broken.json", &log[..200]);
    folder.write("cuts.txt", "0:05 until 0:07\n");
    let run = |more: &[&str]| {
        let args = [&["recording", "lamp-store", "first-light"], more, &["--out", "recorded"]].concat();
        folder.run(&args)
    };
    run(&["other.json"]).code(2).says("it is of `low-tide`, not of `first-light`");
    run(&["broken.json"]).code(2).says("the file ends within");
    run(&["nothing.json"]).code(2).says("cannot be read");
    run(&["log.json", "--cuts", "cuts.txt"]).code(2).says("line 1 of `cuts.txt` is no cut");
    folder.write("lamp-store/under-recordings.txt", "{{ title }}\n{{ tilte }}\n");
    run(&["log.json"]).code(2).says("under-recordings.txt cannot be used: line 2");
    folder.write("lamp-store/under-recordings.txt", "Only {{ title }}.\n");
    run(&["log.json"]).code(0);
    assert_eq!(folder.read("recorded/text.txt"), "Only First light.\n");
    folder
        .run(&["recording", "lamp-store", "log.json", "--out", "x"])
        .code(2)
        .says("is a pack, and this is about one puzzle");
}

#[test]
fn pictures_are_drawn_at_any_step() {
    let folder = Folder::with_pack("pictures_are_drawn_at_any_step");
    let picture = |more: &[&str]| folder.run(&[&["picture", "lamp-store", "first-light"], more].concat());
    picture(&["--step", "3", "--out", "three.svg"]).code(0).says("wrote three.svg");
    assert!(folder.read("three.svg").starts_with("<?xml"));
    picture(&["--cover", "--out", "cover.png"]).code(0);
    picture(&["--film", "--width", "200", "--out", "film.png"]).code(0);
    for file in ["cover.png", "film.png"] {
        assert!(folder.bytes(file).starts_with(b"\x89PNG"), "{file}");
    }
    // Chunks of an animation, by the PNG specification (third edition, 11.3.4).
    let has = |file: &str, chunk: &[u8]| folder.bytes(file).windows(4).any(|it| it == chunk);
    assert!(has("film.png", b"acTL") && !has("cover.png", b"acTL"));
    picture(&["--frames", "2", "--seconds", "1", "--width", "100", "--out", "frames"]).code(0);
    let steps = plan(&folder, "first-light")["passages"]
        .as_array()
        .unwrap()
        .iter()
        .map(|it| it["steps"].as_array().unwrap().len())
        .sum::<usize>();
    assert_eq!(
        folder.all_in("frames").len(),
        2 * (steps + 1) + 1,
        "two a step, those before the first, and the list"
    );
    picture(&["--step", "999", "--out", "x.svg"]).code(2).says("the walkthrough has no step 999");
    picture(&["--out", "x.gif"]).code(2).says("ends in .png or .svg");
    picture(&["--film", "--out", "x.svg"]).code(2).says("ends in .png");
}

#[test]
fn sealed_puzzles_have_no_plan_no_recording_and_no_picture() {
    let folder = Folder::with_pack("sealed_puzzles_have_no_plan_no_recording_and_no_picture");
    for args in [
        &["plan", "lamp-store", "dark-stair", "--write"][..],
        &["plan", "lamp-store", "dark-stair", "--sheet", "x.html"],
        &["picture", "lamp-store", "dark-stair", "--step", "2", "--out", "x.svg"],
        &["recording", "lamp-store", "dark-stair", "log.json", "--out", "x"],
    ] {
        folder.run(args).code(1).says("is sealed");
    }
    let names = folder.files();
    assert!(names.iter().all(|it| !it.starts_with('x') && !it.contains("notes")), "{names:?}");
}

/// What is said in a plan as captions: a paragraph a step, with its time in brackets before it.
fn talk(plan: &Value) -> String {
    let mut at = plan["opening_takes"].as_f64().unwrap();
    let mut text = String::from("[0:00]\nGood evening, and welcome.\n\n");
    for step in plan["passages"].as_array().unwrap().iter().flat_map(|it| it["steps"].as_array().unwrap()) {
        text +=
            &format!("[{}:{:02}]\n{}\n\n", at as u64 / 60, at as u64 % 60, step["says"].as_str().unwrap());
        at += step["takes"].as_f64().unwrap();
    }
    text
}

#[test]
fn a_recording_is_held_against_the_walkthrough() {
    let folder = Folder::with_pack("a_recording_is_held_against_the_walkthrough");
    let plan = plan(&folder, "first-light");
    let said = talk(&plan) + "[30:00]\nthree five and six make thirteen, and that is all.\n";
    folder.write("talk.txt", &said);
    let run = folder.run(&["review", "talk.txt", "lamp-store", "first-light", "--out", "reviewed"]).code(0);
    let run = run.says("wrote captions, chapters, cuts and corrections in reviewed/");
    for it in ["Chapters", "Reckoned wrongly", "3 + 5 + 6 = 14", "Long silences"] {
        assert!(run.stdout.contains(it), "{it} in {}", run.stdout);
    }
    let names: Vec<String> = folder.all_in("reviewed").into_keys().collect();
    let expected = [
        ".galley",
        "captions.vtt",
        "chapters.txt",
        "chapters.vtt",
        "corrections.txt",
        "cuts.edl",
        "cuts.txt",
    ];
    assert_eq!(names, expected);
    assert!(folder.read("reviewed/corrections.txt").contains("where it should be 14"));
    assert!(folder.read("reviewed/cuts.txt").contains("silence"));

    // Once the first minute is cut out, everything is a minute earlier.
    folder.write("cuts.txt", "0:00 to 1:00\n");
    let args = ["review", "talk.txt", "lamp-store", "first-light", "--cuts", "cuts.txt", "--out", "cut"];
    folder.run(&args).code(0);
    let last = |file: &str| {
        let text = folder.read(file);
        let end = text.lines().rev().find_map(|it| it.split_once(" --> ")).unwrap().1.to_owned();
        end.parse::<captions::Time>().unwrap()
    };
    let minute = captions::Time::seconds(60);
    assert_eq!(last("cut/captions.vtt") + minute, last("reviewed/captions.vtt"));
    assert_eq!(last("cut/chapters.vtt") + minute, last("reviewed/chapters.vtt"));

    let review = folder.run(&["review", "talk.txt", "lamp-store", "first-light", "--json"]).code(0).json();
    let steps = review["steps"].as_array().unwrap();
    let sure = steps.iter().filter(|it| it["placed"] == "sure").count();
    assert!(sure * 10 >= steps.len() * 8, "{sure} of {}", steps.len());
    assert_eq!(review["matches"], "yes");
    // Another puzzle's recording is known for one.
    let other = folder.run(&["review", "talk.txt", "lamp-store", "low-tide"]).code(1);
    other.prints("it sounds like a recording of another puzzle");
    // With the log the placings agree with it.
    folder.write("log.json", log(&plan, "first-light", 1.0));
    folder.run(&["review", "talk.txt", "lamp-store", "first-light", "--log", "log.json"]).code(0);
    folder.write("glossary.toml", "[[term]]\nsay = 5\n");
    let args = ["review", "talk.txt", "lamp-store", "first-light", "--glossary", "glossary.toml"];
    folder.run(&args).code(2).says("`glossary.toml` is no glossary");
    folder.write("silence.vtt", "WEBVTT\n");
    let run = folder.run(&["review", "silence.vtt", "lamp-store", "first-light"]).code(0);
    run.prints("too little is said to tell").prints("nothing is spoken in this file");
}

#[test]
fn a_time_of_a_recording_gives_its_step() {
    let folder = Folder::with_pack("a_time_of_a_recording_gives_its_step");
    let plan = plan(&folder, "first-light");
    folder.write("talk.txt", talk(&plan));
    let ask = |at: &str, more: &[&str]| {
        let args =
            [&["why", "lamp-store", "first-light", "--at", at, "--recording", "talk.txt"], more].concat();
        folder.run(&args)
    };
    let review = folder.run(&["review", "talk.txt", "lamp-store", "first-light", "--json"]).code(0).json();
    let placed =
        review["steps"].as_array().unwrap().iter().find(|it| it["placed"] == "sure" && it["step"] == 8);
    let at = placed.unwrap()["from"].as_f64().unwrap() as u64 + 1;
    let at = format!("{}:{:02}", at / 60, at % 60);
    let answer = ask(&at, &["--json", "--picture", "at.svg"]).code(0).json();
    assert_eq!((&answer["step"], &answer["picture"]), (&8.into(), &"at.svg".into()));
    assert!(answer["answer"].as_str().unwrap().split_whitespace().count() <= 80);
    assert!(folder.read("at.svg").contains("after step 8"));
    ask(&at, &[]).code(0).prints("step 8, ");
    ask("0:00", &[]).code(0).prints("the first step is not reached yet");
    folder.run(&["why", "lamp-store", "first-light", "--at", "0:10"]).code(2).says("--recording");
    folder.run(&["why", "lamp-store"]).code(2).says("not said what is asked about");
    let args = ["why", "lamp-store", "low-tide", "--at", "1:00", "--recording", "talk.txt"];
    folder.run(&args).code(2).says("sounds like a recording of another puzzle");
}
