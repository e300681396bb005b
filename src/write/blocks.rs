//! Which findings make one block, which one line, and in which order.

use std::collections::HashMap;

use crate::judge::{Finding, FindingPlace, Outcome, fault_kind};

/// A finding with those that stand beside it.
pub(super) struct Block<'r> {
    /// The finding whose block it is.
    pub head: &'r Finding,
    /// Findings shown within it.
    pub beside: Vec<&'r Finding>,
}

/// Blocks of the findings that `wanted` takes, in their order.
pub(super) fn blocks<'r>(
    findings: &'r [Finding],
    wanted: impl Fn(&Finding) -> bool,
) -> Vec<Block<'r>> {
    let shown: Vec<&Finding> = findings.iter().filter(|finding| wanted(finding)).collect();
    let mut of_rule: HashMap<(Option<usize>, &str), Vec<usize>> = HashMap::new();
    for (at, finding) in shown.iter().enumerate() {
        let key = (finding.assembly_index, finding.rule.as_str());
        of_rule.entry(key).or_default().push(at);
    }
    let host = |finding: &Finding| {
        let key = (finding.assembly_index, finding.beside.as_deref()?);
        let hosts = of_rule.get(&key)?.iter().copied();
        let mut hosts = hosts.filter(|at| {
            let host = shown.get(*at);
            host.is_some_and(|host| host.operation.is_none() || host.operation == finding.operation)
        });
        hosts.next()
    };
    let mut blocks: Vec<Block<'r>> = Vec::new();
    let mut block_of: HashMap<usize, usize> = HashMap::new();
    for (at, finding) in shown.iter().enumerate() {
        if host(finding).is_none() {
            block_of.insert(at, blocks.len());
            blocks.push(Block {
                head: finding,
                beside: Vec::new(),
            });
        }
    }
    for finding in &shown {
        let block = host(finding).and_then(|host| block_of.get(&host));
        if let Some(block) = block.and_then(|block| blocks.get_mut(*block)) {
            block.beside.push(finding);
        }
    }
    blocks
}

/// Findings that say the same of several tools.
pub(super) struct Line<'r> {
    /// The first of them.
    pub first: &'r Finding,
    /// What is said beside it, of the same tool.
    pub beside: Vec<&'r Finding>,
    /// The tools.
    pub tools: Vec<&'r str>,
    /// Where, file by file.
    pub places: Vec<(&'r str, Vec<usize>)>,
}

/// One line for all findings of a rule that say the same words, and have the same beside them.
pub(super) fn lines<'r>(
    findings: &'r [Finding],
    wanted: impl Fn(&Finding) -> bool,
) -> Vec<Line<'r>> {
    let mut lines: Vec<Line<'r>> = Vec::new();
    for block in blocks(findings, wanted) {
        match lines.iter_mut().find(|line| line.says(&block)) {
            Some(line) => line.add(block.head),
            None => {
                let mut line = Line {
                    first: block.head,
                    beside: block.beside,
                    tools: Vec::new(),
                    places: Vec::new(),
                };
                line.add(line.first);
                lines.push(line);
            }
        }
    }
    lines
}

fn same_words(a: &Finding, b: &Finding) -> bool {
    a.rule == b.rule && a.message == b.message && a.assumptions == b.assumptions
}

impl<'r> Line<'r> {
    fn says(&self, block: &Block<'_>) -> bool {
        let mut beside = self.beside.iter().zip(&block.beside);
        same_words(self.first, block.head)
            && self.beside.len() == block.beside.len()
            && beside.all(|(a, b)| same_words(a, b))
    }

    /// All its findings that differ in words, the first of them first.
    pub(super) fn findings(&self) -> impl Iterator<Item = &'r Finding> {
        std::iter::once(self.first).chain(self.beside.iter().copied())
    }

    fn add(&mut self, finding: &'r Finding) {
        push_new(&mut self.tools, finding.tool_number.as_deref());
        if let Some(place) = finding.places.first() {
            add_place(&mut self.places, place);
        }
    }
}

