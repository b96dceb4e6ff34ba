//! `galley desk`: the editor's workplace, served to a browser on this machine, or through a proxy to others.

mod pressing;

use std::io::Write;
use std::net::SocketAddr;
use std::path::PathBuf;
use std::sync::Arc;

use desk::Settings;

use crate::job::With;
use crate::load::{load, shown};
use crate::outcome::{Failure, Outcome};

/// The command.
#[derive(Debug)]
pub(crate) struct OpenDesk {
    /// The pack's folder.
    pub(crate) pack: PathBuf,
    /// Where to answer; port 0 for any that is free.
    pub(crate) address: SocketAddr,
    /// Where browsers reach it through a proxy.
    pub(crate) public_url: Option<String>,
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
        let settings = Settings {
            pack: crate::load::root_of(&self.pack).to_owned(),
            address: self.address,
            public_url: self.public_url.clone(),
            pressing: Some(Arc::new(pressing::Pressing)),
        };
        let public_url = self.public_url.clone();
        let (stop, is_quiet, opens) = (with.stop.clone(), with.is_quiet, self.opens_browser);
        let ready = move |address: SocketAddr| {
            let url = public_url.unwrap_or_else(|| format!("http://{address}/"));
            // The address is all that a program which starts the desk needs, so it is told at once. If nobody listens, the
            // browser may.
            let mut out = std::io::stdout().lock();
            _ = writeln!(out, "{url}").and_then(|()| out.flush());
            if opens && open::that_detached(&url).is_err() && !is_quiet {
                _ = writeln!(std::io::stderr(), "no browser could be opened; open the address in yours");
            }
            if !is_quiet && url.starts_with("https:") {
                _ = writeln!(std::io::stderr(), "the proxy there finds the desk at http://{address}/");
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
