//! What must hold of the facts for any library, not only for the examples.

mod facts;
mod grip;

use shankwise::units::Scalar;
use std::sync::LazyLock;

use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed};
use shankwise::facts::{Fact, Scene};
use shankwise::judge::settings_of;
use shankwise::library::{Field, Library, Overrides, Reckoned, Settings, View};

use crate::support::built_in;

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
fn all_facts<'l>(
    library: &'l Library,
    overrides: &'l Overrides<'l>,
    order: &[usize],
) -> Vec<Reckoned<Scalar<&'l str>>> {
    let scene = scene(library, overrides);
    let all: Vec<Fact> = Fact::all().map(|info| info.fact).collect();
    for at in order {
        let _ = scene.fact(all[*at]);
    }
    facts_of(&scene)
}

/// The one row with its operation, nothing asked yet.
fn scene<'l>(library: &'l Library, overrides: &'l Overrides<'l>) -> Scene<'l> {
    static SETTINGS: LazyLock<Settings> = LazyLock::new(|| settings_of(&built_in().book));
    let assembly = &library.assemblies[0];
    let operation = assembly.operations.first().copied();
    assert!(operation.is_some());
    Scene::new(
        View::new(library, assembly, operation, overrides),
        &SETTINGS,
    )
}

fn facts_of<'l>(scene: &Scene<'l>) -> Vec<Reckoned<Scalar<&'l str>>> {
    Fact::all().map(|info| scene.fact(info.fact)).collect()
}

fn names() -> impl Iterator<Item = &'static str> {
    Fact::all().map(|info| info.name)
}

fn any_order() -> impl Strategy<Value = Vec<usize>> {
    let all: Vec<usize> = (0..Fact::COUNT).collect();
    Just(all).prop_shuffle()
}
