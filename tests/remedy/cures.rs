//! Each kind of remedy, with the arithmetic beside it.

use shankwise::advice::{NO_WINDOW, Remedies, RemedyKind};
use shankwise::judge::Finding;
use shankwise::library;

use super::{pocket, stocked};
use crate::support::{BUILT_IN, library as flat};

fn kinds(found: &Remedies) -> Vec<&'static str> {
    found.list.iter().map(|remedy| remedy.kind.name()).collect()
}

/// A row's cell of the only assembly.
const TOOL: (&str, &str) = ("tool_number", "1");
const FLOOR: (&str, &str) = ("operation", "floor");

#[test]
fn another_stick_out() {
    // 50 + 2 = 52 is needed and 64.33 may be: half a millimetre of room gives 52.5.
    let shop = pocket().with("operations", FLOOR, "reach", "50");
    let found = shop.advised();
    assert_eq!(kinds(&found), ["stick-out"]);
    assert_eq!(found.list[0].stick_out, Some(52.5));
    assert!(found.list[0].changes.is_empty() && found.list[0].rechecked);
    assert_eq!(found.nearest, None);
}

#[test]
fn a_longer_cutter_from_stock() {
    let found = stocked().advised();
    let remedy = &found.list[0];
    assert_eq!(remedy.kind, RemedyKind::Cutter);
    assert_eq!(remedy.changed(library::Kind::Cutter), Some("em16-125"));
    assert_eq!(remedy.changes[0].location.as_deref(), Some("drawer 3"));
    // 67 and half a millimetre of room; 125 − 67.5 = 57.5 go in, less than the stop at 80.
    assert_eq!(remedy.stick_out, Some(67.5));
    assert_eq!(remedy.unstated, [""; 0]);
}

#[test]
fn a_cutter_with_a_thinner_shank_and_its_collet() {
    let shop = stocked()
        .with("stock", ("cutter", "em16-125"), "shank_diameter", "12")
        .and(
            "collets",
            "collet,collet_size,bore_diameter,bore_diameter_min,collet_length,bore_length,torque_recommended
             c32-12,32,12,11,40,40,110",
        );
    let remedy = &shop.advised().list[0];
    assert_eq!(remedy.kind, RemedyKind::Cutter);
    assert_eq!(remedy.changed(library::Kind::Collet), Some("c32-12"));
    // 120 on the nut is right for the bore of 16; for that of 12 it has to come down.
    assert_eq!(remedy.torque_at_most, Some(110.0));
}

#[test]
fn a_collet_with_a_shorter_land() {
    // A land of 30 needs 20: 92 − 67.5 − 1 = 23.5 are there.
    let shop = pocket().and(
        "collets",
        "collet,collet_size,bore_diameter,bore_diameter_min,collet_length,bore_length,torque_recommended
         c32-16r,32,16,15,40,30,120",
    );
    let remedy = &shop.advised().list[0];
    assert_eq!(remedy.kind, RemedyKind::Collet);
    assert_eq!(remedy.changed(library::Kind::Collet), Some("c32-16r"));
    assert_eq!(remedy.stick_out, Some(67.5));
    assert_eq!(remedy.torque_at_most, None);
    assert!(
        !remedy.changes[0].in_stock,
        "no table of stock names collets"
    );
}

#[test]
fn the_nut_that_fits_the_holder() {
    let shop = pocket()
        .with("operations", FLOOR, "reach", "50")
        .with("assemblies", TOOL, "stick_out", "60")
        .with("assemblies", TOOL, "nut", "n32-m")
        .and(
            "nuts",
            "nut,collet_size,nut_style,nut_thread,nut_outer_diameter,face_setback,torque_max
             n32-m,32,reduced,M38x1.5,44,1,130",
        );
    let found = shop.advised();
    assert_eq!(found.list[0].kind, RemedyKind::Nut);
    assert_eq!(found.list[0].changed(library::Kind::Nut), Some("n32"));
}

#[test]
fn a_holder_with_a_deeper_stop() {
    // A stop at 20 leaves 92 − 20 = 72 and more to stick out, and the grip 64.33 at most.
    let stopped = pocket().with("operations", FLOOR, "reach", "50").with(
        "holders",
        ("holder", "h32"),
        "insertion_depth_max",
        "20",
    );
    assert_eq!(kinds(&stopped.advised()), [""; 0]);
    let deeper = "holder,clamping_kind,machine_interface,collet_size,nut_thread,gauge_length,insertion_depth_max
         h32-l,taper collet,steep taper 40,32,M40x1.5,100,80";
    let found = stopped.clone().and("holders", deeper).advised();
    assert_eq!(kinds(&found), ["holder"]);
    assert_eq!(found.list[0].stick_out, Some(52.5));
    let other = deeper.replace("taper 40", "taper 50");
    assert_eq!(kinds(&stopped.and("holders", &other).advised()), [""; 0]);
}

