//! Texts of shop files and tables that would act on a terminal, or are of any length.

use super::{Cell, GRIP, TODAY, entry, lapsed, printed, said};

const NASTY: &str = "\\u001B[31mred\\u202Eback\\u0007\\r\\n[[accept]]";

/// Nothing of it reaches a terminal, in any form of output, accepted or not.
#[test]
fn no_text_of_an_entry_acts_on_a_terminal() {
    let text = entry(GRIP, "until = 2027-01-31\nnot_worse_than = \"18 mm\"\n");
    let text = text
        .replace("light finishing", NASTY)
        .replace("J. Example", NASTY);
    for (from, to) in [
        ("", ""),
        ("\"18 mm\"", "\"25 mm\""),
        ("2027-01-31", "2026-01-31"),
        ("tool_number = \"7\"", &format!("tool_number = \"{NASTY}\"")),
        ("until =", &format!("machine = \"{NASTY}\"\nuntil =")),
        ("until =", &format!("operation = \"{NASTY}\"\nuntil =")),
        ("until =", &format!("library = \"{NASTY}\"\nuntil =")),
        ("until =", &format!("cutter = \"{NASTY}\"\nuntil =")),
    ] {
        let cell = Cell::new();
        cell.put(
            "cell/shankwise.toml",
            &text.replacen(from, to, usize::from(!from.is_empty())),
        );
        let lint = ["lint", "cell", "--as-of", TODAY, "--as"];
        for form in ["text", "plain", "brief", "json", "sarif"] {
            let output = cell.run(&[&lint[..], &[form]].concat());
            assert!(output.status.code() < Some(2), "{to}: {}", said(&output));
            clean(&printed(&output), to);
        }
        let full = cell.run(&["lint", "cell", "--as-of", TODAY, "--full"]);
        clean(&printed(&full), to);
        for form in ["text", "json"] {
            let output = cell.run(&["accepted", "cell", "--as-of", TODAY, "--as", form]);
            assert_eq!(output.status.code(), Some(0), "{}", said(&output));
            clean(&printed(&output), to);
        }
    }
}

fn clean(text: &str, of: &str) {
    let acts = |c: char| (c.is_control() && c != '\n') || c == '\u{202e}';
    assert!(!text.contains(acts), "{of}: {text:?}");
}

/// What a table says goes into the entry in one line, and comes back as it was.
#[test]
fn names_of_a_table_that_are_hard_to_write() {
    let nasty = "a \"\"b\"\" \\ '''\ttab\r\nline # [x] = é\u{202e}";
    for (table, from) in [
        ("cutters", "em12,"),
        ("collets", "c12,"),
        ("nuts", "n32,"),
        ("holders", "h32,"),
    ] {
        let cell = Cell::new();
        let id = from.trim_end_matches(',');
        cell.change(table, &format!("\n{from}"), &format!("\n\"{nasty}\","));
        cell.change("assemblies", &format!(",{id},"), &format!(",\"{nasty}\","));
        let cell = cell.accepted(GRIP);
        let finding = cell.finding(GRIP);
        assert!(finding["accepted"].is_object(), "{finding}");
        let written = cell.read("cell/shankwise.toml");
        assert_eq!(written.lines().count(), 15, "{written}");
        clean(&written.replace('\u{202e}', ""), table);
        cell.change("assemblies", "tab", "tub");
        cell.change(table, "tab", "tub");
        assert_eq!(lapsed(&cell.finding(GRIP)).len(), 1);
    }
    let cell = Cell::new();
    cell.change(
        "assemblies",
        "7,mill 2",
        "\"7 \"\"x\"\" \\\",\"mill \"\"2\"\"\"",
    );
    cell.change(
        "operations",
        "7,mill 2",
        "\"7 \"\"x\"\" \\\",\"mill \"\"2\"\"\"",
    );
    let cell = cell.accepted(GRIP);
    assert!(cell.finding(GRIP)["accepted"].is_object());
}

/// Texts of a megabyte are cut wherever a line of them is shown.
#[test]
fn texts_of_any_length() {
    let long = "x".repeat(1_000_000);
    let text = entry(GRIP, "until = 2026-01-31\n");
    let text = text
        .replace("light finishing", &long)
        .replace("J. Example", &long);
    let cell = Cell::new();
    cell.put("cell/shankwise.toml", &text);
    for form in ["text", "brief"] {
        let output = cell.run(&["lint", "cell", "--as", form, "--as-of", TODAY]);
        assert!(
            output.stdout.len() < 100_000,
            "{form}: {}",
            output.stdout.len()
        );
    }
}
