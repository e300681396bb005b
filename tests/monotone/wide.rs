//! Numbers that no shop states: whatever comes of them is a number or is not known.

use std::time::{Duration, Instant};

use proptest::prelude::*;
use shankwise::facts::{Fact, FactValue};
use shankwise::library::Field;

use super::{Case, any_case, config};
use crate::support::library;

/// Facts that are numbers.
fn numbers() -> Vec<Fact> {
    let all = Fact::all().filter(|info| matches!(info.value, FactValue::Number(..)));
    all.map(|info| info.fact).collect()
}

proptest! {
    #![proptest_config(config())]

    /// Every stated number from a millionth to a million, in any mixture with sane ones.
    #[test]
    fn every_fact_is_finite_or_unknown(
        sane in any_case(),
        powers in prop::collection::vec(-6.0..6.0_f64, 25),
        wild in prop::collection::vec(any::<bool>(), 25),
        kind in prop::sample::select(vec!["milling", "drilling", "tapping", "reaming"]),
        cutter in prop::sample::select(vec!["ball nose", "drill", "end mill", "tap"]),
        material in prop::sample::select(vec!["carbide", "HSS", "steel"]),
    ) {
        let words = library(&format!(
            "tool_number,clamping_kind,collet_size,nut_thread,cutter_kind,cutter_material,operation_kind,workpiece_material,thread_pitch,feed_per_revolution\n\
             1,taper collet,32,M40x1.5,{cutter},{material},{kind},C45E,1.5,0.2\n"
        ));
        let mut case: Case = sane;
        for (at, (field, number)) in case.numbers.iter_mut().enumerate() {
            if wild[at] {
                *number = 10f64.powf(powers[at]);
            }
            if *field == Field::FluteCount {
                *number = number.ceil();
            }
        }
        let start = Instant::now();
        for fact in numbers() {
            let [found] = case.of(&words, [fact]);
            prop_assert!(found.is_none_or(f64::is_finite), "{fact:?} is {found:?}");
        }
        // A loop that runs as long as a stated number is large would take minutes.
        prop_assert!(start.elapsed() < Duration::from_secs(10));
    }
}
