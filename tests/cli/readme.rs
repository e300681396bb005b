//! What the README shows is what the program says.

use std::fs;

use super::{Bench, program, run, status, stdout};
use crate::support::root;

fn readme() -> String {
    fs::read_to_string(root().join("README.md")).unwrap()
}

/// The blocks of code, without their indent.
fn blocks(readme: &str) -> Vec<String> {
    let mut found = Vec::new();
    let mut block = String::new();
    for line in readme.lines().chain(["the end"]) {
        match line.strip_prefix("    ") {
            Some(code) => block.extend([code, "\n"]),
            None if line.is_empty() && !block.is_empty() => block.push('\n'),
            None if block.is_empty() => {}
            None => found.push(format!("{}\n", std::mem::take(&mut block).trim_end())),
        }
    }
    found
}

/// The block that begins so, and what comes behind the beginning.
fn block(start: &str) -> String {
    let all = blocks(&readme());
    let mut behind = all.iter().filter_map(|block| block.strip_prefix(start));
    let found = behind.next().unwrap_or_else(|| panic!("no `{start}`"));
    assert_eq!(behind.next(), None, "two of `{start}`");
    found.to_owned()
}

#[test]
fn it_is_read_in_a_few_minutes() {
    assert!(readme().lines().count() <= 150);
}

/// The tool of the flat file is the one that the first lines show.
#[test]
fn its_flat_file_gives_its_example() {
    let bench = Bench::new();
    let table = format!("tool_number,{}", block("tool_number,"));
    bench.put("tools.csv", table);
    let example = block("shankwise lint tools.csv\n\n");
    assert!(example.lines().count() >= 8, "{example}");
    let mut lint = program(&["lint", "tools.csv"]);
    let output = lint.current_dir(bench.path("")).output().unwrap();
    assert_eq!(status(&output), 1);
    let text = stdout(&output);
    assert!(text.contains(&example), "{example}\nis not in\n{text}");
}

/// Of the answer the README has the first lines.
#[test]
fn its_quick_question_has_its_answer() {
    let asked = block("shankwise window ");
    let (options, shown) = asked.split_once("\n\n").expect("question, answer");
    let options = options.replace('\\', " ");
    let question: Vec<&str> = ["window"]
        .into_iter()
        .chain(options.split_whitespace())
        .collect();
    assert!(question.len() > 10, "{question:?}");
    let shown = shown.strip_suffix("…\n").expect("there is more");
    assert!(shown.lines().count() >= 5, "{shown}");
    let answer = stdout(&run(&question));
    assert!(answer.starts_with(shown), "{shown}\nis not in\n{answer}");
}

/// Each command that it sends a reader to has the text, and the options that it names.
#[test]
fn where_it_points_there_is_help() {
    let readme = readme();
    let mut pointed: Vec<&str> = readme
        .split("`shankwise help ")
        .skip(1)
        .filter_map(|rest| rest.split('`').next())
        .collect();
    pointed.sort_unstable();
    pointed.dedup();
    assert_eq!(
        pointed,
        [
            "audit", "columns", "lint", "rules", "schema", "start", "window"
        ]
    );
    for command in pointed {
        let help = stdout(&run(&["help", command]));
        let text = root().join(format!("src/cli/help/{command}.txt"));
        let text = fs::read_to_string(text).unwrap();
        // Lines are wrapped, words are not.
        let flat = |text: &str| text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(flat(&help).contains(&flat(&text)), "{command}: {help}");
    }
}

/// The lines that write XML from a database are run on one, and what they write is a library.
#[test]
fn its_lines_from_a_database_write_a_library() {
    const TABLES: &str = "import sqlite3
database = sqlite3.connect('tools.db')
for line in open('tables.sql'):
    database.execute(line)
database.commit()
";
    const SQL: &str = r#"CREATE TABLE cutters (id, cutting_diameter, overall_length, shank_diameter, shank_length, price)
INSERT INTO cutters VALUES ('em12', 12, 83, 12, 45, 31.5), ('em"8" & co', 8, 63.5, 8, NULL, 20)
CREATE TABLE collets (id, collet_size, bore_diameter, bore_length)
INSERT INTO collets VALUES ('c12', 32, 12, 40), ('c8', 32, 8, 40)
CREATE TABLE tools (tool_number, cutter, collet, stick_out, nut_torque)
INSERT INTO tools VALUES (7, 'em12', 'c12', 65, 100), (8, 'em"8" & co', 'c8', 30, NULL), (9, NULL, 'c8', 31, 90)
"#;
    let lines = format!("import sqlite3\n{}", block("import sqlite3\n"));
    assert!(lines.lines().count() <= 20, "{lines}");
    let bench = Bench::new();
    bench.put("tables.py", TABLES);
    bench.put("tables.sql", SQL);
    bench.put("written.py", &lines);
    for script in ["tables.py", "written.py"] {
        let mut python = std::process::Command::new("python3");
        let python = python.arg(script).current_dir(bench.path(""));
        let output = python
            .output()
            .expect("python3 is there: Debian package python3");
        let why = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "{script}: {why}");
    }
    let document = bench.path("tools.xml");
    assert_eq!(crate::convert::strict::invalid(&document), "");
    let output = run(&["lint", &document.display().to_string(), "--as", "json"]);
    let linted: serde_json::Value = serde_json::from_str(&stdout(&output)).unwrap();
    assert_eq!(linted["summary"]["coverage"]["grip_judged"], 1, "{linted}");
    let text = linted["findings"].to_string();
    assert!(text.contains("grip/short-grip"), "{text}");
    // The help shows the same.
    let help = fs::read_to_string(root().join("src/cli/help/columns.txt")).unwrap();
    let shown = help.lines().filter_map(|line| line.strip_prefix("  "));
    let shown: Vec<&str> = shown.collect();
    assert!(shown.join("\n").contains(lines.trim_end()), "{help}");
}
