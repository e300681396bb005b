//! What could not be read, or cannot be judged by: told on standard error, and handed to whoever
//! writes the output.

use crate::judge::SetupError;
use crate::library::ReadError;
use crate::rulebook::RuleError;
use crate::text::Unreadable;
use crate::write::{Look, Trouble};

use super::options::shown;
use super::output::complain;

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
            message: no_such_rule(wanted, near.as_deref()),
        }],
    }
}

fn no_such_rule(wanted: &str, near: Option<&str>) -> String {
    let hint = match near {
        Some(near) => format!("did you mean `{near}`?"),
        None => "`shankwise rules` lists them".to_owned(),
    };
    format!("there is no rule or topic `{}`; {hint}", shown(wanted))
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
            let message = no_such_rule(wanted, near.as_deref());
            complain(&Trouble::Other(&message), look);
        }
    }
}
