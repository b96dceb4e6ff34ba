//! Seals that were opened at this desk.

use super::{Store, Unkept};

impl Store {
    /// The ids of the puzzles whose seal was opened, in order.
    pub(crate) async fn opened_seals(&self) -> Result<Vec<String>, Unkept> {
        let rows = sqlx::query_scalar("SELECT puzzle FROM openings ORDER BY puzzle");
        Ok(rows.fetch_all(&self.pool).await?)
    }

    /// Opens a seal; one that is open stays so.
    pub(crate) async fn open_seal(&self, puzzle: &str) -> Result<(), Unkept> {
        let insert = sqlx::query("INSERT INTO openings (puzzle) VALUES ($1) ON CONFLICT (puzzle) DO NOTHING");
        insert.bind(puzzle).execute(&self.pool).await?;
        Ok(())
    }

    /// Closes it again. What was seen cannot be unseen, but the pages show it no more.
    pub(crate) async fn close_seal(&self, puzzle: &str) -> Result<(), Unkept> {
        sqlx::query("DELETE FROM openings WHERE puzzle = $1").bind(puzzle).execute(&self.pool).await?;
        Ok(())
    }
}