fn push_new<'r>(list: &mut Vec<&'r str>, item: Option<&'r str>) {
    if let Some(item) = item
        && !list.contains(&item)
    {
        list.push(item);
    }
}

fn add_place<'r>(places: &mut Vec<(&'r str, Vec<usize>)>, place: &'r FindingPlace) {
    match places.iter_mut().find(|(file, _)| *file == place.file) {
        Some((_, lines)) if lines.contains(&place.line) => {}
        Some((_, lines)) => lines.push(place.line),
        None => places.push((&place.file, vec![place.line])),
    }
}

/// How a value is missing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum State {
    /// Nothing stands there.
    NotStated,
    /// What stands there is no value.
    Unreadable,
    /// There is a guess, which is not enough.
    Assumed,
}

/// A record that lacks values, and what waits for them.
pub(super) struct Gap<'r> {
    /// The record.
    pub place: &'r FindingPlace,
    /// The values.
    pub fields: Vec<(&'r str, State)>,
    /// The tools that wait.
    pub tools: Vec<&'r str>,
    /// The rules that wait.
    pub rules: Vec<&'r str>,
}

/// What is not judged, by the record whose values would decide it.
pub(super) fn gaps(findings: &[Finding]) -> Vec<Gap<'_>> {
    let mut gaps: Vec<Gap<'_>> = Vec::new();
    let open = findings
        .iter()
        .filter(|finding| finding.accepted.is_none() && finding.outcome == Outcome::NotJudged);
    for finding in open {
        for place in finding.places.iter().filter(|place| place.absent) {
            let at = gaps.iter().position(|gap| gap.is_at(place));
            let at = at.unwrap_or_else(|| {
                gaps.push(Gap::new(place));
                gaps.len() - 1
            });
            if let Some(gap) = gaps.get_mut(at) {
                gap.add(place, finding, findings);
            }
        }
    }
    gaps
}

impl<'r> Gap<'r> {
    fn new(place: &'r FindingPlace) -> Gap<'r> {
        Gap {
            place,
            fields: Vec::new(),
            tools: Vec::new(),
            rules: Vec::new(),
        }
    }

    fn is_at(&self, place: &FindingPlace) -> bool {
        (&self.place.file, self.place.line) == (&place.file, place.line)
    }

    fn add(&mut self, place: &'r FindingPlace, finding: &'r Finding, all: &[Finding]) {
        if !self.fields.iter().any(|(field, _)| *field == place.field) {
            self.fields.push((
                &place.field,
                state(place, finding.tool_number.as_deref(), all),
            ));
        }
        push_new(&mut self.tools, finding.tool_number.as_deref());
        let rule = Some(finding.rule.as_str()).filter(|id| !id.starts_with("record/"));
        push_new(&mut self.rules, rule);
    }

    /// Names of the values that are missing in one way.
    pub(super) fn fields_that_are(&self, state: State) -> Vec<&'r str> {
        let fields = self.fields.iter().filter(|(_, of)| *of == state);
        fields.map(|(field, _)| *field).collect()
    }
}

/// Whether there is a guess, or a cell that could not be read, where a value is missing.
fn state(missing: &FindingPlace, tool: Option<&str>, findings: &[Finding]) -> State {
    let here = |finding: &&Finding| {
        let place = finding.places.first();
        place.is_some_and(|place| {
            // The cells of an XML record may stand on lines of their own.
            let same_tool = tool.is_some() && finding.tool_number.as_deref() == tool;
            let same = (&place.file, &place.field) == (&missing.file, &missing.field);
            same && (place.line == missing.line || same_tool)
        })
    };
    let of = |rules: &[&str]| {
        let named = findings.iter().filter(|f| rules.contains(&f.rule.as_str()));
        named.into_iter().any(|finding| here(&finding))
    };
    let cells = [
        fault_kind::CELL_UNREADABLE,
        fault_kind::UNIT_MISSING,
        fault_kind::NEGATIVE_LENGTH,
        fault_kind::STATED_TWO_WAYS,
    ];
    if of(&[fault_kind::VALUE_ASSUMED]) {
        State::Assumed
    } else if of(&cells) {
        State::Unreadable
    } else {
        State::NotStated
    }
}
