//! The history of files: what each was before the desk changed it.

use sqlx::FromRow;

use super::{Store, Unkept};

/// A file about to be changed.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Change<'a> {
    /// Its name within the pack.
    pub(crate) file: &'a str,
    /// Its digest and text before; none for a new file.
    pub(crate) before: Option<(&'a str, &'a str)>,
    /// Its digest and text after.
    pub(crate) after: (&'a str, &'a str),
}

/// A change that was made.
#[derive(Clone, PartialEq, Eq, Debug, FromRow)]
pub(crate) struct PastChange {
    /// What it is called.
    pub(crate) id: String,
    /// When, in the time of Greenwich.
    pub(crate) changed_at: String,
    /// The file's text before; none if it was new.
    pub(crate) text_before: Option<String>,
    /// Its text after.
    pub(crate) text_after: String,
}

impl Store {
    /// Notes a change that is about to be made, and gives what it is called. It is noted first, so that what was there
    /// before is kept whatever happens next.
    pub(crate) async fn note_change(&self, id: &str, it: Change<'_>) -> Result<(), Unkept> {
        let insert = sqlx::query(
            "INSERT INTO changes (id, file, digest_before, text_before, digest_after, text_after, place) \
             VALUES ($1, $2, $3, $4, $5, $6, (SELECT COALESCE(MAX(place), 0) + 1 FROM changes))",
        );
        let (digest_before, text_before) = it.before.unzip();
        let insert = insert.bind(id).bind(it.file).bind(digest_before).bind(text_before);
        insert.bind(it.after.0).bind(it.after.1).execute(&self.pool).await?;
        Ok(())
    }

    /// Takes back the note of a change that was not made after all.
    pub(crate) async fn forget_change(&self, id: &str) -> Result<(), Unkept> {
        sqlx::query("DELETE FROM changes WHERE id = $1").bind(id).execute(&self.pool).await?;
        Ok(())
    }

    /// The latest changes of a file, the last first.
    pub(crate) async fn changes_of(&self, file: &str) -> Result<Vec<PastChange>, Unkept> {
        let rows = sqlx::query_as(
            "SELECT id, changed_at, text_before, text_after FROM changes WHERE file = $1 \
             ORDER BY place DESC LIMIT 50",
        );
        Ok(rows.bind(file).fetch_all(&self.pool).await?)
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::store;
    use super::*;

    #[tokio::test]
    async fn the_last_change_comes_first_and_one_not_made_is_forgotten() {
        let (_dir, store) = store().await;
        let change = |before, after| Change { file: "a.toml", before, after };
        store.note_change("1", change(None, ("d1", "one"))).await.unwrap();
        store.note_change("2", change(Some(("d1", "one")), ("d2", "two"))).await.unwrap();
        store.note_change("3", change(Some(("d2", "two")), ("d3", "three"))).await.unwrap();
        store.forget_change("2").await.unwrap();
        let changes = store.changes_of("a.toml").await.unwrap();
        let told: Vec<_> = changes.iter().map(|it| (it.text_before.as_deref(), &it.text_after[..])).collect();
        assert_eq!(told, [(Some("two"), "three"), (None, "one")]);
        assert!(store.changes_of("b.toml").await.unwrap().is_empty());
    }
}
