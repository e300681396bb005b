//! The page for a reviewer: whole without a script, true to scale, inert whatever a library says.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use quick_xml::Reader;
use quick_xml::events::{BytesStart, Event};
use serde_json::Value;
use tempfile::TempDir;

use crate::support::{fixture, run};

fn program(folder: &Path, arguments: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_shankwise"))
        .args(arguments)
        .current_dir(folder)
        .env_remove("SHANKWISE_CONFIG")
        .output()
        .expect("the program starts")
}

/// The page of libraries.
fn page(paths: &[&str]) -> String {
    let folder = TempDir::new().unwrap();
    let day = ["--as-of", "2027-01-31", "--out", "report.html"];
    let output = program(folder.path(), &[&["report"], paths, &day].concat());
    assert_eq!(
        output.status.code(),
        Some(0),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    fs::read_to_string(folder.path().join("report.html")).unwrap()
}

fn path(name: &str) -> String {
    fixture(name).display().to_string()
}

/// All elements of a page that closes what it opens, but for what HTML leaves open.
fn elements(page: &str) -> Vec<(String, BTreeMap<String, String>)> {
    let body = &page[page.find("<body>").unwrap()..page.find("<script>").unwrap()];
    let mut reader = Reader::from_str(body);
    reader.config_mut().check_end_names = true;
    let mut found = Vec::new();
    let take = |tag: &BytesStart<'_>| {
        let attributes = tag.html_attributes().flatten();
        let attributes = attributes.map(|one| {
            let key = one.key.as_ref().to_owned();
            (key, one.value.to_string())
        });
        (tag.name().as_ref().to_owned(), attributes.collect())
    };
    loop {
        match reader.read_event().expect("the page is well-formed") {
            Event::Start(tag) | Event::Empty(tag) => found.push(take(&tag)),
            Event::Eof => return found,
            _ => {}
        }
    }
}

#[test]
fn every_finding_is_there_without_a_script() {
    let library = path("demo");
    let page = page(&[&library]);
    let json = run(&["lint", &library, "--as", "json", "--as-of", "2027-01-31"]);
    let json: Value = serde_json::from_slice(&json.stdout).unwrap();
    let body = &page[..page.find("<script>").unwrap()];
    let findings = json["findings"].as_array().unwrap();
    for finding in findings.iter().filter(|finding| finding["level"] != "note") {
        let escape = |text: &str| {
            let text = text
                .replace('&', "&amp;")
                .replace('<', "&lt;")
                .replace('>', "&gt;");
            text.replace('"', "&quot;").replace('\'', "&#39;")
        };
        for key in ["message", "advice", "why"] {
            let text = escape(finding[key].as_str().unwrap());
            assert!(body.contains(&text), "{key}: {text}");
        }
    }
    let rows = elements(&page);
    let rows = rows
        .iter()
        .filter(|(_, attributes)| attributes.contains_key("data-level"));
    let errors = rows
        .filter(|(_, attributes)| attributes["data-level"] == "error")
        .count();
    assert_eq!(
        errors,
        findings
            .iter()
            .filter(|one| one["level"] == "error")
            .count()
    );
    for word in ["safe ", "Safe", " is safe", "unsafe"] {
        assert!(!body.replace("safety", "").contains(word), "{word}");
    }
}

#[test]
fn it_asks_for_nothing_from_outside() {
    let page = page(&[&path("demo")]);
    assert!(page.contains("default-src 'none'"));
    for (name, attributes) in elements(&page) {
        assert!(
            !["img", "link", "iframe", "object", "script"].contains(&name.as_str()),
            "{name}"
        );
        for (key, value) in attributes {
            assert!(
                !key.starts_with("on") && key != "style" && key != "src",
                "{name} {key}"
            );
            assert!(key != "href" || value.starts_with('#'), "{value}");
        }
    }
    // Every link leads somewhere.
    let all = elements(&page);
    let ids: Vec<&String> = all.iter().filter_map(|(_, own)| own.get("id")).collect();
    let mut known = std::collections::BTreeSet::new();
    assert!(
        ids.iter().all(|id| known.insert(id.as_str())),
        "an id twice"
    );
    for (_, own) in &all {
        if let Some(link) = own.get("href") {
            assert!(known.contains(&link[1..]), "{link}");
        }
    }
}

