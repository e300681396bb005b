//! Cards for the bench: what stops a tool, the numbers against numbers by hand, and no markup
//! from a library.

mod inert;
mod job;
mod lint_job;
mod numbers;
mod sheet;
mod stamps;

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use tempfile::TempDir;

use crate::support::{self, fixture};

/// A day on which the demo's acceptance applies.
const DAY: [&str; 2] = ["--as-of", "2027-01-31"];

/// A flat library's header, with all that a card shows.
const HEADER: &str = "tool_number,description,machine,pot,cutter_kind,cutting_diameter,hand,\
    overall_length,shank_diameter,shank_length,collet_system,collet_size,bore_diameter,\
    bore_diameter_min,bore_length,bore_form,nut_style,nut.sealed,face_setback,clamping_kind,\
    gauge_length,insertion_depth_max,stick_out,nut_torque,cutter_speed_max,nut_speed_max";
/// A sound tool: 43 mm are in the collet, all 40 mm of its bore are filled.
const SOUND: &str = "7,pocket,mill-1,12,end mill,12,right,83,12,45,ISO 15488,32,12,11,40,through,\
    standard,no,1,collet chuck,60,70,40,105,20000,18000";

/// A folder with files in it.
struct Cell(TempDir);

impl Cell {
    fn new(files: &[(&str, &str)]) -> Cell {
        let folder = TempDir::new().unwrap();
        for (name, text) in files {
            let path = folder.path().join(name);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, text).unwrap();
        }
        Cell(folder)
    }

    /// A flat library of these rows.
    fn flat(rows: &[&str]) -> Cell {
        Cell::new(&[("lib.csv", &format!("{HEADER}\n{}\n", rows.join("\n")))])
    }

    fn run(&self, arguments: &[&str]) -> Output {
        program(self.0.path(), arguments)
    }

    /// The cards of its library, and the exit status.
    fn cards(&self, with: &[&str]) -> (Page, Option<i32>) {
        let fixed = ["cards", "lib.csv", "--out", "cards.html"];
        let output = self.run(&[&fixed, &DAY[..], with].concat());
        let page = fs::read_to_string(self.0.path().join("cards.html"));
        let page = page.unwrap_or_else(|_| panic!("{}", told(&output)));
        (Page(page), output.status.code())
    }
}

fn program(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_shankwise"))
        .args(arguments)
        .current_dir(folder)
        .env_remove("SHANKWISE_CONFIG")
        .output()
        .expect("the program starts")
}

fn told(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

fn printed(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// The row with one cell, by its column, replaced.
fn with(row: &str, changes: &[(&str, &str)]) -> String {
    let columns: Vec<&str> = HEADER.split(',').collect();
    let mut cells: Vec<&str> = row.split(',').collect();
    for (name, value) in changes {
        let at = columns.iter().position(|column| column == name).unwrap();
        cells[at] = value;
    }
    cells.join(",")
}

/// A page of cards.
struct Page(String);

impl Page {
    /// Of a fixture.
    fn of(name: &str) -> Page {
        let folder = TempDir::new().unwrap();
        let path = fixture(name).display().to_string();
        let output = program(
            folder.path(),
            &[&["cards", &path, "--out", "c.html"], &DAY[..]].concat(),
        );
        assert_eq!(output.status.code(), Some(1), "{}", told(&output));
        Page(fs::read_to_string(folder.path().join("c.html")).unwrap())
    }

    /// Its cards, each with its tool.
    fn cards(&self) -> Vec<Card<'_>> {
        let parts = self.0.split("<article").skip(1);
        let cards = parts.map(|part| {
            let text = part.split("</article>").next().unwrap();
            let tool = between(text, "aria-label=\"tool ", "\"");
            Card { tool, text }
        });
        cards.collect()
    }

    /// The card of a tool.
    fn card(&self, tool: &str) -> Card<'_> {
        let own = self.cards().into_iter().find(|card| card.tool == tool);
        own.unwrap_or_else(|| panic!("no card of {tool}"))
    }

    /// All elements of a page that closes what it opens.
    fn elements(&self) -> Vec<(String, BTreeMap<String, String>)> {
        let body = self.0.find("<body>").unwrap()..self.0.find("</html>").unwrap();
        support::elements(&self.0[body])
    }
}

fn between<'t>(text: &'t str, before: &str, behind: &str) -> &'t str {
    let from = text.find(before).unwrap_or_else(|| panic!("{before}")) + before.len();
    text[from..].split(behind).next().unwrap()
}

/// The card of one tool.
#[derive(Clone, Copy)]
struct Card<'p> {
    tool: &'p str,
    text: &'p str,
}

impl<'p> Card<'p> {
    /// Its stamp, as a screen reader has it.
    fn stamp(&self) -> &'p str {
        match self.text.split_once("<p class=\"stamp\"><strong>") {
            Some((_, rest)) => rest.split('<').next().unwrap(),
            None => "",
        }
    }

    /// What a row says: its value and its note.
    fn row(&self, name: &str) -> Option<(&'p str, &'p str)> {
        let rows = self.text.split("<tr").skip(1);
        let own = rows
            .filter(|row| row.contains(&format!("<th scope=\"row\">{name}</th>")))
            .last()?;
        let value = between(own, "<b>", "</b>");
        let note = own.split("</b>").nth(1)?.split("</td>").next()?;
        Some((value, note.trim()))
    }

    /// What it says, without markup.
    fn words(&self) -> String {
        let mut words = String::new();
        for part in self.text.split('<').skip(1) {
            words += part.split_once('>').map_or("", |(_, text)| text);
            words.push(' ');
        }
        words
    }
}
