//! The history of files: what each was before it was changed, at the desk or by another program.

use sqlx::FromRow;

use super::{Store, Unkept};

/// A file about to be changed, or that was changed by another program.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Change<'a> {
    /// Its name within the pack.
    pub(crate) file: &'a str,
    /// Who changes it.
    pub(crate) by: ChangedBy,
    /// Its digest and text before; none for a new file.
    pub(crate) before: Option<(&'a str, &'a str)>,
    /// Its digest and text after.
    pub(crate) after: (&'a str, &'a str),
}

/// Who changed a file.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum ChangedBy {
    Desk,
    Elsewhere,
}

/// A change that was made.
#[derive(Clone, PartialEq, Eq, Debug, FromRow)]
pub(crate) struct PastChange {
    /// What it is called.
    pub(crate) id: String,
    /// When, or when it was seen, in the time of Greenwich.
    pub(crate) changed_at: String,
    /// `desk` or `elsewhere`.
    pub(crate) made_by: String,
    /// The file's text before; none if it was new.
    pub(crate) text_before: Option<String>,
    /// Its digest after.
    pub(crate) digest_after: String,
    /// Its text after.
    pub(crate) text_after: String,
}

/// So many changes are told at once.
pub(crate) const MOST_AT_ONCE: i64 = 50;

impl Store {
    /// Notes a change that is about to be made, and gives what it is called. It is noted first, so that what was there
    /// before is kept whatever happens next.
    pub(crate) async fn note_change(&self, id: &str, it: Change<'_>) -> Result<(), Unkept> {
        let insert = sqlx::query(
            "INSERT INTO changes (id, file, made_by, digest_before, text_before, digest_after, text_after, place) \
             VALUES ($1, $2, $3, $4, $5, $6, $7, (SELECT COALESCE(MAX(place), 0) + 1 FROM changes))",
        );
        let (digest_before, text_before) = it.before.unzip();
        let insert = insert.bind(id).bind(it.file).bind(it.by.word()).bind(digest_before).bind(text_before);
        insert.bind(it.after.0).bind(it.after.1).execute(&self.pool).await?;
        Ok(())
    }

    /// Takes back the note of a change that was not made after all.
    pub(crate) async fn forget_change(&self, id: &str) -> Result<(), Unkept> {
        sqlx::query("DELETE FROM changes WHERE id = $1").bind(id).execute(&self.pool).await?;
        Ok(())
    }

    /// Changes of a file, the last first: the latest, or those that came before the one that is called so.
    pub(crate) async fn changes_of(
        &self,
        file: &str,
        before: Option<&str>,
    ) -> Result<Vec<PastChange>, Unkept> {
        let rows = sqlx::query_as(
            "SELECT id, changed_at, made_by, text_before, digest_after, text_after FROM changes WHERE file = $1 \
             AND ($2 IS NULL OR place < (SELECT place FROM changes WHERE id = $2)) ORDER BY place DESC LIMIT $3",
        );
        Ok(rows.bind(file).bind(before).bind(MOST_AT_ONCE).fetch_all(&self.pool).await?)
    }

    /// The change of a file that is called so.
    pub(crate) async fn change_of(&self, file: &str, id: &str) -> Result<Option<PastChange>, Unkept> {
        let row = sqlx::query_as(
            "SELECT id, changed_at, made_by, text_before, digest_after, text_after FROM changes \
             WHERE file = $1 AND id = $2",
        );
        Ok(row.bind(file).bind(id).fetch_optional(&self.pool).await?)
    }

    /// The last change of a file.
    pub(crate) async fn last_change_of(&self, file: &str) -> Result<Option<PastChange>, Unkept> {
        let row = sqlx::query_as(
            "SELECT id, changed_at, made_by, text_before, digest_after, text_after FROM changes WHERE file = $1 \
             ORDER BY place DESC LIMIT 1",
        );
        Ok(row.bind(file).fetch_optional(&self.pool).await?)
    }
}

impl ChangedBy {
    fn word(self) -> &'static str {
        match self {
            ChangedBy::Desk => "desk",
            ChangedBy::Elsewhere => "elsewhere",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::store;
    use super::*;

    fn change<'a>(before: Option<(&'a str, &'a str)>, after: (&'a str, &'a str)) -> Change<'a> {
        Change { file: "a.toml", by: ChangedBy::Desk, before, after }
    }

    #[tokio::test]
    async fn the_last_change_comes_first_and_one_not_made_is_forgotten() {
        let (_dir, store) = store().await;
        store.note_change("1", change(None, ("d1", "one"))).await.unwrap();
        store.note_change("2", change(Some(("d1", "one")), ("d2", "two"))).await.unwrap();
        store.note_change("3", change(Some(("d2", "two")), ("d3", "three"))).await.unwrap();
        store.forget_change("2").await.unwrap();
        let changes = store.changes_of("a.toml", None).await.unwrap();
        let told: Vec<_> = changes.iter().map(|it| (it.text_before.as_deref(), &it.text_after[..])).collect();
        assert_eq!(told, [(Some("two"), "three"), (None, "one")]);
        assert_eq!(store.last_change_of("a.toml").await.unwrap().unwrap(), changes[0]);
        assert_eq!(store.change_of("a.toml", "1").await.unwrap().unwrap(), changes[1]);
        assert!(store.changes_of("b.toml", None).await.unwrap().is_empty());
        assert!(store.change_of("b.toml", "1").await.unwrap().is_none(), "it is of another file");
    }

    #[tokio::test]
    async fn all_changes_are_told_so_many_at_once() {
        let (_dir, store) = store().await;
        for it in 0..120 {
            store.note_change(&format!("c{it}"), change(None, ("d", &it.to_string()))).await.unwrap();
        }
        let (mut told, mut before) = (Vec::new(), None);
        loop {
            let some = store.changes_of("a.toml", before.as_deref()).await.unwrap();
            let Some(last) = some.last() else { break };
            before = Some(last.id.clone());
            told.extend(some.into_iter().map(|it| it.id));
        }
        assert_eq!(told, (0..120).rev().map(|it| format!("c{it}")).collect::<Vec<_>>());
        assert!(store.changes_of("a.toml", Some("nothing")).await.unwrap().is_empty());
    }
}
