//! Accounts as they are changed from the command line. A desk that runs meanwhile knows of it with the next request.

use std::path::Path;

use super::{is_name, password};
use crate::failure::Failure;
use crate::folder::Folder;
use crate::store::{Store, Unkept};

/// What to do to the accounts of a pack's desk.
#[derive(Clone, PartialEq, Eq)]
pub enum AccountChange {
    /// Nothing: they are only told.
    None,
    /// Adds one.
    Add {
        /// What it is called.
        name: String,
        /// Its password.
        password: String,
    },
    /// Gives one another password, and ends its sessions.
    ChangePassword {
        /// What it is called.
        name: String,
        /// Its password from now on.
        password: String,
    },
    /// Takes one away, with its sessions.
    Remove {
        /// What it is called.
        name: String,
    },
}

/// A password is not for a log.
impl std::fmt::Debug for AccountChange {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(match self {
            AccountChange::None => "None",
            AccountChange::Add { .. } => "Add",
            AccountChange::ChangePassword { .. } => "ChangePassword",
            AccountChange::Remove { .. } => "Remove",
        })
    }
}

/// Changes the accounts of a pack's desk, and gives the names of all that there are then.
///
/// # Errors
///
/// If there is no such pack or account, the name is taken or none, the password is too short, or the store refuses.
pub fn accounts(pack: &Path, change: AccountChange) -> Result<Vec<String>, Failure> {
    let runtime = tokio::runtime::Builder::new_current_thread().enable_all().build();
    let runtime =
        runtime.map_err(|it| Failure::new(format!("the store cannot be waited for: {it}"), "try again"))?;
    runtime.block_on(changed(pack, change))
}

pub(crate) async fn changed(pack: &Path, change: AccountChange) -> Result<Vec<String>, Failure> {
    let own = Folder::own_of(pack)?;
    let path = own.join("desk.db");
    if change == AccountChange::None && !path.exists() {
        // Whoever only asks leaves nothing behind.
        return Ok(Vec::new());
    }
    Folder::make_own(&own)?;
    let store = Store::open(&path).await?;
    let done = change_in(&store, change).await;
    let names = store.accounts().await;
    store.close().await;
    done.and_then(|it| it.map_err(|it| it.failure(&path)))?;
    names.map_err(|it| it.failure(&path))
}

/// The outer failure is what was asked, the inner one the store's.
async fn change_in(store: &Store, change: AccountChange) -> Result<Result<(), Unkept>, Failure> {
    let nobody = |name: &str| {
        Failure::new(
            format!("there is no account {name:?}"),
            "`galley desk PACK --accounts` tells which there are",
        )
    };
    let (done, what, name, fault) = match change {
        AccountChange::None => return Ok(Ok(())),
        AccountChange::Add { name, password } => {
            if !is_name(&name) {
                let help = "take a name of one line, of at most 80 letters";
                return Err(Failure::new(format!("{name:?} cannot be the name of an account"), help));
            }
            let hash = password::hashed(&password)?;
            let help = "take another name, or give that account another password with --change-password";
            let fault = Failure::new(format!("there is an account {name:?} already"), help);
            (store.add_account(&name, &hash).await, "account-added", name, fault)
        }
        AccountChange::ChangePassword { name, password } => {
            let hash = password::hashed(&password)?;
            let done = store.change_password(&name, &hash).await;
            let fault = nobody(&name);
            (done, "password-changed", name, fault)
        }
        AccountChange::Remove { name } => {
            let fault = nobody(&name);
            (store.remove_account(&name).await, "account-removed", name, fault)
        }
    };
    match done {
        Ok(true) => Ok(store.note_at_door(what, "", "", &name).await),
        Ok(false) => Err(fault),
        Err(unkept) => Ok(Err(unkept)),
    }
}
