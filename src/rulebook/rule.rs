//! A rule: what it asks, how bad it is, what it says.

use std::sync::Arc;

use super::eval::Tolerance;
use super::limit::Limit;
use super::template::Template;
use super::type_check::Checked;
use super::words::{Basis, Bound, Consequence, CuredBy, Level};

/// A case in which a failing judgement is less bad, or needs other words.
#[derive(Clone, Debug)]
pub struct Milder {
    /// The case.
    pub when: Checked,
    /// The level then.
    pub level: Level,
    /// What is wrong then; as the rule says if absent.
    pub message: Option<Template>,
    /// Why it matters then.
    pub why: Option<Template>,
    /// What to do then.
    pub advice: Option<Template>,
}

impl Milder {
    fn templates(&self) -> impl Iterator<Item = &Template> {
        let words = [&self.message, &self.why, &self.advice];
        words.into_iter().flatten()
    }
}

/// A case in which a finding is certain although some of what it rests on is assumed: no value
/// in the printed bands of those limits would turn it.
#[derive(Clone, Debug)]
pub struct Certain {
    /// The case, asked at the favourable end of every band.
    pub when: Checked,
    /// The shared limits whose being from memory does not lower the finding then.
    pub despite: Vec<String>,
}

/// What a part to buy must have, for the rule to be met.
#[derive(Clone, Debug)]
pub struct Demand {
    /// The property of the part, as a symbol of the rule's scope.
    pub property: u32,
    /// As it is written: `chip_flute_length`.
    pub name: String,
    /// How it compares with the number.
    pub compares: Compares,
    /// The number, in the unit of the property.
    pub number: Checked,
}

/// How a property of a part to buy compares with a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Compares {
    /// At least.
    AtLeast,
    /// At most.
    AtMost,
    /// As it is.
    Equals,
}

impl Compares {
    /// As a rule file writes it.
    #[must_use]
    pub const fn sign(self) -> &'static str {
        match self {
            Compares::AtLeast => ">=",
            Compares::AtMost => "<=",
            Compares::Equals => "==",
        }
    }
}

/// One rule, or the words for one fault of form.
#[derive(Clone, Debug)]
pub struct Rule {
    /// Topic and name: `grip/short-grip`.
    pub id: String,
    /// The file it was read from.
    pub file: String,
    /// Names the fault.
    pub title: Arc<str>,
    /// Level of a failing judgement.
    pub level: Level,
    /// What it rests on.
    pub basis: Basis,
    /// What comes of ignoring it.
    pub consequence: Consequence,
    /// The rule within whose block the terminal shows it, when both speak of one tool.
    pub beside: Option<String>,
    /// Ends of the stick-out window that it takes part in.
    pub bounds: Vec<Bound>,
    /// A word for what binds there, for people: `grip`.
    pub binds: String,
    /// When it applies; always if absent.
    pub when: Option<Checked>,
    /// What must be so; a fault of form has none.
    pub expect: Option<Checked>,
    /// What is wrong, with values.
    pub message: Template,
    /// Why it matters.
    pub why: Template,
    /// What to do.
    pub advice: Template,
    /// What to do where the stick-out is settled by others; as `advice` if it says nothing.
    pub without_moving: Template,
    /// What is said beside any advice, whatever else takes the place of the rule's own.
    pub besides: Template,
    /// What to do where no stick-out meets the rule, if that is not a longer tool.
    pub where_none: String,
    /// What to beware of.
    pub caution: Template,
    /// What to say when it is not judged; else which fields are missing.
    pub unjudged: Template,
    /// Cases in which it is less bad.
    pub milder: Vec<Milder>,
    /// Cases in which assumptions do not lower it.
    pub certain: Vec<Certain>,
    /// Its own limits.
    pub limits: Vec<Limit>,
    /// Whether its subject is an assembly with one operation.
    pub of_operation: bool,
    /// Switched off by the shop.
    pub off: bool,
    /// What its answer stands for, beyond the finding.
    pub stands_for: StandsFor,
    /// What may correct it; empty where the rule does not say.
    pub cured_by: Vec<CuredBy>,
    /// What parts to buy must have.
    pub demands: Vec<Demand>,
    /// Properties that are doubted where it is not met: no part is sought for them.
    pub doubts: Vec<String>,
}