#[test]
fn drawn_lengths_are_the_facts() {
    let mut drawn = 0;
    for name in ["demo", "clampings"] {
        let library = path(name);
        let page = page(&[&library]);
        let facts = run(&["facts", &library, "--as", "json"]);
        let facts: Value = serde_json::from_slice(&facts.stdout).unwrap();
        let assemblies = facts["assemblies"].as_array().unwrap();
        let mut tool = String::new();
        for (element, own) in elements(&page) {
            if element == "svg" {
                tool = own.get("data-assembly").cloned().unwrap_or_default();
            }
            let Some(fact) = own.get("data-fact") else {
                continue;
            };
            let own = |key: &str| own[key].parse::<f64>().unwrap();
            let length = (own("x2") - own("x1")).abs();
            let number = tool.trim_start_matches("tool ");
            let mut same = assemblies.iter().filter(|one| one["tool_number"] == number);
            let fits = same.any(|one| {
                let value = match fact.as_str() {
                    "stick_out" | "overall_length" => return true,
                    fact => one["facts"][fact]["value"].as_f64(),
                };
                value.is_none_or(|value| (value - length).abs() <= 0.1)
            });
            assert!(fits, "{name}, {tool}: {fact} is drawn as {length}");
            drawn += usize::from(fact == "gripped_length" || fact == "bore_length");
        }
    }
    assert!(drawn > 40, "{drawn} lengths are drawn");
}

#[test]
fn what_a_library_says_is_never_markup() {
    let folder = TempDir::new().unwrap();
    let long = "x".repeat(10_000);
    let header = "tool_number,description,machine,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,collet_size,bore_diameter,bore_length";
    let names = [
        "<script>alert(1)</script>",
        "]]><img src=x onerror=alert(1)>",
        "\"\" onmouseover=\"\"alert(1)",
        "\u{202e}drow\u{202c}",
        "\u{1b}[31mred\u{7}",
        &long,
    ];
    let rows: Vec<String> = names
        .iter()
        .map(|name| format!("\"{name}\",\"{name}\",\"{name}\",65,83,45,12,12,32,12,40"))
        .collect();
    fs::write(
        folder.path().join("tools.csv"),
        format!("{header}\n{}\n", rows.join("\n")),
    )
    .unwrap();
    let output = program(folder.path(), &["report", "tools.csv", "--out", "r.html"]);
    assert_eq!(output.status.code(), Some(0));
    let page = fs::read_to_string(folder.path().join("r.html")).unwrap();
    let body = &page
        [page.find("<body>").unwrap()..page.find("<script>'use strict'").unwrap_or(page.len())];
    assert!(
        !body.contains("<script>alert") && !body.contains("<img"),
        "markup"
    );
    let raw = |c: char| (c.is_control() && c != '\n') || c == '\u{202e}';
    assert!(!body[..body.find("<script>").unwrap_or(body.len())].contains(raw));
    for (name, attributes) in elements(&page) {
        assert!(
            attributes.keys().all(|key| !key.starts_with("on")),
            "{name}"
        );
    }
}

#[test]
fn a_page_of_an_audit_says_what_is_new() {
    let folder = TempDir::new().unwrap();
    let header = "tool_number,stick_out,overall_length,shank_length,shank_diameter,cutting_diameter,collet_size,bore_diameter,bore_length";
    let put = |out: usize| {
        let rows = format!("{header}\n1,{out},83,45,12,12,32,12,40\n2,65,83,45,12,12,32,12,40\n");
        fs::create_dir_all(folder.path().join("plant")).unwrap();
        fs::write(folder.path().join("plant/tools.csv"), rows).unwrap();
    };
    put(40);
    program(folder.path(), &["audit", "plant", "--out", "a", "-q"]);
    put(67);
    program(
        folder.path(),
        &["audit", "plant", "--out", "b", "--since", "a", "-q"],
    );
    let output = program(
        folder.path(),
        &["report", "b/audit.json", "--out", "r.html"],
    );
    assert_eq!(output.status.code(), Some(0));
    let page = fs::read_to_string(folder.path().join("r.html")).unwrap();
    assert!(page.contains("Since the audit of"), "no comparison");
    let new = elements(&page)
        .into_iter()
        .filter(|(_, own)| own.get("data-news").is_some_and(|news| news == "new"));
    assert!(new.count() >= 1);
    // Two sites on one page.
    let both = program(
        folder.path(),
        &[
            "report",
            "a/audit.json",
            "b/audit.json",
            "--out",
            "both.html",
        ],
    );
    assert_eq!(both.status.code(), Some(0));
    let both = fs::read_to_string(folder.path().join("both.html")).unwrap();
    assert!(both.contains("of 4 tools must not be used"), "not summed");
}

#[test]
fn what_is_no_audit_makes_no_page() {
    let folder = TempDir::new().unwrap();
    fs::write(folder.path().join("x.json"), "{\"a\":1}").unwrap();
    for arguments in [
        &["report", "x.json", "--out", "r.html"][..],
        &["report", "nowhere.json", "--out", "r.html"],
        &["report", "x.json", "--out", "nowhere/r.html"],
    ] {
        let output = program(folder.path(), arguments);
        assert_eq!(output.status.code(), Some(2), "{arguments:?}");
        assert!(!output.stderr.is_empty());
        assert!(!folder.path().join("r.html").exists());
    }
}
