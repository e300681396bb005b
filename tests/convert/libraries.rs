//! Generated libraries of all clampings, right and wrong, with cells left out: from rows to a
//! document and back they stay the same, and so does all that is found.

use std::fs;

use super::{assert_same, convert, findings_of_tools, read, tools};
use crate::unseen::{Units, generated};

const LIBRARIES: u64 = 24;
const TOOLS: usize = 15;

#[test]
fn generated_libraries_stay_the_same() {
    for number in 0..LIBRARIES {
        let units = if number.is_multiple_of(2) {
            Units::Metric
        } else {
            Units::Inch
        };
        let bench = tempfile::tempdir().unwrap();
        let at = |name: &str| bench.path().join(name);
        if units == Units::Inch {
            fs::write(at("shankwise.toml"), "[units]\nlength = \"in\"\n").unwrap();
        }
        fs::write(at("a.csv"), generated(number, TOOLS, units)).unwrap();
        convert(&at("a.csv"), "xml", &at("b.xml"));
        convert(&at("b.xml"), "csv", &at("c.csv"));
        convert(&at("a.csv"), "folder", &at("d"));
        if units == Units::Inch {
            fs::copy(at("shankwise.toml"), at("d/shankwise.toml")).unwrap();
        }
        let (a, setup) = read(&at("a.csv"));
        for other in ["b.xml", "c.csv", "d"] {
            let (b, b_setup) = read(&at(other));
            let shown = format!("library {number} as {other}");
            assert!(a.assemblies.len() == TOOLS && !tools(&a)[0].is_empty());
            assert_same(&tools(&a), &tools(&b), &shown);
            assert_same(
                &findings_of_tools(&a, &setup),
                &findings_of_tools(&b, &b_setup),
                &shown,
            );
        }
    }
}
