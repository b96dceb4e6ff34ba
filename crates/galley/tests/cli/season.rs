//! `season`, and what `press --strict` refuses.

use crate::support::Folder;

const TITLE: &str = "title = \"Low tide\"\n";

#[test]
fn a_season_tells_where_puzzles_stand_and_writes_its_calendar() {
    let folder = Folder::with_pack("a_season_tells_where_puzzles_stand");
    let days = format!("{TITLE}received = \"2026-09-14\"\nrecord = \"2026-12-05\"\n");
    folder.replace("lamp-store/puzzles/low-tide.toml", TITLE, &days);
    let args = ["season", "lamp-store", "--on", "2026-11-27", "--calendar", "season.ics"];
    let words = folder.run(&args).code(0).says("wrote season.ics");
    words.prints("to record, in this order").prints("approve it");
    let calendar = folder.read("season.ics");
    assert!(calendar.contains("DTSTAMP:20261127T000000Z\r\n"), "{calendar}");
    assert!(calendar.contains("DTSTART;VALUE=DATE:20261205\r\nSUMMARY:Record Low tide\r\n"), "{calendar}");
    folder.run(&args).code(0);
    assert_eq!(folder.read("season.ics"), calendar, "the same day gives the same bytes");
    let document = folder.run(&["season", "lamp-store", "--json"]).code(0).json();
    let puzzles = document["puzzles"].as_array().unwrap();
    let tide = puzzles.iter().find(|it| it["id"] == "low-tide").unwrap();
    assert_eq!(
        (&tide["stages"][0]["on"], &tide["stages"][1]["reached"]),
        (&"2026-09-14".into(), &"yes".into())
    );
    folder.run(&["season", "lamp-store/puzzles/low-tide.toml"]).code(2).says("a season is of a pack");
}

#[test]
fn a_puzzle_that_has_changed_since_it_was_approved_is_refused_when_strict() {
    let folder = Folder::with_pack("a_puzzle_that_has_changed_since_it_was_approved");
    let approved = format!("{TITLE}approved = \"2026-10-02 0123456789abcdef\"\n");
    folder.replace("lamp-store/puzzles/low-tide.toml", TITLE, &approved);
    folder.run(&["check", "lamp-store"]).code(0).says("warning[approval-outdated]");
    folder
        .run(&["press", "lamp-store", "--strict"])
        .code(1)
        .says("changed since approved, so nothing was written: \"Low tide\"");
    assert!(!folder.exists("out/report.html"));
    folder.replace("lamp-store/puzzles/low-tide.toml", &approved, TITLE);
    folder.run(&["press", "lamp-store", "--strict"]).code(0);
    assert!(folder.exists("out/report.html"));
}

#[test]
fn a_setter_is_credited_as_the_pack_says() {
    let folder = Folder::with_pack("a_setter_is_credited_as_the_pack_says");
    let info = folder.read("lamp-store/pack.toml");
    let setter = folder.read("lamp-store/puzzles/low-tide.toml");
    let name =
        setter.lines().find_map(|it| it.strip_prefix("setter = ")).unwrap().trim_matches('"').to_owned();
    let credit = "credit = \"Credited Otherwise\"\nlink = \"https://example.org/other?a=1&b=2\"\nwishes = \"Kept to ourselves\"\n";
    folder.write("lamp-store/pack.toml", format!("{info}\n[setters.\"{name}\"]\n{credit}"));
    folder.run(&["press", "lamp-store"]).code(0);
    let page = folder.read("out/site/puzzles/low-tide.html");
    let linked = "<a href=\"https://example.org/other?a=1&amp;b=2\"><bdi>Credited Otherwise</bdi></a>";
    assert!(page.contains(linked), "{page}");
    for file in ["site/index.html", "cue/low-tide.html", "cue/low-tide.txt", "stage/low-tide.html"] {
        let text = folder.read(&format!("out/{file}"));
        assert!(text.contains("Credited Otherwise"), "{file}");
    }
    assert!(folder.read("out/cue/low-tide.txt").contains("(https://example.org/other?a=1&b=2)"));
    for (file, bytes) in folder.all_in("out/site") {
        assert!(
            !String::from_utf8_lossy(&bytes).contains("Kept to ourselves"),
            "{file} tells what a setter wishes"
        );
    }
}
