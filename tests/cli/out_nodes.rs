//! What `--out` names may be a link, a pipe or a device: only a regular file is replaced.
#![cfg(unix)]

use std::fs;
use std::io::{Read as _, Write as _};
use std::os::unix::fs::{FileTypeExt as _, MetadataExt as _, PermissionsExt as _, symlink};
use std::os::unix::process::CommandExt as _;
use std::path::Path;
use std::process::{Command, Output, Stdio};

use super::{Bench, GOOD, complaint, program, run, skipped, status, stdout};

/// Numbers of a user and a group without rights.
const NOBODY: u32 = 65_534;

fn is_root() -> bool {
    fs::metadata("/proc/self").is_ok_and(|own| own.uid() == 0)
}

/// Runs the program as somebody without rights; `None`, said aloud, where that cannot be done.
pub(super) fn as_nobody(arguments: &[&str]) -> Option<Output> {
    let mut command = program(arguments);
    if is_root() {
        command.uid(NOBODY).gid(NOBODY);
    }
    let output = command.output();
    if output.is_err() {
        skipped("an unprivileged user cannot start the program here");
    }
    output.ok()
}

/// Lets anybody write in the bench's folder.
pub(super) fn open_to_all(bench: &Bench) {
    fs::set_permissions(bench.path(""), fs::Permissions::from_mode(0o777)).unwrap();
}

/// Makes a node with `mknod` or `mkfifo`; `false`, said aloud, where the machine does not let us.
fn node(bench: &Bench, name: &str, kind: &[&str]) -> bool {
    let tool = if kind.is_empty() { "mkfifo" } else { "mknod" };
    let made = Command::new(tool)
        .args(["-m", "666"])
        .arg(bench.path(name))
        .args(kind)
        .stderr(Stdio::null())
        .status();
    // A file system that knows no devices lets them be made, and not opened.
    let usable = kind.is_empty()
        || fs::File::options()
            .write(true)
            .open(bench.path(name))
            .is_ok();
    let made = made.is_ok_and(|status| status.success()) && usable;
    if !made {
        skipped(&format!("this machine makes no node `{name}`"));
    }
    made
}

fn mode(path: &Path) -> u32 {
    fs::metadata(path).unwrap().permissions().mode() & 0o7777
}

/// A device that is full and one that takes all: written through, and nodes as before.
#[test]
fn a_device_is_written_through() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    open_to_all(&bench);
    for (name, kind, expected) in [("full", ["c", "1", "7"], 2), ("null", ["c", "1", "3"], 0)] {
        if !node(&bench, name, &kind) {
            continue;
        }
        symlink(name, bench.path(&format!("to-{name}"))).unwrap();
        for out in [name.to_owned(), format!("to-{name}")] {
            let out = bench.text_path(&out);
            let arguments = ["lint", &good, "--out", &out];
            let runs = [Some(run(&arguments)), as_nobody(&arguments)];
            for output in runs.into_iter().flatten() {
                assert_eq!(status(&output), expected, "{}", complaint(&output));
                let node = fs::symlink_metadata(bench.path(name)).unwrap();
                assert!(node.file_type().is_char_device(), "{name} was replaced");
                assert_eq!(mode(&bench.path(name)), 0o666);
            }
        }
    }
    assert!(bench.names().iter().all(|name| !name.starts_with('.')));
}

#[test]
fn a_pipe_is_written_through() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    if !node(&bench, "pipe", &[]) {
        return;
    }
    symlink("pipe", bench.path("link")).unwrap();
    let expected = stdout(&run(&["lint", &good]));
    for out in ["pipe", "link"] {
        // Held open from both ends, so that nobody waits for the other.
        let pipe = fs::File::options()
            .read(true)
            .write(true)
            .open(bench.path("pipe"));
        let mut pipe = pipe.unwrap();
        let output = run(&["lint", &good, "--out", &bench.text_path(out)]);
        assert_eq!(status(&output), 0, "{}", complaint(&output));
        let node = fs::symlink_metadata(bench.path("pipe")).unwrap();
        assert!(node.file_type().is_fifo(), "the pipe was replaced");
        pipe.write_all(&[0]).unwrap();
        let mut text = Vec::new();
        while text.last() != Some(&0) {
            let mut some = [0; 4096];
            let count = pipe.read(&mut some).unwrap();
            text.extend(&some[..count]);
        }
        assert_eq!(text, [expected.as_bytes(), &[0]].concat());
    }
    assert_eq!(bench.names(), ["good.csv", "link", "pipe"]);
}

