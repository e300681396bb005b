//! Better and worse, in numbers.

use shankwise::judge::{Shortfall, Trend, Wanted};
use shankwise::units::Unit;

fn since(wanted: Wanted, before: (f64, f64), now: (f64, f64)) -> Trend {
    let shortfall = Shortfall {
        what: "gripped_length".to_owned(),
        value: now.0,
        needed: now.1,
        unit: Unit::Mm,
        wanted,
    };
    shortfall.since(before)
}

#[test]
fn worse_in_value_or_in_its_part_of_the_needed() {
    use Trend::{Better, Same, Worse};
    use Wanted::{AtLeast, AtMost, Equal, Other};
    for (wanted, before, now, trend) in [
        (AtLeast, (20.0, 24.0), (20.0, 24.0), Same),
        (AtLeast, (20.0, 24.0), (18.0, 24.0), Worse),
        (AtLeast, (20.0, 24.0), (22.0, 24.0), Better),
        // As much, of more.
        (AtLeast, (20.0, 24.0), (20.0, 30.0), Worse),
        (AtLeast, (20.0, 30.0), (20.0, 24.0), Better),
        // More, of so much more that it is a smaller part.
        (AtLeast, (20.0, 24.0), (21.0, 30.0), Worse),
        (AtMost, (5.0, 4.0), (6.0, 4.0), Worse),
        (AtMost, (5.0, 4.0), (4.5, 4.0), Better),
        (AtMost, (5.0, 4.0), (5.0, 3.0), Worse),
        (AtMost, (1.0, 0.0), (2.0, 0.0), Worse),
        (AtLeast, (-1.0, 0.0), (-2.0, 0.0), Worse),
        (AtLeast, (-2.0, 0.0), (-1.0, 0.0), Better),
        (Equal, (1.5, 2.0), (1.8, 2.0), Better),
        (Equal, (1.5, 2.0), (2.8, 2.0), Worse),
        (Other, (2.1, 2.0), (2.0, 2.0), Worse),
        // What nine digits do not tell apart.
        (
            AtLeast,
            (26.666_666_7, 30.0),
            (26.666_666_666_6, 30.0),
            Same,
        ),
    ] {
        assert_eq!(
            since(wanted, before, now),
            trend,
            "{wanted:?} {before:?} {now:?}"
        );
    }
}
