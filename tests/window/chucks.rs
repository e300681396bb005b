//! What no collet holds: the minimum insertion above all, and one stick-out for a clamp screw.

use crate::window::Cell;

const HEADER: &str = "tool_number,cutter_kind,overall_length,shank_diameter,shank_length,shank_form,reach,clearance,clamping_kind,holder clamping_length_min,flat_distance,screw_distance,seat_form,holder bore_recess\n";

fn cell(row: &str) -> Cell {
    Cell::flat(&format!("{HEADER}{row}\n"), "")
}

/// 92 less 36 is 56: no further out; 36 and half a millimetre for the job.
#[test]
fn a_stated_minimum_bounds_it() {
    let window = cell("1,end mill,92,12,60,HA,35,1,hydraulic chuck,36,,,,0").window();
    let max = window.max.expect("an upper end");
    assert_eq!(max.rule, "grip/below-holder-minimum");
    assert!((max.value - 56.0).abs() < 1e-6, "{max:?}");
    assert_eq!(window.recommended, Some(36.5));
}

/// Nobody knows how far it must go in: nobody is told how far it may come out.
#[test]
fn without_a_minimum_nothing_is_recommended() {
    for kind in [
        "shrink fit",
        "hydraulic chuck",
        "milling chuck",
        "drill chuck",
        "other",
    ] {
        let row = format!("1,end mill,92,12,60,HA,35,1,{kind},,,,,0");
        let window = cell(&row).window();
        assert_eq!(window.recommended, None, "{kind}");
        assert!(
            window.undecided.contains(&"holder.clamping_length_min"),
            "{kind}: {:?}",
            window.undecided
        );
    }
}

/// 92 less 24 less 20 is 48, and nothing else, whatever room the limits leave; where that is not
/// enough for the job, nothing.
#[test]
fn a_clamp_screw_meets_its_flat_at_one_stick_out() {
    let side_lock = "side-lock holder,,24,20,HB,0";
    for (reach, expected) in [("35", Some(48.0)), ("46.5", Some(48.0)), ("49", None)] {
        let row = format!("1,end mill,92,12,60,HB,{reach},1,{side_lock}");
        let window = cell(&row).window();
        assert_eq!(window.recommended, expected, "{reach}: {window:?}");
    }
    for unknown in ["side-lock holder,,,20,HB,0", "side-lock holder,,24,,HB,0"] {
        let row = format!("1,end mill,92,12,60,HB,35,1,{unknown}");
        let window = cell(&row).window();
        assert_eq!(window.recommended, None, "{unknown}");
        assert_eq!(window.undecided.len(), 1, "{:?}", window.undecided);
    }
}
