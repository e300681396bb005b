//! What is not judged, by the record whose values would decide it.

use std::collections::{BTreeMap, BTreeSet, HashMap, HashSet};
use std::hash::{DefaultHasher, Hash, Hasher};

use crate::sheet::{Finding, FindingPlace, Lack};

use super::super::wrap::{line_spot, list, name, tools, wrapped};
use super::kept::{Left, Order};

/// Where a value comes: which finding waits for it, and which of the finding's places it is.
type Nth = (Order, usize);

/// A record that lacks values, and what waits for them; each with where it comes first.
struct Gap {
    first: Nth,
    place: FindingPlace,
    /// The values.
    fields: Vec<(Nth, String, Lack)>,
    /// The tools that wait.
    tools: HashMap<String, Order>,
    last_tool: String,
    more_tools: usize,
    /// The rules that wait.
    rules: Vec<(Order, String)>,
    /// How many judgements of each rule wait.
    counts: Vec<(String, usize)>,
}

/// What is not judged in a whole library: the first records in full, of the rest how many there
/// are and which rules wait for them.
pub(super) struct Waiting {
    most: usize,
    kept: HashMap<u64, Gap>,
    /// Where each gap comes first, and which it is: the last is the first to go.
    order: BTreeSet<(Nth, u64)>,
    gone: HashSet<u64>,
    left: Left,
    more: BTreeMap<String, usize>,
}

impl Waiting {
    pub(super) fn of(most: usize) -> Waiting {
        Waiting {
            most,
            kept: HashMap::new(),
            order: BTreeSet::new(),
            gone: HashSet::new(),
            left: Left::default(),
            more: BTreeMap::new(),
        }
    }

    /// Takes a finding that waits for something.
    pub(super) fn add(&mut self, at: Order, finding: &Finding) {
        let places = finding.places.iter().enumerate();
        for (nth, place) in places.filter(|(_, place)| place.absent) {
            let key = key(place);
            if self.gone.contains(&key) {
                *self.more.entry(finding.rule.clone()).or_default() += 1;
                continue;
            }
            let at = (at, nth);
            let known = self.kept.entry(key);
            let gap = known.or_insert_with(|| {
                self.order.insert((at, key));
                Gap::new(at, place)
            });
            if at < gap.first {
                self.order.remove(&(gap.first, key));
                self.order.insert((at, key));
                gap.first = at;
                gap.place.clone_from(place);
            }
            gap.add(at, place, finding, self.most);
            self.keep_few();
        }
    }

    fn keep_few(&mut self) {
        if self.kept.len() <= self.most {
            return;
        }
        let Some((_, key)) = self.order.pop_last() else {
            return;
        };
        self.gone.insert(key);
        if let Some(gap) = self.kept.remove(&key) {
            let counts = gap.counts.iter();
            self.left
                .add(counts.map(|(rule, count)| (rule.as_str(), *count)));
        }
    }

    /// One line a record.
    pub(super) fn text(mut self) -> String {
        let mut text = String::new();
        for (_, key) in std::mem::take(&mut self.order) {
            if let Some(gap) = self.kept.remove(&key) {
                text.push_str(&wrapped(&gap.words(), 2, 6));
            }
        }
        let more = self.more.iter();
        self.left
            .also(more.map(|(rule, count)| (rule.as_str(), *count)));
        if let Some(words) = self.left.words(["record", "records"]) {
            text.push_str(&wrapped(&words, 2, 6));
        }
        text
    }
}

/// Which record: its file, sheet and line.
fn key(place: &FindingPlace) -> u64 {
    let mut hasher = DefaultHasher::new();
    place.line_key().hash(&mut hasher);
    hasher.finish()
}

impl Gap {
    fn new(first: Nth, place: &FindingPlace) -> Gap {
        Gap {
            first,
            place: place.clone(),
            fields: Vec::new(),
            tools: HashMap::new(),
            last_tool: String::new(),
            more_tools: 0,
            rules: Vec::new(),
            counts: Vec::new(),
        }
    }

    fn add(&mut self, at: Nth, place: &FindingPlace, finding: &Finding, most: usize) {
        let mut fields = self.fields.iter_mut();
        match fields.find(|(_, field, _)| *field == place.field) {
            Some(known) if at < known.0 => (known.0, known.2) = (at, place.lack),
            Some(_) => {}
            None => self.fields.push((at, place.field.clone(), place.lack)),
        }
        if let Some(tool) = &finding.tool_number {
            self.add_tool(at.0, tool, most);
        }
        if !finding.rule.starts_with("record/") {
            match self
                .rules
                .iter_mut()
                .find(|(_, rule)| *rule == finding.rule)
            {
                Some(known) => known.0 = known.0.min(at.0),
                None => self.rules.push((at.0, finding.rule.clone())),
            }
        }
        let mut counts = self.counts.iter_mut();
        match counts.find(|(rule, _)| *rule == finding.rule) {
            Some((_, count)) => *count += 1,
            None => self.counts.push((finding.rule.clone(), 1)),
        }
    }

    fn add_tool(&mut self, at: Order, tool: &str, most: usize) {
        if let Some(known) = self.tools.get_mut(tool) {
            *known = at.min(*known);
        } else if self.tools.len() < most {
            self.tools.insert(tool.to_owned(), at);
        } else if self.last_tool != tool {
            self.more_tools += 1;
            tool.clone_into(&mut self.last_tool);
        }
    }

    fn words(mut self) -> String {
        self.fields.sort_by_key(|(at, ..)| *at);
        let states = [
            (Lack::NotStated, "not stated"),
            (Lack::Unreadable, "cannot be read"),
            (Lack::Assumed, "only assumed"),
        ];
        let missing: Vec<String> = states
            .into_iter()
            .filter_map(|(lack, words)| {
                let fields = self.fields.iter().filter(|(.., of)| *of == lack);
                let fields: Vec<&str> = fields.map(|(_, field, _)| field.as_str()).collect();
                (!fields.is_empty()).then(|| format!("{} {words}", list(&fields)))
            })
            .collect();
        let of = self.tools.iter();
        let all = sorted(of.map(|(tool, at)| (*at, tool.as_str())).collect());
        let own = format!("tool {}", all.first().copied().unwrap_or_default());
        let waiting = match all.as_slice() {
            [_] if self.place.record == own => String::new(),
            many if self.more_tools == 0 => format!("; in {}", tools(many)),
            many => format!("; in {} and {} more", tools(many), self.more_tools),
        };
        let of = self.rules.iter();
        let rules = sorted(of.map(|(at, rule)| (*at, rule.as_str())).collect());
        let rules = match rules.as_slice() {
            [] => String::new(),
            rules => format!("; needed for {}", list(rules)),
        };
        format!(
            "{} {}: {}{waiting}{rules}",
            line_spot(&self.place),
            name(&self.place.record),
            missing.join("; "),
        )
    }
}

fn sorted(mut names: Vec<(Order, &str)>) -> Vec<&str> {
    names.sort_unstable();
    names.into_iter().map(|(_, name)| name).collect()
}
