//! Whole texts as people see them: who changes one sees it in the difference.

use insta::assert_snapshot;

use super::{run, stdout};

fn shown(arguments: &[&str]) -> String {
    stdout(&run(arguments))
}

#[test]
fn the_demo() {
    assert_snapshot!("demo", shown(&["lint", "fixtures/demo"]));
    assert_snapshot!(
        "demo-plain",
        shown(&["lint", "fixtures/demo", "--as", "plain"])
    );
}

#[test]
fn one_tool() {
    assert_snapshot!(
        "demo-tool-27",
        shown(&["lint", "fixtures/demo", "--tool", "27"])
    );
}

#[test]
fn the_demo_in_full() {
    assert_snapshot!("demo-full", shown(&["lint", "fixtures/demo", "--full"]));
}

#[test]
fn every_commands_help() {
    let commands = shown(&["--help"]);
    let listed = commands.split_once("Commands:\n").expect("commands").1;
    let listed = listed.lines().take_while(|line| !line.is_empty());
    let names: Vec<&str> = listed
        .filter(|line| line.starts_with("  ") && !line.starts_with("   "))
        .filter_map(|line| line.split_whitespace().next())
        .filter(|name| *name != "help")
        .collect();
    assert!(names.contains(&"lint") && names.len() >= 6, "{names:?}");
    assert_snapshot!("help", commands);
    for name in names {
        assert_snapshot!(format!("help-{name}"), shown(&[name, "--help"]));
    }
}
