//! Serves the pack of a folder: `cargo run -p desk --example desk -- demo/lantern-room [PORT]`; with `--add-account NAME
//! PASSWORD` in the place of the port it adds an account. For trials and tests of the desk alone; the program's own command
//! is `galley desk`, which takes no password as an argument.

#![expect(clippy::print_stdout, clippy::print_stderr, reason = "it speaks to whoever tries it")]

use std::net::{Ipv4Addr, SocketAddr};
use std::path::PathBuf;
use std::process::ExitCode;

use desk::{AccountChange, Settings, accounts, serve};

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
    let stop = async { _ = tokio::signal::ctrl_c().await };
    let ready = |it: SocketAddr| println!("http://{it}/");
    let settings = Settings { pack: pack.into(), address, public_url: None, pressing: None };
    match serve(settings, ready, stop).await {
        Ok(()) => ExitCode::SUCCESS,
        Err(failure) => {
            eprintln!("error: {failure}");
            ExitCode::from(2)
        }
    }
}
