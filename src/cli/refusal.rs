//! What the program cannot do, or cannot read: in one style, whoever finds it.

use crate::text::{quoted, visible};
use crate::write::{Look, Trouble, parted};

use super::args::OutputForm;
use super::output::complain;

/// What is wrong, and what to do about it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Refusal {
    what: String,
    /// Empty if there is nothing to say.
    hint: String,
}

impl Refusal {
    /// Of what is wrong, and of what to do.
    pub(super) fn new(what: impl Into<String>, hint: impl Into<String>) -> Refusal {
        Refusal {
            what: what.into(),
            hint: hint.into(),
        }
    }

    /// A name that there is not: the one that may be meant, or where all of them stand.
    pub(super) fn no_such(what: impl Into<String>, near: Option<&str>, all: &str) -> Refusal {
        let hint = near.map_or_else(
            || all.to_owned(),
            |near| format!("did you mean `{}`?", shown(near)),
        );
        Refusal::new(what, hint)
    }

    /// An option's value that cannot be read. A problem says what is wrong, and behind a semicolon
    /// what was expected; one that only says what was expected begins so.
    pub(super) fn unreadable(option: &str, value: &str, problem: &str) -> Refusal {
        let what = format!("{} `{}` cannot be read", shown(option), shown(value));
        match parted(problem) {
            (expected, "") if expected.starts_with("expected ") => Refusal::new(what, expected),
            (problem, hint) => Refusal::new(format!("{what}: {problem}"), hint),
        }
    }

    /// A form of output that only another command writes; `own` is one that this command does.
    pub(super) fn of_form(form: OutputForm, own: &[OutputForm]) -> Option<Refusal> {
        let hint = "`--as json` is for programs too";
        match form {
            form if own.contains(&form) => None,
            OutputForm::Sarif => Some(Refusal::new("only `lint` writes sarif", hint)),
            OutputForm::Svg => Some(Refusal::new(
                "only `window` draws svg",
                "`shankwise report` draws every tool of a library",
            )),
            OutputForm::Html => Some(Refusal::new(
                "only `window` answers with html",
                "`shankwise report` makes a page of a library",
            )),
            _ => None,
        }
    }

    /// In one line, for what other programs read.
    pub(super) fn message(&self) -> String {
        match self.hint.as_str() {
            "" => self.what.clone(),
            hint => format!("{}; {hint}", self.what),
        }
    }

    /// Tells it on standard error.
    pub(super) fn tell(&self, look: Look) {
        let trouble = Trouble::Said {
            what: &self.what,
            hint: &self.hint,
        };
        complain(&trouble, look);
    }
}

/// Text of an argument as a message may show it.
pub(super) fn shown(text: &str) -> String {
    visible(&quoted(text)).into_owned()
}
