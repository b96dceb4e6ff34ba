//! Invitations, what they are for, and the test solves that were begun by them.

use sqlx::FromRow;

use super::{Begun, NotTaken, Store, Unkept};

/// An invitation to make.
#[derive(Clone, Copy, Debug)]
pub(crate) struct NewInvitation<'a> {
    /// What it is called.
    pub(crate) id: &'a str,
    /// The hash of its token.
    pub(crate) token: &'a str,
    /// What it is for.
    pub(crate) role: &'a str,
    /// Who is invited.
    pub(crate) person: &'a str,
    /// Whose account makes it.
    pub(crate) made_by: &'a str,
    /// The puzzles to solve.
    pub(crate) puzzles: &'a [String],
    /// When it ends.
    pub(crate) ends_at: i64,
}

/// An invitation that was made.
#[derive(Clone, PartialEq, Eq, Debug, FromRow)]
pub(crate) struct Invitation {
    /// What it is called.
    pub(crate) id: String,
    /// What it is for.
    pub(crate) role: String,
    /// Who is invited.
    pub(crate) person: String,
    /// Whose account made it.
    pub(crate) made_by: String,
    /// When it ends.
    pub(crate) ends_at: i64,
    /// When it was first followed.
    pub(crate) used_at: Option<i64>,
    /// When it was revoked.
    pub(crate) revoked_at: Option<i64>,
}

/// An invitation is for 200 puzzles at most; so each can be begun anew, and nobody fills the disk.
const MOST_SOLVES: i64 = 400;

/// So many are told; older ones are over.
const MOST_TOLD: i64 = 200;

impl Store {
    /// Makes an invitation.
    pub(crate) async fn invite(&self, it: NewInvitation<'_>, now: i64) -> Result<(), Unkept> {
        let mut transaction = self.pool.begin().await?;
        let insert = sqlx::query(
            "INSERT INTO invitations (id, token, role, person, made_by, made_at, ends_at) \
             VALUES ($1, $2, $3, $4, $5, $6, $7)",
        );
        let insert = insert.bind(it.id).bind(it.token).bind(it.role).bind(it.person).bind(it.made_by);
        insert.bind(now).bind(it.ends_at).execute(&mut *transaction).await?;
        for puzzle in it.puzzles {
            let insert = sqlx::query("INSERT INTO assigned (invitation, puzzle) VALUES ($1, $2)");
            insert.bind(it.id).bind(puzzle).execute(&mut *transaction).await?;
        }
        transaction.commit().await?;
        Ok(())
    }

    /// Revokes an invitation and ends its sessions; gives whom it invited.
    pub(crate) async fn revoke(&self, id: &str, now: i64) -> Result<Option<String>, Unkept> {
        let mut transaction = self.pool.begin().await?;
        let update =
            sqlx::query("UPDATE invitations SET revoked_at = $2 WHERE id = $1 AND revoked_at IS NULL");
        update.bind(id).bind(now).execute(&mut *transaction).await?;
        let end = sqlx::query("DELETE FROM sessions WHERE invitation = $1");
        end.bind(id).execute(&mut *transaction).await?;
        let person = sqlx::query_scalar("SELECT person FROM invitations WHERE id = $1");
        let person = person.bind(id).fetch_optional(&mut *transaction).await?;
        transaction.commit().await?;
        Ok(person)
    }

    /// The latest invitations, the last first.
    pub(crate) async fn invitations(&self) -> Result<Vec<Invitation>, Unkept> {
        let rows = sqlx::query_as(
            "SELECT id, role, person, made_by, ends_at, used_at, revoked_at FROM invitations \
             ORDER BY made_at DESC, id LIMIT $1",
        );
        Ok(rows.bind(MOST_TOLD).fetch_all(&self.pool).await?)
    }

    /// The puzzles that an invitation is for.
    pub(crate) async fn assigned(&self, invitation: &str) -> Result<Vec<String>, Unkept> {
        let rows = sqlx::query_scalar("SELECT puzzle FROM assigned WHERE invitation = $1 ORDER BY puzzle");
        Ok(rows.bind(invitation).fetch_all(&self.pool).await?)
    }

