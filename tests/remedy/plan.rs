//! Which few measurements decide most, and which few cutters cure most.

use shankwise::advice::Plan;
use shankwise::library;

use super::shop::{self, Shop};
use super::{pocket, stocked};
use crate::support::BUILT_IN;

fn plan(shop: &Shop) -> Plan {
    shop::plan(&shop.load(), &BUILT_IN)
}

/// A second tool in the same collet.
const SECOND: &str = "tool_number,cutter,collet,nut,holder,stick_out,nut_torque
                      2,em16,c32-16,n32,h32,54,120";

#[test]
fn the_land_of_a_collet_that_two_tools_share_is_measured_first() {
    let stated = pocket().and("assemblies", SECOND);
    let shop = stated
        .clone()
        .with("collets", ("collet", "c32-16"), "bore_length", "");
    let found = plan(&shop);
    let first = &found.values[0];
    assert_eq!(first.record, library::Kind::Collet);
    assert_eq!(first.id.as_deref(), Some("c32-16"));
    assert_eq!(first.field, "collet.bore_length");
    assert_eq!(first.decides, first.together);
    // For each of the two tools short-grip and shank-too-short at least.
    assert!(first.decides >= 4, "{first:?}");
    let waits = |shop: &Shop| shop.lint().summary.not_judged;
    assert!(waits(&shop) - waits(&stated) >= first.decides);
}

#[test]
fn one_cutter_for_both() {
    let shop = stocked().and("assemblies", SECOND).and(
        "operations",
        "operation,tool_number,operation_kind,workpiece_material,reach,clearance,wall,axial_depth,radial_width,feed_per_tooth,spindle_speed
         floor 2,2,milling,EN AW-6082,64,2,closed,2,1,0.02,2500",
    );
    let found = plan(&shop);
    assert_eq!(found.cutters.len(), 1);
    assert_eq!(found.cutters[0].id, "em16-125");
    assert_eq!(found.cutters[0].cures, ["1", "2"]);
    assert!(found.cutters_exact);
    // There is one of it.
    assert_eq!(found.cutters[0].quantity, Some(1.0));
}

#[test]
fn a_stick_out_that_cures_needs_no_cutter() {
    let shop = stocked().with("operations", ("operation", "floor"), "reach", "50");
    assert_eq!(plan(&shop).cutters, []);
}

/// Eight cutters for a tool are compared; thirteen choices are more than all selections are
/// looked at for. The second tool cuts 12 mm.
#[test]
fn of_many_cutters_the_choice_is_greedy_and_says_so() {
    let mut shop = stocked()
        .and("assemblies", "tool_number,cutter,collet,nut,holder,stick_out,nut_torque
                            2,em12,c32-12,n32,h32,68,110")
        .and("cutters", "cutter,cutter_kind,cutter_material,cutting_diameter,flute_count,depth_of_cut_max,chip_flute_length,shank_diameter,shank_length,overall_length
                         em12,end mill,carbide,12,4,26,32,12,48,92")
        .and("collets", "collet,collet_size,bore_diameter,bore_diameter_min,collet_length,bore_length,torque_recommended
                         c32-12,32,12,11,40,40,110")
        .and("operations", "operation,tool_number,operation_kind,workpiece_material,reach,clearance,wall,axial_depth,radial_width,feed_per_tooth,spindle_speed
                            floor 2,2,milling,EN AW-6082,64,2,open,2,1,0.06,2500");
    let wide = shop.0["stock"][0].clone();
    let mut narrow = wide.clone();
    for column in ["cutting_diameter", "shank_diameter"] {
        narrow.insert(column.to_owned(), "12".to_owned());
    }
    let stock = shop.0.get_mut("stock").unwrap();
    for number in 0..8 {
        for (row, name) in [(&wide, "em16"), (&narrow, "em12")] {
            let mut row = row.clone();
            row.insert("cutter".to_owned(), format!("{name}-x{number:02}"));
            // Equal cutters would be tried once.
            row.insert("overall_length".to_owned(), format!("125.{number}"));
            stock.push(row);
        }
    }
    let found = plan(&shop);
    // One for each tool; more would cure nothing more.
    let chosen: Vec<&str> = found.cutters.iter().map(|one| one.id.as_str()).collect();
    assert_eq!(chosen, ["em16-125", "em12-x00"]);
    assert!(!found.cutters_exact);
    assert!(found.values_exact);
}

#[test]
fn nothing_to_do_is_an_empty_plan() {
    let shop = pocket()
        .with("operations", ("operation", "floor"), "reach", "50")
        .with("assemblies", ("tool_number", "1"), "stick_out", "52.5");
    let found = plan(&shop);
    assert_eq!(found.cutters, []);
    assert_eq!(found.values, []);
}
