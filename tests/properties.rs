//! What must hold of the facts for any library, not only for the examples.

use std::sync::LazyLock;

use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed};
use shankwise::facts::{Fact, FactValue, Scene};
use shankwise::judge::settings_of;
use shankwise::library::{Datum, Field, Library, Overrides, PROPERTIES, Reckoned, Settings, View};
use shankwise::mechanics::axial::{Land, Shank, gripped_length};
use shankwise::units::Unit;

use crate::support::{built_in, library};

fn config() -> Config {
    Config {
        cases: 128,
        failure_persistence: None,
        rng_seed: RngSeed::Fixed(13399),
        ..Config::default()
    }
}

/// Lengths that facts are computed from, with the greatest value that each is tried with.
const LENGTHS: [(Field, f64); 22] = [
    (Field::StickOut, 90.0),
    (Field::ProtrudingLength, 160.0),
    (Field::ClampingLength, 60.0),
    (Field::OverallLength, 150.0),
    (Field::OverallLengthMin, 150.0),
    (Field::ShankLength, 70.0),
    (Field::ShankDiameter, 20.0),
    (Field::CuttingDiameter, 20.0),
    (Field::ChipFluteLength, 90.0),
    (Field::HeadLength, 90.0),
    (Field::NeckDiameter, 20.0),
    (Field::NeckLength, 90.0),
    (Field::CutterDriveSquare, 12.0),
    (Field::DriveSquareLength, 15.0),
    (Field::BoreDiameter, 20.0),
    (Field::BoreLength, 45.0),
    (Field::BoreRecess, 10.0),
    (Field::ColletLength, 46.0),
    (Field::FaceSetback, 5.0),
    (Field::BoreSetback, 10.0),
    (Field::GaugeLength, 120.0),
    (Field::InsertionDepthMax, 80.0),
];

/// Other numbers, which no scaling of lengths touches.
const OTHERS: [(Field, f64); 5] = [
    (Field::PointAngle, 180.0),
    (Field::TorqueMax, 200.0),
    (Field::WrenchTorqueMax, 200.0),
    (Field::ColletTorqueRecommended, 150.0),
    (Field::NutTorqueRecommended, 150.0),
];

/// What a library states: numbers in canonical units, and words.
type Stated = (Vec<(Field, f64)>, Vec<(Field, &'static str)>);

fn numbers(of: &'static [(Field, f64)], likely: f64) -> BoxedStrategy<Vec<(Field, f64)>> {
    let each: Vec<_> = of
        .iter()
        .map(|(field, most)| {
            let (field, hundredths) = (*field, (most * 100.0).round());
            (0.0..1.0_f64, 0.01..1.0_f64).prop_map(move |(luck, part)| {
                let number = (part * hundredths).ceil() / 100.0;
                (luck < likely).then_some((field, number))
            })
        })
        .collect();
    each.prop_map(|all| all.into_iter().flatten().collect())
        .boxed()
}

fn words() -> BoxedStrategy<Vec<(Field, &'static str)>> {
    let word = |field: Field, words: &'static [&'static str]| {
        prop::option::of(prop::sample::select(words))
            .prop_map(move |word| Some((field, word?)))
            .boxed()
    };
    vec![
        word(Field::CutterKind, &["drill", "end mill", "tap"]),
        word(Field::CutterMaterial, &["carbide", "HSS"]),
        word(Field::BoreForm, &["through", "relieved at the rear"]),
        word(Field::ColletSize, &["16", "32", "77"]),
        word(Field::ClampingKind, &["taper collet", "shrink fit"]),
        word(Field::ColletSealed, &["yes", "no"]),
    ]
    .prop_map(|all| all.into_iter().flatten().collect())
    .boxed()
}

/// Any library, from nearly empty to nearly full.
fn stated() -> impl Strategy<Value = Stated> {
    let all = (numbers(&LENGTHS, 0.7), numbers(&OTHERS, 0.5), words());
    all.prop_map(|(mut lengths, others, words)| {
        lengths.extend(others);
        (lengths, words)
    })
}

/// The library as text: one row, which is always one of an operation too.
fn text((numbers, words): &Stated) -> String {
    let mut header = "tool_number,operation_kind,reach,clearance".to_owned();
    let mut row = "1,milling,40,1".to_owned();
    let numbers = numbers.iter().map(|(field, n)| (field, n.to_string()));
    let words = words
        .iter()
        .map(|(field, word)| (field, (*word).to_owned()));
    for (field, cell) in numbers.chain(words) {
        header.push(',');
        header.push_str(field.qualified());
        row.push(',');
        row.push_str(&cell);
    }
    format!("{header}\n{row}\n")
}

/// All facts of the one row with its operation, asked for in the order given.
fn facts<'l>(
    library: &'l Library,
    overrides: &'l Overrides<'l>,
    order: &[usize],
) -> Vec<Reckoned<Datum<'l>>> {
    static SETTINGS: LazyLock<Settings> = LazyLock::new(|| settings_of(&built_in().book));
    let assembly = &library.assemblies[0];
    let view = View {
        library,
        assembly,
        operation: assembly.operations.first().copied(),
        overrides,
    };
    assert!(view.operation.is_some());
    let scene = Scene::new(view, &SETTINGS);
    let all: Vec<Fact> = Fact::all().map(|info| info.fact).collect();
    for at in order {
        let _ = scene.fact(all[*at]);
    }
    all.into_iter().map(|fact| scene.fact(fact)).collect()
}

