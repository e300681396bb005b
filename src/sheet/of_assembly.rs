//! The sheet of one assembly: its heading, findings, and one entry for each way it is clamped.

use crate::advice::{Counsel, Remedies, Window};
use crate::draw::Drawing;
use crate::judge::{AssemblyFacts, Covered, Finding, Group, Heading, OfAssembly, Session};

use super::card::{Bench, Card};
use super::record::{self, RecordShown};

/// What is wanted of a sheet beyond what was found. What nobody wants costs nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[expect(clippy::struct_excessive_bools, reason = "each is wanted alone")]
pub struct Wants {
    /// Remedies from the stock.
    pub remedies: bool,
    /// Where to begin in the whole library, if remedies are wanted.
    pub plan: bool,
    /// How values that a finding waits for are missing.
    pub lacks: bool,
    /// Parts, values with their origin, torque and drawing.
    pub record: Records,
    /// What a person at the bench needs.
    pub card: bool,
}

/// Of which assemblies the records are wanted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Records {
    /// Of none.
    #[default]
    None,
    /// Of those of which anything is found, notes aside. Values are those of its own row, and what
    /// clamps it: those of a part are the same for all tools that have it.
    OfFound,
    /// Of all.
    All,
}

/// All that may be shown of one assembly.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// Number of the assembly in the library, from 0.
    pub at: usize,
    /// The tool number.
    pub tool_number: Option<String>,
    /// The assembly's id.
    pub assembly: Option<String>,
    /// What it is called, where something was found.
    pub heading: Heading,
    /// What came of it.
    pub group: Group,
    /// As far as coverage asks about it.
    pub covered: Covered,
    /// What was found, the worst first.
    pub findings: Vec<Finding>,
    /// How it is clamped: one way for now.
    pub clampings: Vec<Clamping>,
}

/// One way in which an assembly is clamped.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Clamping {
    /// The stick-outs that the rules leave, where they were worked out.
    pub window: Option<Window>,
    /// Remedies, where they were looked for and something curable fails.
    pub remedies: Option<Remedies>,
    /// Its facts, if wanted.
    pub facts: Option<AssemblyFacts>,
    /// What its record says, if wanted.
    pub record: Option<RecordShown>,
    /// Its drawing, with the first of its operations, if wanted.
    pub drawing: Option<Drawing>,
    /// Its card for the bench, if wanted.
    pub card: Option<Box<Card>>,
}

impl Sheet {
    /// Puts together what was judged and what is advised; the card where there is a bench.
    pub(super) fn of(
        session: &Session<'_>,
        checked: OfAssembly,
        counsel: Counsel,
        (wants, bench): (Wants, Option<&Bench<'_>>),
    ) -> Sheet {
        let group = checked.group(session.options.fail_on);
        let assembly = session.library.assemblies.get(checked.at);
        let is_wanted = match wants.record {
            Records::None => false,
            Records::OfFound => group != Group::NothingFound,
            Records::All => true,
        };
        let shown = assembly.filter(|_| is_wanted);
        let (record, drawing) = shown
            .map(|one| record::of(session, one, wants.record))
            .unzip();
        let text = |found: Option<&str>| found.map(str::to_owned);
        let card = assembly.zip(bench);
        let card = card.map(|(one, bench)| Box::new(Card::of(session, one, &checked, bench)));
        Sheet {
            at: checked.at,
            tool_number: assembly.and_then(|one| text(one.tool_number())),
            assembly: assembly.and_then(|one| text(one.id())),
            heading: assembly
                // A tool without a finding of its own is named too, where a part or a column is at fault.
                .filter(|_| group != Group::NothingFound || !checked.findings.is_empty())
                .map_or_else(Heading::default, |one| Heading::of(session.library, one)),
            group,
            covered: checked.covered,
            findings: checked.findings,
            clampings: vec![Clamping {
                window: counsel.window,
                remedies: counsel.remedies,
                facts: checked.facts,
                record,
                drawing,
                card,
            }],
        }
    }
}
