//! Libraries are judged on several threads at once and taken in their order. No more are in memory
//! than there are threads: what comes of one waits in a file for its turn.

use std::any::Any;
use std::collections::BTreeMap;
use std::io::{self, Seek as _, SeekFrom};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::mpsc::sync_channel;
use std::sync::{Condvar, Mutex, PoisonError};
use std::thread;

use tempfile::SpooledTempFile;

/// What of one library is held in memory before it goes to a file, bytes: as a rule all of it, as
/// otherwise every byte is written twice.
const IN_MEMORY: usize = 6 << 20;
/// Libraries that may wait for their turn, for each thread: together they bound the memory.
const AHEAD: usize = 8;

/// What came of a library, to be read from its beginning.
pub type Piece = SpooledTempFile;

/// Which library is next, and how many were taken.
struct Turn {
    next: usize,
    taken: usize,
}

/// Does the work of each of `count` libraries on `threads` threads, and takes what comes of them
/// in their order. Where the work panics, `failed` says what stands for it.
///
/// # Errors
/// The first that `take` returns; nothing is taken after it.
pub fn in_order(
    (count, threads): (usize, usize),
    work: impl Fn(usize, &mut Piece) -> io::Result<()> + Sync,
    failed: impl Fn(usize, &str, &mut Piece) -> io::Result<()> + Sync,
    mut take: impl FnMut(usize, Piece) -> io::Result<()>,
) -> io::Result<()> {
    let turn = Mutex::new(Turn { next: 0, taken: 0 });
    let moved = Condvar::new();
    let threads = threads.clamp(1, count.max(1));
    let ahead = threads * AHEAD;
    let next = || {
        let mut turn = turn.lock().unwrap_or_else(PoisonError::into_inner);
        while turn.next < count && turn.next >= turn.taken.saturating_add(ahead) {
            turn = moved.wait(turn).unwrap_or_else(PoisonError::into_inner);
        }
        let own = turn.next;
        turn.next += 1;
        (own < count).then_some(own)
    };
    let set = |taken: usize| {
        let mut turn = turn.lock().unwrap_or_else(PoisonError::into_inner);
        turn.taken = taken;
        moved.notify_all();
    };
    thread::scope(|scope| {
        let (done, arriving) = sync_channel(ahead);
        for _ in 0..threads {
            let done = done.clone();
            let (next, work, failed) = (&next, &work, &failed);
            scope.spawn(move || {
                while let Some(at) = next() {
                    if done.send((at, one(at, work, failed))).is_err() {
                        return;
                    }
                }
            });
        }
        drop(done);
        let mut waiting = BTreeMap::new();
        let mut at = 0;
        let mut ended = Ok(());
        for (number, piece) in arriving {
            waiting.insert(number, piece);
            while let Some(piece) = waiting.remove(&at) {
                at += 1;
                ended = piece.and_then(|piece| take(at - 1, piece));
                if ended.is_err() {
                    break;
                }
                set(at);
            }
            if ended.is_err() {
                break;
            }
        }
        if ended.is_err() {
            // Nobody waits any more, and nothing is begun.
            set(usize::MAX - ahead);
            turn.lock().unwrap_or_else(PoisonError::into_inner).next = count;
        }
        ended
    })
}

fn one(
    at: usize,
    work: &impl Fn(usize, &mut Piece) -> io::Result<()>,
    failed: &impl Fn(usize, &str, &mut Piece) -> io::Result<()>,
) -> io::Result<Piece> {
    let mut piece = SpooledTempFile::new(IN_MEMORY);
    match catch_unwind(AssertUnwindSafe(|| work(at, &mut piece))) {
        Ok(ended) => ended?,
        Err(why) => {
            piece = SpooledTempFile::new(IN_MEMORY);
            failed(at, &words(why.as_ref()), &mut piece)?;
        }
    }
    piece.seek(SeekFrom::Start(0))?;
    Ok(piece)
}

/// What a panic says.
fn words(why: &(dyn Any + Send)) -> String {
    let text = why.downcast_ref::<&str>().map(|text| (*text).to_owned());
    let text = text.or_else(|| why.downcast_ref::<String>().cloned());
    text.unwrap_or_default()
}
