//! The script of all checks on a machine that lacks what they need; every program it finds is
//! made up here.

use std::fs;
use std::os::unix::fs::{PermissionsExt as _, symlink};
use std::process::{Command, Output};

use super::{Bench, status, stdout};
use crate::support::root;

const CARGO: &str = "#!/bin/sh\nexit 0\n";
/// Says who is asked, and brings what it is asked for.
const APT: &str = "#!/bin/sh\necho \"apt-get $*\"\ncase \"$*\" in install*libxml2-utils) printf '#!/bin/sh\\n' > \"$BIN/xmllint\"; chmod +x \"$BIN/xmllint\";; esac\n";
const SUDO: &str = "#!/bin/sh\n[ \"$1\" = -n ] || exit 1\nshift\nexec \"$@\"\n";
const SUDO_THAT_ASKS: &str = "#!/bin/sh\nexit 1\n";
const ROOT: &str = "#!/bin/sh\necho 0\n";
const USER: &str = "#!/bin/sh\necho 1000\n";

/// Runs the checks with these programs and the few that any machine has.
fn checks(programs: &[(&str, &str)]) -> Output {
    let bench = bench(programs);
    command(&bench).output().unwrap()
}

/// A machine that has these programs.
fn bench(programs: &[(&str, &str)]) -> Bench {
    let bench = Bench::new();
    let real = std::env::var("PATH").unwrap();
    for name in ["bash", "sh", "dirname", "date", "env", "chmod", "true"] {
        let mut folders = std::env::split_paths(&real);
        let found = folders.find(|folder| folder.join(name).exists());
        symlink(found.expect(name).join(name), bench.path(name)).unwrap();
    }
    for (name, script) in programs {
        let path = bench.put(name, script);
        fs::set_permissions(&path, fs::Permissions::from_mode(0o755)).unwrap();
    }
    bench
}

/// The checks on it.
fn command(bench: &Bench) -> Command {
    let mut command = Command::new(bench.path("bash"));
    command
        .arg(root().join("tests/check"))
        .env("PATH", bench.path(""))
        .env("BIN", bench.path(""))
        // Where all must run, pages that no browser opens are a failure.
        .env_remove("CI");
    command
}

fn said(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

const HAVE: [(&str, &str); 3] = [("cargo", CARGO), ("cc", CARGO), ("python3", CARGO)];

#[test]
fn what_is_missing_is_installed_where_it_may_be() {
    let as_root = [("id", ROOT), ("apt-get", APT)];
    let by_sudo = [("id", USER), ("apt-get", APT), ("sudo", SUDO)];
    for more in [&as_root[..], &by_sudo] {
        let output = checks(&[&HAVE, more].concat());
        let text = stdout(&output);
        assert_eq!(
            (status(&output), said(&output)),
            (0, String::new()),
            "{text}"
        );
        assert!(text.contains("apt-get install -y"), "{text}");
        assert!(!text.contains("gcc"), "the compiler is there: {text}");
        for stage in ["format", "lints", "tests", "examples", "docs"] {
            assert!(text.contains(&format!("\n{stage} ")), "{text}");
        }
    }
    // What is there is not installed.
    let all = [("id", ROOT), ("apt-get", APT), ("xmllint", CARGO)];
    let text = stdout(&checks(&[&HAVE[..], &all].concat()));
    assert!(!text.contains("libxml2-utils"), "{text}");
}

/// Without a browser the pages are not opened: said, and a failure only where all must run.
#[test]
fn without_a_browser_the_rest_is_checked() {
    let have = [&HAVE[..], &[("id", USER), ("xmllint", CARGO)]].concat();
    let output = checks(&have);
    let text = stdout(&output);
    assert_eq!(status(&output), 0, "{text}");
    assert!(
        text.contains("\nNOT RUN: ") && text.contains("NOT RUN\nexamples"),
        "{text}"
    );
    let bench = bench(&have);
    let output = command(&bench).env("CI", "true").output().unwrap();
    assert_eq!(status(&output), 1, "{}", stdout(&output));
}

#[test]
fn where_it_may_not_be_one_command_is_printed() {
    let asks = [("id", USER), ("apt-get", APT), ("sudo", SUDO_THAT_ASKS)];
    let no_sudo = [("id", USER), ("apt-get", APT)];
    for more in [&asks[..], &no_sudo] {
        let output = checks(&[&HAVE[..1], more].concat());
        assert_eq!((status(&output), stdout(&output)), (1, String::new()));
        let command = "\n  sudo apt-get install gcc libc6-dev libxml2-utils python3-minimal libpython3-stdlib\n";
        assert!(said(&output).contains(command), "{}", said(&output));
    }
    let other = checks(&[&HAVE[..], &[("id", USER)]].concat());
    assert_eq!(status(&other), 1);
    assert!(said(&other).contains("xmllint"), "{}", said(&other));
    let no_rust = checks(&[("cc", CARGO)]);
    assert_eq!(status(&no_rust), 1);
    assert!(said(&no_rust).contains("need Rust"), "{}", said(&no_rust));
}
