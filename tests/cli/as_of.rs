//! `--as-of`: the day that decides what the shop still accepts.

use super::{Bench, SHORT, complaint, run, status, stdout};

/// A short grip that is accepted until the end of January 2027.
fn bench() -> Bench {
    let bench = Bench::new();
    bench.library("tools.csv", &[SHORT]);
    bench.put(
        "shankwise.toml",
        "[[accept]]\nrule = \"grip/short-grip\"\ntool_number = \"2\"\nreason = \"trial cut\"\nby = \"shift lead\"\nuntil = 2027-01-31\n",
    );
    bench
}

#[test]
fn it_decides_what_is_accepted() {
    let bench = bench();
    let path = bench.text_path("tools.csv");
    for (day, exit) in [
        ("2026-12-01", 0),
        ("2027-01-31", 0),
        ("2027-02-01", 1),
        ("2031-05-17", 1),
    ] {
        let only = ["--only", "grip/short-grip", "--as-of", day];
        let output = run(&[&["lint", &path][..], &only].concat());
        assert_eq!(status(&output), exit, "{day}: {}", stdout(&output));
        let json = run(&[&["lint", "--as", "json", &path][..], &only].concat());
        assert_eq!(status(&json), exit, "{day}");
        let open = stdout(&json).contains("\"accepted\":null");
        assert_eq!(open, exit == 1, "{day}");
    }
}

/// Every command that judges takes it, and a day that is none is refused.
#[test]
fn every_command_that_judges_takes_it() {
    let bench = bench();
    let path = bench.text_path("tools.csv");
    for command in [
        &["lint", &path][..],
        &["facts", &path],
        &["window", "--overall-length", "83"],
    ] {
        let good = run(&[command, &["--as-of", "2027-02-01"]].concat());
        assert!(status(&good) < 2, "{command:?}: {}", complaint(&good));
        for day in ["2027-02-30", "tomorrow", "31.01.2027", ""] {
            let bad = run(&[command, &["--as-of", day]].concat());
            assert_eq!((status(&bad), stdout(&bad)), (2, String::new()), "{day}");
            let said = complaint(&bad);
            assert!(
                said.contains("such as 2027-01-31") || day.is_empty(),
                "{said}"
            );
        }
    }
}
