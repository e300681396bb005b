//! A run that is ended from outside, by a signal or a full disk, leaves no half output.
#![cfg(unix)]

use std::fs;
use std::os::unix::fs::PermissionsExt as _;
use std::os::unix::process::ExitStatusExt as _;
use std::path::Path;
use std::process::{Child, Command, ExitStatus, Stdio};
use std::thread::sleep;
use std::time::{Duration, Instant};

use super::out_nodes::{as_nobody, open_to_all};
use super::{Bench, GOOD, SHORT, complaint, program, run, skipped, status, stdout};

/// How the names of stale files begin that a test puts into the way of a run.
const LITTER: &str = ".shankwise-zz";

/// Names of temporary files of runs in a folder.
fn temporaries(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap().flatten();
    let names = entries.map(|entry| entry.file_name().to_string_lossy().into_owned());
    names
        .filter(|name| name.starts_with(".shankwise-") && !name.starts_with(LITTER))
        .collect()
}

/// A library whose report is long enough to be caught at it.
fn many(bench: &Bench) -> String {
    let rows: Vec<String> = (0..60)
        .map(|tool| SHORT.replacen('2', &format!("T{tool}"), 1))
        .collect();
    let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
    bench.library("many.csv", &rows)
}

fn started(library: &str, out: &str) -> Child {
    program(&["lint", "--as", "json", library, "--out", out])
        .stdout(Stdio::null())
        .stderr(Stdio::null())
        .spawn()
        .unwrap()
}

/// Sends a signal to a process of our own.
fn send(signal: &str, child: &Child) {
    let sent = Command::new("kill")
        .args([&format!("-{signal}"), &child.id().to_string()])
        .stderr(Stdio::null())
        .status();
    assert!(sent.is_ok(), "there is no kill here");
}

/// Waits until a process has a temporary file, stops it there, and says whether it still has it.
fn caught(child: &mut Child, folder: &Path) -> bool {
    let until = Instant::now() + Duration::from_secs(20);
    while temporaries(folder).is_empty() {
        if child.try_wait().unwrap().is_some() || Instant::now() > until {
            return false;
        }
    }
    send("STOP", child);
    sleep(Duration::from_millis(5));
    !temporaries(folder).is_empty()
}

/// Stale files of ours, many enough that a run is busy with them for a while.
fn litter(folder: &Path, count: usize) {
    for at in 0..count {
        fs::write(folder.join(format!("{LITTER}{at:04}.tmp")), "half").unwrap();
    }
}

/// Ends runs at their temporary file, as often as they let themselves be caught there.
fn ended_by(signal: &str, number: i32) {
    let bench = Bench::new();
    let library = many(&bench);
    fs::create_dir(bench.path("out")).unwrap();
    let folder = bench.path("out");
    let out = bench.put("out/report", "before");
    assert_eq!(end_of(started(&library, &out)).code(), Some(1));
    let whole = fs::read_to_string(&out).unwrap();
    fs::write(&out, "before").unwrap();
    let mut ended = 0;
    for _ in 0..20 {
        litter(&folder, 500);
        let mut child = started(&library, &out);
        if caught(&mut child, &folder) {
            send(signal, &child);
            send("CONT", &child);
        } else {
            send("CONT", &child);
        }
        let end = child.wait().unwrap();
        assert_eq!(temporaries(&folder), [""; 0], "{signal}");
        let text = fs::read_to_string(&out).unwrap();
        // A run that was at its last step may be through before the signal reaches it.
        let by = end.signal().unwrap_or(number);
        assert_eq!(by, number, "{signal}");
        if text == "before" && end.signal().is_some() {
            ended += 1;
        } else {
            assert!(text == whole, "half a report");
            fs::write(&out, "before").unwrap();
        }
        if ended == 3 {
            return;
        }
    }
    assert!(ended > 0, "no run was caught at its temporary file");
}

#[test]
fn term_int_and_hup_remove_the_temporary() {
    for (signal, number) in [("TERM", 15), ("INT", 2), ("HUP", 1)] {
        if is_ignored_here(number) {
            skipped(
                "who runs the tests has them ignore this signal, as a shell in the background does",
            );
        } else {
            ended_by(signal, number);
        }
    }
}

/// Whether this process, and so every run that it starts, ignores a signal.
fn is_ignored_here(number: i32) -> bool {
    let status = fs::read_to_string("/proc/self/status").unwrap_or_default();
    let mut lines = status.lines();
    let ignored = lines.find_map(|line| line.strip_prefix("SigIgn:"));
    let ignored = ignored.and_then(|mask| u64::from_str_radix(mask.trim(), 16).ok());
    ignored.is_some_and(|mask| mask >> (number - 1) & 1 == 1)
}

/// A shell that starts a run in the background, or `nohup`, has the run ignore some signals.
#[test]
fn a_signal_that_is_ignored_stays_ignored() {
    if !Path::new("/proc/self/status").exists() {
        skipped("this system does not tell which signals are ignored");
        return;
    }
    let bench = Bench::new();
    let library = many(&bench);
    fs::create_dir(bench.path("out")).unwrap();
    let out = bench.text_path("out/report");
    for _ in 0..20 {
        let _ = fs::remove_file(&out);
        litter(&bench.path("out"), 500);
        let run = "trap '' HUP; exec \"$0\" lint --as json \"$1\" --out \"$2\"";
        let mut child = Command::new("sh")
            .args(["-c", run, env!("CARGO_BIN_EXE_shankwise"), &library, &out])
            .spawn()
            .unwrap();
        let is_caught = caught(&mut child, &bench.path("out"));
        if is_caught {
            send("HUP", &child);
        }
        send("CONT", &child);
        let end = child.wait().unwrap();
        assert_eq!(end.signal(), None, "{end}");
        if is_caught {
            assert!(Path::new(&out).exists());
            return;
        }
    }
    panic!("no run was caught at its temporary file");
}

