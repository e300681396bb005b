//! The assembly of an openly published ISO 13399 exchange file.
//!
//! Source: the iso_133399 repository, an ISO 10303-21 file of an end mill of 0.375 in, a collet
//! and a holder. Printed in it: holder functional length 62.4, end mill overall length 76.2,
//! clamping length 36 with limits 30 to 41.4, collet limits 30 to 46, assembly functional
//! length = protruding length = 102.6, usable length maximum 40.2.

use shankwise::mechanics::axial;

use super::{facts, is_near};

const HOLDER: f64 = 62.4;
const END_MILL: f64 = 76.2;
const CLAMPED: f64 = 36.0;
const ASSEMBLY: f64 = 102.6;
const USABLE: f64 = 40.2;

#[test]
fn by_formula() {
    assert!(
        (HOLDER + END_MILL - CLAMPED - ASSEMBLY).abs() < 1e-9,
        "the file agrees with itself"
    );
    let stick_out = END_MILL - CLAMPED;
    assert!((stick_out - USABLE).abs() < 1e-9);
    assert!((axial::insertion(END_MILL, stick_out) - CLAMPED).abs() < 1e-9);
    assert!((axial::protruding_length(HOLDER, stick_out) - ASSEMBLY).abs() < 1e-9);
}

/// The clamping length is the insertion, so the stick-out follows from it: no row states it.
#[test]
fn through_a_library() {
    let found = facts(
        "tool_number,OAL,LSC,gauge_length,DC,DMM,cutter_kind,collet_size,bore_diameter\n\
         1,76.2,36,62.4,9.525,9.525,end mill,25,9.525\n",
    );
    is_near(&found, "insertion", CLAMPED, 1e-9);
    is_near(&found, "built_protruding_length", ASSEMBLY, 1e-9);
    is_near(&found, "built_functional_length", ASSEMBLY, 1e-9);
    // Reach and stick-out are measured alike: what is left of the usable length.
    let with_job = facts(
        "tool_number,OAL,LSC,reach,clearance\n\
         1,76.2,36,40.2,0\n",
    );
    is_near(&with_job, "reach_margin", 0.0, 1e-9);
    assert!(with_job["reach_margin"].from.contains(&"clamping_length"));
    assert!(
        !with_job["reach_margin"].assumed,
        "it is stated, not assumed"
    );
}

/// The other way round: the stick-out from the protruding length and the gauge length.
#[test]
fn from_the_protruding_length() {
    let found = facts("tool_number,OAL,LPR,gauge_length\n1,76.2,102.6,62.4\n");
    is_near(&found, "insertion", CLAMPED, 1e-9);
    assert!(!found["insertion"].assumed);
}

/// The same tool as its own floor writes it: 3 in long, 3/8 in thick.
#[test]
fn in_inches() {
    let found = facts(
        "tool_number,OAL [in],LSC [in],gauge_length,DC [in],DMM [in],cutter_kind\n\
         1,3,1 27/64,62.4 mm,3/8,0.375,end mill\n",
    );
    // 1 27/64 in is 36.115 mm by the definition of the inch, 25.4 mm.
    is_near(&found, "insertion", (1.0 + 27.0 / 64.0) * 25.4, 1e-9);
    is_near(
        &found,
        "built_protruding_length",
        HOLDER + END_MILL - 91.0 / 64.0 * 25.4,
        1e-9,
    );
}
