//! Assets of MTConnect: each version, and what is wrong with them in the wild.

use std::fs;
use std::path::Path;

use shankwise::library::{
    Field, Form, Headers, Input, Library, Overrides, Recognised, View, load, recognise,
};
use shankwise::units::Scalar;

use crate::support::{BUILT_IN, fixture, lint_of, run};

fn read(path: &Path) -> Library {
    let loaded = load(Input::Path(path), &BUILT_IN.read_settings());
    assert_eq!(loaded.errors, [], "{}", path.display());
    loaded.library.unwrap()
}

/// What the record of each assembly states.
fn rows(library: &Library) -> Vec<String> {
    let assemblies = library.assemblies.iter();
    let line = |record: &shankwise::library::Record| {
        let stated = record.entries().map(|entry| {
            let value = match entry.value {
                Scalar::Number(number) => format!("{number}"),
                Scalar::Word(word) => word.word.to_owned(),
                Scalar::Truth(truth) => truth.to_string(),
                Scalar::Text(text) => text.to_owned(),
            };
            format!("{} {value}", entry.field.short())
        });
        stated.collect::<Vec<_>>().join("; ")
    };
    assemblies.map(|assembly| line(&assembly.record)).collect()
}

fn departures(library: &Library) -> Vec<String> {
    let own = library
        .faults()
        .filter(|fault| fault.kind == "record/asset-departs");
    own.map(|fault| fault.args[0].1.to_string()).collect()
}

#[test]
fn every_version_is_read_alike() {
    let mut versions = 0;
    for entry in fs::read_dir(fixture("assets")).unwrap() {
        let path = entry.unwrap().path();
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        if !name.starts_with("version-") {
            continue;
        }
        versions += 1;
        let library = read(&path);
        let [row] = rows(&library).try_into().unwrap();
        // Two versions have no description, and some no device.
        let row = row.replace("assembly.description end mill Ø16, long; ", "");
        let row = row.replace("assembly.machine mill-3; ", "");
        assert_eq!(
            row,
            "assembly.tool_number 12; assembly T12-0815; pot 12; assembly.cutter EM16-92; protruding_length 116.1; protruding_length_nominal 116; assembly_mass 1.85; cutting_diameter 15.98; corner_radius 0.5; depth_of_cut_max 32; shank_diameter 16; shank_length 48; shank_length_nominal 48; overall_length 92; overall_length_actual 91.4; cutter_speed_max 8000; machine_interface steep taper 40",
            "{name}"
        );
        assert_eq!(departures(&library), Vec::<String>::new(), "{name}");
        assert_eq!(
            recognise(&path, &Headers::default()).unwrap(),
            Recognised::Library(Form::Xml)
        );
    }
    assert_eq!(versions, 13);
}

#[test]
fn bare_elements_are_read_and_their_departures_told() {
    let library = read(&fixture("assets/bare.xml"));
    assert_eq!(
        rows(&library),
        [
            "assembly.tool_number 1; assembly a; assembly.cutter b; protruding_length 116",
            "assembly.tool_number 2; assembly c; assembly.cutter b; protruding_length 114.3; shank_length 48",
        ]
    );
    let mut told = departures(&library);
    told.sort();
    assert_eq!(
        told,
        [
            "`ProgramToolNumber` is behind `Measurements`",
            "it has no envelope `MTConnectAssets`",
            "it is not in a namespace of these assets",
            "its prefix `m` is not declared",
        ]
    );
}

#[test]
fn an_archetype_is_the_cutter_of_its_tools() {
    let library = read(&fixture("assets/archetypes.xml"));
    assert_eq!(
        rows(&library),
        ["assembly.tool_number 1; assembly T1; assembly.cutter EM16; protruding_length 116.2"]
    );
    let overrides = Overrides::default();
    let view: View<'_> = View::new(&library, &library.assemblies[0], None, &overrides);
    let number = |field| view.number(field).value;
    assert_eq!(number(Field::OverallLength), Some(92.0));
    assert_eq!(number(Field::ShankLength), Some(48.0));
    assert_eq!(number(Field::ChipFluteLength), Some(38.0));
    assert_eq!(departures(&library), Vec::<String>::new());
}