/// What the answer of a rule stands for besides its finding; a rule file says so, whatever its
/// name.
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is a key of its own in the rule file, and any may be set alone"
)]
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct StandsFor {
    /// Whoever is judged by it has its grip judged: `judges_grip = true`.
    pub grip: bool,
    /// Whoever is judged by it has its reach judged: `judges_reach = true`.
    pub reach: bool,
    /// Where it fails the record is wrong, and no advice is built on it: `stops_advice = true`.
    pub stop: bool,
    /// Whoever meets it fills the whole bore: `judges_full_grip = true`. The end of a full bore is
    /// shown under its name.
    pub full_grip: bool,
    /// What fails it can be no tool and no job, and no question about it is answered:
    /// `refuses_question = true`.
    pub nonsense: bool,
}

/// The topics of which nothing is accepted for good.
const DATED: [&str; 3] = ["grip", "holding", "torque"];

impl Rule {
    /// Whether it words a fault of form.
    #[must_use]
    pub fn is_fault(&self) -> bool {
        self.expect.is_none()
    }

    /// Whether it is about what is written down, and not about the tool: its topic is `record`.
    #[must_use]
    pub fn is_of_record(&self) -> bool {
        self.id.starts_with("record/")
    }

    /// Whether what it finds may be accepted only until a day: whatever is about grip, holding and
    /// torque, a shop's own rules with it, and wherever a tool may come out.
    #[must_use]
    pub fn needs_until(&self) -> bool {
        let topic = self.id.split('/').next().unwrap_or_default();
        DATED.contains(&topic) || self.consequence == Consequence::ToolMayComeOut
    }

    /// Whether what must hold names a fact, property or limit.
    #[must_use]
    pub fn names(&self, name: &str) -> bool {
        let mut names = self.expect.iter().flat_map(|expect| &expect.symbols);
        names.any(|(own, _)| own == name)
    }

    /// Whether it may be corrected by this.
    #[must_use]
    pub fn is_cured_by(&self, by: CuredBy) -> bool {
        self.cured_by.contains(&by)
    }

    /// Whether another stick-out or another part corrects it.
    #[must_use]
    pub fn is_of_setup(&self) -> bool {
        let of_setup = |by: &CuredBy| by.is_part() || *by == CuredBy::StickOut;
        self.cured_by.iter().any(of_setup)
    }

    /// Whether only the wrench corrects it: another torque, and no part.
    #[must_use]
    pub fn is_of_wrench(&self) -> bool {
        self.cured_by == [CuredBy::Torque]
    }

    /// Whether nothing but another part corrects it: neither stick-out nor torque nor cut.
    #[must_use]
    pub fn needs_part(&self) -> bool {
        !self.cured_by.is_empty() && self.cured_by.iter().all(|by| by.is_part())
    }

    /// The conditions and messages in it.
    pub fn expressions(&self) -> impl Iterator<Item = &Checked> {
        let conditions = self.when.iter().chain(self.expect.iter());
        let cases = self.milder.iter();
        let milder = cases.flat_map(|case| {
            let words = case.templates().flat_map(Template::expressions);
            std::iter::once(&case.when).chain(words)
        });
        let words = [
            &self.message,
            &self.why,
            &self.advice,
            &self.without_moving,
            &self.besides,
            &self.caution,
            &self.unjudged,
        ];
        let words = words.into_iter().flat_map(Template::expressions);
        let certain = self.certain.iter().map(|case| &case.when);
        conditions.chain(milder).chain(certain).chain(words)
    }
}

/// All rules and shared limits.
#[derive(Clone, Debug)]
pub struct Rulebook {
    /// The rules, sorted by id.
    pub rules: Vec<Rule>,
    /// The shared limits, sorted by name.
    pub limits: Vec<Limit>,
}

impl Rulebook {
    /// A rule by its id.
    #[must_use]
    pub fn rule(&self, id: &str) -> Option<&Rule> {
        self.rules.iter().find(|rule| rule.id == id)
    }

    /// A shared limit by its name.
    #[must_use]
    pub fn limit(&self, name: &str) -> Option<&Limit> {
        self.limits.iter().find(|limit| limit.name == name)
    }

    /// When values count as equal: the limits `length_tolerance` and `relative_tolerance`.
    #[must_use]
    pub fn tolerance(&self) -> Tolerance {
        let value = |name| self.limit(name).map_or(0.0, |limit| limit.value);
        Tolerance {
            length: value("length_tolerance"),
            relative: value("relative_tolerance"),
        }
    }
}
