//! What a shell and `man` read: scripts of completion, the manual page.

use std::io::Write as _;
use std::process::{Command, Stdio};

use super::{complaint, run, status, stdout};
use crate::support::COMMANDS;

/// The long options that the help of a command names.
fn options(command: &str) -> Vec<String> {
    let help = stdout(&run(&[command, "--help"]));
    // What is no option begins at the margin, or further in.
    let own = help.lines().filter(|line| line.starts_with("  "));
    let lines = own.map(str::trim_start);
    let named = lines.filter_map(|line| {
        let at = line.starts_with('-').then(|| line.find("--"))??;
        let name = line[at..].split([' ', ',']).next()?;
        Some(name.to_owned())
    });
    let named: Vec<String> = named.collect();
    assert!(named.contains(&"--help".to_owned()), "{command}: {named:?}");
    named
}

#[test]
fn every_shell_completes_every_command_and_option() {
    for shell in ["bash", "elvish", "fish", "powershell", "zsh"] {
        let output = run(&["completions", shell]);
        assert_eq!((status(&output), complaint(&output)), (0, String::new()));
        let script = stdout(&output);
        for command in COMMANDS {
            assert!(script.contains(command), "{shell}: {command}");
            for option in options(command) {
                let bare = option.trim_start_matches('-');
                assert!(script.contains(bare), "{shell}: {command} {option}");
            }
        }
    }
    let unknown = run(&["completions", "tcl"]);
    assert_eq!((status(&unknown), stdout(&unknown)), (2, String::new()));
    assert!(complaint(&unknown).contains("bash"));
}

/// Bash itself reads it, and completes with it.
#[cfg(unix)]
#[test]
fn bash_takes_the_script() {
    let script = stdout(&run(&["completions", "bash"]));
    let asks = |words: &str, last: usize| {
        let named: Vec<&str> = words.split(' ').collect();
        let (word, before) = (named[last], named[last - 1]);
        format!(
            "\nCOMP_WORDS=({words})\nCOMP_CWORD={last}\n_shankwise shankwise {word} {before}\necho \"${{COMPREPLY[@]}}\"\n"
        )
    };
    let all = [
        asks("shankwise lint --min-c", 2),
        asks("shankwise window --room-de", 2),
        asks("shankwise window --OA", 2),
        asks("shankwise window --cutter-kind spot", 3),
    ];
    let bash = Command::new("bash")
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn();
    let Ok(mut bash) = bash else {
        super::skipped("no bash here");
        return;
    };
    let mut input = bash.stdin.take().unwrap();
    input
        .write_all((script + &all.concat()).as_bytes())
        .unwrap();
    drop(input);
    let output = bash.wait_with_output().unwrap();
    assert_eq!(complaint(&output), "");
    assert_eq!(
        stdout(&output),
        "--min-coverage\n--room-depth\n--OAL\nspot-drill\n"
    );
}

#[test]
fn one_manual_page_has_every_command_and_option() {
    let output = run(&["man"]);
    assert_eq!((status(&output), complaint(&output)), (0, String::new()));
    let page = stdout(&output);
    assert_eq!(page.matches(".TH shankwise 1").count(), 1);
    let sections: Vec<&str> = page.split("\n.SH ").collect();
    for command in COMMANDS {
        let heading = command.to_uppercase() + "\n";
        let own = sections
            .iter()
            .find(|section| section.starts_with(&heading));
        let own = own.unwrap_or_else(|| panic!("no section of {command}"));
        for option in options(command) {
            let escaped = option.replace('-', "\\-");
            assert!(own.contains(&escaped), "{command} {option}");
        }
    }
    assert!(page.contains("not an approval"));
    // What is no word of roff would be printed, or lost.
    for line in page.lines().filter(|line| line.starts_with('.')) {
        let word = line.split(' ').next().unwrap();
        let known = [
            ".ie", ".el", ".TH", ".SH", ".SS", ".TP", ".PP", ".IP", ".RS", ".RE", ".br",
        ];
        assert!(known.contains(&word), "{line}");
    }
}
