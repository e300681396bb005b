//! Nothing hangs on a rule's name: a shop that gives every built-in rule a name of its own gets the
//! same findings, windows, remedies and lengths to buy.

use std::collections::BTreeMap;

use shankwise::advice::advise;
use shankwise::judge::{Setup, VocabularyNames, judge};
use shankwise::library::{Input, load};
use shankwise::rulebook::{Pack, Rulebook, built_in as pack};

use crate::support::{built_in, fixture, options};

/// Topics of the built-in rules and what they become: in the same order, so that findings are.
/// The record's own faults keep theirs, as the program knows them by name.
const TOPICS: [(&str, &str); 6] = [
    ("grip/", "g-shop/own-"),
    ("holding/", "h-shop/own-"),
    ("reach/", "rea-shop/own-"),
    ("speed/", "sp-shop/own-"),
    ("stiffness/", "st-shop/own-"),
    ("torque/", "t-shop/own-"),
];
/// What advice finds by itself, as it finds faults of form.
const NO_WINDOW: &str = "reach/no-window";

/// Built-in names, and those of the shop.
fn names() -> BTreeMap<String, String> {
    let book = built_in().book;
    let ids = book.rules.iter().map(|rule| rule.id.clone());
    ids.filter(|id| id != NO_WINDOW)
        .filter_map(|id| {
            let (topic, own) = TOPICS.iter().find(|(topic, _)| id.starts_with(topic))?;
            let renamed = id.replacen(topic, own, 1);
            Some((id, renamed))
        })
        .collect()
}

/// The built-in rules with names and texts changed.
fn changed(name: impl Fn(&str) -> Option<String>, text: impl Fn(&str) -> String) -> Setup {
    let files = pack().files.into_iter().map(|(own, shown, words)| {
        let other = name(own.trim_end_matches(".toml"));
        let other = other.map(|other| format!("{other}.toml"));
        (other.unwrap_or(own), shown, text(&words))
    });
    let pack = Pack {
        files: files.collect(),
        ..Pack::default()
    };
    let book = Rulebook::load(&[pack], &VocabularyNames).expect("the changed rules load");
    Setup { book, ..built_in() }
}

fn renamed() -> Setup {
    let names = names();
    let rename = |text: &str| {
        names.iter().fold(text.to_owned(), |text, (id, own)| {
            text.replace(&format!("\"{id}\""), &format!("\"{own}\""))
        })
    };
    changed(|id| names.get(id).cloned(), rename)
}

/// All that is found and advised of a library, in one text; without fingerprints, which are of
/// the name.
fn told(name: &str, setup: &Setup) -> String {
    let library = load(Input::Path(&fixture(name)), &setup.read_settings());
    let library = library.library.expect("a library");
    let mut report = judge(&library, setup, &options());
    let advice = advise(&library, setup, &options(), true, &mut report);
    for finding in &mut report.findings {
        finding.fingerprint.clear();
    }
    format!("{:#?}\n{advice:#?}", report.findings)
}

#[test]
fn a_shops_names_change_nothing() {
    let (own, renamed) = (built_in(), renamed());
    for library in ["demo", "clampings"] {
        let wanted = told(library, &own);
        let found = told(library, &renamed);
        assert!(
            found.contains("g-shop/own-short-grip"),
            "nothing was renamed"
        );
        let found = names()
            .iter()
            .fold(found, |text, (id, own)| text.replace(own, id));
        let first = wanted.lines().zip(found.lines()).find(|(a, b)| a != b);
        assert!(wanted == found, "{library}: {first:?}");
    }
}
