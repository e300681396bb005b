//! `shankwise rules`: the catalogue.

use std::fmt::Write as _;

use crate::judge::Setup;
use crate::rulebook::{Limit, Rule, Rulebook};
use crate::text::closest;
use crate::write::{Look, Trouble};

use super::args::RulesArgs;
use super::lint::complain_setup;
use super::output::{complain, write};
use super::{COULD_NOT, HOLDS};

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
        Ok(setup) => setup.book,
        Err(error) => {
            complain_setup(&error, Look::Drawn);
            return COULD_NOT;
        }
    };
    let text = match &arguments.rule {
        None => list(&book),
        Some(id) => match book.rule(id) {
            Some(rule) => explain(rule),
            None => {
                let near = closest(id, book.rules.iter().map(|rule| rule.id.as_str()));
                let hint = match near {
                    Some(near) => format!("did you mean `{near}`?"),
                    None => "`shankwise rules` lists them".to_owned(),
                };
                let message = format!("there is no rule `{id}`; {hint}");
                complain(&Trouble::Other(&message), Look::Drawn);
                return COULD_NOT;
            }
        },
    };
    if write(&text, None) { HOLDS } else { COULD_NOT }
}

fn list(book: &Rulebook) -> String {
    let mut text = String::new();
    for rule in &book.rules {
        let level = if rule.off { "off" } else { rule.level.name() };
        // Writing to a String cannot fail, here and below.
        let _ = writeln!(text, "{:<8} {:<32} {}", level, rule.id, rule.title);
    }
    let _ = writeln!(text, "\nShared limits:");
    for limit in &book.limits {
        limit_line(&mut text, limit);
    }
    let _ = writeln!(text, "\n`shankwise rules RULE` explains one.");
    text
}

fn limit_line(text: &mut String, limit: &Limit) {
    let unit = match limit.unit.symbol() {
        "1" => String::new(),
        symbol => format!(" {symbol}"),
    };
    let source = match limit.source.as_str() {
        "" => String::new(),
        source => format!("; {source}"),
    };
    let _ = writeln!(
        text,
        "  {} = {}{unit} ({}{source}): {}",
        limit.name,
        limit.written,
        limit.basis.name(),
        limit.reason
    );
}

fn explain(rule: &Rule) -> String {
    let mut text = String::new();
    let level = if rule.off { "off" } else { rule.level.name() };
    let _ = writeln!(text, "{}: {}", rule.id, rule.title);
    let _ = writeln!(
        text,
        "  level {level}; basis: {}; if ignored: {}",
        rule.basis.name(),
        rule.consequence.name()
    );
    if let Some(when) = &rule.when {
        let _ = writeln!(text, "  applies when   {}", when.text);
    }
    match &rule.expect {
        Some(expect) => {
            let _ = writeln!(text, "  must hold      {}", expect.text);
        }
        None => {
            let _ = writeln!(text, "  raised while reading the library");
        }
    }
    for milder in &rule.milder {
        let _ = writeln!(
            text,
            "  {} when   {}",
            milder.level.name(),
            milder.when.text
        );
    }
    for limit in &rule.limits {
        limit_line(&mut text, limit);
    }
    for (label, template) in [
        ("says", &rule.message),
        ("why", &rule.why),
        ("advice", &rule.advice),
        ("caution", &rule.caution),
    ] {
        if !template.is_empty() {
            let _ = writeln!(text, "  {label}: {}", template.written());
        }
    }
    let _ = writeln!(text, "  file: {}", rule.file);
    text
}
