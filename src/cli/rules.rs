//! `shankwise rules`: the catalogue.

use crate::judge::Setup;
use crate::text::closest;
use crate::write::{Look, Trouble, catalogue};

use super::args::{CatalogueForm, RulesArgs};
use super::judged::complain_setup;
use super::options::shown;
use super::output::{complain, write};
use super::{COULD_NOT, NOTHING_FAILS};

/// Lists the rules, or explains one.
pub(super) fn run(arguments: &RulesArgs) -> u8 {
    let options = &arguments.setup;
    let setup = Setup::load(
        None,
        options.config.as_deref(),
        &options.rules,
        !options.no_built_in,
    );
    let book = match setup {
        Ok(setup) => {
            // A rule that is not read is not in the list either, and the list does not show it.
            for input in &setup.unread {
                let message = format!("{} {}", input.file, input.reason);
                complain(&Trouble::Other(&message), Look::Drawn);
            }
            setup.book
        }
        Err(error) => {
            complain_setup(&error, Look::Drawn);
            return COULD_NOT;
        }
    };
    let text = match &arguments.rule {
        None if arguments.form == CatalogueForm::Markdown => catalogue::markdown(&book),
        None => catalogue::list(&book),
        Some(id) => match book.rule(id) {
            Some(rule) => catalogue::explain(rule, &book),
            None => {
                let near = closest(id, book.rules.iter().map(|rule| rule.id.as_str()));
                let hint = match near {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => "`shankwise rules` lists them".to_owned(),
                };
                let message = format!("there is no rule `{}`; {hint}", shown(id));
                complain(&Trouble::Other(&message), Look::Drawn);
                return COULD_NOT;
            }
        },
    };
    if write(&text) {
        NOTHING_FAILS
    } else {
        COULD_NOT
    }
}
