//! Who is in. A session counts as long as neither its own time nor that of its invitation is over; of its token only the
//! hash is known here.

use sqlx::FromRow;

use super::{Store, Unkept};

/// A session that counts.
#[derive(Clone, PartialEq, Eq, Debug, FromRow)]
pub(crate) struct Session {
    /// The editor's account, if it is one's.
    pub(crate) account: Option<String>,
    /// The invitation, if it was begun by one.
    pub(crate) invitation: Option<String>,
    /// What the invitation is for.
    pub(crate) role: Option<String>,
    /// Who was invited.
    pub(crate) person: Option<String>,
    /// When it was last seen.
    pub(crate) seen_at: i64,
}

const SESSION: &str = "SELECT s.account, s.invitation, i.role, i.person, s.seen_at FROM sessions s \
     LEFT JOIN invitations i ON i.id = s.invitation \
     WHERE s.token = $1 AND s.ends_at > $2 AND s.seen_at > $2 - $3 \
     AND (s.invitation IS NULL OR (i.revoked_at IS NULL AND i.ends_at > $2))";

impl Store {
    /// The session with that token's hash, if it counts at `now` and was seen within the last `idle` seconds.
    pub(crate) async fn session(&self, token: &str, now: i64, idle: i64) -> Result<Option<Session>, Unkept> {
        Ok(sqlx::query_as(SESSION).bind(token).bind(now).bind(idle).fetch_optional(&self.pool).await?)
    }

    /// Notes that a session was seen.
    pub(crate) async fn see_session(&self, token: &str, now: i64) -> Result<(), Unkept> {
        let update = sqlx::query("UPDATE sessions SET seen_at = $2 WHERE token = $1 AND seen_at < $2");
        update.bind(token).bind(now).execute(&self.pool).await?;
        Ok(())
    }

    /// Begins a session of an account, if its password still is the one with that hash; says whether it is.
    pub(crate) async fn begin_account_session(
        &self,
        token: &str,
        (name, hash): (&str, &str),
        (now, ends_at): (i64, i64),
    ) -> Result<bool, Unkept> {
        let insert = sqlx::query(
            "INSERT INTO sessions (token, account, begun_at, seen_at, ends_at) \
             SELECT $1, name, $4, $4, $5 FROM accounts WHERE name = $2 AND password = $3",
        );
        let insert = insert.bind(token).bind(name).bind(hash).bind(now).bind(ends_at);
        Ok(insert.execute(&self.pool).await?.rows_affected() == 1)
    }

    /// Begins a session by the invitation with that token's hash; gives whom it invites, if it counts.
    pub(crate) async fn begin_invited_session(
        &self,
        token: &str,
        invitation_token: &str,
        now: i64,
    ) -> Result<Option<String>, Unkept> {
        let mut transaction = self.pool.begin().await?;
        let found = sqlx::query_as::<_, (String, String, i64)>(
            "SELECT id, person, ends_at FROM invitations \
             WHERE token = $1 AND revoked_at IS NULL AND ends_at > $2",
        );
        let found = found.bind(invitation_token).bind(now).fetch_optional(&mut *transaction).await?;
        let Some((id, person, ends_at)) = found else { return Ok(None) };
        let insert = sqlx::query(
            "INSERT INTO sessions (token, invitation, begun_at, seen_at, ends_at) VALUES ($1, $2, $3, $3, $4)",
        );
        insert.bind(token).bind(&id).bind(now).bind(ends_at).execute(&mut *transaction).await?;
        let used = sqlx::query("UPDATE invitations SET used_at = $2 WHERE id = $1 AND used_at IS NULL");
        used.bind(&id).bind(now).execute(&mut *transaction).await?;
        transaction.commit().await?;
        Ok(Some(person))
    }

    /// Ends a session.
    pub(crate) async fn end_session(&self, token: &str) -> Result<(), Unkept> {
        sqlx::query("DELETE FROM sessions WHERE token = $1").bind(token).execute(&self.pool).await?;
        Ok(())
    }

    /// Takes away sessions that are over anyway.
    pub(crate) async fn clear_sessions(&self, now: i64) -> Result<(), Unkept> {
        sqlx::query("DELETE FROM sessions WHERE ends_at <= $1").bind(now).execute(&self.pool).await?;
        Ok(())
    }
}