/// KILL at any moment: the report is the old one or a whole new one, and the next run removes
/// what was left.
#[test]
fn what_a_kill_leaves_is_swept() {
    let bench = Bench::new();
    let library = many(&bench);
    fs::create_dir(bench.path("out")).unwrap();
    let folder = bench.path("out");
    let out = bench.put("out/report", "before");
    let began = Instant::now();
    assert_eq!(end_of(started(&library, &out)).code(), Some(1));
    let whole = began.elapsed();
    let new = fs::read_to_string(&out).unwrap();
    let mut left = 0;
    for at in 0..30 {
        fs::write(&out, "before").unwrap();
        let mut child = started(&library, &out);
        if at % 3 == 0 {
            litter(&folder, 500);
            caught(&mut child, &folder);
        } else {
            sleep(whole * (at + 3) / 32);
        }
        child.kill().unwrap();
        child.wait().unwrap();
        let text = fs::read_to_string(&out).unwrap();
        assert!(text == "before" || text == new, "half a report");
        left = left.max(temporaries(&folder).len());
    }
    assert!(left > 0, "no kill left anything, so nothing was tried");
    assert_eq!(end_of(started(&library, &out)).code(), Some(1));
    assert_eq!(fs::read_to_string(&out).unwrap(), new);
    let names = fs::read_dir(&folder).unwrap();
    assert_eq!(names.count(), 1, "the next run sweeps all of it");
}

fn end_of(mut child: Child) -> ExitStatus {
    child.wait().unwrap()
}

/// Only what is ours and nobody's any more is swept.
#[test]
fn only_stale_files_of_ours_are_swept() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    litter(&bench.path(""), 3);
    let held = fs::File::open(bench.put(".shankwise-held00.tmp", "a run at work")).unwrap();
    held.lock().unwrap();
    let others = [
        ".shankwise-old.tmp",
        ".shankwise-abcdef.txt",
        "shankwise-abcdef.tmp",
    ];
    for other in others {
        bench.put(other, "not ours");
    }
    fs::create_dir(bench.path(".shankwise-folder.tmp")).unwrap();
    std::os::unix::fs::symlink("good.csv", bench.path(".shankwise-linked.tmp")).unwrap();
    let out = bench.text_path("report");
    assert_eq!(status(&run(&["lint", &good, "--out", &out])), 0);
    let mut expected = vec![
        ".shankwise-folder.tmp",
        ".shankwise-held00.tmp",
        ".shankwise-linked.tmp",
        "good.csv",
        "report",
    ];
    expected.extend(others);
    expected.sort_unstable();
    assert_eq!(bench.names(), expected);
    drop(held);
    assert_eq!(status(&run(&["lint", &good, "--out", &out])), 0);
    assert!(!bench.names().contains(&".shankwise-held00.tmp".to_owned()));
}

/// Runs at once on one target neither mix nor remove each other's files.
#[test]
fn runs_at_once_do_not_disturb_each_other() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    let short = bench.library("short.csv", &[SHORT]);
    let out = bench.text_path("report");
    let whole = [&good, &short].map(|path| stdout(&run(&["lint", path])));
    for _ in 0..8 {
        let both = [&good, &short, &good, &short].map(|path| {
            let mut command = program(&["lint", path, "--out", &out]);
            command.stderr(Stdio::piped()).spawn().unwrap()
        });
        for (child, expected) in both.into_iter().zip([0, 1, 0, 1]) {
            let output = child.wait_with_output().unwrap();
            assert_eq!(status(&output), expected, "{}", complaint(&output));
        }
        let text = fs::read_to_string(&out).unwrap();
        assert!(whole.contains(&text), "two reports are mixed");
        assert_eq!(bench.names(), ["good.csv", "report", "short.csv"]);
    }
}

/// A limit on the size of files is as a full disk: exit status 2, and the old report stays.
#[test]
fn a_full_disk_leaves_the_old_report() {
    let bench = Bench::new();
    let library = many(&bench);
    let out = bench.put("report", "before");
    for trap in ["trap '' XFSZ; ", ""] {
        let run = format!("{trap}ulimit -f 4; exec \"$0\" lint --as json \"$1\" --out \"$2\"");
        let output = Command::new("sh")
            .args(["-c", &run, env!("CARGO_BIN_EXE_shankwise"), &library, &out])
            .output()
            .unwrap();
        let told = complaint(&output);
        assert_eq!(
            output.status.code(),
            Some(2),
            "{trap}: {}: {told}",
            output.status
        );
        assert!(told.contains("cannot write"), "{told}");
        assert_eq!(fs::read_to_string(&out).unwrap(), "before");
        assert_eq!(bench.names(), ["many.csv", "report"]);
    }
}

/// Without rights in the folder there is no report, and no half one.
#[test]
fn a_folder_that_takes_no_file_is_told() {
    let bench = Bench::new();
    let good = bench.library("good.csv", &[GOOD]);
    open_to_all(&bench);
    fs::create_dir(bench.path("closed")).unwrap();
    let out = bench.text_path("closed/report");
    fs::set_permissions(bench.path("closed"), fs::Permissions::from_mode(0o555)).unwrap();
    let Some(output) = as_nobody(&["lint", &good, "--out", &out]) else {
        return;
    };
    assert_eq!(status(&output), 2);
    let told = complaint(&output);
    assert!(told.contains("cannot write"), "{told}");
    assert_eq!(fs::read_dir(bench.path("closed")).unwrap().count(), 0);
}
