//! By what a library was judged, and when: who keeps reports can tell whether two are comparable.

use super::run::Options;
use super::setup::Setup;

/// What a run was made with, as plain data.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RunRecord {
    /// The day by which it was judged, `2027-01-31`.
    pub day: String,
    /// SHA-256 of the parsed rules and shared limits, before the shop changes them.
    pub rules_sha256: String,
    /// SHA-256 of what the shop files say, if there is one.
    pub config_sha256: Option<String>,
    /// How many rules there are, those that are switched off or left out among them.
    pub rules: usize,
    /// Whether findings that rest on assumptions keep their level.
    pub strict: bool,
    /// The least level that fails.
    pub fail_on: &'static str,
    /// The rules and topics that alone are asked for; all if empty.
    pub only: Vec<String>,
    /// The rules and topics that are left out.
    pub except: Vec<String>,
}

impl RunRecord {
    pub(super) fn of(setup: &Setup, options: &Options) -> RunRecord {
        RunRecord {
            day: options.today.to_string(),
            rules_sha256: setup.rules_sha256().to_owned(),
            config_sha256: setup.config_sha256.clone(),
            rules: setup.book.rules.len(),
            strict: options.strict,
            fail_on: options.fail_on.name(),
            only: options.selection.only.clone(),
            except: options.selection.except.clone(),
        }
    }
}
