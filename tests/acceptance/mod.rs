//! What the shop accepts: as it was, of which parts, until when, and how that is written.

mod changed;
mod command;
mod form;
mod hostile;
mod register;
mod shown;
mod terms;
mod written;

use std::fs;
use std::path::PathBuf;
use std::process::{Command, Output};

use serde_json::Value;
use tempfile::TempDir;

/// The rule of a short grip.
const GRIP: &str = "grip/short-grip";
/// The rule of a tool that is too short for its job.
const REACH: &str = "reach/too-short-for-the-job";
/// The day on which all is judged that names no other.
const TODAY: &str = "2026-11-25";
/// Who accepts, why and until when, on that day.
const WHO: [&str; 8] = [
    "--reason",
    "r",
    "--by",
    "b",
    "--until",
    "2027-01-31",
    "--as-of",
    TODAY,
];

const ASSEMBLIES: &str = "\
tool_number,machine,cutter,collet,nut,holder,stick_out,nut_torque
7,mill 2,em12,c12,n32,h32,65,80
";
const CUTTERS: &str = "\
cutter,cutter_kind,cutting_diameter,overall_length,shank_diameter,shank_length
em12,end mill,12,83,12,45
em12-b,end mill,12,83,12,45
";
const COLLETS: &str = "\
collet,collet_size,bore_diameter,bore_length
c12,32,12,40
c12-b,32,12,40
";
const NUTS: &str = "nut,collet_size,face_setback\nn32,32,0\nn32-b,32,0\n";
const HOLDERS: &str =
    "holder,clamping_kind,collet_size\nh32,taper collet,32\nh32-b,taper collet,32\n";
const OPERATIONS: &str = "\
operation,tool_number,machine,operation_kind,reach,clearance
pocket,7,mill 2,milling,70,2
";

/// A cell: a folder of tables. Tool 7 has 18 of 40 mm gripped, and its job asks for 72 mm.
struct Cell(TempDir);

impl Cell {
    fn new() -> Cell {
        let cell = Cell(TempDir::new().expect("a folder"));
        // The root of a repository: no shop file above it counts.
        fs::create_dir(cell.path(".git")).unwrap();
        for (name, text) in [
            ("assemblies", ASSEMBLIES),
            ("cutters", CUTTERS),
            ("collets", COLLETS),
            ("nuts", NUTS),
            ("holders", HOLDERS),
            ("operations", OPERATIONS),
        ] {
            cell.put(&format!("cell/{name}.csv"), text);
        }
        cell
    }

    /// One with an entry of its own for the short grip, as it is, with these lines more.
    fn accepting(more: &str) -> Cell {
        let cell = Cell::new();
        cell.put("cell/shankwise.toml", &entry(GRIP, more));
        cell
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    fn put(&self, name: &str, text: &str) {
        let path = self.path(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }

    fn read(&self, name: &str) -> String {
        fs::read_to_string(self.path(name)).unwrap()
    }

    /// Writes another text in the place of one in a table of the cell.
    fn change(&self, table: &str, from: &str, to: &str) {
        let name = format!("cell/{table}.csv");
        let text = self.read(&name);
        assert!(text.contains(from), "{table} has no `{from}`");
        self.put(&name, &text.replacen(from, to, 1));
    }

    /// Runs the program in the folder above the cell.
    fn run(&self, arguments: &[&str]) -> Output {
        Command::new(env!("CARGO_BIN_EXE_shankwise"))
            .args(arguments)
            .current_dir(self.path(""))
            .env_remove("SHANKWISE_CONFIG")
            .output()
            .expect("the program starts")
    }

    /// The cell as JSON, as of a day.
    fn judged_on(&self, day: &str) -> Value {
        let output = self.run(&["lint", "cell", "--as", "json", "--as-of", day]);
        serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{}", said(&output)))
    }

    fn judged(&self) -> Value {
        self.judged_on(TODAY)
    }

    /// The first finding of a rule, as of today.
    fn finding(&self, rule: &str) -> Value {
        let found = of_rule(&self.judged(), rule);
        found.into_iter().next().unwrap_or(Value::Null)
    }

    /// Accepts the first finding of a rule.
    fn accept(&self, rule: &str, more: &[&str]) -> Output {
        let finding = self.finding(rule);
        let fingerprint = finding["fingerprint"].as_str().expect("it is found");
        let fixed = ["accept", "cell", fingerprint, "--as-of", TODAY];
        let who = ["--reason", "light finishing", "--by", "J. Example"];
        self.run(&[&fixed[..], &who, more].concat())
    }

    /// Accepts the first finding of a rule until the end of January.
    fn accepted(self, rule: &str) -> Cell {
        let output = self.accept(rule, &["--until", "2027-01-31"]);
        assert_eq!(output.status.code(), Some(0), "{}", said(&output));
        self
    }
}

/// The findings of a rule.
fn of_rule(judged: &Value, rule: &str) -> Vec<Value> {
    let all = judged["findings"].as_array().expect("findings");
    let own = all.iter().filter(|finding| finding["rule"] == rule);
    own.cloned().collect()
}

/// An entry for tool 7 with these lines more.
fn entry(rule: &str, more: &str) -> String {
    format!(
        "[[accept]]\nrule = \"{rule}\"\ntool_number = \"7\"\nreason = \"light finishing\"\nby = \"J. Example\"\n{more}"
    )
}

const UNTIL: &str = "until = 2027-01-31\n";

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

fn printed(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// What has changed, and nothing else is accepted.
fn lapsed(finding: &Value) -> Vec<String> {
    assert!(finding["accepted"].is_null(), "{finding}");
    let why = finding["lapsed"]["why"].as_array().expect("it lapsed");
    why.iter()
        .map(|why| why.as_str().unwrap().to_owned())
        .collect()
}