/// Every finding in the block of an empty window says the remedy, those too that are warnings: a
/// tail that just touches the stop, beside a collet's maker who wants 45 in where 40 are.
#[test]
fn the_block_of_an_empty_window_has_one_advice() {
    let deeper = "holder,clamping_kind,machine_interface,collet_size,nut_thread,gauge_length,insertion_depth_max
         h32-l,taper collet,steep taper 40,32,M40x1.5,100,80";
    let shop = pocket()
        .with("operations", FLOOR, "reach", "40")
        .with("assemblies", TOOL, "stick_out", "52")
        .with("holders", ("holder", "h32"), "insertion_depth_max", "40")
        .with("collets", ("collet", "c32-16"), "clamping_length_min", "45")
        .and("holders", deeper);
    let report = super::shop::advised_report(&shop.load(), &BUILT_IN);
    let is_of_block = |finding: &&Finding| {
        finding.rule == NO_WINDOW || finding.beside.as_deref() == Some(NO_WINDOW)
    };
    let block: Vec<&Finding> = report.findings.iter().filter(is_of_block).collect();
    let rules: Vec<&str> = block.iter().map(|finding| finding.rule.as_str()).collect();
    assert!(
        rules.contains(&"grip/tail-on-stop") && rules.len() == 3,
        "{rules:?}"
    );
    for finding in block {
        assert!(
            finding.advice.starts_with("take holder h32-l"),
            "{finding:#?}"
        );
    }
}

#[test]
fn the_operation_split_at_what_the_grip_allows() {
    // 64.33 less half a millimetre of room, down to a half: 63.5. Less 2 of clearance, and half
    // a millimetre so that 63.0 will do: 61.0.
    let found = pocket().advised();
    assert_eq!(kinds(&found), ["split"]);
    let remedy = &found.list[0];
    assert_eq!(remedy.stick_out, Some(63.5));
    assert_eq!(remedy.split[0].operation, "floor");
    assert_eq!(remedy.split[0].reach, 61.0);
    // The window is that of the tool with what is left to it.
    let ends = [&remedy.window.min, &remedy.window.max].map(|end| end.as_ref().unwrap().value);
    assert_eq!(ends[0], 63.0);
    assert!((ends[1] - 64.333).abs() < 0.001);
    assert_eq!(remedy.window.recommended, Some(63.5));
}

#[test]
fn what_is_only_over_torqued_has_no_remedy_of_parts() {
    let shop = pocket()
        .with("operations", FLOOR, "reach", "50")
        .with("assemblies", TOOL, "stick_out", "54")
        .with("assemblies", TOOL, "nut_torque", "150");
    assert!(!shop.advised().curable);
}

#[test]
fn what_is_over_torqued_besides_stays_so_and_is_said() {
    let shop = stocked().with("assemblies", TOOL, "nut_torque", "150");
    let remedy = &shop.advised().list[0];
    assert_eq!(remedy.leaves, ["torque/over-torqued"]);
    assert_eq!(remedy.torque_at_most, None);
}

#[test]
fn a_flat_file_has_no_parts_to_choose_from() {
    let text = "tool_number,stick_out,overall_length,cutting_diameter,shank_diameter,shank_length,collet_size,bore_diameter,bore_length,clamping_kind,reach\n\
                1,68,92,16,16,48,32,16,40,taper collet,50\n";
    let library = flat(text);
    let found = super::shop::of(&library, &BUILT_IN, 0);
    assert_eq!(kinds(&found), ["stick-out"]);
}

#[test]
fn a_holder_of_another_kind_only_as_far_as_its_maker_vouches() {
    // 92 − 67 = 25 go in at most, for the job; a minimum of 24.6 leaves 67.0 to 67.4. Another tool
    // says that the holder takes shanks of 16.
    let user = "tool_number,cutter,holder,stick_out,nut_torque
                2,em16,s16,50,";
    let cases = [("20", true), ("24.6", true), ("25.1", false), ("", false)];
    for (least, serves) in cases {
        let holder = format!(
            "holder,clamping_kind,machine_interface,clamping_length_min,insertion_depth_max
             s16,shrink fit,steep taper 40,{least},50"
        );
        let shop = pocket().and("holders", &holder).and("assemblies", user);
        let found = shop.advised();
        let named = found
            .list
            .iter()
            .any(|remedy| remedy.changed(library::Kind::Holder) == Some("s16"));
        assert_eq!(named, serves, "{least}");
    }
    let unused = pocket().and(
        "holders",
        "holder,clamping_kind,machine_interface,clamping_length_min,insertion_depth_max
         s16,shrink fit,steep taper 40,20,50",
    );
    assert_eq!(kinds(&unused.advised()), ["split"]);
}

/// Who types the advised cutter into the assemblies is told where its row is to be had, and not
/// led to another one.
#[test]
fn a_part_of_the_stock_is_not_taken_for_a_slip() {
    let report = stocked()
        .with("assemblies", TOOL, "cutter", "em16-125")
        .lint();
    let mut findings = report.findings.iter();
    let unknown = findings.find(|finding| finding.rule == "record/part-unknown");
    let message = &unknown.expect("it is not among the cutters").message;
    assert!(
        message.ends_with("; the stock has it: copy its row into the cutters"),
        "{message}"
    );
}
