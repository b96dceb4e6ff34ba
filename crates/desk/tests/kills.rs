//! A desk that is killed in the middle of writing, again and again: a file is the old one or the new one, whole, and what
//! was answered is there when the next desk opens the pack.
//!
//! `KILLS=200 cargo test -p desk --test kills` kills more often than the usual run.

use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::sync::mpsc;
use std::thread;
use std::time::Duration;

use serde_json::{Value, json};

const PUZZLE: &str = "format = 1\ntitle = \"A\" # kept\nsetter = \"Fern\"\nsize = \"4x4\"\ngrid = \"\"\"\n\
                      1 . | . .\n3 . | 2 .\n----+----\n. . | . .\n. . | 4 .\n\"\"\"\n";

/// A desk in a process of its own.
struct Desk {
    process: Child,
    address: String,
    token: String,
}

impl Desk {
    fn start(pack: &Path) -> Desk {
        let mut process = Command::new(example()).arg(pack).stdout(Stdio::piped()).spawn().unwrap();
        let mut line = String::new();
        BufReader::new(process.stdout.as_mut().unwrap()).read_line(&mut line).unwrap();
        let address = line.trim().trim_start_matches("http://").trim_end_matches('/').to_owned();
        assert!(!address.is_empty(), "the desk did not open the pack");
        let page = ask(&address, "", "GET", "/", "").unwrap().1;
        let token = page.split("name=\"desk-token\" content=\"").nth(1).unwrap().split('"').next().unwrap();
        Desk { token: token.to_owned(), address, process }
    }

    fn ask(&self, method: &str, path: &str, body: &Value) -> Option<(u16, Value)> {
        let (status, text) = ask(&self.address, &self.token, method, path, &body.to_string())?;
        Some((status, serde_json::from_str(&text).unwrap_or(Value::Null)))
    }

    fn kill(mut self) {
        self.process.kill().unwrap();
        self.process.wait().unwrap();
    }
}

/// What cargo builds beside this test.
fn example() -> PathBuf {
    let test = std::env::current_exe().unwrap();
    let path = test.parent().unwrap().parent().unwrap().join("examples/desk");
    assert!(
        path.is_file(),
        "{} is not there: build it with `cargo build -p desk --example desk`",
        path.display()
    );
    path
}

/// The status and body of the answer; none if the desk ended before it was whole.
fn ask(address: &str, token: &str, method: &str, path: &str, body: &str) -> Option<(u16, String)> {
    let mut stream = TcpStream::connect(address).ok()?;
    let request = format!(
        "{method} {path} HTTP/1.1\r\nhost: {address}\r\nx-desk-token: {token}\r\nconnection: close\r\n\
         content-type: application/json\r\ncontent-length: {}\r\n\r\n{body}",
        body.len()
    );
    stream.write_all(request.as_bytes()).ok()?;
    let mut answer = String::new();
    stream.read_to_string(&mut answer).ok()?;
    let (head, text) = answer.split_once("\r\n\r\n")?;
    let length = head.lines().find_map(|it| it.strip_prefix("content-length: ")?.parse().ok());
    if length.is_some_and(|it: usize| it != text.len()) {
        return None;
    }
    Some((head.split(' ').nth(1)?.parse().ok()?, text.to_owned()))
}

/// What a desk was asked and has answered by the time it was killed.
#[derive(Default)]
struct Told {
    /// The file's text after the last change that was answered.
    text: Option<String>,
    /// The text that was being written when it ended.
    in_flight: Option<String>,
    /// Events that were answered.
    events: Vec<String>,
}

