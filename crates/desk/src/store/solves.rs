//! Test solves, as the page on which they happen tells them.

use serde::{Deserialize, Serialize};
use sqlx::FromRow;
use utoipa::ToSchema;

use super::{Store, Unkept};

/// A test solve that was begun.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, FromRow, ToSchema)]
pub(crate) struct Begun {
    /// What the page calls it.
    pub(crate) id: String,
    /// The puzzle's id.
    pub(crate) puzzle: String,
    /// What tells the puzzle from what it may become.
    pub(crate) fingerprint: String,
    /// Who solves.
    pub(crate) solver: String,
    /// How used to such puzzles they are: newcomer, regular or old hand.
    pub(crate) kind: String,
    /// When, in the time of Greenwich.
    pub(crate) begun_at: String,
}

/// Something that happened in a test solve.
#[derive(Clone, PartialEq, Eq, Debug, Serialize, Deserialize, FromRow, ToSchema)]
#[serde(deny_unknown_fields)]
pub(crate) struct SolveEvent {
    /// What the page calls it; one that comes again is taken once.
    pub(crate) id: String,
    /// Milliseconds of solving since the beginning.
    pub(crate) after_ms: i64,
    /// What: `ink`, `pencil`, `mark`, `clue`, `undo` or `redo` (what changed by it follows), `pause`, `resume`, `gave-up`, `left`;
    /// and what only the desk notes: `hint`, `check`, `solved`.
    pub(crate) what: String,
    /// The cell or line, counted from 0, if it is about one.
    pub(crate) cell: Option<i64>,
    /// What is there then, if it is about a cell: a digit or a set of digits, 0 for none. Of an `undo` or `redo`, how many of
    /// the changes that follow it has made; of a `hint`, what was told (1 where, 2 what, 3 why, 4 why a digit is so).
    pub(crate) value: Option<i64>,
}

/// What was taken of the events that a page has sent.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Serialize, ToSchema)]
pub(crate) struct Taken {
    /// So many were new.
    pub(crate) new: usize,
    /// So many were there already.
    pub(crate) known: usize,
}

/// Why events were not taken: none of them was.
#[derive(Debug)]
pub(crate) enum NotTaken {
    /// There is no such solve.
    NoSuchSolve,
    /// An id is taken by another event, or another solve.
    IdTaken(String),
    /// The solve has as many events as one may have, or the invitation as many solves.
    TooMany,
    /// The store refused.
    Unkept(Unkept),
}

/// A solve has no more events: somebody who writes one each second gets there after five and a half hours. What is
/// beyond is no solving, and would fill the disk.
const MOST_EVENTS: i64 = 20_000;

impl<T: Into<Unkept>> From<T> for NotTaken {
    fn from(it: T) -> NotTaken {
        NotTaken::Unkept(it.into())
    }
}

const SOLVE: &str = "SELECT id, puzzle, fingerprint, solver, kind, begun_at FROM solves WHERE id = $1";
const SOLVES: &str =
    "SELECT id, puzzle, fingerprint, solver, kind, begun_at FROM solves ORDER BY begun_at DESC, id";
const EVENT: &str = "SELECT id, after_ms, what, cell, value FROM events WHERE solve = $1 AND id = $2";
const EVENTS: &str =
    "SELECT id, after_ms, what, cell, value FROM events WHERE solve = $1 ORDER BY after_ms, place";
/// The place of the next event: they are told in time, and within a millisecond in the order in which they came.
const INSERT: &str = "INSERT INTO events (solve, id, after_ms, what, cell, value, place) VALUES ($1, $2, $3, $4, $5, $6, \
     (SELECT COALESCE(MAX(place), 0) + 1 FROM events WHERE solve = $1)) ON CONFLICT (solve, id) DO NOTHING";

impl Store {
    /// Begins a test solve; one that was begun alike is the same. `begun_at` is not looked at.
    pub(crate) async fn begin_solve(&self, it: &Begun) -> Result<Begun, NotTaken> {
        let insert = sqlx::query(
            "INSERT INTO solves (id, puzzle, fingerprint, solver, kind) VALUES ($1, $2, $3, $4, $5) \
             ON CONFLICT (id) DO NOTHING",
        );
        let insert = insert.bind(&it.id).bind(&it.puzzle).bind(&it.fingerprint);
        insert.bind(&it.solver).bind(&it.kind).execute(&self.pool).await?;
        let kept = self.solve(&it.id).await?.ok_or(NotTaken::NoSuchSolve)?;
        let is_same = Begun { begun_at: it.begun_at.clone(), ..kept.clone() } == *it;
        if is_same { Ok(kept) } else { Err(NotTaken::IdTaken(it.id.clone())) }
    }

