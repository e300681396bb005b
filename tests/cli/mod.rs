//! The program from outside: what it is given, what it prints, how it ends.

mod as_of;
mod cannot_run;
mod catalogue;
#[cfg(unix)]
mod checks;
mod colour;
mod columns_unmet;
mod defaults;
mod errors;
mod exit;
mod here;
mod hostile;
mod long_texts;
mod most;
mod no_shank;
mod one_tool;
mod out_ended;
#[cfg(target_os = "linux")]
mod out_full;
mod out_inputs;
mod out_nodes;
mod output;
mod packaged;
mod quiet;
mod readme;
mod run_record;
mod selection;
mod shells;
mod shop_files;
mod short;
mod snapshots;
mod text;
#[cfg(target_os = "linux")]
mod threads;
mod unlisted;
#[cfg(unix)]
mod unread;
mod window;
mod window_options;
mod window_refused;

use std::fs;
use std::io::Write as _;
use std::path::PathBuf;
use std::process::{Command, Output, Stdio};

use tempfile::TempDir;

const HEADER: &str = "tool_number,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,collet_size,bore_diameter,bore_length,nut_torque";
/// A full land.
const GOOD: &str = "1,40,83,45,12,12,32,12,40,80";
/// 18 of 40 mm.
const SHORT: &str = "2,65,83,45,12,12,32,12,40,80";
/// The land is not stated, so nothing says how much of it is filled.
const GAP: &str = "3,40,83,45,12,12,32,12,,80";
/// No tightening torque: a note.
const NOTED: &str = "4,40,83,45,12,12,32,12,40,";

/// A folder with libraries in it.
struct Bench(TempDir);

impl Bench {
    fn new() -> Bench {
        Bench(TempDir::new().expect("a folder"))
    }

    /// Puts a file there and returns its path.
    fn put(&self, name: &str, content: impl AsRef<[u8]>) -> String {
        let path = self.0.path().join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, content).unwrap();
        path.display().to_string()
    }

    /// Puts a flat library of some rows there.
    fn library(&self, name: &str, rows: &[&str]) -> String {
        self.put(name, table(rows))
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    fn text_path(&self, name: &str) -> String {
        self.path(name).display().to_string()
    }

    /// What lies in the folder, by name.
    fn names(&self) -> Vec<String> {
        let entries = fs::read_dir(self.0.path()).unwrap();
        let mut names: Vec<String> = entries
            .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }
}

fn table(rows: &[&str]) -> String {
    let lines: Vec<&str> = std::iter::once(HEADER)
        .chain(rows.iter().copied())
        .collect();
    lines.join("\n") + "\n"
}

/// The program, in a folder that holds nothing.
fn program(arguments: &[&str]) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_shankwise"));
    command.args(arguments);
    for name in [
        "NO_COLOR",
        "FORCE_COLOR",
        "CLICOLOR_FORCE",
        "COLUMNS",
        "SHANKWISE_CONFIG",
    ] {
        command.env_remove(name);
    }
    command
}

fn run(arguments: &[&str]) -> Output {
    program(arguments).output().expect("the program starts")
}

/// Runs it with something on standard input.
fn run_with_input(arguments: &[&str], input: &[u8]) -> Output {
    let mut child = program(arguments)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program starts");
    child.stdin.take().unwrap().write_all(input).unwrap();
    child.wait_with_output().unwrap()
}

/// Says what this machine does not let us try; past the harness, which keeps what a test prints.
#[cfg(unix)]
fn skipped(why: &str) {
    let _ = writeln!(std::io::stderr(), "skipped: {why}");
}

/// The exit status; a death by signal is none.
fn status(output: &Output) -> i32 {
    output.status.code().expect("the program ended by itself")
}

fn stdout(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).expect("UTF-8")
}

/// Standard error with its line breaks undone: messages are broken to fit a terminal.
fn complaint(output: &Output) -> String {
    let text = String::from_utf8(output.stderr.clone()).expect("UTF-8");
    let words = text.split_whitespace().filter(|word| *word != "│");
    // A line may also be broken behind a hyphen of a rule's name.
    words.collect::<Vec<_>>().join(" ").replace("- ", "-")
}
