//! What a shop says about how its files are to be read.

use crate::units::print::DisplayUnits;
use crate::units::{Asked, Spelling, Unit};

use super::{Framing, Own, OwnColumn};

/// What the shop says about how its files are to be read.
#[derive(Clone, Debug)]
pub struct ReadSettings {
    /// Name of the library, if the shop gives one.
    pub name: Option<String>,
    /// The sheet of a workbook that is the library, if the shop names one.
    pub sheet: Option<String>,
    /// Unit of lengths without unit.
    pub length: &'static Spelling,
    /// Unit of torques without unit, if there is a default.
    pub torque: Option<&'static Spelling>,
    /// Headers of its own and how their columns are read.
    pub columns: Vec<OwnColumn>,
    /// What it looks for in a table besides records.
    pub framing: Framing,
    /// What it says where the records are silent.
    pub own: Own,
    /// Where values stand, for who is to mend one.
    pub asked: Asked,
}

impl Default for ReadSettings {
    /// In millimetres, as a shop that says nothing; a torque needs its unit.
    fn default() -> ReadSettings {
        ReadSettings {
            name: None,
            sheet: None,
            length: Spelling::millimetre(),
            torque: None,
            columns: Vec::new(),
            framing: Framing::default(),
            own: Own::default(),
            asked: Asked::default(),
        }
    }
}

impl ReadSettings {
    fn is_inch(&self) -> bool {
        self.length.name == "in"
    }

    /// The unit of a bare number. An inch library has no default for torques and cutting
    /// speeds: both are stated in two systems on such floors.
    pub(super) fn default_unit(&self, unit: Unit) -> Option<&'static Spelling> {
        match unit {
            Unit::Mm => Some(self.length),
            Unit::Nm => self.torque,
            Unit::MPerMin if self.is_inch() => None,
            other => Spelling::find(other.symbol(), other),
        }
    }

    /// The document itself says in which unit its lengths are.
    pub(super) fn set_length(&mut self, length: &'static Spelling) {
        if length.name != self.length.name {
            // The default for torques belongs to the system of units that no longer holds.
            let metric = Spelling::find("N·m", Unit::Nm);
            let default = self.torque.map(|torque| torque.name) == metric.map(|torque| torque.name);
            if default || self.torque.is_none() {
                self.torque = metric.filter(|_| length.name == "mm");
            }
        }
        self.length = length;
    }

    pub(super) fn display(&self) -> DisplayUnits {
        let torque = match self.torque {
            Some(torque) => torque.name,
            None if self.is_inch() => "lbf·ft",
            None => "N·m",
        };
        let length = if self.is_inch() { "in" } else { "mm" };
        DisplayUnits::new(length, torque)
    }
}