    /// Takes events of a solve: all, or, if one has an id that is another's, none.
    pub(crate) async fn take_events(&self, solve: &str, events: &[SolveEvent]) -> Result<Taken, NotTaken> {
        if self.solve(solve).await?.is_none() {
            return Err(NotTaken::NoSuchSolve);
        }
        let n_before = sqlx::query_scalar::<_, i64>("SELECT COUNT(*) FROM events WHERE solve = $1");
        let n_before = n_before.bind(solve).fetch_one(&self.pool).await?;
        let mut transaction = self.pool.begin().await?;
        let mut taken = Taken { new: 0, known: 0 };
        for it in events {
            let insert = sqlx::query(INSERT).bind(solve).bind(&it.id).bind(it.after_ms).bind(&it.what);
            let done = insert.bind(it.cell).bind(it.value).execute(&mut *transaction).await?;
            if done.rows_affected() == 1 {
                taken.new += 1;
                continue;
            }
            let kept = sqlx::query_as::<_, SolveEvent>(EVENT);
            let kept = kept.bind(solve).bind(&it.id).fetch_one(&mut *transaction).await?;
            if kept != *it {
                return Err(NotTaken::IdTaken(it.id.clone()));
            }
            taken.known += 1;
        }
        if n_before + i64::try_from(taken.new).unwrap_or(i64::MAX) > MOST_EVENTS {
            return Err(NotTaken::TooMany);
        }
        transaction.commit().await?;
        Ok(taken)
    }

    /// Notes what the desk itself knows of a solve, under an id that no page can tell. That it is solved is noted once, at the
    /// time that is given; anything else never before what was told until now.
    pub(crate) async fn note_event(
        &self,
        solve: &str,
        what: &str,
        after_ms: i64,
        value: Option<i64>,
    ) -> Result<(), NotTaken> {
        let mut transaction = self.pool.begin().await?;
        let last = sqlx::query_as(
            "SELECT COUNT(*), COALESCE(MAX(place), 0), COALESCE(MAX(after_ms), 0) FROM events WHERE solve = $1",
        );
        let (n, place, told): (i64, i64, i64) = last.bind(solve).fetch_one(&mut *transaction).await?;
        // An end fits in whatever there is.
        if n >= MOST_EVENTS && what != "solved" {
            return Err(NotTaken::TooMany);
        }
        let (id, after_ms) = match what {
            "solved" => ("desk:solved".to_owned(), after_ms),
            _ => (format!("desk:{}", place + 1), after_ms.max(told)),
        };
        let insert = sqlx::query(INSERT).bind(solve).bind(id).bind(after_ms).bind(what);
        insert.bind(None::<i64>).bind(value).execute(&mut *transaction).await?;
        transaction.commit().await?;
        Ok(())
    }

    /// Whether a solve was begun by somebody who was invited.
    pub(crate) async fn is_invited_solve(&self, solve: &str) -> Result<bool, Unkept> {
        let row = sqlx::query_scalar::<_, i64>("SELECT COUNT(*) FROM invited_solves WHERE solve = $1");
        Ok(row.bind(solve).fetch_one(&self.pool).await? > 0)
    }

    /// The solve that is called so.
    pub(crate) async fn solve(&self, id: &str) -> Result<Option<Begun>, Unkept> {
        Ok(sqlx::query_as(SOLVE).bind(id).fetch_optional(&self.pool).await?)
    }

    /// All solves, the latest first.
    pub(crate) async fn solves(&self) -> Result<Vec<Begun>, Unkept> {
        Ok(sqlx::query_as(SOLVES).fetch_all(&self.pool).await?)
    }

    /// What happened in a solve, in time.
    pub(crate) async fn events_of(&self, solve: &str) -> Result<Vec<SolveEvent>, Unkept> {
        Ok(sqlx::query_as(EVENTS).bind(solve).fetch_all(&self.pool).await?)
    }
}

#[cfg(test)]
mod tests {
    use super::super::tests::store;
    use super::*;

    fn begun(id: &str) -> Begun {
        Begun {
            id: id.to_owned(),
            puzzle: "first-light".to_owned(),
            fingerprint: "0".to_owned(),
            solver: "Tansy".to_owned(),
            kind: "regular".to_owned(),
            begun_at: String::new(),
        }
    }

    fn event(id: &str, after_ms: i64, value: i64) -> SolveEvent {
        SolveEvent { id: id.to_owned(), after_ms, what: "ink".to_owned(), cell: Some(3), value: Some(value) }
    }

    #[tokio::test]
    async fn events_that_come_again_are_taken_once_and_forged_ones_not_at_all() {
        let (_dir, store) = store().await;
        store.begin_solve(&begun("s")).await.unwrap();
        store.begin_solve(&begun("s")).await.unwrap();
        let other = Begun { solver: "Yew".to_owned(), ..begun("s") };
        assert!(matches!(store.begin_solve(&other).await, Err(NotTaken::IdTaken(_))));
        let [a, b] = [event("a", 10, 1), event("b", 5, 2)];
        let both = [a.clone(), b.clone()];
        assert_eq!(store.take_events("s", &both).await.unwrap(), Taken { new: 2, known: 0 });
        assert_eq!(store.take_events("s", &both).await.unwrap(), Taken { new: 0, known: 2 });
        let forged = store.take_events("s", &[event("c", 20, 3), event("a", 10, 9)]).await;
        assert!(matches!(forged, Err(NotTaken::IdTaken(it)) if it == "a"));
        assert_eq!(store.events_of("s").await.unwrap(), [b, a]);
        let nowhere = store.take_events("t", &[event("a", 1, 1)]).await;
        assert!(matches!(nowhere, Err(NotTaken::NoSuchSolve)));
    }

