//! What is no puzzle: test solves, opened seals, and what files were before they were changed; and who
//! may come in.
//!
//! It is kept in SQLite, in the pack's `.galley/desk.db`. The statements are such as PostgreSQL takes too, for a desk of
//! several people later. A write has reached the disk when it is answered (`synchronous = FULL`), so that an end of the
//! program or the machine at any moment loses nothing that was answered.
//!
//! Left out: what the rows mean to a puzzle. Test solves are read by `solves`.

mod accounts;
mod changes;
mod door_notes;
mod invitations;
mod openings;
mod sessions;
mod solves;

use std::path::Path;
use std::time::Duration;

use sqlx::SqlitePool;
use sqlx::migrate::MigrateError;
use sqlx::sqlite::{SqliteConnectOptions, SqliteJournalMode, SqlitePoolOptions, SqliteSynchronous};

use crate::failure::{Failure, shown};

pub(crate) use changes::{Change, ChangedBy, MOST_AT_ONCE};
pub(crate) use door_notes::DoorNote;
pub(crate) use invitations::NewInvitation;
pub(crate) use solves::{Begun, NotTaken, SolveEvent, Taken};

/// So long another program may hold the database before that is said.
const PATIENCE: Duration = Duration::from_secs(2);

/// The desk's database.
#[derive(Clone, Debug)]
pub(crate) struct Store {
    pool: SqlitePool,
}

/// Why the store did not do as it was asked. Nothing of what was asked was done.
#[derive(Debug)]
pub(crate) enum Unkept {
    /// Another program holds the database.
    Locked,
    /// The disk is full.
    DiskFull,
    /// Anything else, in the database's own words.
    Other(String),
}

impl Store {
    /// Opens the database at that path, or makes it, and brings it to the form that this desk knows.
    ///
    /// # Errors
    ///
    /// If it cannot be opened or brought to that form.
    pub(crate) async fn open(path: &Path) -> Result<Store, Failure> {
        let options = SqliteConnectOptions::new()
            .filename(path)
            .create_if_missing(true)
            .foreign_keys(true)
            .journal_mode(SqliteJournalMode::Wal)
            .synchronous(SqliteSynchronous::Full)
            .busy_timeout(PATIENCE);
        // One connection: statements come one after the other, as SQLite writes them anyway.
        let pool = SqlitePoolOptions::new().max_connections(1).connect_with(options).await;
        let refused = |why: Unkept| why.failure(path);
        let pool = pool.map_err(|it| refused(it.into()))?;
        match sqlx::migrate!().run(&pool).await {
            Ok(()) => Ok(Store { pool }),
            Err(MigrateError::VersionMissing(_) | MigrateError::VersionTooNew(..)) => Err(Failure::new(
                format!("the desk's store {} was written by a newer Galley", shown(path)),
                "open the pack with that one; the store is left as it is",
            )),
            Err(MigrateError::Execute(it)) => Err(refused(it.into())),
            Err(other) => Err(refused(Unkept::Other(other.to_string()))),
        }
    }

    /// Does something to the database that the desk never does.
    #[cfg(test)]
    pub(crate) async fn disturb(&self, statement: &'static str) {
        sqlx::query(statement).execute(&self.pool).await.unwrap();
    }

    /// Lets go of the database, once what was begun is done.
    pub(crate) async fn close(&self) {
        self.pool.close().await;
    }
}

impl Unkept {
    /// What it means to people.
    pub(crate) fn failure(&self, store: &Path) -> Failure {
        let store = shown(store);
        match self {
            Unkept::Locked => Failure::new(
                format!("the desk's store {store} is held by another program"),
                "end that program, or wait until it is done, and try again; nothing was lost or half done",
            ),
            Unkept::DiskFull => Failure::new(
                format!("the disk is full, so the desk's store {store} could not take it"),
                "make room and try again; nothing was lost or half done",
            ),
            Unkept::Other(words) => Failure::new(
                format!("the desk's store {store} could not be used: {words}"),
                "look whether the file may be read and written; if it is damaged, put it aside and start the desk anew",
            ),
        }
    }
}

impl From<sqlx::Error> for Unkept {
    fn from(error: sqlx::Error) -> Unkept {
        // The lower eight bits are SQLite's primary result code (sqlite.org/rescode.html).
        let code =
            error.as_database_error().and_then(|it| it.code()?.parse::<u32>().ok()).map(|it| it & 0xff);
        match code {
            Some(5 | 6) => Unkept::Locked,
            Some(13) => Unkept::DiskFull,
            _ => Unkept::Other(error.to_string()),
        }
    }
}

#[cfg(test)]
mod tests {
    use tempfile::TempDir;

    use super::*;

    pub(super) async fn store() -> (TempDir, Store) {
        let dir = TempDir::new().unwrap();
        let store = Store::open(&dir.path().join("desk.db")).await.unwrap();
        (dir, store)
    }

    #[tokio::test]
    async fn a_store_that_another_program_holds_says_so_and_takes_all_afterwards() {
        let (dir, store) = store().await;
        let options = SqliteConnectOptions::new().filename(dir.path().join("desk.db"));
        let other = SqlitePool::connect_with(options).await.unwrap();
        let mut held = other.acquire().await.unwrap();
        sqlx::query("BEGIN IMMEDIATE").execute(&mut *held).await.unwrap();
        let refused = store.open_seal("a").await.unwrap_err();
        assert!(matches!(refused, Unkept::Locked), "{refused:?}");
        assert!(refused.failure(dir.path()).message.ends_with("is held by another program"));
        sqlx::query("COMMIT").execute(&mut *held).await.unwrap();
        store.open_seal("a").await.unwrap();
        assert_eq!(store.opened_seals().await.unwrap(), ["a"]);
    }

    #[tokio::test]
    async fn a_full_disk_says_so_and_loses_nothing() {
        let (dir, store) = store().await;
        store.open_seal("kept").await.unwrap();
        // SQLite then answers as it does on a full disk.
        sqlx::query("PRAGMA max_page_count = 1").execute(&store.pool).await.unwrap();
        let long = "x".repeat(100_000);
        let refused = store.open_seal(&long).await.unwrap_err();
        assert!(matches!(refused, Unkept::DiskFull), "{refused:?}");
        assert!(refused.failure(dir.path()).message.starts_with("the disk is full"));
        sqlx::query("PRAGMA max_page_count = 100000").execute(&store.pool).await.unwrap();
        assert_eq!(store.opened_seals().await.unwrap(), ["kept"]);
        store.open_seal(&long).await.unwrap();
    }

    #[tokio::test]
    async fn a_store_of_a_newer_desk_is_left_alone() {
        let (dir, store) = store().await;
        let newer = "INSERT INTO _sqlx_migrations (version, description, success, checksum, execution_time) \
                     VALUES (9999, 'later', TRUE, X'00', 0)";
        sqlx::query(newer).execute(&store.pool).await.unwrap();
        store.close().await;
        let refused = Store::open(&dir.path().join("desk.db")).await.unwrap_err();
        assert!(refused.message.contains("newer Galley"), "{refused}");
    }

    #[tokio::test]
    async fn what_is_no_database_is_refused() {
        let dir = TempDir::new().unwrap();
        let path = dir.path().join("desk.db");
        std::fs::write(&path, "no database at all, and long enough to be looked at ".repeat(40)).unwrap();
        assert!(Store::open(&path).await.unwrap_err().message.contains("could not be used"));
        assert!(std::fs::read(&path).unwrap().starts_with(b"no database"));
    }
}
