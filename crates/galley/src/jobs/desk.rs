//! `galley desk`: the editor's workplace, served to a browser on this machine.

use std::io::Write;
use std::net::{Ipv4Addr, SocketAddr};
use std::path::PathBuf;

use desk::Settings;

use crate::job::With;
use crate::load::{load, shown};
use crate::outcome::{Failure, Outcome};

/// The command.
#[derive(Debug)]
pub(crate) struct OpenDesk {
    /// The pack's folder.
    pub(crate) pack: PathBuf,
    /// The port; 0 for any that is free.
    pub(crate) port: u16,
    /// Whether to open a browser.
    pub(crate) opens_browser: bool,
}

impl OpenDesk {
    /// Serves the pack until Ctrl-C.
    pub(crate) fn run(&self, with: &With) -> Result<Outcome, Failure> {
        if !load(&self.pack)?.is_pack {
            let message = format!("{} is one puzzle, and a desk is of a pack", shown(&self.pack));
            return Err(Failure::new(message, "name the pack's folder"));
        }
        let address = SocketAddr::from((Ipv4Addr::LOCALHOST, self.port));
        let settings = Settings { pack: crate::load::root_of(&self.pack).to_owned(), address };
        let (stop, is_quiet, opens) = (with.stop.clone(), with.is_quiet, self.opens_browser);
        let ready = move |address: SocketAddr| {
            let url = format!("http://{address}/");
            // The address is all that a program which starts the desk needs, so it is told at once. If nobody listens, the
            // browser may.
            let mut out = std::io::stdout().lock();
            _ = writeln!(out, "{url}").and_then(|()| out.flush());
            if opens && open::that_detached(&url).is_err() && !is_quiet {
                _ = writeln!(std::io::stderr(), "no browser could be opened; open the address in yours");
            }
            if !is_quiet {
                _ = writeln!(std::io::stderr(), "Ctrl-C closes the desk");
            }
        };
        desk::run(settings, ready, move || stop.is_asked())
            .map_err(|it| Failure::new(it.message, it.help))?;
        Ok(Outcome::default())
    }
}
