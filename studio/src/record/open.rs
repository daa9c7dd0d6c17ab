//! Opening the record, and the two ways into it: any number of readers, one writer.

use std::{
    fs,
    path::{Path, PathBuf},
    sync::{Arc, Mutex, MutexGuard, PoisonError},
    time::Duration,
};

use chrono::{DateTime, Utc};
use rusqlite::{Connection, OpenFlags, Transaction, TransactionBehavior, params};
use tokio::sync::watch;

use super::{RecordError, columns::At, migrations};

/// The record's file in the data folder.
pub const FILE: &str = "record.sqlite";

/// How long a statement waits for another process (a backup, someone's shell) to let go.
const BUSY: Duration = Duration::from_secs(5);
/// Statements that each connection keeps compiled.
const STATEMENTS: usize = 64;

/// Whether a record is a real studio's or the demo's.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    Real,
    Demo,
}

/// The open record.
#[derive(Clone)]
pub struct Record {
    file: Arc<PathBuf>,
    writer: Arc<Mutex<Connection>>,
    readers: Arc<Mutex<Vec<Connection>>>,
    commits: watch::Sender<u64>,
}

impl Record {
    /// Opens the record in `folder`, making both when they are not there, and brings its schema up to date.
    ///
    /// Fails when the record is of the other origin: a demo never touches a real record, nor the other way round.
    pub fn open(folder: &Path, origin: Origin, now: DateTime<Utc>) -> Result<Self, RecordError> {
        fs::create_dir_all(folder).map_err(|source| RecordError::Folder {
            path: folder.to_owned(),
            source,
        })?;
        let file = folder.join(FILE);
        let mut writer = Connection::open(&file)?;
        prepare(&writer)?;
        // WAL lets readers go on while the writer writes; FULL makes a commit wait for the disk, because what a client
        // or an artist was told is saved must survive a power cut.
        writer.pragma_update(None, "journal_mode", "wal")?;
        writer.pragma_update(None, "synchronous", "full")?;
        migrations::run(&mut writer)?;
        check_origin(&writer, origin, now)?;
        Ok(Self {
            file: Arc::new(file),
            writer: Arc::new(Mutex::new(writer)),
            readers: Arc::default(),
            commits: watch::Sender::default(),
        })
    }

    /// Reads with a single statement, on a connection that cannot write. A read here takes microseconds, so it is done
    /// in place: handing it to another thread would cost more than the read. There are never more readers than threads
    /// that read.
    pub fn look<T>(
        &self,
        read: impl FnOnce(&Connection) -> Result<T, RecordError>,
    ) -> Result<T, RecordError> {
        let idle = lock(&self.readers).pop();
        let connection = match idle {
            Some(connection) => connection,
            None => self.open_reader()?,
        };
        let answer = read(&connection);
        // One that is left in the middle of something is not handed on.
        if connection.is_autocommit() {
            lock(&self.readers).push(connection);
        }
        answer
    }

    /// Reads with any number of statements, all of them of one moment.
    pub fn read<T>(
        &self,
        read: impl FnOnce(&Connection) -> Result<T, RecordError>,
    ) -> Result<T, RecordError> {
        self.look(|connection| {
            connection.prepare_cached("begin")?.execute([])?;
            let answer = read(connection);
            connection.prepare_cached("commit")?.execute([])?;
            answer
        })
    }

    /// Adds to the record, in one transaction, off the threads that serve. Returns when the commit is on disk; any
    /// error leaves the record as it was.
    pub async fn write<T, E>(
        &self,
        write: impl FnOnce(&Transaction<'_>) -> Result<T, E> + Send + 'static,
    ) -> Result<T, E>
    where
        T: Send + 'static,
        E: From<RecordError> + Send + 'static,
    {
        let record = self.clone();
        match tokio::task::spawn_blocking(move || record.write_now(write)).await {
            Ok(done) => done,
            Err(_) => Err(RecordError::Closing.into()),
        }
    }

    /// As [`Record::write`], in place: for the start of the program and for tests.
    pub fn write_now<T, E: From<RecordError>>(
        &self,
        write: impl FnOnce(&Transaction<'_>) -> Result<T, E>,
    ) -> Result<T, E> {
        let mut writer = lock(&self.writer);
        let transaction = writer
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(RecordError::from)?;
        let done = write(&transaction)?;
        transaction.commit().map_err(RecordError::from)?;
        self.commits.send_modify(|count| *count += 1);
        Ok(done)
    }

    /// Tells of every commit, once it is on disk: for whatever follows the record by itself.
    pub fn commits(&self) -> watch::Receiver<u64> {
        self.commits.subscribe()
    }

    fn open_reader(&self) -> Result<Connection, RecordError> {
        let flags = OpenFlags::SQLITE_OPEN_READ_ONLY | OpenFlags::SQLITE_OPEN_NO_MUTEX;
        let reader = Connection::open_with_flags(self.file.as_path(), flags)?;
        prepare(&reader)?;
        Ok(reader)
    }
}

/// A thread that panicked while it held the lock left a transaction that was rolled back when it was dropped: the
/// connection is sound.
fn lock<T>(mutex: &Mutex<T>) -> MutexGuard<'_, T> {
    mutex.lock().unwrap_or_else(PoisonError::into_inner)
}

fn prepare(connection: &Connection) -> Result<(), RecordError> {
    connection.busy_timeout(BUSY)?;
    connection.pragma_update(None, "foreign_keys", "on")?;
    connection.pragma_update(None, "trusted_schema", "off")?;
    connection.set_prepared_statement_cache_capacity(STATEMENTS);
    Ok(())
}

fn check_origin(
    writer: &Connection,
    wanted: Origin,
    now: DateTime<Utc>,
) -> Result<(), RecordError> {
    writer.execute(
        "insert or ignore into record_origin (only_row, made_at, is_demo) values (1, ?1, ?2)",
        params![At(now), wanted == Origin::Demo],
    )?;
    let is_demo: bool =
        writer.query_row("select is_demo from record_origin", [], |row| row.get(0))?;
    match (wanted, is_demo) {
        (Origin::Demo, false) => Err(RecordError::NotADemo),
        (Origin::Real, true) => Err(RecordError::IsADemo),
        _ => Ok(()),
    }
}
