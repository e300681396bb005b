//! XML libraries: read right, refused right, and the same as CSV.

mod content;
mod encodings;
mod folder;
mod hostile;
mod places;
mod program;
mod schema;
mod well_formed;
mod wrong;

use shankwise::judge::{Report, judge};
use shankwise::library::{Input, Library, Loaded, load};

use crate::support::{BUILT_IN, options};

/// A document around some sections.
fn document(sections: &str) -> String {
    format!(
        "<shankwise xmlns=\"urn:shankwise:library:1\" units=\"mm\">\n{sections}\n</shankwise>\n"
    )
}

/// One assembly with its parts.
const PARTS: &str = "\
<cutters><cutter id=\"em12\"><overall-length>83</overall-length><shank-length>45</shank-length><shank-diameter>12</shank-diameter><cutting-diameter>12</cutting-diameter></cutter></cutters>
<collets><collet id=\"c32\"><collet-size>32</collet-size><bore-diameter>12</bore-diameter><bore-length>40</bore-length></collet></collets>
<assemblies><assembly tool-number=\"7\" cutter=\"em12\" collet=\"c32\"><stick-out>65</stick-out></assembly></assemblies>";

fn read(text: &[u8]) -> Loaded {
    load(Input::Bytes("library.xml", text), &BUILT_IN.read_settings())
}

fn library(text: &str) -> Library {
    let loaded = read(text.as_bytes());
    let start: String = text.chars().take(2000).collect();
    assert_eq!(loaded.errors, [], "{start}");
    loaded.library.expect("there is a library")
}

fn lint(text: &str) -> Report {
    judge(&library(text), &BUILT_IN, &options())
}

/// Where and why a document is refused.
fn refused(text: &[u8]) -> (String, String) {
    let loaded = read(text);
    assert!(loaded.library.is_none(), "nothing is judged");
    let [error] = loaded.errors.as_slice() else {
        panic!("one error, not {:?}", loaded.errors);
    };
    let place = error.position.map_or(String::new(), |position| {
        format!("{}:{}", position.line, position.column)
    });
    (place, error.reason.clone())
}
