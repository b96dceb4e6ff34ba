//! What happened at the door: the latest of each kind, so that a flood of one does not wash away the others.

use serde::Serialize;
use sqlx::FromRow;
use utoipa::ToSchema;

use super::{Store, Unkept};

/// Something that happened at the door.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, FromRow, ToSchema)]
pub(crate) struct DoorNote {
    /// When, in the time of Greenwich.
    pub(crate) noted_at: String,
    /// What, as [`Store::note_at_door`] was told it.
    pub(crate) what: String,
    /// Who, as far as that is known.
    pub(crate) who: String,
    /// The address that it came from.
    pub(crate) address: String,
    /// Whom or what it was about.
    pub(crate) about: String,
}

/// So many notes of each kind are kept.
pub(crate) const MOST_NOTES: i64 = 500;

impl Store {
    /// Notes what happened at the door.
    pub(crate) async fn note_at_door(
        &self,
        what: &str,
        who: &str,
        address: &str,
        about: &str,
    ) -> Result<(), Unkept> {
        let mut transaction = self.pool.begin().await?;
        let insert = sqlx::query(
            "INSERT INTO door_notes (place, what, who, address, about) \
             VALUES ((SELECT COALESCE(MAX(place), 0) + 1 FROM door_notes), $1, $2, $3, $4)",
        );
        insert.bind(what).bind(who).bind(address).bind(about).execute(&mut *transaction).await?;
        let forget = sqlx::query(
            "DELETE FROM door_notes WHERE what = $1 AND place <= \
             (SELECT place FROM door_notes WHERE what = $1 ORDER BY place DESC LIMIT 1 OFFSET $2)",
        );
        forget.bind(what).bind(MOST_NOTES).execute(&mut *transaction).await?;
        transaction.commit().await?;
        Ok(())
    }

    /// The latest notes, the last first.
    pub(crate) async fn door_notes(&self) -> Result<Vec<DoorNote>, Unkept> {
        let rows = sqlx::query_as(
            "SELECT noted_at, what, who, address, about FROM door_notes ORDER BY place DESC LIMIT 200",
        );
        Ok(rows.fetch_all(&self.pool).await?)
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::store;
    use super::*;

    #[tokio::test]
    async fn a_flood_of_one_kind_leaves_the_others() {
        let (_dir, store) = store().await;
        store.note_at_door("signed-in", "Fern", "127.0.0.1", "").await.unwrap();
        for it in 0..MOST_NOTES + 20 {
            store.note_at_door("write-refused", "", "192.0.2.1", &it.to_string()).await.unwrap();
        }
        let counted = sqlx::query_as::<_, (String, i64)>(
            "SELECT what, COUNT(*) FROM door_notes GROUP BY what ORDER BY what",
        );
        let counted = counted.fetch_all(&store.pool).await.unwrap();
        assert_eq!(counted, [("signed-in".to_owned(), 1), ("write-refused".to_owned(), MOST_NOTES)]);
        assert_eq!(store.door_notes().await.unwrap()[0].about, (MOST_NOTES + 19).to_string());
    }
}
