//! A machine that grants no thread: a container with a limit, a login at its quota.

use std::io::Write as _;
use std::os::unix::fs::PermissionsExt as _;
use std::os::unix::process::CommandExt as _;
use std::process::{Command, Output, Stdio};

use tempfile::TempDir;

use super::{HEADER, SHORT, run_with_input, status, stdout};

/// Runs the program as somebody who may have one process and no thread besides it.
fn run_alone(arguments: &[&str], input: &[u8]) -> Output {
    // Who is not root may not look into root's folders: the program lies in one that all may read.
    let folder = TempDir::new().expect("a folder");
    let program = folder.path().join("shankwise");
    std::fs::copy(env!("CARGO_BIN_EXE_shankwise"), &program).expect("a copy");
    let readable = std::fs::Permissions::from_mode(0o755);
    std::fs::set_permissions(folder.path(), readable).expect("a folder for all");
    let mut command = Command::new("prlimit");
    command
        .args(["--nproc=1:1", "--"])
        .arg(&program)
        .args(arguments)
        .env_remove("NO_COLOR")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped());
    // The limit does not bind root.
    if is_root() {
        command.uid(65_534).gid(65_534);
    }
    let mut child = command.spawn().expect("prlimit starts");
    child.stdin.take().unwrap().write_all(input).unwrap();
    child.wait_with_output().unwrap()
}

fn is_root() -> bool {
    let status = std::fs::read_to_string("/proc/self/status").expect("Linux");
    let line = status
        .lines()
        .find(|line| line.starts_with("Uid:"))
        .unwrap();
    line.split_whitespace().nth(2) == Some("0")
}

#[test]
fn the_same_is_said_without_threads() {
    let rows: Vec<String> = (0..40)
        .map(|number| SHORT.replacen('2', &number.to_string(), 1))
        .collect();
    let text = format!("{HEADER}\n{}\n", rows.join("\n"));
    for arguments in [
        &["lint", "--as", "json", "-"][..],
        &["lint", "-"],
        &["facts", "-"],
        &[
            "window",
            "--reach",
            "35",
            "--bore-length",
            "40",
            "--overall-length",
            "83",
        ],
        &["rules"],
    ] {
        let alone = run_alone(arguments, text.as_bytes());
        let told = String::from_utf8_lossy(&alone.stderr).into_owned();
        let wide = run_with_input(arguments, text.as_bytes());
        assert_eq!(status(&alone), status(&wide), "{arguments:?}: {told}");
        assert_eq!(told, "", "{arguments:?}");
        assert_eq!(stdout(&alone), stdout(&wide), "{arguments:?}");
    }
}
