//! The answer to a quick question as a page: three drawings with one scale, and what they say.

use std::collections::BTreeMap;

use crate::support::{elements, run};

/// The question of the README.
const QUESTION: &[&str] = &[
    "--bore-length",
    "40",
    "--overall-length",
    "83",
    "--shank-diameter",
    "12",
    "--shank-length",
    "45",
    "--reach",
    "35",
];

const SET: [&str; 8] = [
    "--stick-out",
    "57",
    "--collet-size",
    "32",
    "--face-setback",
    "0",
    "--cutting-diameter",
    "12",
];

/// A socket as its maker might state it; invented.
const SOCKET: [&str; 14] = [
    "--mouth-setback",
    "10",
    "--mouth-diameter",
    "33",
    "--taper-length",
    "36",
    "--nose-diameter",
    "40",
    "--nose-length",
    "14",
    "--body-diameter",
    "50",
    "--cutter-material",
    "carbide",
];

fn page(arguments: &[&str]) -> String {
    let output = run(&[&["window", "--as", "html"], QUESTION, arguments].concat());
    assert!(
        output.stderr.is_empty(),
        "{:?}",
        String::from_utf8(output.stderr)
    );
    String::from_utf8(output.stdout).unwrap()
}

/// The attributes of every element of every drawing, drawing by drawing.
fn drawings(page: &str) -> Vec<Vec<BTreeMap<String, String>>> {
    let pieces = page.split("<svg class=\"draw\"").skip(1);
    let all = pieces.map(|piece| {
        let end = piece.find("</svg>").unwrap();
        let drawing = elements(&format!("<svg{}</svg>", &piece[..end]));
        drawing.into_iter().map(|(_, own)| own).collect()
    });
    all.collect()
}

fn length(drawing: &[BTreeMap<String, String>], fact: &str) -> f64 {
    let one = drawing
        .iter()
        .find(|own| own.get("data-fact").is_some_and(|own| own == fact));
    let own = |key: &str| one.unwrap()[key].parse::<f64>().unwrap();
    own("x2") - own("x1")
}

/// By hand: a tool of 83 in a gripping length of 40 right behind the nut face.
#[test]
fn full_grip_two_thirds_and_as_set_stand_side_by_side() {
    let page = page(&SET);
    let all = drawings(&page);
    assert_eq!(all.len(), 3);
    for (drawing, (out, gripped)) in all
        .iter()
        .zip([(43.0, 40.0), (56.333, 26.667), (57.0, 26.0)])
    {
        assert!((length(drawing, "stick_out") - out).abs() < 0.01, "{out}");
        assert!(
            (length(drawing, "gripped_length") - gripped).abs() < 0.01,
            "{gripped}"
        );
    }
    // One scale: what is 1 mm in one is 1 mm in the others.
    let boxes: Vec<&str> = all.iter().map(|one| one[0]["viewBox"].as_str()).collect();
    assert_eq!(boxes[0], boxes[1]);
    assert_eq!(boxes[1], boxes[2]);
    for words in [
        "<b>full grip</b>: stick-out 43.0 mm, 40.0 mm gripped (100 % of the gripping length)",
        "<b>two thirds, as is common practice</b>: stick-out 56.3 mm, 26.7 mm gripped (67 %",
        "<b>as set</b>: stick-out 57.0 mm, 26.0 mm gripped (65 %",
        "is not worked out: cutter_material, mouth_setback, mouth_diameter, taper_length, nose_diameter not stated",
    ] {
        assert!(page.contains(words), "{words}\n{page}");
    }
    assert!(!page.contains("data-model") && !page.contains("invented example"));
}

/// Where nobody states where the collet lies, no number may be better than the limit beside it.
#[test]
fn what_is_not_stated_is_shown_at_its_unfavourable_end() {
    let page = page(&["--collet-size", "32"]);
    assert!(page.contains("limits 39.0 to 54.3 mm"), "{page}");
    assert!(
        page.contains("stick-out 54.3 mm, 26.7 mm gripped"),
        "{page}"
    );
}

#[test]
fn the_band_of_a_stated_socket_begins_with_the_ratio_of_the_mouth() {
    let stated = page(&[&SET[..], &SOCKET].concat());
    let firsts: Vec<f64> = drawings(&stated)
        .iter()
        .map(|drawing| {
            let band = drawing.iter().find(|own| own.contains_key("data-model"));
            band.unwrap()["data-first"].parse().unwrap()
        })
        .collect();
    let facts = run(&[&["window", "--as", "json"], QUESTION, &SET[..], &SOCKET].concat());
    let facts: serde_json::Value = serde_json::from_slice(&facts.stdout).unwrap();
    let ratio = facts["assemblies"][0]["facts"]["mouth_stress_ratio"]["value"].as_f64();
    assert!((firsts[0] - 1.0).abs() < 1e-3, "{firsts:?}");
    assert!(firsts[0] < firsts[1] && firsts[1] < firsts[2], "{firsts:?}");
    assert!(
        (firsts[2] / ratio.unwrap() - 1.0).abs() <= 0.01,
        "{firsts:?}"
    );
    assert!(!stated.contains("invented"));
    // Nor does an example take the place of what is stated.
    let asked = [&SET[..], &SOCKET, &["--socket", "example"]].concat();
    assert_eq!(page(&asked), stated);
}

#[test]
fn an_example_is_called_one_and_changes_no_number() {
    let (plain, example) = (
        page(&SET),
        page(&[&SET[..], &["--socket", "example"]].concat()),
    );
    assert!(example.contains("The socket that is drawn is an invented example"));
    assert!(example.contains("(model)") && example.contains("data-model"));
    let said = |page: &str| {
        let from = page.find("What this rests on").unwrap();
        page[from..].to_owned()
    };
    assert_eq!(said(&plain), said(&example));
}

#[test]
fn no_script_runs_and_what_is_asked_with_is_no_markup() {
    let page = page(&["--description", "<script>alert(1)</script>"]);
    assert!(page.contains("script-src 'none'") && !page.contains("<script"));
}

#[test]
fn a_chuck_is_drawn_as_set_alone() {
    let output = run(&[
        "window",
        "--as",
        "html",
        "--clamping-kind",
        "hydraulic chuck",
        "--overall-length",
        "83",
        "--shank-diameter",
        "12",
        "--shank-length",
        "45",
        "--stick-out",
        "40",
        "--holder-clamping-length-min",
        "36",
    ]);
    let page = String::from_utf8(output.stdout).unwrap();
    assert_eq!(drawings(&page).len(), 1, "{page}");
    assert!(!page.contains("two thirds") && !page.contains("Snap the collet"));
}

#[test]
fn an_example_needs_a_picture() {
    let output = run(&[&["window", "--socket", "example"], QUESTION].concat());
    assert_eq!(output.status.code(), Some(2));
    let told = String::from_utf8(output.stderr).unwrap();
    assert!(told.contains("add --as html or --as svg"), "{told}");
}
