//! Editors' accounts.

use super::{Store, Unkept};

impl Store {
    /// Whether there is any account.
    pub(crate) async fn has_accounts(&self) -> Result<bool, Unkept> {
        let row = sqlx::query_scalar::<_, i64>("SELECT COUNT(*) FROM accounts");
        Ok(row.fetch_one(&self.pool).await? > 0)
    }

    /// The names of all accounts, in order.
    pub(crate) async fn accounts(&self) -> Result<Vec<String>, Unkept> {
        Ok(sqlx::query_scalar("SELECT name FROM accounts ORDER BY name").fetch_all(&self.pool).await?)
    }

    /// The hash of an account's password.
    pub(crate) async fn password_of(&self, name: &str) -> Result<Option<String>, Unkept> {
        let row = sqlx::query_scalar("SELECT password FROM accounts WHERE name = $1");
        Ok(row.bind(name).fetch_optional(&self.pool).await?)
    }

    /// Adds an account; says whether it was not there.
    pub(crate) async fn add_account(&self, name: &str, hash: &str) -> Result<bool, Unkept> {
        let insert = sqlx::query(
            "INSERT INTO accounts (name, password) VALUES ($1, $2) ON CONFLICT (name) DO NOTHING",
        );
        Ok(insert.bind(name).bind(hash).execute(&self.pool).await?.rows_affected() == 1)
    }

    /// Gives an account another password and ends all its sessions; says whether there is such an account.
    pub(crate) async fn change_password(&self, name: &str, hash: &str) -> Result<bool, Unkept> {
        let mut transaction = self.pool.begin().await?;
        let update = sqlx::query("UPDATE accounts SET password = $2 WHERE name = $1");
        let done = update.bind(name).bind(hash).execute(&mut *transaction).await?;
        let end = sqlx::query("DELETE FROM sessions WHERE account = $1");
        end.bind(name).execute(&mut *transaction).await?;
        transaction.commit().await?;
        Ok(done.rows_affected() == 1)
    }

    /// Takes an account away, with all its sessions; says whether there was one.
    pub(crate) async fn remove_account(&self, name: &str) -> Result<bool, Unkept> {
        let mut transaction = self.pool.begin().await?;
        let end = sqlx::query("DELETE FROM sessions WHERE account = $1");
        end.bind(name).execute(&mut *transaction).await?;
        let delete = sqlx::query("DELETE FROM accounts WHERE name = $1");
        let done = delete.bind(name).execute(&mut *transaction).await?;
        transaction.commit().await?;
        Ok(done.rows_affected() == 1)
    }
}