    /// The test solves that were begun by an invitation, the latest first.
    pub(crate) async fn solves_of(&self, invitation: &str) -> Result<Vec<Begun>, Unkept> {
        let rows = sqlx::query_as(
            "SELECT s.id, s.puzzle, s.fingerprint, s.solver, s.kind, s.begun_at FROM solves s \
             JOIN invited_solves i ON i.solve = s.id WHERE i.invitation = $1 ORDER BY s.begun_at DESC, s.id",
        );
        Ok(rows.bind(invitation).fetch_all(&self.pool).await?)
    }

    /// Whether a test solve was begun by that invitation.
    pub(crate) async fn is_solve_of(&self, solve: &str, invitation: &str) -> Result<bool, Unkept> {
        let row = sqlx::query_scalar::<_, i64>(
            "SELECT COUNT(*) FROM invited_solves WHERE solve = $1 AND invitation = $2",
        );
        Ok(row.bind(solve).bind(invitation).fetch_one(&self.pool).await? > 0)
    }

    /// Begins a test solve by an invitation. Told twice, it is the same one; an id that is anybody else's is not taken.
    pub(crate) async fn begin_invited_solve(&self, it: &Begun, invitation: &str) -> Result<Begun, NotTaken> {
        let mut transaction = self.pool.begin().await?;
        let insert = sqlx::query(
            "INSERT INTO solves (id, puzzle, fingerprint, solver, kind) VALUES ($1, $2, $3, $4, $5) \
             ON CONFLICT (id) DO NOTHING",
        );
        let insert =
            insert.bind(&it.id).bind(&it.puzzle).bind(&it.fingerprint).bind(&it.solver).bind(&it.kind);
        if insert.execute(&mut *transaction).await?.rows_affected() == 1 {
            let claim = sqlx::query("INSERT INTO invited_solves (solve, invitation) VALUES ($1, $2)");
            claim.bind(&it.id).bind(invitation).execute(&mut *transaction).await?;
            let n_begun =
                sqlx::query_scalar::<_, i64>("SELECT COUNT(*) FROM invited_solves WHERE invitation = $1");
            if n_begun.bind(invitation).fetch_one(&mut *transaction).await? > MOST_SOLVES {
                return Err(NotTaken::TooMany);
            }
        }
        let kept = sqlx::query_as::<_, Begun>(
            "SELECT s.id, s.puzzle, s.fingerprint, s.solver, s.kind, s.begun_at FROM solves s \
             JOIN invited_solves i ON i.solve = s.id WHERE s.id = $1 AND i.invitation = $2",
        );
        let kept = kept.bind(&it.id).bind(invitation).fetch_optional(&mut *transaction).await?;
        let is_same = |kept: &Begun| Begun { begun_at: kept.begun_at.clone(), ..it.clone() } == *kept;
        let kept = kept.filter(is_same).ok_or_else(|| NotTaken::IdTaken(it.id.clone()))?;
        transaction.commit().await?;
        Ok(kept)
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::store;
    use super::*;

    #[tokio::test]
    async fn an_invitation_begins_only_so_many_solves() {
        let (_dir, store) = store().await;
        let puzzles = ["sound".to_owned()];
        let (id, token) = ("i", "t");
        let new = NewInvitation {
            id,
            token,
            role: "tester",
            person: "Tansy",
            made_by: "Fern",
            puzzles: &puzzles,
            ends_at: 9,
        };
        store.invite(new, 1).await.unwrap();
        store
            .disturb(
                "WITH RECURSIVE n (at) AS (SELECT 2 UNION ALL SELECT at + 1 FROM n WHERE at < 400) \
                 INSERT INTO solves (id, puzzle, fingerprint, solver, kind) \
                 SELECT 's-' || at, 'sound', '0', 'Tansy', 'regular' FROM n",
            )
            .await;
        store.disturb("INSERT INTO invited_solves (solve, invitation) SELECT id, 'i' FROM solves").await;
        let solve = |id: &str| Begun {
            id: id.to_owned(),
            puzzle: "sound".to_owned(),
            fingerprint: "0".to_owned(),
            solver: "Tansy".to_owned(),
            kind: "regular".to_owned(),
            begun_at: String::new(),
        };
        store.begin_invited_solve(&solve("last"), "i").await.unwrap();
        let refused = store.begin_invited_solve(&solve("beyond"), "i").await;
        assert!(matches!(refused, Err(NotTaken::TooMany)), "{refused:?}");
        assert!(store.solve("beyond").await.unwrap().is_none(), "nothing is left of it");
        store.begin_invited_solve(&solve("last"), "i").await.unwrap();
    }
}
