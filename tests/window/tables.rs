//! Generated tools as tables, in the library's unit, with the shop's file.

use std::fmt::Write;
use std::sync::LazyLock;

use rayon::prelude::*;
use shankwise::advice::Window;

use super::Cell;
use super::dice::Dice;
use super::tools::{AIMS, Aim, Content, Row, Tool, word};

/// The shop's file for an aim.
fn shop(aim: Aim, inch: bool) -> String {
    let mut text = String::new();
    if inch {
        text.push_str("[units]\nlength = \"in\"\n");
    }
    match aim {
        Aim::GripBelow => text.push_str("[rule.\"grip/flutes-in-bore\"]\nlevel = \"off\"\n"),
        // The rule of thumb alone keeps the mouth from its usual limit.
        Aim::Mouth => {
            text.push_str("[rule.\"holding/mouth-overstressed\".limit]\nmost_ratio = 1.5\n");
        }
        _ => {}
    }
    text
}

/// A table of rows, with every column that one of them has.
fn table(rows: &[Row], inch: bool) -> String {
    let mut names: Vec<&str> = rows.iter().flat_map(|row| row.keys().copied()).collect();
    names.sort_unstable();
    names.dedup();
    let mut text = names.join(",");
    text.push('\n');
    for row in rows {
        let cells = names.iter().map(|name| match row.get(name) {
            None => String::new(),
            Some(Content::Word(word)) => word.clone(),
            Some(Content::Length(length)) if inch => format!("{:.12}", length / 25.4),
            Some(Content::Length(length)) => format!("{length:.11}"),
        });
        let line: Vec<String> = cells.collect();
        writeln!(text, "{}", line.join(",")).expect("text takes text");
    }
    text
}

/// The tables of assemblies and operations.
fn tables(inch: bool, tools: &[Tool]) -> (String, String) {
    let mut rows = Vec::new();
    let mut jobs = Vec::new();
    for (at, tool) in tools.iter().enumerate() {
        let number = (at + 1).to_string();
        let mut row = tool.row.clone();
        word(&mut row, "tool_number", &number);
        rows.push(row);
        for (which, operation) in tool.operations.iter().enumerate() {
            let mut job = operation.clone();
            word(&mut job, "operation", &format!("{number}-{which}"));
            word(&mut job, "tool_number", &number);
            jobs.push(job);
        }
    }
    (table(&rows, inch), table(&jobs, inch))
}

/// A library of these tools.
pub(super) fn cell(aim: Aim, inch: bool, tools: &[Tool]) -> Cell {
    with_shop(aim, inch, tools, ("", "none.txt", ""))
}

/// A library of these tools, with more at the head of the shop's file, and a file of its own.
pub(super) fn with_shop(
    aim: Aim,
    inch: bool,
    tools: &[Tool],
    (head, name, text): (&str, &str, &str),
) -> Cell {
    let (assemblies, operations) = tables(inch, tools);
    let shop = format!("{head}{}", shop(aim, inch));
    let mut files = vec![
        ("assemblies.csv", assemblies.as_str()),
        ("shankwise.toml", shop.as_str()),
        (name, text),
    ];
    if tools.iter().any(|tool| !tool.operations.is_empty()) {
        files.push(("operations.csv", operations.as_str()));
    }
    Cell::new(&files)
}

/// Assemblies of one generated library; two libraries for each aim.
const EACH: u32 = 130;

/// Tools that aim at one thing, their library, and each one's window.
pub(super) struct Generated {
    pub aim: Aim,
    pub inch: bool,
    pub tools: Vec<Tool>,
    pub cell: Cell,
    pub windows: Vec<Window>,
}

/// A library of every aim in mm, and one in inches: several tests look at the same windows.
pub(super) static GENERATED: LazyLock<Vec<Generated>> = LazyLock::new(|| {
    let each = AIMS.into_par_iter();
    let each = each.flat_map_iter(|aim| [false, true].map(|inch| (aim, inch)));
    each.map(|(aim, inch)| generated(aim, inch)).collect()
});

fn generated(aim: Aim, inch: bool) -> Generated {
    let seed = 83 + 2 * (aim as u64) + u64::from(inch);
    let mut dice = Dice::new(seed);
    let tools: Vec<Tool> = (0..EACH).map(|_| Tool::new(aim, &mut dice)).collect();
    let cell = cell(aim, inch, &tools);
    let windows = cell.library.assemblies.iter();
    let windows = windows.map(|assembly| cell.of(assembly).expect("a window"));
    let windows = windows.collect();
    Generated {
        aim,
        inch,
        tools,
        cell,
        windows,
    }
}