/// The tables say what clamps the tool, the asset how far it sticks out.
#[test]
fn assets_are_added_to_the_rows_of_their_tools() {
    let path = fixture("assets/beside");
    let library = read(&path);
    let numbers: Vec<_> = library
        .assemblies
        .iter()
        .map(|one| one.tool_number())
        .collect();
    assert_eq!(numbers, [Some("12"), Some("13"), Some("14")]);
    let overrides = Overrides::default();
    let stick_out = |at: usize| {
        let view: View<'_> = View::new(&library, &library.assemblies[at], None, &overrides);
        view.number(Field::StickOut).value
    };
    assert!((stick_out(0).unwrap() - 46.1).abs() < 1e-9);
    assert_eq!((stick_out(1), stick_out(2)), (None, None));
    let text = lint_of(&path);
    assert!(!text.contains("part-unknown"), "{text}");
    // A conversion of the tables would lose what the document adds.
    let path = path.to_str().unwrap();
    let output = run(&["convert", path, "--to", "xml"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(output.stdout.is_empty());
}

#[test]
fn a_measured_length_far_from_its_nominal_one_is_found() {
    let text = fs::read_to_string(fixture("assets/version-2.0.xml")).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("a.xml");
    for (measured, found) in [
        ("116.1", false),
        ("116.5", false),
        ("116.6", true),
        ("115.3", true),
    ] {
        fs::write(&file, text.replace(">116.1<", &format!(">{measured}<"))).unwrap();
        let said = lint_of(&file).contains("record/measured-not-nominal");
        assert_eq!(said, found, "{measured}");
    }
}

#[test]
fn what_is_not_well_formed_is_refused_at_a_place() {
    for (name, line, why) in [
        ("cut-short.xml", 24, "cut short"),
        ("mismatched.xml", 33, "expected `</CuttingToolLifeCycle>`"),
    ] {
        let loaded = load(
            Input::Path(&fixture("assets").join(name)),
            &BUILT_IN.read_settings(),
        );
        assert!(loaded.library.is_none());
        let [error] = loaded.errors.try_into().unwrap();
        assert_eq!(error.position.unwrap().line, line, "{name}");
        assert!(error.reason.contains(why), "{}", error.reason);
    }
}

/// Whatever is cut out of a document, reading it ends.
#[test]
fn broken_documents_end_in_words() {
    let text = fs::read_to_string(fixture("assets/version-1.4.xml")).unwrap();
    let places: Vec<usize> = text.char_indices().map(|(at, _)| at).collect();
    for (step, from) in places.iter().enumerate() {
        let to = places
            .get(step + 1 + step % 7)
            .copied()
            .unwrap_or(text.len());
        let broken = format!("{}{}", &text[..*from], &text[to..]);
        let loaded = load(
            Input::Bytes("a.xml", broken.as_bytes()),
            &BUILT_IN.read_settings(),
        );
        assert!(loaded.library.is_some() || !loaded.errors.is_empty());
    }
}

/// Read as the cutter's, 233 mm of tool and holder would be 190 mm of shank in the collet.
#[test]
fn a_length_with_the_holder_is_not_the_cutters() {
    let document = fs::read_to_string(fixture("assets").join("version-2.0.xml")).unwrap();
    let folder = tempfile::TempDir::new().unwrap();
    let file = folder.path().join("tools.xml");
    let overall = |text: &str| {
        fs::write(&file, text).unwrap();
        let library = read(&file);
        let record = &library.assemblies[0].record;
        let known = |field| record.value(field).and_then(Scalar::number);
        let both = [Field::OverallLength, Field::OverallLengthActual].map(known);
        (both, departures(&library))
    };
    let ([own, _], _) = overall(&document);
    assert_eq!(own, Some(92.0));
    let whole = document
        .replace("nominal=\"92\"", "nominal=\"233\"")
        .replace(">91.4<", ">233<");
    let (both, told) = overall(&whole);
    assert_eq!(both, [None, None]);
    assert!(
        told.iter().any(|one| one.contains("with its holder")),
        "{told:?}"
    );
}

/// Of `lint --as json`: the object of the one input.
fn linted(arguments: &[&str]) -> serde_json::Value {
    let output = run(&[&["lint", "--as", "json"], arguments].concat());
    serde_json::from_slice(&output.stdout)
        .unwrap_or_else(|_| panic!("{}", String::from_utf8_lossy(&output.stderr)))
}

/// The document lies elsewhere, and the tables do as if it lay among them.
#[test]
fn tables_of_another_folder_are_added_to_a_document() {
    let beside = fixture("assets/beside");
    let elsewhere = tempfile::tempdir().unwrap();
    let tables = elsewhere.path().join("tables");
    fs::create_dir(&tables).unwrap();
    for entry in fs::read_dir(&beside).unwrap() {
        let entry = entry.unwrap();
        if entry.file_name() != "assets.xml" {
            fs::copy(entry.path(), tables.join(entry.file_name())).unwrap();
        }
    }
    let document = elsewhere.path().join("crib.xml");
    fs::copy(beside.join("assets.xml"), &document).unwrap();
    let (document, tables) = (document.to_str().unwrap(), tables.to_str().unwrap());
    let apart = linted(&[document, "--with", tables]);
    let together = linted(&[beside.to_str().unwrap()]);
    for key in ["coverage", "judgements", "error", "warning"] {
        let (own, other) = (&apart["summary"][key], &together["summary"][key]);
        assert_eq!(own, other, "{key}");
    }
    assert_eq!(apart["library"]["form"], "xml", "{}", apart["library"]);
    let alone = linted(&[document]);
    assert_ne!(
        alone["summary"]["coverage"], apart["summary"]["coverage"],
        "{alone}"
    );
    // What is said of a value of the document names the document.
    let text = apart["findings"].to_string();
    assert!(
        text.contains("crib.xml") && text.contains("assemblies.csv"),
        "{text}"
    );
}

#[test]
fn tables_are_added_to_assets_alone() {
    let beside = fixture("assets/beside");
    let flat = fixture("clean/assemblies.csv");
    let document = fixture("assets/version-2.0.xml");
    let empty = tempfile::tempdir().unwrap();
    let (beside, empty) = (beside.to_str().unwrap(), empty.path().to_str().unwrap());
    for (library, folder, why) in [
        (
            flat.to_str().unwrap(),
            beside,
            "is not a document of MTConnect assets",
        ),
        (
            document.to_str().unwrap(),
            empty,
            "has no table of a library",
        ),
        (document.to_str().unwrap(), "nowhere", "is not a folder"),
    ] {
        let output = run(&["lint", library, "--with", folder]);
        let told = String::from_utf8_lossy(&output.stderr).into_owned();
        let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
        assert_eq!(output.status.code(), Some(2), "{library} {folder}");
        assert!(told.contains(why), "{told}");
    }
}

/// What is measured judges, what was meant is kept beside it, and far apart they are found.
#[test]
fn every_length_that_is_measured_keeps_the_one_that_was_meant() {
    let document = fs::read_to_string(fixture("assets/version-2.0.xml")).unwrap();
    let folder = tempfile::tempdir().unwrap();
    let file = folder.path().join("tools.xml");
    let (shank, overall) = ("nominal=\"48\">48<", ">91.4<");
    let functional = "<FunctionalLength code=\"LF\" nominal=\"114\" units=\"MILLIMETER\">114.2</FunctionalLength>";
    let before = "<ShankLength ";
    for text in [shank, overall, before] {
        assert!(document.contains(text), "{text}");
    }
    let document = document.replace(before, &format!("{functional}{before}"));
    let said = |from: &str, to: &str| {
        fs::write(&file, document.replace(from, to)).unwrap();
        let told = lint_of(&file);
        let told = told.split_whitespace().collect::<Vec<_>>().join(" ");
        (read(&file), told)
    };
    let (library, told) = said(shank, "nominal=\"48\">47.6<");
    let record = &library.assemblies[0].record;
    let number = |field| record.value(field).and_then(Scalar::number);
    assert_eq!(number(Field::ShankLength), Some(47.6));
    assert_eq!(number(Field::ShankLengthNominal), Some(48.0));
    assert_eq!(number(Field::FunctionalLength), Some(114.2));
    assert_eq!(number(Field::FunctionalLengthNominal), Some(114.0));
    assert!(!told.contains("measured-not-nominal"), "{told}");
    for (from, to, what) in [
        (
            shank,
            "nominal=\"48\">47.4<",
            "the shank length is 47.4 mm as measured; 48.0 mm was meant",
        ),
        (
            ">114.2<",
            ">114.6<",
            "the functional length is 114.6 mm as measured; 114.0 mm was meant",
        ),
        (
            overall,
            ">92.6<",
            "the overall length is 92.6 mm as measured; 92.0 mm was meant",
        ),
    ] {
        let (_, told) = said(from, to);
        assert!(told.contains(what), "{what}: {told}");
    }
}
