//! The folder that is drafted: what is in it, and what is never touched.

use std::fs;
use std::path::Path;

use tempfile::TempDir;

use super::{export, said, started, text};
use crate::support::run;

fn names(folder: &Path) -> Vec<String> {
    let entries = fs::read_dir(folder).unwrap();
    let mut names: Vec<String> = entries
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

#[test]
fn parts_are_listed_with_what_their_names_say() {
    let folder = TempDir::new().unwrap();
    let (library, output) = started("jobshop", folder.path());
    let files = [
        "assemblies.csv",
        "collets.csv",
        "holders.csv",
        "nuts.csv",
        "shankwise.toml",
    ];
    assert_eq!(names(&library), files, "{}", said(&output));
    let collets = fs::read_to_string(library.join("collets.csv")).unwrap();
    assert!(
        collets.starts_with("id,collet_size,bore_diameter,bore_length,"),
        "{collets}"
    );
    assert!(collets.contains("\nC32-12,32,12,,"), "{collets}");
    assert!(collets.contains("\nc25 - 5,25,5,,"), "{collets}");
    // A tap collet is named otherwise: nothing is taken from that.
    assert!(collets.contains("\nGZ10x8,,,,"), "{collets}");
    let shop = fs::read_to_string(library.join("shankwise.toml")).unwrap();
    assert!(shop.contains("\n\"AL\" = \"stick_out\"\n"), "{shop}");
    assert!(
        shop.contains("from memory") && !shop.contains("\nbore_length"),
        "{shop}"
    );
    assert!(
        text(&output).contains("bore_length of collet C32-12 (4 tools)"),
        "{}",
        text(&output)
    );
}

#[test]
fn with_every_first_guess_confirmed_the_shop_file_is_read() {
    for shop in ["jobshop", "inch", "dump", "crib"] {
        let folder = TempDir::new().unwrap();
        let library = folder.path().join("library");
        let shown = library.display().to_string();
        run(&["start", &export(shop, "export.csv"), "--into", &shown]);
        let file = library.join("shankwise.toml");
        let drafted = fs::read_to_string(&file).unwrap();
        let mut confirmed = Vec::new();
        let mut seen = std::collections::HashSet::new();
        let mut of_table = String::new();
        for line in drafted.lines() {
            let bare = line.strip_prefix("# ").unwrap_or(line);
            let said = bare.strip_prefix('"').filter(|said| said.contains("\" = "));
            let header = said.and_then(|said| said.split("\" = ").next());
            let is_table = bare.starts_with("[columns.");
            if is_table {
                bare.clone_into(&mut of_table);
            }
            let is_property = bare.starts_with("property = ") && seen.insert(of_table.clone());
            // Words of cells are left to the shop.
            let is_guess = header.is_some_and(|header| {
                !line.contains(" row") && line.starts_with('#') && seen.insert(header.to_owned())
            });
            if is_table || is_property || is_guess {
                confirmed.push(bare.to_owned());
            } else {
                confirmed.push(line.to_owned());
            }
        }
        assert!(!seen.is_empty(), "{shop}: {drafted}");
        fs::write(&file, confirmed.join("\n")).unwrap();
        let output = run(&["rules", "--config", &file.display().to_string()]);
        assert_eq!(output.status.code(), Some(0), "{shop}: {}", said(&output));
    }
}

#[test]
fn nothing_is_overwritten_and_nothing_is_left() {
    let folder = TempDir::new().unwrap();
    let (library, _) = started("jobshop", folder.path());
    let before: Vec<Vec<u8>> = names(&library)
        .iter()
        .map(|name| fs::read(library.join(name)).unwrap())
        .collect();
    let (_, again) = started("jobshop", folder.path());
    assert_eq!(again.status.code(), Some(2));
    assert!(said(&again).contains("is not empty"), "{}", said(&again));
    let after: Vec<Vec<u8>> = names(&library)
        .iter()
        .map(|name| fs::read(library.join(name)).unwrap())
        .collect();
    assert_eq!(before, after);
    assert_eq!(names(folder.path()), ["library"]);
}

#[test]
fn wrong_answers_are_refused_and_nothing_is_written() {
    let folder = TempDir::new().unwrap();
    let answers = folder.path().join("answers.toml");
    let library = folder.path().join("library").display().to_string();
    let export = export("jobshop", "export.csv");
    for (wrong, why) in [
        (
            "[columns]\n\"AL\" = \"stick_uot\"\n",
            "did you mean `stick_out`?",
        ),
        ("[columns\n", "cannot be read"),
        (
            "[columns]\n\"Art\" = { property = \"cutter_kind\", values = { SF = \"endmil\" } }\n",
            "not a known word",
        ),
        ("colums = 1\n", "colums"),
    ] {
        fs::write(&answers, wrong).unwrap();
        let shown = answers.display().to_string();
        let output = run(&["start", &export, "--into", &library, "--answers", &shown]);
        assert_eq!(output.status.code(), Some(2), "{wrong}");
        assert!(said(&output).contains(why), "{wrong}: {}", said(&output));
        assert_eq!(names(folder.path()), ["answers.toml"], "{wrong}");
    }
}

#[test]
fn a_newer_export_takes_the_place_of_the_copy_alone() {
    let folder = TempDir::new().unwrap();
    let (library, _) = started("inch", folder.path());
    let collets = "id,collet_size,bore_diameter,bore_length\nC32-1/2,32,1/2,1.575\n";
    fs::write(library.join("collets.csv"), collets).unwrap();
    let shop = fs::read(library.join("shankwise.toml")).unwrap();
    let old = fs::read_to_string(export("inch", "export.csv")).unwrap();
    let newer = old
        .replace("T#,Tool,", "T#,Rack,Tool,")
        .replace("\n10,", "\n10,R4,");
    let file = folder.path().join("newer.csv");
    fs::write(&file, &newer).unwrap();
    let (file, shown) = (file.display().to_string(), library.display().to_string());
    let output = run(&["start", "--refresh", &file, "--into", &shown]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    assert!(
        text(&output).contains("New columns: Rack."),
        "{}",
        text(&output)
    );
    assert_eq!(
        fs::read_to_string(library.join("assemblies.csv")).unwrap(),
        newer
    );
    assert_eq!(
        fs::read_to_string(library.join("collets.csv")).unwrap(),
        collets
    );
    assert_eq!(fs::read(library.join("shankwise.toml")).unwrap(), shop);
    let nowhere = folder.path().join("nowhere").display().to_string();
    let output = run(&["start", "--refresh", &file, "--into", &nowhere]);
    assert_eq!(output.status.code(), Some(2));
}

/// In a list of inches the name of a collet may have its bore in millimetres.
#[test]
fn a_bore_in_millimetres_is_one_in_a_list_of_inches_too() {
    let folder = TempDir::new().unwrap();
    let list = folder.path().join("list.csv");
    let rows = "tool_number,DC,overall_length,stick_out,collet\n1,1/2\",3-1/4,1-3/8,C32-13\n2,1/4\",2-1/2,7/8,C32-1/4\n3,3/8\",2-1/2,1-1/8,C32-10\n";
    fs::write(&list, rows).unwrap();
    let library = folder.path().join("library");
    let output = run(&[
        "start",
        &list.display().to_string(),
        "--into",
        &library.display().to_string(),
    ]);
    let collets = fs::read_to_string(library.join("collets.csv"));
    let collets = collets.unwrap_or_else(|_| panic!("{}", said(&output)));
    for row in [
        "\nC32-13,32,13 mm,",
        "\nC32-1/4,32,1/4,",
        "\nC32-10,32,10 mm,",
    ] {
        assert!(collets.contains(row), "{row} {collets}");
    }
}
