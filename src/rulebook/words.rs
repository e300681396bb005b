//! The closed lists of words that a rule uses: level, basis, consequence, bound.

use schemars::JsonSchema;
use serde::Deserialize;

/// How bad a finding is; the levels of SARIF.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize, JsonSchema)]
#[serde(rename_all = "lowercase")]
pub enum Level {
    /// Worth knowing.
    Note,
    /// Should be changed.
    Warning,
    /// Must not be posted.
    Error,
}

impl Level {
    /// The level one below; a note stays a note.
    #[must_use]
    pub fn lowered(self) -> Level {
        match self {
            Level::Error => Level::Warning,
            Level::Warning | Level::Note => Level::Note,
        }
    }

    /// The level as rule files, options and JSON write it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Level::Note => "note",
            Level::Warning => "warning",
            Level::Error => "error",
        }
    }
}

/// What a rule or limit rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
pub enum Basis {
    /// Printed in a standard.
    #[serde(rename = "standard")]
    Standard,
    /// Printed in a textbook or handbook.
    #[serde(rename = "textbook")]
    Textbook,
    /// What the record states as its manufacturer's limit.
    #[serde(rename = "manufacturer's limit")]
    Manufacturer,
    /// A fact of the trade, no source.
    #[serde(rename = "common practice")]
    CommonPractice,
    /// From memory, unconfirmed.
    #[serde(rename = "from memory")]
    FromMemory,
    /// Set by the shop.
    #[serde(rename = "shop")]
    Shop,
}

impl Basis {
    /// All of them.
    pub const ALL: [Basis; 6] = [
        Basis::Standard,
        Basis::Textbook,
        Basis::Manufacturer,
        Basis::CommonPractice,
        Basis::FromMemory,
        Basis::Shop,
    ];

    /// The basis as rule files write it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Basis::Standard => "standard",
            Basis::Textbook => "textbook",
            Basis::Manufacturer => "manufacturer's limit",
            Basis::CommonPractice => "common practice",
            Basis::FromMemory => "from memory",
            Basis::Shop => "shop",
        }
    }
}

/// What may correct what a rule finds; a rule file says so: `cured_by = ["bore", "holder"]`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename_all = "kebab-case")]
pub enum CuredBy {
    /// Another stick-out.
    StickOut,
    /// The stop behind the tool set elsewhere.
    Stop,
    /// A cutter of other lengths.
    Length,
    /// A cutter of another kind, shank or material.
    Cutter,
    /// Another collet.
    Bore,
    /// Another nut.
    Nut,
    /// Another holder.
    Holder,
    /// Another torque on the nut.
    Torque,
    /// Another cut.
    Cut,
}

impl CuredBy {
    /// Whether it exchanges a part of the assembly.
    #[must_use]
    pub const fn is_part(self) -> bool {
        !matches!(
            self,
            CuredBy::StickOut | CuredBy::Stop | CuredBy::Torque | CuredBy::Cut
        )
    }
}

/// What comes of ignoring a finding; findings are sorted by it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Deserialize, JsonSchema)]
pub enum Consequence {
    /// The tool may slip or be thrown out.
    #[serde(rename = "tool may come out")]
    ToolMayComeOut,
    /// Part, collet, holder or machine are damaged.
    #[serde(rename = "part or holder damaged")]
    Damage,
    /// The part is scrap.
    #[serde(rename = "scrap")]
    Scrap,
    /// The library is untidy.
    #[serde(rename = "tidiness")]
    Tidiness,
}

impl Consequence {
    /// All of them, the worst first.
    pub const ALL: [Consequence; 4] = [
        Consequence::ToolMayComeOut,
        Consequence::Damage,
        Consequence::Scrap,
        Consequence::Tidiness,
    ];

    /// The consequence as rule files write it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Consequence::ToolMayComeOut => "tool may come out",
            Consequence::Damage => "part or holder damaged",
            Consequence::Scrap => "scrap",
            Consequence::Tidiness => "tidiness",
        }
    }
}

/// An end of the stick-out window that a rule takes part in.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
pub enum Bound {
    /// The least stick-out.
    #[serde(rename = "stick_out_min")]
    StickOutMin,
    /// The greatest stick-out.
    #[serde(rename = "stick_out_max")]
    StickOutMax,
}

impl Bound {
    /// The end as rule files and JSON write it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Bound::StickOutMin => "stick_out_min",
            Bound::StickOutMax => "stick_out_max",
        }
    }
}
