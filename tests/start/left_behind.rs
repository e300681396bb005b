//! What a killed run leaves beside the folder that it was to make.

use std::fs::{self, File};
use std::path::Path;
use std::time::{Duration, SystemTime};

use tempfile::TempDir;

use super::{said, started};

/// A folder with a file in it, last changed so many minutes ago.
fn left(path: &Path, minutes: u64) {
    fs::create_dir_all(path.join("library")).unwrap();
    fs::write(path.join("library/assemblies.csv"), "x").unwrap();
    let when = SystemTime::now() - Duration::from_mins(minutes);
    File::open(path).unwrap().set_modified(when).unwrap();
}

#[test]
fn the_next_run_deletes_it_once_it_is_old() {
    let folder = TempDir::new().unwrap();
    let at = |name: &str| folder.path().join(name);
    left(&at(".shankwise-start-Ab12Cd"), 90);
    // Another run may be making this one.
    left(&at(".shankwise-start-Ef34Gh"), 30);
    // These are called otherwise, or hold what no run puts there.
    left(&at(".shankwise-started"), 90);
    left(&at(".shankwise-start-my notes"), 90);
    left(&at(".shankwise-start-Ij56Kl"), 30);
    fs::write(at(".shankwise-start-Ij56Kl/notes.txt"), "mine").unwrap();
    let when = SystemTime::now() - Duration::from_mins(90);
    File::open(at(".shankwise-start-Ij56Kl"))
        .unwrap()
        .set_modified(when)
        .unwrap();
    let (_, output) = started("inch", folder.path());
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    let mut names: Vec<String> = fs::read_dir(folder.path())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    assert_eq!(
        names,
        [
            ".shankwise-start-Ef34Gh",
            ".shankwise-start-Ij56Kl",
            ".shankwise-start-my notes",
            ".shankwise-started",
            "library",
        ]
    );
}