    #[tokio::test]
    async fn what_happens_in_one_millisecond_stays_in_the_order_in_which_it_came() {
        let (_dir, store) = store().await;
        store.begin_solve(&begun("s")).await.unwrap();
        let events: Vec<SolveEvent> = ["z", "m", "a", "q"].map(|it| event(it, 7, 1)).into();
        store.take_events("s", &events[..2]).await.unwrap();
        store.take_events("s", &events).await.unwrap();
        assert_eq!(store.events_of("s").await.unwrap(), events);
    }

    /// Events of a store from before they had places.
    #[tokio::test]
    async fn events_that_were_there_before_are_brought_into_an_order() {
        const MIGRATION: &str = include_str!("../../migrations/0003_order_of_events.sql");
        let (_dir, store) = store().await;
        for solve in ["s", "t"] {
            store.begin_solve(&begun(solve)).await.unwrap();
            let events = [event("c", 9, 1), event("b", 5, 1), event("a", 5, 1)];
            store.take_events(solve, &events).await.unwrap();
        }
        sqlx::query("UPDATE events SET place = 0").execute(&store.pool).await.unwrap();
        let update = MIGRATION.split(';').find(|it| it.contains("UPDATE")).unwrap();
        sqlx::query(update).execute(&store.pool).await.unwrap();
        let places = sqlx::query_as::<_, (String, String, i64)>(
            "SELECT solve, id, place FROM events ORDER BY solve, place",
        );
        let places = places.fetch_all(&store.pool).await.unwrap();
        let of = |solve: &str| {
            [("a", 1), ("b", 2), ("c", 3)].map(|(id, place)| (solve.to_owned(), id.to_owned(), place))
        };
        assert_eq!(places, [of("s"), of("t")].concat());
    }

    #[tokio::test]
    async fn what_the_desk_notes_stands_after_what_it_was_told_and_an_end_is_noted_once() {
        let (_dir, store) = store().await;
        store.begin_solve(&begun("s")).await.unwrap();
        store.take_events("s", &[event("a", 50, 1)]).await.unwrap();
        store.note_event("s", "hint", 10, Some(1)).await.unwrap();
        store.note_event("s", "hint", 60, Some(2)).await.unwrap();
        for _ in 0..2 {
            store.note_event("s", "solved", 50, None).await.unwrap();
        }
        let events = store.events_of("s").await.unwrap();
        let told: Vec<_> = events.iter().map(|it| (it.after_ms, &it.what[..], it.value)).collect();
        assert_eq!(
            told,
            [(50, "ink", Some(1)), (50, "hint", Some(1)), (50, "solved", None), (60, "hint", Some(2))]
        );
    }

    #[tokio::test]
    async fn a_solve_has_an_end() {
        let (_dir, store) = store().await;
        store.begin_solve(&begun("s")).await.unwrap();
        store
            .disturb(
                "WITH RECURSIVE n (at) AS (SELECT 2 UNION ALL SELECT at + 1 FROM n WHERE at < 20000) \
                 INSERT INTO events (solve, id, after_ms, what) SELECT 's', 'e-' || at, at, 'pause' FROM n",
            )
            .await;
        let two = [event("a", 1, 1), event("b", 2, 2)];
        assert!(matches!(store.take_events("s", &two).await, Err(NotTaken::TooMany)));
        assert_eq!(store.take_events("s", &two[..1]).await.unwrap(), Taken { new: 1, known: 0 });
        assert!(matches!(store.take_events("s", &two[1..]).await, Err(NotTaken::TooMany)));
        let again = store.take_events("s", &two[..1]).await.unwrap();
        assert_eq!(again, Taken { new: 0, known: 1 }, "what is there can be told again");
        assert!(matches!(store.note_event("s", "hint", 1, Some(1)).await, Err(NotTaken::TooMany)));
        store.note_event("s", "solved", 1, None).await.unwrap();
        assert_eq!(store.events_of("s").await.unwrap().len(), 20_001);
    }

    /// Fifty pages send at once, each in small batches and each batch twice.
    #[tokio::test]
    async fn fifty_testers_at_once_lose_no_event() {
        let (_dir, store) = store().await;
        let tester = |n: usize| {
            let store = store.clone();
            tokio::spawn(async move {
                let solve = format!("s{n}");
                store.begin_solve(&begun(&solve)).await.unwrap();
                for batch in 0..8 {
                    let events: Vec<SolveEvent> =
                        (0..5).map(|it| event(&format!("{batch}-{it}"), batch * 5 + it, it)).collect();
                    store.take_events(&solve, &events).await.unwrap();
                    store.take_events(&solve, &events).await.unwrap();
                }
            })
        };
        for it in (0..50).map(tester).collect::<Vec<_>>() {
            it.await.unwrap();
        }
        for n in 0..50 {
            assert_eq!(store.events_of(&format!("s{n}")).await.unwrap().len(), 40);
        }
    }
}