/// What a shell hands over under the name of a descriptor is added to, as it asked for.
#[test]
fn a_descriptor_is_written_to_and_not_replaced() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    let expected = stdout(&run(&["lint", &good]));
    for name in ["/dev/stdout", "/dev/fd/1", "/proc/self/fd/1"] {
        if !Path::new(name).exists() {
            skipped(&format!("there is no {name} here"));
            continue;
        }
        let log = bench.put("log", "before\n");
        let end = fs::File::options().append(true).open(&log).unwrap();
        let output = program(&["lint", &good, "--out", name])
            .stdout(end)
            .stderr(Stdio::piped())
            .spawn()
            .unwrap()
            .wait_with_output()
            .unwrap();
        assert_eq!(status(&output), 0, "{name}: {}", complaint(&output));
        let text = fs::read_to_string(&log).unwrap();
        assert_eq!(text, format!("before\n{expected}"), "{name}");
        let piped = run(&["lint", &good, "--out", name]);
        assert_eq!(stdout(&piped), expected, "{name}");
    }
}

#[test]
fn the_mode_of_a_file_is_kept() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    open_to_all(&bench);
    for wanted in [0o600, 0o640, 0o644, 0o666, 0o755] {
        let out = bench.put("report", "before");
        fs::set_permissions(&out, fs::Permissions::from_mode(wanted)).unwrap();
        assert_eq!(status(&run(&["lint", &good, "--out", &out])), 0);
        assert_eq!(mode(Path::new(&out)), wanted);
        assert_ne!(fs::read_to_string(&out).unwrap(), "before");
    }
    if is_root() {
        // Root that writes a user's report does not take it away from its owner.
        let out = bench.put("report", "before");
        std::os::unix::fs::chown(&out, Some(NOBODY), Some(NOBODY)).unwrap();
        assert_eq!(status(&run(&["lint", &good, "--out", &out])), 0);
        let owner = fs::metadata(&out).unwrap();
        assert_eq!((owner.uid(), owner.gid()), (NOBODY, NOBODY));
    }
}

/// A file that its user may not write is not replaced, though its folder would let it be.
#[test]
fn a_file_that_may_not_be_written_stays() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    open_to_all(&bench);
    let out = bench.put("report", "before");
    fs::set_permissions(&out, fs::Permissions::from_mode(0o444)).unwrap();
    let Some(output) = as_nobody(&["lint", &good, "--out", &out]) else {
        return;
    };
    assert_eq!(status(&output), 2, "{}", complaint(&output));
    assert_eq!(fs::read_to_string(&out).unwrap(), "before");
    assert_eq!(bench.names(), ["good.csv", "report"]);
}

#[test]
fn a_link_is_followed_and_stays_a_link() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    let expected = stdout(&run(&["lint", &good]));
    fs::create_dir(bench.path("far")).unwrap();
    for dangling in [false, true] {
        let target = bench.path("far/report");
        if dangling {
            fs::remove_file(&target).unwrap();
        } else {
            fs::write(&target, "before").unwrap();
            symlink("far/report", bench.path("near")).unwrap();
            symlink("near", bench.path("nearer")).unwrap();
        }
        let out = bench.text_path("nearer");
        let output = run(&["lint", &good, "--out", &out]);
        assert_eq!(status(&output), 0, "{}", complaint(&output));
        for link in ["near", "nearer"] {
            let link = fs::symlink_metadata(bench.path(link)).unwrap();
            assert!(link.is_symlink());
        }
        assert_eq!(fs::read_to_string(&target).unwrap(), expected);
    }
    let within = fs::read_dir(bench.path("far")).unwrap();
    assert_eq!(within.count(), 1, "no temporary");
}

#[test]
fn a_link_that_leads_nowhere_is_refused() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    symlink("round", bench.path("round")).unwrap();
    symlink("no-such-folder/report", bench.path("away")).unwrap();
    let before = bench.names();
    for out in ["round", "away", "new/", "new/.", "..", "."] {
        let out = bench.text_path(out);
        let output = run(&["lint", &good, "--out", &out]);
        assert_eq!(status(&output), 2, "{out}");
        let told = complaint(&output);
        assert!(told.contains("cannot write"), "{told}");
        assert_eq!(bench.names(), before, "{out}");
    }
}
