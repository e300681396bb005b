//! What a person at the bench needs to build one tool, as plain data: whether it may be built, its
//! parts and where they lie, how far it is set, what is measured afterwards. Whoever writes a card
//! works nothing out.
//!
//! The only stick-out in it is the recorded one: a program is simulated with that, so a corrected
//! one belongs into the library first.

mod bench_values;
mod built;
mod caution;
mod parts;
mod release;
mod run_out;

use crate::draw::{self, Drawing};
use crate::judge::{OfAssembly, Session};
use crate::library::{Assembly, ClampingKind, Field, Hand, Kind, Library, Overrides};

use super::front::Front;
use crate::facts::Scene;

pub use bench_values::Setting;
pub use built::{Placed, Protruding, Shortest, StickOut, Stop, TorqueShown};
pub use caution::Caution;
pub use parts::{BoreMarked, CardPart, Lies, NutShown};
pub use release::{AcceptedShown, Reason, Release, Released};
pub use run_out::RunOutShown;

use parts::Stock;
pub(super) use release::OfParts;

/// All that stands on the card of one tool. Lengths in mm.
#[derive(Clone, Debug, PartialEq)]
pub struct Card {
    /// Number of the assembly in the library, from 0.
    pub at: usize,
    /// The tool number, else the assembly's id; empty if it has neither.
    pub name: String,
    /// The line of its row or element.
    pub line: usize,
    /// Whether it may be built, and why not.
    pub released: Released,
    /// The machine that it is for.
    pub machine: Option<String>,
    /// Its pot in the magazine.
    pub pot: Option<String>,
    /// What it is: its own description, else its cutter's.
    pub description: Option<String>,
    /// The kind of cutter, and its cutting diameter.
    pub cutter: (Option<&'static str>, Option<f64>),
    /// Its shank's diameter, mm.
    pub shank_diameter: Option<f64>,
    /// What clamps it, if that is known.
    pub clamping: Option<ClampingKind>,
    /// The hands that the spindle turns by its operations, else the cutter's; none if nobody says.
    pub hands: Vec<&'static str>,
    /// Its parts, in the order in which they hold each other.
    pub parts: Vec<CardPart>,
    /// The marking of the bore that grips.
    pub bore: Option<BoreMarked>,
    /// The nut, if one closes on it.
    pub nut: Option<NutShown>,
    /// How it is set and measured.
    pub setting: Setting,
    /// What to beware of when it is clamped so.
    pub cautions: Vec<Caution>,
    /// The drawing, without any job.
    pub drawing: Drawing,
}

/// What the cards of a library share: where its parts lie, and what is wrong with their records.
pub(super) struct Bench<'a> {
    stock: Stock<'a>,
    pub of_parts: OfParts,
}

impl<'a> Bench<'a> {
    pub(super) fn of(library: &'a Library) -> Bench<'a> {
        Bench {
            stock: Stock::of(library),
            of_parts: OfParts::default(),
        }
    }
}

impl Card {
    pub(super) fn of(
        session: &Session<'_>,
        assembly: &Assembly,
        checked: &OfAssembly,
        bench: &Bench<'_>,
    ) -> Card {
        let as_it_is = Overrides::default();
        let released = Released::of(session, checked, &bench.of_parts);
        let judge = &session.judge;
        let run_out = RunOutShown::of(session, assembly);
        let drawing = drawing(session, assembly);
        let sources = &session.library.sources;
        judge.look(session.library, assembly, &as_it_is, |base, jobs| {
            let view = &base.view;
            let own = |field| view.word(field).value.map(str::to_owned);
            let clamping = clamping(base);
            let nut = has_nut(base, clamping);
            Card {
                at: checked.at,
                name: assembly
                    .tool_number()
                    .or(assembly.id())
                    .unwrap_or_default()
                    .to_owned(),
                line: sources.position(assembly.record.place).line,
                machine: own(Field::Machine),
                pot: own(Field::Pot),
                description: own(Field::AssemblyDescription)
                    .or_else(|| own(Field::CutterDescription)),
                cutter: (
                    parts::word(base, Field::CutterKind),
                    base.field(Field::CuttingDiameter).value,
                ),
                shank_diameter: base.field(Field::ShankDiameter).value,
                clamping,
                hands: hands(base, jobs),
                parts: parts::all(base, &bench.stock),
                bore: BoreMarked::of(base),
                nut: nut.then(|| NutShown::of(base)),
                setting: Setting::of(base, judge, nut, run_out),
                cautions: caution::all(base, clamping, nut),
                drawing,
                released,
            }
        })
    }
}

/// The tool as long as its mark is worked out for. What judges it is the shortest that it may be.
fn drawing(session: &Session<'_>, assembly: &Assembly) -> Drawing {
    let as_it_is = Overrides::default();
    let look = |overrides: &Overrides<'_>| {
        let judge = &session.judge;
        judge.look(session.library, assembly, overrides, |base, _| {
            (draw::assembly(base), bench_values::overall_length(base))
        })
    };
    let (drawing, length) = look(&as_it_is);
    let Some(length) = length else {
        return drawing;
    };
    let shorter = [Field::OverallLengthMin, Field::OverallLengthActual];
    let as_long = Overrides {
        numbers: shorter.map(|field| (field, length)).to_vec(),
        ..Overrides::default()
    };
    look(&as_long).0
}

/// What clamps it; a collet that is named says so too.
fn clamping(base: &Scene<'_>) -> Option<ClampingKind> {
    let stated = base.view.listed::<ClampingKind>().value;
    stated.or_else(|| (Front::of(base) == Front::Nut).then_some(ClampingKind::ColletChuck))
}

/// Whether a nut closes a collet on its shank.
fn has_nut(base: &Scene<'_>, clamping: Option<ClampingKind>) -> bool {
    let by_kind = clamping.is_some_and(ClampingKind::is_collet);
    let is_held = Front::of(base) != Front::NoShank;
    is_held && (by_kind || base.view.names(Kind::Nut))
}

/// The hands of its operations, each once; without any, the cutter's.
fn hands(base: &Scene<'_>, jobs: &[Scene<'_>]) -> Vec<&'static str> {
    use crate::library::ClosedList as _;
    let listed = |scene: &Scene<'_>, field| {
        let hand = scene.view.datum(field).listed::<Hand>().value?;
        Some(hand.word().word)
    };
    let stated = jobs
        .iter()
        .filter_map(|job| listed(job, Field::SpindleDirection));
    let mut hands: Vec<&'static str> = Vec::new();
    for hand in stated {
        if !hands.contains(&hand) {
            hands.push(hand);
        }
    }
    if hands.is_empty() {
        hands.extend(listed(base, Field::Hand));
    }
    hands
}
