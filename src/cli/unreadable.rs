//! What could not be read, or cannot be judged by: told on standard error, and handed to whoever
//! writes the output.

use crate::judge::SetupError;
use crate::library::ReadError;
use crate::rulebook::RuleError;
use crate::text::Unreadable;
use crate::write::{Look, Trouble};

use super::output::complain;
use super::refusal::{Refusal, shown};

/// An input.
pub(super) fn of_input(error: &ReadError) -> Unreadable {
    Unreadable {
        file: Some(error.file.clone()),
        position: error.position,
        message: error.reason.clone(),
    }
}

fn of_rules(error: &RuleError) -> Unreadable {
    Unreadable {
        file: Some(error.file.clone()),
        position: Some(error.position),
        message: error.message.clone(),
    }
}

/// Why a library cannot be judged at all.
pub(super) fn of_setup(error: &SetupError) -> Vec<Unreadable> {
    match error {
        SetupError::Rules(errors) => errors.iter().map(of_rules).collect(),
        SetupError::NoSuchRule(wanted, near) => vec![Unreadable {
            file: None,
            position: None,
            message: no_such_rule(wanted, near.as_deref()).message(),
        }],
    }
}

/// A rule or topic that there is not.
pub(super) fn no_such_rule(wanted: &str, near: Option<&str>) -> Refusal {
    let what = format!("there is no rule or topic `{}`", shown(wanted));
    Refusal::no_such(what, near, "`shankwise rules` lists them")
}

/// Tells why a library cannot be judged at all.
pub(super) fn complain_setup(error: &SetupError, look: Look) {
    match error {
        SetupError::Rules(errors) => {
            for error in errors {
                complain(&Trouble::Rule(error), look);
            }
        }
        SetupError::NoSuchRule(wanted, near) => {
            no_such_rule(wanted, near.as_deref()).tell(look);
        }
    }
}
