//! What is advised of one tool can be followed at once.

use shankwise::advice::{How, Plan, advise};
use shankwise::judge::{Finding, Outcome, judge};

use super::shop::{self, Shop};
use super::{pocket, stocked};
use crate::support::{BUILT_IN, built_in, options};

/// What fails of the first assembly, with all that is advised.
fn advised(shop: &Shop) -> Vec<Finding> {
    let (library, setup) = (shop.load(), built_in());
    let mut report = judge(&library, &setup, &options());
    let _ = advise(&library, &setup, &options(), true, &mut report);
    let own = report.findings.into_iter();
    own.filter(|finding| finding.assembly_index == Some(0) && finding.outcome == Outcome::NotMet)
        .collect()
}

fn of<'f>(findings: &'f [Finding], rule: &str) -> &'f Finding {
    let found = findings.iter().find(|finding| finding.rule == rule);
    found.unwrap_or_else(|| panic!("no {rule} in {findings:#?}"))
}

const OTHER_COLLET: &str = "collet,collet_size,bore_diameter,bore_diameter_min,collet_length,bore_length,torque_recommended
                            c32-20,32,20,19,40,40,120";

/// Its collet is too wide and its grip too short: who takes the right collet is not also told
/// where to set the tool in the wrong one.
#[test]
fn a_tool_that_takes_another_collet_is_not_set_in_the_present_one() {
    let shop = pocket()
        .and("collets", OTHER_COLLET)
        .with("assemblies", ("tool_number", "1"), "collet", "c32-20")
        .with("operations", ("operation", "floor"), "reach", "50");
    let found = advised(&shop);
    let take = &of(&found, "grip/shank-outside-bore-range").advice;
    assert!(take.contains("take collet c32-16"), "{take}");
    let set = of(&found, "grip/short-grip");
    assert!(
        set.advice.starts_with("take collet c32-16"),
        "{}",
        set.advice
    );
    assert_eq!(set.stick_out, None);
}

/// Where no part on hand serves, nobody is told to set the tool in the parts that must go.
#[test]
fn a_tool_whose_collet_must_go_is_not_set_in_it() {
    let shop = pocket()
        .and("collets", OTHER_COLLET)
        .with("assemblies", ("tool_number", "1"), "collet", "c32-20")
        .with("operations", ("operation", "floor"), "reach", "50")
        .with("collets", ("collet", "c32-16"), "bore_diameter", "12")
        .with("collets", ("collet", "c32-16"), "bore_diameter_min", "11");
    let found = advised(&shop);
    let short = of(&found, "grip/short-grip");
    assert_eq!(short.stick_out, None);
    assert_eq!(
        short.advice,
        "first correct grip/collet-closed-too-far and grip/shank-outside-bore-range; then rerun the check for the new stick-out"
    );
}

/// It sticks out too far for its bending and not far enough for its job: it is set for the job,
/// and nobody pushes it in.
#[test]
fn who_pulls_a_tool_out_is_not_told_to_push_it_in() {
    let cutter = ("cutter", "em16");
    let shop = stocked()
        .with("assemblies", ("tool_number", "1"), "stick_out", "65")
        .with("cutters", cutter, "cutter_material", "HSS")
        .with("cutters", cutter, "shank_diameter", "10")
        .with("cutters", cutter, "cutting_diameter", "10")
        .with("cutters", cutter, "overall_length", "99")
        .with("cutters", cutter, "shank_length", "60")
        .with("collets", ("collet", "c32-16"), "bore_diameter", "10")
        .with("collets", ("collet", "c32-16"), "bore_diameter_min", "9");
    let found = advised(&shop);
    let reach = &of(&found, "reach/too-short-for-the-job").advice;
    assert!(reach.starts_with("set the stick-out to 67.5 mm"), "{reach}");
    let slender = &of(&found, "reach/slender-overhang").advice;
    assert_eq!(
        slender,
        "take a larger shank or a tapered neck, or reduce the cut"
    );
}

/// A tool that was set by its stop keeps its stick-out: the stop goes back.
#[test]
fn a_stop_is_moved_and_not_the_tool() {
    // 92 less 60 are 32 inserted, and the stop stands there.
    let touching = pocket()
        .with("assemblies", ("tool_number", "1"), "stick_out", "60")
        .with("operations", ("operation", "floor"), "reach", "50")
        .with("holders", ("holder", "h32"), "insertion_depth_max", "32");
    let found = advised(&touching);
    let stop = of(&found, "grip/tail-on-stop");
    assert_eq!(
        stop.advice,
        "screw the stop back by 1.0 mm or more; the stick-out remains as it is"
    );
    assert!(
        stop.otherwise[0].starts_with("set the stick-out to 6"),
        "{stop:?}"
    );
    // Where the tool must be set anew all the same, one number is enough.
    let short = touching.with("operations", ("operation", "floor"), "reach", "60");
    let found = advised(&short);
    let stop = of(&found, "grip/tail-on-stop");
    assert!(
        stop.advice.starts_with("set the stick-out to 62.5"),
        "{stop:?}"
    );
    assert_eq!(
        stop.advice,
        of(&found, "reach/too-short-for-the-job").advice
    );
}

fn plan(shop: &Shop) -> Plan {
    shop::plan(&shop.load(), &BUILT_IN)
}

/// Nobody measures the bore of a collet before it is known that there is one.
#[test]
fn what_another_value_may_make_needless_is_not_asked_for() {
    let shop = pocket()
        .with("holders", ("holder", "h32"), "clamping_kind", "")
        .with("assemblies", ("tool_number", "1"), "collet", "")
        .with("assemblies", ("tool_number", "1"), "nut", "");
    let values = plan(&shop).values;
    let fields: Vec<&str> = values.iter().map(|value| value.field).collect();
    assert!(fields.contains(&"holder.clamping_kind"), "{fields:?}");
    assert!(!fields.contains(&"collet.bore_length"), "{fields:?}");
}

/// What is there is not asked for as if it were not: a guess is confirmed, a cell that cannot be
/// read corrected, a part that is nowhere described entered as a whole.
#[test]
fn it_is_said_what_is_to_be_done_about_a_value() {
    let how = |shop: &Shop| {
        let values = plan(shop).values;
        let all = values.iter().map(|value| (value.field, value.how));
        all.collect::<Vec<_>>()
    };
    let collet = ("collet", "c32-16");
    let enter = pocket().with("collets", collet, "bore_length", "").with(
        "collets",
        collet,
        "collet_length",
        "",
    );
    assert_eq!(how(&enter)[0], ("collet.bore_length", How::Enter));
    let confirm = pocket().with("collets", collet, "bore_length", "").with(
        "collets",
        collet,
        "bore_form",
        "through",
    );
    assert_eq!(how(&confirm)[0], ("collet.bore_length", How::Confirm));
    let correct = pocket().with("collets", collet, "bore_length", "4o");
    assert_eq!(how(&correct)[0], ("collet.bore_length", How::Correct));
    let describe = pocket().with("assemblies", ("tool_number", "1"), "collet", "c32-61");
    assert_eq!(how(&describe)[0], ("assembly.collet", How::Describe));
}
