//! Libraries kept in workbooks: read as their tables would be in CSV, with the cell for a place.

mod chosen;
mod folders;
mod made;
mod odd;
mod oracle;
mod outputs;
mod refused;
mod same;

use shankwise::judge::Setup;
use shankwise::library::{Input, Library, Loaded, load};

use crate::support::BUILT_IN;

/// A complete row: nothing is missing, nothing is assumed.
const HEADER: &str = "tool_number,clamping_kind,stick_out,cutting_diameter,shank_diameter,shank_length,overall_length,collet_size,bore_diameter,bore_length";
const ROW: &str = "12,taper collet,33,12,12,45,83,32,12,40";

fn read(bytes: &[u8]) -> Loaded {
    read_with(bytes, &BUILT_IN)
}

fn read_with(bytes: &[u8], setup: &Setup) -> Loaded {
    load(Input::Bytes("tools", bytes), &setup.read_settings())
}

/// A library that can be read to the end.
fn library(bytes: &[u8]) -> Library {
    let loaded = read(bytes);
    assert_eq!(loaded.errors, []);
    loaded.library.expect("there is a library")
}

/// The only reason why nothing is read.
fn refusal(bytes: &[u8]) -> String {
    let loaded = read(bytes);
    assert!(loaded.library.is_none());
    assert_eq!(loaded.errors.len(), 1, "{:?}", loaded.errors);
    assert_eq!(loaded.errors[0].file, "tools");
    loaded.errors[0].reason.clone()
}

/// What is wrong with a library's form, as `kind Sheet!F12 field`, its words behind it; what is
/// missing or assumed is left out.
fn told(library: &Library) -> Vec<String> {
    let quiet = ["record/field-missing", "record/value-assumed"];
    let faults = library.faults().filter(|f| !quiet.contains(&f.kind));
    let one = |fault: shankwise::input::Fault| {
        let place = &fault.places[0];
        let at = library.sources.position(place.place);
        let at = (at.line, at.column);
        let sheet = library.sources.sheet(place.place);
        let spot = shankwise::text::spot("", sheet, at);
        let kind = fault.kind.strip_prefix("record/").unwrap();
        let words: Vec<&str> = fault.args.iter().map(|(_, word)| word.as_ref()).collect();
        format!("{kind}{} {}: {}", &spot[1..], place.field, words.join("|"))
    };
    faults.map(one).collect()
}
