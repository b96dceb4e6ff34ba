//! `galley desk PACK --add-account NAME` and its like: the editors' accounts of a pack's desk.

use std::io::{BufRead, IsTerminal, stdin};
use std::path::PathBuf;

use console::Term;
use desk::{AccountChange, accounts};

use crate::job::With;
use crate::outcome::{Failure, Outcome};

/// The command.
#[derive(Debug)]
pub(crate) struct Accounts {
    /// The pack's folder.
    pub(crate) pack: PathBuf,
    /// What to do to them.
    pub(crate) change: AskedChange,
}

/// What was asked for, before any password is read.
#[derive(Debug)]
pub(crate) enum AskedChange {
    List,
    Add(String),
    ChangePassword(String),
    Remove(String),
}

impl Accounts {
    /// Does it, and tells which accounts there are then.
    pub(crate) fn run(self, with: &With) -> Result<Outcome, Failure> {
        let change = match self.change {
            AskedChange::List => AccountChange::None,
            AskedChange::Add(name) => AccountChange::Add { name, password: password()? },
            AskedChange::ChangePassword(name) => {
                AccountChange::ChangePassword { name, password: password()? }
            }
            AskedChange::Remove(name) => AccountChange::Remove { name },
        };
        let names = accounts(&self.pack, change).map_err(|it| Failure::new(it.message, it.help))?;
        let result = match (with.is_json, names.is_empty()) {
            (true, _) => format!("{:#}\n", serde_json::json!({"accounts": names})),
            (false, true) => "no accounts: whoever works on this machine is the desk's editor\n".to_owned(),
            (false, false) => names.iter().map(|it| format!("{it}\n")).collect(),
        };
        Ok(Outcome { result, ..Outcome::default() })
    }
}

/// A new password: asked for twice in a terminal, where it is not shown; else the first line of standard input. It is no
/// argument, for others on the machine can see those.
fn password() -> Result<String, Failure> {
    let unread = |it: std::io::Error| {
        Failure::new(
            format!("no password could be read: {it}"),
            "type it, or give it as a line of standard input",
        )
    };
    if !stdin().is_terminal() {
        let mut line = String::new();
        stdin().lock().read_line(&mut line).map_err(unread)?;
        return Ok(line.trim_end_matches(['\r', '\n']).to_owned());
    }
    let terminal = Term::stderr();
    let ask = |what: &str| {
        terminal.write_str(what)?;
        terminal.read_secure_line()
    };
    let [first, second] = [ask("Password: ").map_err(unread)?, ask("Once more: ").map_err(unread)?];
    if first != second {
        return Err(Failure::new("the two passwords differ", "type the same one twice; nothing was changed"));
    }
    Ok(first)
}