fn names() -> impl Iterator<Item = &'static str> {
    Fact::all().map(|info| info.name)
}

fn any_order() -> impl Strategy<Value = Vec<usize>> {
    let all: Vec<usize> = (0..Fact::COUNT).collect();
    Just(all).prop_shuffle()
}

fn shank_and_land() -> impl Strategy<Value = (Shank, Land)> {
    let shank = (1.0..150.0_f64, 0.0..1.0_f64, 0.0..20.0_f64);
    let land = (0.0..150.0_f64, -10.0..20.0_f64, 0.0..60.0_f64);
    (shank, land).prop_map(|((overall_length, part, square_length), land)| {
        let (stick_out, bore_setback, bore_length) = land;
        let shank_length = overall_length * part;
        let shank = Shank {
            overall_length,
            shank_length,
            square_length,
        };
        let land = Land {
            stick_out,
            bore_setback,
            bore_length,
        };
        (shank, land)
    })
}

/// Room for the rounding of a few sums.
const ROUNDING: f64 = 1e-9;

proptest! {
    #![proptest_config(config())]

    /// No stick-out changes the grip faster than the tool is moved.
    #[test]
    fn grip_follows_the_stick_out((shank, land) in shank_and_land(), by in -50.0..50.0_f64) {
        let moved = Land { stick_out: land.stick_out + by, ..land };
        let change = gripped_length(shank, moved) - gripped_length(shank, land);
        prop_assert!(change.abs() <= by.abs() + ROUNDING, "{change} for {by}");
    }

    #[test]
    fn grip_is_part_of_land_and_shank((shank, land) in shank_and_land()) {
        let grip = gripped_length(shank, land);
        prop_assert!(grip >= 0.0);
        prop_assert!(grip <= land.bore_length + ROUNDING);
        prop_assert!(grip <= shank.shank_length + ROUNDING);
    }

    /// The same through a whole library.
    #[test]
    fn the_fact_is_part_of_land_and_shank(stated in stated()) {
        let library = library(&text(&stated));
        let overrides = Overrides::default();
        let found = facts(&library, &overrides, &[]);
        let number = |fact: Fact| match found[fact as usize].value {
            Some(Datum::Number(number)) => Some(number),
            _ => None,
        };
        if let (Some(grip), Some(shank)) = (number(Fact::GrippedLength), number(Fact::PlainShank)) {
            prop_assert!(grip >= 0.0 && grip <= shank + ROUNDING, "{grip} of {shank}");
        }
        if let Some(part) = number(Fact::GripFraction) {
            prop_assert!((0.0..=1.0 + ROUNDING).contains(&part), "{part}");
        }
    }

    /// A tool drawn at another scale grips as well: lengths follow, ratios and torques stay.
    #[test]
    fn lengths_scale(lengths in numbers(&LENGTHS, 1.0), others in numbers(&OTHERS, 1.0), k in 0.1..10.0_f64) {
        let words = || vec![(Field::CutterKind, "drill"), (Field::ColletSize, "32")];
        let by = |k: f64| {
            let scaled = lengths.iter().map(|(field, length)| (*field, length * k));
            let numbers: Vec<_> = scaled.chain(others.iter().copied()).collect();
            let more = [(Field::Reach, 40.0 * k), (Field::Clearance, k)];
            (numbers, more)
        };
        let value = |k: f64| -> Vec<Option<f64>> {
            let (numbers, more) = by(k);
            let library = library(&text(&(numbers, words())));
            let overrides = Overrides { numbers: more.to_vec(), ..Overrides::default() };
            let found = facts(&library, &overrides, &[]);
            found.iter().map(|fact| match fact.value {
                Some(Datum::Number(number)) => Some(number),
                _ => None,
            }).collect()
        };
        let pairs = value(1.0).into_iter().zip(value(k));
        for (info, (once, scaled)) in Fact::all().zip(pairs) {
            let FactValue::Number(unit, _) = info.value else { continue };
            prop_assert!(once.is_some(), "{} is known", info.name);
            let factor = if unit == Unit::Mm { k } else { 1.0 };
            let (once, scaled) = (once.unwrap() * factor, scaled.unwrap_or(f64::NAN));
            prop_assert!(
                (once - scaled).abs() <= 1e-9 * (1.0 + once.abs()),
                "{}: {} and {}", info.name, once, scaled
            );
        }
    }

    /// "What if" gives what a library with those numbers gives: the same values, resting on
    /// the same fields.
    #[test]
    fn overrides_are_a_rewritten_library(before in stated(), other in numbers(&LENGTHS, 0.2)) {
        let mut after = before.clone();
        after.0.retain(|(field, _)| !other.iter().any(|(replaced, _)| replaced == field));
        after.0.extend(other.iter().copied());
        let (before, after) = (library(&text(&before)), library(&text(&after)));
        let overrides = Overrides { numbers: other.clone(), ..Overrides::default() };
        let nothing = Overrides::default();
        let what_if = facts(&before, &overrides, &[]);
        let rewritten = facts(&after, &nothing, &[]);
        for ((name, a), b) in names().zip(what_if).zip(rewritten) {
            prop_assert_eq!(a, b, "{} with {:?}", name, &other);
        }
    }

    /// To believe less never makes more known, and what is still known is the same.
    #[test]
    fn distrust_never_makes_known(stated in stated()) {
        let library = library(&text(&stated));
        let trusting = Overrides::default();
        let distrusting = Overrides { distrust_assumed: true, ..Overrides::default() };
        let trusted = facts(&library, &trusting, &[]);
        let bare = facts(&library, &distrusting, &[]);
        for ((name, trusted), bare) in names().zip(trusted).zip(bare) {
            prop_assert!(trusted.is_known() || !bare.is_known(), "{name}");
            let starred = PROPERTIES.iter().filter(|property| property.starred);
            for property in starred {
                prop_assert!(!bare.trace.assumed.contains(property.field), "{name}");
            }
        }
    }

    /// Facts do not depend on which was asked for first.
    #[test]
    fn any_order_gives_the_same(stated in stated(), one in any_order(), other in any_order()) {
        let library = library(&text(&stated));
        let overrides = Overrides::default();
        let by_one = facts(&library, &overrides, &one);
        let by_other = facts(&library, &overrides, &other);
        for ((name, a), b) in names().zip(by_one).zip(by_other) {
            prop_assert_eq!(a, b, "{}", name);
        }
    }
}
