//! `shankwise rules`: the catalogue.

use std::path::Path;

use crate::rulebook::{Rule, Rulebook};
use crate::text::closest;
use crate::write::{self, Trouble, catalogue, shop_files_line, to_json_line};

use super::COULD_NOT;
use super::args::{CatalogueForm, RulesArgs};
use super::output::{complain, look_of, write};
use super::refusal::Refusal;
use super::setup::HERE;
use super::unreadable::{complain_setup, no_such_rule};

/// Lists the rules or those of a topic, or explains one.
pub(super) fn run(arguments: &RulesArgs) -> u8 {
    let look = look_of(arguments.colour.color, None);
    let (book, files) = match arguments.setup.load(Path::new(HERE)) {
        Ok(setup) => {
            // A rule that is not read is not in the list either, and the list does not show it.
            for input in &setup.unread {
                complain(&Trouble::Unread(input), look);
            }
            (setup.book, setup.files)
        }
        Err(error) => {
            complain_setup(&error, look);
            return COULD_NOT;
        }
    };
    let asked = arguments.rule.as_deref();
    let rules = chosen(&book, asked);
    if let (Some(asked), []) = (asked, rules.as_slice()) {
        no_such(asked, &book).tell(look);
        return COULD_NOT;
    }
    let text = match (arguments.form, rules.as_slice()) {
        (CatalogueForm::Json, rules) => to_json_line(&write::rules_json(rules, &book)),
        (CatalogueForm::Markdown, rules) => catalogue::markdown(rules, &book),
        (CatalogueForm::Text, [rule]) if asked == Some(&rule.id) => {
            catalogue::explain(rule, &book) + &shop_files_line(&files)
        }
        (CatalogueForm::Text, rules) => {
            catalogue::list(rules, &book, look) + &shop_files_line(&files)
        }
    };
    write(&text, look)
}

/// The rule of this name, else the rules of this topic; all, if nothing is asked.
fn chosen<'b>(book: &'b Rulebook, asked: Option<&str>) -> Vec<&'b Rule> {
    let Some(asked) = asked else {
        return book.rules.iter().collect();
    };
    if let Some(rule) = book.rule(asked) {
        return vec![rule];
    }
    let asked = asked.strip_suffix('/').unwrap_or(asked);
    let of_topic = |rule: &&Rule| topic(rule) == asked;
    book.rules.iter().filter(of_topic).collect()
}

fn topic(rule: &Rule) -> &str {
    rule.id.split('/').next().unwrap_or_default()
}

fn no_such(asked: &str, book: &Rulebook) -> Refusal {
    let names = book
        .rules
        .iter()
        .flat_map(|rule| [rule.id.as_str(), topic(rule)]);
    no_such_rule(asked, closest(asked, names))
}
