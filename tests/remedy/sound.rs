//! A listed remedy, carried out in the tables and linted afresh, has cured.

use proptest::prelude::*;
use shankwise::judge::{Finding, Report};
use shankwise::rulebook::Level;

use super::shop::Shop;
use super::stocked;
use crate::support::cases;

/// The errors of the only assembly that a remedy has to remove.
fn errors(report: &Report) -> Vec<&str> {
    let topics = ["grip/", "reach/", "torque/", "holding/"];
    let own = |finding: &&Finding| {
        finding.level.is_some()
            && finding.full_level == Level::Error
            && topics.iter().any(|topic| finding.rule.starts_with(topic))
    };
    let errors = report.findings.iter().filter(own);
    errors.map(|finding| finding.rule.as_str()).collect()
}

/// Carries out every remedy. Returns how many there were.
fn carried_out(shop: &Shop) -> usize {
    let found = shop.advised();
    assert!(found.list.len() <= 3);
    assert_eq!(
        found.nearest.is_some(),
        found.curable && found.list.is_empty()
    );
    let torque: f64 = shop.0["assemblies"][0]["nut_torque"].parse().unwrap();
    for remedy in &found.list {
        assert!(remedy.torque_at_most.is_none_or(|most| most < torque));
        let report = shop.cured(remedy).lint();
        let left = errors(&report);
        assert_eq!(left, remedy.leaves, "{remedy:#?}");
    }
    found.list.len()
}

#[test]
fn the_remedies_of_the_pocket() {
    assert!(carried_out(&stocked()) > 0);
}

proptest! {
    #![proptest_config(cases(60))]

    #[test]
    fn any_shop(
        stick_out in 20_u32..90,
        reach in 10_u32..110,
        overall in 60_u32..160,
        shank in 10_u32..100,
        land in 12_u32..40,
        depth in 15_u32..90,
        torque in 80_u32..160,
        kind in prop_oneof!["milling", "drilling", "reaming"],
    ) {
        let long = ("cutter", "em16-125");
        let shop = stocked()
            .with("assemblies", ("tool_number", "1"), "stick_out", &stick_out.to_string())
            .with("assemblies", ("tool_number", "1"), "nut_torque", &torque.to_string())
            .with("operations", ("operation", "floor"), "reach", &reach.to_string())
            .with("operations", ("operation", "floor"), "operation_kind", &kind)
            .with("stock", long, "overall_length", &overall.to_string())
            .with("stock", long, "shank_length", &shank.to_string())
            .with("holders", ("holder", "h32"), "insertion_depth_max", &depth.to_string())
            .and(
                "collets",
                &format!("collet,collet_size,bore_diameter,bore_diameter_min,collet_length,bore_length,torque_recommended\n\
                          c32-16x,32,16,15,40,{land},100"),
            );
        carried_out(&shop);
    }
}
