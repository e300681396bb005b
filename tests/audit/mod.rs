//! The nightly audit: what it finds in a tree, what it says of two nights, and what it writes.

mod acceptances;
mod beyond;
mod comment;
mod formats;
mod header;
mod nights;
mod order;
mod outputs;
mod parts;
mod schema;
mod targets;
mod trees;
mod trends;

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use serde_json::Value;
use tempfile::TempDir;

const HEADER: &str = "tool_number,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,collet_size,bore_diameter,bore_length,nut_torque";

/// A plant of ten libraries, and what nights made of it.
struct Plant(TempDir);

/// What one night made of the plant.
struct Night {
    status: i32,
    folder: PathBuf,
    json: Value,
    log: Value,
    /// The rows of the table, by column.
    rows: Vec<std::collections::BTreeMap<String, String>>,
    comment: String,
}

/// Four tools: a full land, 18 of 40 mm, a land that nobody states, no torque.
fn rows(first: usize) -> Vec<String> {
    let row = |at: usize, rest: &str| format!("{},{rest}", first + at);
    vec![
        row(1, "40,83,45,12,12,32,12,40,80"),
        row(2, "65,83,45,12,12,32,12,40,80"),
        row(3, "40,83,45,12,12,32,12,,80"),
        row(4, "40,83,45,12,12,32,12,40,"),
    ]
}

fn table(rows: &[String]) -> String {
    let lines: Vec<&str> = rows.iter().map(String::as_str).collect();
    format!("{HEADER}\n{}\n", lines.join("\n"))
}

impl Plant {
    fn empty() -> Plant {
        let plant = Plant(TempDir::new().expect("a folder"));
        fs::create_dir(plant.0.path().join("plant")).unwrap();
        plant
    }

    /// Ten libraries: seven flat ones, a folder, a document, and one that states its name.
    fn new() -> Plant {
        let plant = Plant::empty();
        for cell in 1..=7 {
            plant.put(&format!("cell-{cell}/tools.csv"), table(&rows(cell * 10)));
        }
        plant.put(
            "cell-8/assemblies.csv",
            "tool_number,cutter,collet,holder,stick_out,nut_torque\n81,em12,c12,h1,40,80\n82,em12,c12,h1,65,80\n",
        );
        plant.put(
            "cell-8/cutters.csv",
            "cutter,overall_length,shank_length,shank_diameter,cutting_diameter\nem12,83,45,12,12\nem12long,110,60,12,12\n",
        );
        plant.put(
            "cell-8/collets.csv",
            "collet,collet_size,bore_diameter,bore_length\nc12,32,12,40\n",
        );
        plant.put("cell-8/holders.csv", "holder,collet_size\nh1,32\n");
        plant.put(
            "cell-9/tools.xml",
            "<shankwise xmlns=\"urn:shankwise:library:1\" units=\"mm\"><assemblies><assembly><tool_number>92</tool_number><stick_out>65</stick_out><overall_length>83</overall_length><shank_length>45</shank_length><shank_diameter>12</shank_diameter><collet_size>32</collet_size><bore_diameter>12</bore_diameter><bore_length>40</bore_length><nut_torque>80</nut_torque></assembly></assemblies></shankwise>",
        );
        plant.put("cell-10/tools.csv", table(&rows(100)));
        plant.put("cell-10/shankwise.toml", "name = \"the tenth\"\n");
        plant
    }

    fn path(&self, name: &str) -> PathBuf {
        self.0.path().join("plant").join(name)
    }

    /// Puts a file into the plant.
    fn put(&self, name: &str, content: impl AsRef<[u8]>) {
        let path = self.path(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, content).unwrap();
    }

    /// Changes a text in a file of the plant, which holds it once.
    fn edit(&self, name: &str, from: &str, to: &str) {
        let text = fs::read_to_string(self.path(name)).unwrap();
        assert_eq!(text.matches(from).count(), 1, "{from} in {name}");
        fs::write(self.path(name), text.replace(from, to)).unwrap();
    }

    fn program(&self, arguments: &[&str]) -> Command {
        let mut program = Command::new(env!("CARGO_BIN_EXE_shankwise"));
        program
            .arg("audit")
            .args(arguments)
            .current_dir(self.0.path())
            .env_remove("SHANKWISE_CONFIG");
        program
    }

    fn run(&self, arguments: &[&str]) -> Output {
        self.program(arguments)
            .output()
            .expect("the program starts")
    }

    /// A night whose outputs go into a folder of this name.
    fn night(&self, out: &str, more: &[&str]) -> Night {
        let day: &[&str] = if more.contains(&"--as-of") {
            &[]
        } else {
            &["--as-of", "2027-01-31"]
        };
        let output = self.run(&[&["plant", "--out", out, "--quiet"], day, more].concat());
        Night::read(&self.0.path().join(out), &output)
    }
}

impl Night {
    fn read(folder: &Path, output: &Output) -> Night {
        let said = String::from_utf8_lossy(&output.stderr);
        let text = |name: &str| {
            fs::read_to_string(folder.join(name))
                .unwrap_or_else(|why| panic!("{name}: {why}; {said}"))
        };
        let mut table = csv::Reader::from_path(folder.join("findings.csv")).expect("a table");
        let rows = table.deserialize().map(|row| row.expect("a row"));
        let json = serde_json::from_str(&text("audit.json")).expect("JSON");
        assert_eq!(crate::json_schema::broken_audit(&json), [""; 0]);
        Night {
            status: output.status.code().expect("it ended by itself"),
            folder: folder.to_owned(),
            json,
            log: serde_json::from_str(&text("audit.sarif")).expect("a log"),
            rows: rows.collect(),
            comment: text("audit.md"),
        }
    }

    /// Its findings in a state, as library, tool and rule.
    fn of(&self, state: &str) -> Vec<String> {
        let own = self.rows.iter().filter(|row| row["state"] == state);
        own.map(|row| format!("{} {} {}", row["library"], row["tool_number"], row["rule"]))
            .collect()
    }

    /// Its results in a state of the baseline, as library, tool and rule.
    fn results(&self, state: &str) -> Vec<String> {
        let results = self.log["runs"][0]["results"].as_array().unwrap();
        let own = results.iter().filter(|one| one["baselineState"] == state);
        own.map(|one| {
            let text = |key: &str| one["properties"][key].as_str().unwrap_or("").to_owned();
            let rule = one["ruleId"].as_str().unwrap();
            format!("{} {} {rule}", text("library"), text("tool_number"))
        })
        .collect()
    }

    fn states(&self) -> std::collections::BTreeMap<String, usize> {
        let mut states = std::collections::BTreeMap::new();
        for row in &self.rows {
            *states.entry(row["state"].clone()).or_insert(0) += 1;
        }
        states
    }
}
