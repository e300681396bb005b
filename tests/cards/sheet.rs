//! The setup sheet: one line a tool, the same on the page and in a terminal.

use super::{Cell, DAY, Page, SOUND, printed, program, told, with};
use crate::support::{fixture, root};

/// The lines of the page's sheet, cell by cell.
fn rows(page: &Page) -> Vec<Vec<String>> {
    let body = page.0.split("<tbody>\n").nth(1).unwrap();
    let body = body.split("</tbody>").next().unwrap();
    let rows = body.lines().map(|row| {
        let cells = row.split("</td>").flat_map(|part| part.split("</th>"));
        let cells = cells.map(|cell| {
            let text = cell
                .split('<')
                .filter_map(|part| Some(part.split_once('>')?.1));
            let text = text.collect::<String>().replace("&#39;", "'");
            text.trim().to_owned()
        });
        cells.collect()
    });
    rows.collect()
}

#[test]
fn page_and_terminal_say_the_same() {
    for name in ["demo", "clampings"] {
        let page = Page::of(name);
        let path = fixture(name).display().to_string();
        let text = ["cards", &path, "--as", "text"];
        let output = program(root(), &[&text, &DAY[..]].concat());
        assert_eq!(output.status.code(), Some(1));
        let text = printed(&output);
        let rows = rows(&page);
        assert_eq!(rows.len(), page.cards().len());
        let joined = text.split_whitespace().collect::<Vec<_>>().join(" ");
        for row in rows {
            let line = [&row[0], &row[2], &row[3], &row[4], &row[1]].map(String::as_str);
            let line = line
                .join(" ")
                .split_whitespace()
                .collect::<Vec<_>>()
                .join(" ");
            assert!(joined.contains(&line), "{name}: {line}");
        }
        assert!(
            text.lines().all(|line| line.chars().count() <= 100),
            "{text}"
        );
    }
}

#[test]
fn it_says_of_each_tool_what_to_set() {
    let rows = rows(&Page::of("demo"));
    let row = |tool: &str| rows.iter().find(|row| row[0] == tool).unwrap()[..6].to_vec();
    assert_eq!(
        row("1"),
        [
            "1",
            "nothing found",
            "46.0 mm",
            "46.0 mm",
            "120.0 N·m",
            "mill-3, 1"
        ]
    );
    assert_eq!(row("11")[4], "enter");
    assert_eq!(
        row("27"),
        [
            "27",
            "STOP too little shank in the collet, 3 more",
            "68.0 mm",
            "-",
            "-",
            "mill-3, 27"
        ]
    );
    assert!(
        row("34")[1].starts_with("ACCEPTED until 2099-12-31"),
        "{:?}",
        row("34")
    );
    assert!(row("17")[1].starts_with("CHECK run-out"), "{:?}", row("17"));
    assert!(row("44")[1].ends_with("not judged"), "{:?}", row("44"));
}

#[test]
fn a_tool_that_is_not_there_is_named() {
    let cell = Cell::flat(&[SOUND]);
    let (page, status) = cell.cards(&["--tool", "7,99"]);
    assert_eq!(status, Some(1));
    assert!(page.0.contains("<b>Not in the library:</b> 99"));
    assert_eq!(page.cards().len(), 1);
    let output = cell.run(&["cards", "lib.csv", "--tool", "99,98", "--as", "text"]);
    assert_eq!(output.status.code(), Some(1));
    let first: Vec<String> = printed(&output)
        .lines()
        .take(3)
        .map(str::to_owned)
        .collect();
    assert!(
        first
            .iter()
            .any(|line| line == "Not in the library: 99, 98"),
        "{first:?}"
    );
    assert!(told(&output).contains("no assembly has the tool number `99`"));
    let (page, status) = cell.cards(&["--tool", "7"]);
    assert_eq!((page.cards().len(), status), (1, Some(0)));
}

#[test]
fn the_files_and_the_day_are_named() {
    use sha2::{Digest as _, Sha256};
    use std::fmt::Write as _;
    let cell = Cell::flat(&[SOUND]);
    let bytes = std::fs::read(cell.0.path().join("lib.csv")).unwrap();
    // Name and text, each with a byte behind it that no text holds.
    let whole = [b"lib.csv\xff".as_slice(), &bytes, b"\xff"].concat();
    let mut hash = String::new();
    for byte in Sha256::digest(whole) {
        write!(hash, "{byte:02x}").unwrap();
    }
    let (page, _) = cell.cards(&[]);
    assert!(
        page.0
            .contains(&format!("library SHA-256 <code>{hash}</code>"))
    );
    assert!(page.card("7").words().contains(&hash[..12]));
    assert!(page.card("7").words().contains("judged on 2027-01-31"));
}

#[test]
fn what_cannot_be_done_is_refused() {
    let cell = Cell::flat(&[SOUND, &with(SOUND, &[("tool_number", "8")])]);
    // A page for a terminal; the library itself; a folder that is not there.
    for arguments in [
        &["cards", "lib.csv"][..],
        &["cards", "lib.csv", "--out", "lib.csv"],
        &["cards", "lib.csv", "--as", "text", "--out", "lib.csv"],
        &["cards", "lib.csv", "--out", "none/cards.html"],
        &["cards", "none.csv", "--out", "cards.html"],
    ] {
        let output = cell.run(arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        assert!(!told(&output).is_empty() && printed(&output).is_empty());
    }
    let left: Vec<_> = std::fs::read_dir(cell.0.path()).unwrap().collect();
    assert_eq!(left.len(), 1, "{left:?}");
}