#[test]
fn a_kill_at_any_moment_loses_nothing_that_was_answered() {
    let dir = tempfile::TempDir::new().unwrap();
    let pack = dir.path();
    let file = pack.join("puzzles/a.toml");
    fs::create_dir(pack.join("puzzles")).unwrap();
    fs::write(pack.join("pack.toml"), "format = 1\ntitle = \"T\"\neditor = \"E\"\n").unwrap();
    fs::write(&file, PUZZLE).unwrap();
    let without = PUZZLE.replace("1 . | . .", ". . | . .");
    let n_kills: u64 = std::env::var("KILLS").ok().and_then(|it| it.parse().ok()).unwrap_or(25);
    let mut n_changes = 0;
    let mut all_events: Vec<String> = Vec::new();
    for round in 0..n_kills {
        let desk = Desk::start(pack);
        let puzzle = desk.ask("GET", "/api/1/puzzles/a", &Value::Null).unwrap().1;
        let fingerprint = fingerprint(&fs::read_to_string(&file).unwrap());
        let solve = json!({"id": format!("solve-of-round-{round}"), "puzzle": "a", "fingerprint": fingerprint, "solver": "Yew", "kind": "regular"});
        assert_eq!(desk.ask("POST", "/api/1/solves", &solve).unwrap().0, 201);
        let (end, told) = mpsc::channel();
        let writer = Desk {
            process: Command::new("true").spawn().unwrap(),
            address: desk.address.clone(),
            token: desk.token.clone(),
        };
        let (a, b) = (PUZZLE.to_owned(), without.clone());
        let writing = thread::spawn(move || {
            let mut writer = writer;
            writer.process.wait().unwrap();
            let mut it = Told::default();
            let (mut digest, mut board) = (puzzle["digest"].clone(), puzzle["board"].clone());
            for n in 0.. {
                let given = if board["givens"][0] == 1 { 0 } else { 1 };
                board["givens"][0] = json!(given);
                let new = if given == 1 { a.clone() } else { b.clone() };
                it.in_flight = Some(new.clone());
                let keep = json!({"board": board, "began_from": digest});
                let Some((200, kept)) = writer.ask("PUT", "/api/1/puzzles/a/board", &keep) else { break };
                digest = kept["digest"].clone();
                (it.text, it.in_flight) = (Some(new), None);
                let id = format!("{round}-{n}");
                let event =
                    json!({"events": [{"id": id, "after_ms": n, "what": "ink", "cell": 0, "value": 1}]});
                let path = format!("/api/1/solves/solve-of-round-{round}/events");
                let Some((200, _)) = writer.ask("POST", &path, &event) else { break };
                it.events.push(id);
            }
            end.send(it).unwrap();
        });
        // Anywhere within the first writes, other in each round.
        thread::sleep(Duration::from_millis(20 + round * 7 % 90));
        desk.kill();
        let it = told.recv().unwrap();
        writing.join().unwrap();
        let text = fs::read_to_string(&file).unwrap();
        assert!(text == PUZZLE || text == without, "half a file: {text}");
        if let Some(answered) = &it.text {
            assert!(text == *answered || Some(&text) == it.in_flight.as_ref(), "what was answered is lost");
            n_changes += 1;
        }
        all_events.extend(it.events);
    }
    let desk = Desk::start(pack);
    let mut kept = Vec::new();
    for round in 0..n_kills {
        let whole =
            desk.ask("GET", &format!("/api/1/solves/solve-of-round-{round}"), &Value::Null).unwrap().1;
        kept.extend(
            whole["events"].as_array().unwrap().iter().map(|it| it["id"].as_str().unwrap().to_owned()),
        );
    }
    let lost: Vec<&String> = all_events.iter().filter(|it| !kept.contains(it)).collect();
    assert!(lost.is_empty(), "events that were answered are lost: {lost:?}");
    assert!(
        n_changes > n_kills / 2 && !all_events.is_empty(),
        "killed too early: {n_changes} of {n_kills} rounds wrote"
    );
    desk.kill();
    let remains = fs::read_dir(pack.join("puzzles")).unwrap().count();
    assert_eq!(remains, 1, "nothing half written lies beside the puzzle");
}

/// That of the puzzle in a file.
fn fingerprint(text: &str) -> String {
    let entry = packfile::read_puzzle(&packfile::SourceFile::new("a.toml", text)).0.unwrap();
    packfile::fingerprint(&entry.puzzle)
}

#[test]
fn a_second_desk_says_so_and_ends() {
    let dir = tempfile::TempDir::new().unwrap();
    fs::write(dir.path().join("pack.toml"), "format = 1\ntitle = \"T\"\neditor = \"E\"\n").unwrap();
    let desk = Desk::start(dir.path());
    let second = Command::new(example()).arg(dir.path()).output().unwrap();
    assert_eq!(second.status.code(), Some(2));
    let said = String::from_utf8(second.stderr).unwrap();
    assert!(said.contains("another desk works on the pack"), "{said}");
    // A killed desk leaves no lock behind.
    desk.kill();
    Desk::start(dir.path()).kill();
}
