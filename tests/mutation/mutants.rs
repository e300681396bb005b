//! What can be done to a rule.

use shankwise::judge::Setup;
use shankwise::rulebook::Rule;
use toml::{Table, Value};

use crate::rule_fixtures::variants;

/// How a limit is moved: 2 % either way.
pub(super) const MOVES: [f64; 2] = [0.98, 1.02];

/// A rule with one thing changed.
pub(super) struct Mutant {
    rule: String,
    /// What was changed.
    pub what: String,
    file: Table,
}

impl Mutant {
    /// The built-in rules with this one instead of its original.
    pub fn setup(&self) -> Setup {
        variants::setup(&self.rule, &self.file)
    }
}

/// All mutants of a rule. A fault of form has no condition, but its milder cases have.
pub(super) fn of(rule: &Rule) -> Vec<Mutant> {
    let original = variants::table(&rule.id);
    let mut mutants = Vec::new();
    let mut add = |what: String, change: &dyn Fn(&mut Table)| {
        let mut file = original.clone();
        change(&mut file);
        mutants.push(Mutant {
            rule: rule.id.clone(),
            what,
            file,
        });
    };
    for (key, texts) in [("expect", &["true", "false"][..]), ("when", &["true"])] {
        if !original.contains_key(key) {
            continue;
        }
        for text in texts {
            add(format!("{key} = {text}"), &|file| {
                file[key] = (*text).into();
            });
        }
        for (what, changed) in bounds(original[key].as_str().unwrap_or("")) {
            add(format!("bound {what} in {key}"), &|file| {
                file[key] = changed.clone().into();
            });
        }
    }
    for at in 0..rule.milder.len() {
        for text in ["true", "false"] {
            add(format!("milder {at} when = {text}"), &|file| {
                file["milder"][at]["when"] = text.into();
            });
        }
        add(format!("milder {at} removed"), &|file| {
            if let Some(Value::Array(cases)) = file.get_mut("milder") {
                cases.remove(at);
            }
        });
        for (what, changed) in bounds(original["milder"][at]["when"].as_str().unwrap_or("")) {
            add(format!("bound {what} in milder {at}"), &|file| {
                file["milder"][at]["when"] = changed.clone().into();
            });
        }
    }
    for limit in &rule.limits {
        for factor in MOVES {
            add(format!("limit {} x {factor}", limit.name), &|file| {
                file["limit"][limit.name.as_str()]["value"] = (limit.value * factor).into();
            });
        }
    }
    mutants
}

/// The condition with each of its `>=` and `<=` made strict, one at a time.
///
/// None is excused: values within the tolerance count as equal, so that for every such
/// comparison there is a case in which both sides are.
fn bounds(condition: &str) -> Vec<(String, String)> {
    let signs = [">=", "<="].into_iter();
    let found = signs.flat_map(|sign| condition.match_indices(sign));
    let strict = found.map(|(at, sign)| {
        let (before, behind) = condition.split_at(at);
        let changed = format!("{before}{}{}", &sign[..1], &behind[sign.len()..]);
        (format!("{sign} at {at}"), changed)
    });
    strict.collect()
}
