//! Names of files and texts from input that a reader of the log might take for something else.

use std::fs;

use serde_json::Value;
use tempfile::TempDir;

use super::{checked, notices, results, run_in};

const HEADER: &str = "tool_number,stick_out,overall_length,shank_length,shank_diameter,\
                      cutting_diameter,collet_size,bore_diameter,bore_length,nut_torque";

fn artifact(result: &Value) -> &Value {
    &result["locations"][0]["physicalLocation"]["artifactLocation"]
}

/// An address back to the bytes of its name.
fn decoded(uri: &str) -> String {
    let mut bytes = Vec::new();
    let mut rest = uri.bytes();
    while let Some(byte) = rest.next() {
        if byte == b'%' {
            let digits: Vec<u8> = rest.by_ref().take(2).collect();
            let digits = String::from_utf8(digits).unwrap();
            bytes.push(u8::from_str_radix(&digits, 16).unwrap());
        } else {
            bytes.push(byte);
        }
    }
    String::from_utf8(bytes).unwrap()
}

#[test]
fn names_of_files_become_addresses() {
    let folder = TempDir::new().unwrap();
    let umlauts = "ü".repeat(100);
    for name in [
        "a b.csv",
        "100%.csv",
        "a#b?.csv",
        "c:d.csv",
        "[x](y).csv",
        "ä ö \u{202e}.csv",
        "{0}.csv",
        "%41.csv",
        "a\\b.csv",
        "\u{7}.csv",
        "<&>\".csv",
        umlauts.as_str(),
    ] {
        let row = "1,65,83,45,12,12,32,12,40,80";
        fs::write(folder.path().join(name), format!("{HEADER}\n{row}\n")).unwrap();
        let log = checked(&run_in(
            folder.path(),
            &["lint", "--as", "sarif", name],
            "2",
        ));
        assert!(!results(&log).is_empty());
        for result in results(&log) {
            let own = artifact(result);
            let uri = own["uri"].as_str().unwrap();
            assert!(uri.is_ascii(), "{uri}");
            assert_eq!(decoded(uri), name);
            assert_eq!(own["uriBaseId"], "SRCROOT");
        }
        fs::remove_file(folder.path().join(name)).unwrap();
    }
}

/// Only what the user typed is absolute.
#[test]
fn no_absolute_path_that_nobody_typed() {
    let folder = TempDir::new().unwrap();
    let own = folder.path().canonicalize().unwrap();
    let inner = own.join("cell/library");
    fs::create_dir_all(&inner).unwrap();
    fs::write(own.join("shankwise.toml"), "name = \"plant\"\n").unwrap();
    fs::create_dir(own.join(".git")).unwrap();
    let row = "1,65,83,45,12,12,32,12,40,80";
    fs::write(inner.join("tools.csv"), format!("{HEADER}\n{row}\n")).unwrap();
    let broken = inner.join("broken.csv");
    fs::write(&broken, b"\0").unwrap();
    let typed = |path: &str| {
        let output = run_in(&own, &["lint", "--as", "sarif", path], "2");
        (checked(&output), String::from_utf8(output.stdout).unwrap())
    };
    for path in [
        "cell/library/tools.csv",
        "./cell/library/tools.csv",
        "cell/library/broken.csv",
    ] {
        let (_, text) = typed(path);
        assert!(!text.contains(own.to_str().unwrap()), "{text}");
        assert!(
            !text.contains("file:") && !text.contains("originalUriBaseIds"),
            "{text}"
        );
    }
    let absolute = inner.join("tools.csv").display().to_string();
    let (log, _) = typed(&absolute);
    let own = artifact(&results(&log)[0]);
    assert_eq!(
        own["uri"].as_str(),
        Some(format!("file://{absolute}").as_str())
    );
    assert!(own.get("uriBaseId").is_none());
    let (log, _) = typed(&broken.display().to_string());
    assert_eq!(notices(&log).len(), 1);
}

/// Braces and links of input stay what they are.
#[test]
fn texts_hold_no_arguments_and_no_links() {
    let folder = TempDir::new().unwrap();
    let hostile = "{0} [here](https://example.org) \u{1b}[31m\u{202e}";
    let rows = format!(
        "{HEADER}\n{hostile},65,83,45,12,12,32,12,40,80\n7,{hostile},83,45,12,12,32,12,40,80\n"
    );
    fs::write(folder.path().join("tools.csv"), rows).unwrap();
    let output = run_in(folder.path(), &["lint", "--as", "sarif", "tools.csv"], "2");
    let log = checked(&output);
    let text = String::from_utf8(output.stdout).unwrap();
    assert!(!text.contains(['\u{1b}', '\u{202e}']));
    let mut seen = 0;
    for result in results(&log) {
        let message = result["message"]["text"].as_str().unwrap();
        assert!(!message.contains("]("), "{message}");
        let bare = message.replace("{{", "").replace("}}", "");
        assert!(!bare.contains(['{', '}']), "{message}");
        seen += usize::from(message.contains("{{0}}"));
    }
    assert!(seen > 0);
}
