//! Raising one input moves each fact the way the mechanics say, whatever the others are.
//!
//! One assembly with everything stated, its numbers drawn at random; one of them, or one
//! friction, is changed and the facts before and after are compared.

mod holding;
mod load;
mod mouth;
mod one_tool;
mod stiffness;
mod wide;

use std::sync::LazyLock;

use proptest::prelude::*;
use proptest::test_runner::Config;
use shankwise::facts::{Fact, Scene};
use shankwise::judge::settings_of;
use shankwise::library::{Field, Library, Overrides, Setting, Settings, Trace, View};

use crate::support::{built_in, cases, library};

fn config() -> Config {
    cases(96)
}

static BUILT_IN: LazyLock<Settings> = LazyLock::new(|| settings_of(&built_in().book));

/// What no number of this assembly can say.
static WORDS: LazyLock<Library> = LazyLock::new(|| {
    library(
        "tool_number,clamping_kind,collet_size,nut_thread,cutter_material,operation_kind,workpiece_material\n\
         1,taper collet,32,M40x1.5,carbide,milling,C45E\n",
    )
});

/// Numbers of one assembly and its operation, and what the shop states of its frictions.
#[derive(Clone, Debug)]
struct Case {
    numbers: Vec<(Field, f64)>,
    settings: Vec<(Setting, f64)>,
}

impl Case {
    /// The same with one number stated anew: the last statement of a field counts.
    fn with(&self, field: Field, number: f64) -> Case {
        let mut changed = self.clone();
        changed.numbers.push((field, number));
        changed
    }

    /// The same with one number multiplied.
    fn times(&self, field: Field, factor: f64) -> Case {
        self.with(field, self.get(field) * factor)
    }

    fn get(&self, field: Field) -> f64 {
        let mut stated = self.numbers.iter().rev();
        stated.find(|(known, _)| *known == field).expect("stated").1
    }

    /// The same with one setting multiplied.
    fn setting_times(&self, setting: Setting, factor: f64) -> Case {
        let mut changed = self.clone();
        changed
            .settings
            .push((setting, self.setting(setting) * factor));
        changed
    }

    fn setting(&self, setting: Setting) -> f64 {
        let mut stated = self.settings.iter().rev();
        let stated = stated.find(|(known, _)| *known == setting);
        let built_in = || {
            BUILT_IN
                .get::<Trace>(setting)
                .value
                .expect("a limit stands behind")
        };
        stated.map_or_else(built_in, |(_, value)| *value)
    }

    /// Facts by number, all from one scene.
    fn facts<const N: usize>(&self, facts: [Fact; N]) -> [Option<f64>; N] {
        self.of(&WORDS, facts)
    }

    /// The same with the words of another library.
    fn of<const N: usize>(&self, words: &Library, facts: [Fact; N]) -> [Option<f64>; N] {
        let settings = Settings::new(|setting| self.setting(setting));
        let overrides = Overrides {
            numbers: self.numbers.clone(),
            ..Overrides::default()
        };
        let assembly = &words.assemblies[0];
        let view = View::new(
            words,
            assembly,
            assembly.operations.first().copied(),
            &overrides,
        );
        let scene = Scene::new(view, &settings);
        facts.map(|fact| scene.number(fact).value)
    }

    /// A fact that this assembly must have.
    fn fact(&self, fact: Fact) -> f64 {
        let [found] = self.facts([fact]);
        found.unwrap_or_else(|| panic!("{fact:?} of {self:?}"))
    }
}

/// Any assembly of size 32 with everything stated: gripped somewhere between a third and the
/// whole of its land, in a socket that the mouth's model was checked for.
fn any_case() -> impl Strategy<Value = Case> {
    let tool = (3.0..20.0_f64, 0.4..1.3_f64, 15.0..60.0_f64, 0.0..30.0_f64);
    let land = (25.0..44.0_f64, 0.4..1.0_f64, 0.0..4.0_f64, 10.0..200.0_f64);
    let socket = (33.0..54.0_f64, 0.13..0.5_f64, 5.0..30.0_f64, 5.0..13.0_f64);
    let cut = (0.5..25.0_f64, 0.02..1.0_f64, 0.01..0.3_f64, 0.0..50.0_f64);
    let turning = (1..9_u8, 500.0..30_000.0_f64, 0.3..4.0_f64, 0.05..0.3_f64);
    (tool, land, socket, cut, turning).prop_map(|(tool, land, socket, cut, turning)| {
        let (shank, cutting, flutes, further) = tool;
        let (bore, part, setback, torque) = land;
        let stick_out = flutes + further;
        let (diameter, behind) = (shank * cutting, setback + bore * part);
        let numbers = vec![
            (Field::StickOut, stick_out),
            (Field::OverallLength, stick_out + behind),
            // Plain from before the land, so that its front is never bare.
            (Field::ShankLength, behind + 0.1),
            (Field::ShankDiameter, shank),
            (Field::CuttingDiameter, diameter),
            (Field::ChipFluteLength, flutes),
            (Field::BoreLength, bore),
            (Field::FaceSetback, setback),
            (Field::NutTorque, torque),
            (Field::MouthDiameter, 33.0),
            (Field::TaperLength, socket.0),
            (Field::NoseDiameter, 33.0 * (1.0 + socket.1)),
            (Field::NoseLength, socket.2),
            (Field::BodyDiameter, 33.0 * (1.0 + socket.1) + 12.0),
            (Field::MouthSetback, socket.3),
            (Field::AxialDepth, cut.0),
            (Field::RadialWidth, diameter * cut.1),
            (Field::FeedPerTooth, cut.2),
            (Field::HelixAngle, cut.3),
            (Field::FluteCount, f64::from(turning.0)),
            (Field::SpindleSpeed, turning.1),
            (Field::AssemblyMass, turning.2),
            (Field::BalanceGrade, 2.5),
            (Field::BalanceSpeed, 12_000.0),
            (Field::RunOut, turning.3 / 10.0),
        ];
        Case {
            numbers,
            settings: Vec::new(),
        }
    })
}

/// By how much something is raised: by no less than would show.
fn raised() -> impl Strategy<Value = f64> {
    1.02..2.0_f64
}

/// Whether two numbers are the same but for rounding.
fn same(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-9 * (a.abs() + b.abs())
}
