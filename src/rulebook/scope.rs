//! What the names in a rule mean.

use crate::text::closest;

use super::limit::Limit;
use super::type_check::{Meaning, Names, Scope, Symbol, Type};

/// What the names in a rule mean: facts and properties, its own limits, the shared ones; in
/// the words for a fault of form what the fault brings along.
pub(super) struct RuleScope<'a> {
    pub names: &'a dyn Names,
    pub private: &'a [Limit],
    pub shared: &'a [Limit],
    pub words: Option<&'static [&'static str]>,
}

impl Scope for RuleScope<'_> {
    fn meaning(&self, name: &str) -> Result<Meaning, String> {
        if let Some(words) = self.words {
            return fault_word(words, name);
        }
        let limit = |limits: &[Limit]| limits.iter().position(|limit| limit.name == name);
        let of_limit = |symbol, limits: &[Limit], at: usize| Meaning {
            symbol,
            of_type: limits
                .get(at)
                .map_or(Type::Truth, |limit| Type::Number(limit.unit)),
            of_operation: false,
        };
        if let Some(at) = limit(self.private) {
            return Ok(of_limit(Symbol::Private(at), self.private, at));
        }
        if let Some(at) = limit(self.shared) {
            return Ok(of_limit(Symbol::Shared(at), self.shared, at));
        }
        if let Some(outside) = self.names.find(name) {
            return Ok(Meaning {
                symbol: Symbol::Outside(outside.id),
                of_type: outside.of_type,
                of_operation: outside.of_operation,
            });
        }
        if let Some(why) = self.names.ambiguous(name) {
            return Err(why);
        }
        let limits = self.private.iter().chain(self.shared);
        let all = self.names.all();
        let known = limits.map(|limit| limit.name.as_str());
        let known = known.chain(all.iter().map(String::as_str));
        Err(match closest(name, known) {
            Some(near) => format!("unknown name `{name}`; did you mean `{near}`?"),
            None => format!(
                "unknown name `{name}`; `shankwise columns` and `shankwise facts --list` name them all"
            ),
        })
    }
}

fn fault_word(words: &[&'static str], name: &str) -> Result<Meaning, String> {
    match words.iter().position(|word| *word == name) {
        Some(at) => Ok(Meaning {
            symbol: Symbol::Outside(u32::try_from(at).unwrap_or(u32::MAX)),
            of_type: Type::Text,
            of_operation: false,
        }),
        None => Err(format!(
            "this fault has no word `{name}`; it has: {}",
            words.join(", ")
        )),
    }
}
