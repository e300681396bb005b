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
    let mut maker = Maker {
        rule,
        original: variants::table(&rule.id),
        mutants: Vec::new(),
    };
    maker.conditions("expect", &["true", "false"]);
    maker.conditions("when", &["true"]);
    for at in 0..rule.milder.len() {
        maker.milder(at);
    }
    for at in 0..rule.certain.len() {
        maker.certain(at);
    }
    maker.limits();
    maker.mutants
}

/// Collects the mutants of one rule.
struct Maker<'a> {
    rule: &'a Rule,
    original: Table,
    mutants: Vec<Mutant>,
}

impl Maker<'_> {
    fn add(&mut self, what: String, change: impl FnOnce(&mut Table)) {
        let mut file = self.original.clone();
        change(&mut file);
        self.mutants.push(Mutant {
            rule: self.rule.id.clone(),
            what,
            file,
        });
    }

    /// `when` or `expect`, if the rule has it.
    fn conditions(&mut self, key: &str, texts: &[&str]) {
        let Some(condition) = self.original.get(key).map(text) else {
            return;
        };
        for &text in texts {
            self.add(format!("{key} = {text}"), |file| file[key] = text.into());
        }
        for (what, strict) in bounds(&condition) {
            self.add(format!("bound {what} in {key}"), |file| {
                file[key] = strict.into();
            });
        }
    }

    fn milder(&mut self, at: usize) {
        for text in ["true", "false"] {
            self.add(format!("milder {at} when = {text}"), |file| {
                file["milder"][at]["when"] = text.into();
            });
        }
        self.add(format!("milder {at} removed"), |file| {
            if let Some(Value::Array(cases)) = file.get_mut("milder") {
                cases.remove(at);
            }
        });
        for (what, strict) in bounds(&text(&self.original["milder"][at]["when"])) {
            self.add(format!("bound {what} in milder {at}"), |file| {
                file["milder"][at]["when"] = strict.into();
            });
        }
    }

    fn certain(&mut self, at: usize) {
        for text in ["true", "false"] {
            self.add(format!("certain {at} when = {text}"), |file| {
                file["certain"][at]["when"] = text.into();
            });
        }
        self.add(format!("certain {at} removed"), |file| {
            if let Some(Value::Array(cases)) = file.get_mut("certain") {
                cases.remove(at);
            }
        });
        let case = self.original["certain"][at].clone();
        for (place, name) in case["despite"].as_array().into_iter().flatten().enumerate() {
            self.add(format!("certain {at} without {name}"), |file| {
                if let Value::Array(names) = &mut file["certain"][at]["despite"] {
                    names.remove(place);
                }
            });
        }
        for (what, strict) in bounds(&text(&case["when"])) {
            self.add(format!("bound {what} in certain {at}"), |file| {
                file["certain"][at]["when"] = strict.into();
            });
        }
    }

    fn limits(&mut self) {
        for limit in &self.rule.limits {
            for factor in MOVES {
                self.add(format!("limit {} x {factor}", limit.name), |file| {
                    file["limit"][limit.name.as_str()]["value"] = (limit.value * factor).into();
                });
            }
        }
    }
}

fn text(value: &Value) -> String {
    value.as_str().expect("a condition is text").to_owned()
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
