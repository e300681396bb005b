//! Libraries on many threads: taken in their order, and one that panics costs only itself.

use std::io::{self, Read as _, Write as _};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Duration;

use shankwise::audit::in_order;

#[test]
fn a_panic_costs_its_own_library_only() {
    let mut taken = Vec::new();
    in_order(
        (20, 4),
        |at, to| {
            assert!(at % 7 != 3, "number {at}");
            // Later ones are done first.
            std::thread::sleep(Duration::from_millis((20 - at as u64) / 4));
            write!(to, "done {at}")
        },
        |at, why, to| write!(to, "failed {at}: {why}"),
        |at, mut piece| {
            let mut text = String::new();
            piece.read_to_string(&mut text)?;
            taken.push((at, text));
            Ok(())
        },
    )
    .unwrap();
    let wanted = (0..20).map(|at| match at % 7 {
        3 => (at, format!("failed {at}: number {at}")),
        _ => (at, format!("done {at}")),
    });
    assert_eq!(taken, wanted.collect::<Vec<_>>());
}

#[test]
fn no_library_is_begun_far_ahead_of_the_one_that_is_taken() {
    let taken = AtomicUsize::new(0);
    in_order(
        (400, 2),
        |at, _| {
            let ahead = at - taken.load(Ordering::SeqCst).min(at);
            assert!(ahead <= 33, "{ahead} ahead");
            Ok(())
        },
        |_, why, _| Err(io::Error::other(why.to_owned())),
        |at, _| {
            if at == 0 {
                std::thread::sleep(Duration::from_millis(50));
            }
            taken.store(at + 1, Ordering::SeqCst);
            Ok(())
        },
    )
    .unwrap();
}

#[test]
fn the_first_error_ends_the_work() {
    let begun = AtomicUsize::new(0);
    let mut taken = 0;
    let ended = in_order(
        (10_000, 3),
        |_, _| {
            begun.fetch_add(1, Ordering::SeqCst);
            Ok(())
        },
        |_, _, _| Ok(()),
        |at, _| {
            taken += 1;
            if at == 5 {
                Err(io::Error::other("full"))
            } else {
                Ok(())
            }
        },
    );
    assert_eq!(ended.unwrap_err().to_string(), "full");
    assert_eq!(taken, 6);
    assert!(begun.into_inner() < 1000);
}
