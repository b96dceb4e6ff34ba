//! Serves the pack of a folder: `cargo run -p desk --example desk -- demo/lantern-room [PORT [PRESSED]]`; with `--add-account
//! NAME PASSWORD` in the place of the port it adds an account. For trials and tests of the desk alone, which press by taking
//! a copy of what `galley press` has put into the folder PRESSED; the program's own command is `galley desk`, which takes no
//! password as an argument.

#![expect(clippy::print_stdout, clippy::print_stderr, reason = "it speaks to whoever tries it")]

use std::fs;
use std::io;
use std::net::{Ipv4Addr, SocketAddr};
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::sync::Arc;
use std::thread::sleep;
use std::time::Duration;

use desk::{AccountChange, Failure, Press, Pressed, Settings, WantedPress, Watched, accounts, serve};

/// Steps in which it copies, and how long each takes, so that one sees it go on and can break it off.
const STEPS: u64 = 10;
const STEP: Duration = Duration::from_millis(300);

/// Presses by copying that folder.
#[derive(Debug)]
struct Copying(PathBuf);

impl Press for Copying {
    fn press(&self, wanted: &WantedPress, watched: &Watched) -> Result<Pressed, Failure> {
        for step in 0..STEPS {
            watched.tell("Copying.", Some((step, STEPS)));
            sleep(STEP);
            if watched.is_cancelled() {
                return Err(Failure { message: "stopped".to_owned(), help: "begin it again".to_owned() });
            }
        }
        let help = "look whether it was pressed";
        copy(&self.0, &wanted.out)
            .map_err(|it| Failure { message: it.to_string(), help: help.to_owned() })?;
        Ok(Pressed {
            note: format!("copied what was pressed for {:?}\n", wanted.issued),
            ..Pressed::default()
        })
    }
}

fn copy(from: &Path, to: &Path) -> io::Result<()> {
    fs::create_dir_all(to)?;
    for entry in fs::read_dir(from)? {
        let entry = entry?;
        let to = to.join(entry.file_name());
        match entry.file_type()?.is_dir() {
            true => copy(&entry.path(), &to)?,
            false => _ = fs::copy(entry.path(), to)?,
        }
    }
    Ok(())
}

#[tokio::main(flavor = "current_thread")]
async fn main() -> ExitCode {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    if let [pack, flag, name, password] = &arguments[..]
        && flag == "--add-account"
    {
        let change = AccountChange::Add { name: name.clone(), password: password.clone() };
        let pack = PathBuf::from(pack);
        // It brings a runtime of its own.
        let changed = tokio::task::spawn_blocking(move || accounts(&pack, change)).await;
        return if matches!(changed, Ok(Ok(_))) { ExitCode::SUCCESS } else { ExitCode::from(2) };
    }
    let port = arguments.get(1).map_or(Ok(0), |it| it.parse());
    let (Some(pack), Ok(port)) = (arguments.first(), port) else {
        eprintln!("expected the folder of a pack, and perhaps a port");
        return ExitCode::from(2);
    };
    let address = SocketAddr::from((Ipv4Addr::LOCALHOST, port));
    let pressing = arguments.get(2).map(|it| Arc::new(Copying(it.into())) as Arc<dyn Press>);
    let stop = async { _ = tokio::signal::ctrl_c().await };
    let ready = |it: SocketAddr| println!("http://{it}/");
    let settings = Settings { pack: pack.into(), address, public_url: None, pressing };
    match serve(settings, ready, stop).await {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            eprintln!("error: {failure}");
            ExitCode::from(2)
        }
    }
}
