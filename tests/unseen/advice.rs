//! All advice of one tool can be followed at once.

use std::collections::BTreeMap;

use rayon::prelude::*;
use shankwise::advice::{Advice, advise};
use shankwise::judge::{Finding, Judge, Outcome, Report, Ruling, Setup, judge};
use shankwise::library::{Assembly, Field, Library, Overrides};
use shankwise::rulebook::Level;

use super::row::flat;
use super::rows::rows;
use super::{Units, read};
use crate::support::{built_in, options};

/// Rows of one library: small enough for its own stock to be looked through for each of them.
const EACH: usize = 20;
/// Libraries of each of the two systems of units.
const LIBRARIES: u64 = 250;
/// Of so many libraries one is asked for remedies too: they take most of the time.
const WITH_REMEDIES: u64 = 10;

/// What goes wrong, how often, and with which tool first.
type Wrong = BTreeMap<&'static str, (usize, String)>;

/// A tool with all that is said of it.
struct Told<'r> {
    library: &'r Library,
    assembly: &'r Assembly,
    findings: Vec<&'r Finding>,
    units: Units,
}

impl Told<'_> {
    fn failing(&self) -> impl Iterator<Item = &Finding> {
        let all = self.findings.iter().copied();
        all.filter(|found| found.outcome == Outcome::NotMet)
    }

    fn set(&self) -> Option<f64> {
        self.findings.iter().find_map(|found| found.stick_out)
    }

    /// How exactly lengths are printed, mm.
    fn printed(&self) -> f64 {
        match self.units {
            Units::Metric => 0.11,
            Units::Inch => 0.0011 * 25.4,
        }
    }

    fn in_mm(&self, number: f64) -> f64 {
        match self.units {
            Units::Metric => number,
            Units::Inch => number * 25.4,
        }
    }

    fn now(&self, judge: &Judge<'_>) -> Option<f64> {
        let as_it_is = Overrides::default();
        judge.look_at(self.library, self.assembly, &as_it_is, None, |base| {
            base.field(Field::StickOut).value
        })
    }
}

/// The number behind some words, wherever they stand.
fn numbers(text: &str, before: &str) -> Vec<f64> {
    let behind = text.match_indices(before);
    let behind = behind.filter_map(|(at, words)| text.get(at + words.len()..));
    behind
        .filter_map(|rest| {
            let end = rest.find(|letter: char| !letter.is_ascii_digit() && letter != '.');
            let number = rest.get(..end.unwrap_or(rest.len()))?;
            number.trim_end_matches('.').parse().ok()
        })
        .collect()
}

/// Words by which advice asks for another part before anything else.
const PARTS: [&str; 5] = [
    "take a collet",
    "take another",
    "take cutter",
    "take collet",
    "find a longer",
];

/// The first thing that an advice asks for; what follows are other ways.
fn first(finding: &Finding) -> &str {
    let own = finding.advice.split(". Here: ").last().unwrap_or_default();
    own.split("; or else: ").next().unwrap_or_default()
}

/// The ways that an advice leaves, one of which is to be chosen; the first is how the tool is moved.
fn ways(finding: &Finding) -> Vec<&str> {
    let own = finding.advice.split(". Here: ").next().unwrap_or_default();
    let ways = own.split("; else ").flat_map(|way| way.split(", or "));
    ways.collect()
}

/// One place for the tool, whoever speaks of it.
fn one_place(told: &Told<'_>, judge: &Judge<'_>) -> Option<&'static str> {
    let mut places = told.findings.iter().filter_map(|found| found.stick_out);
    let set = places.next();
    if places.any(|place| Some(place) != set) {
        return Some("two stick-outs are recommended");
    }
    let texts = told.failing().map(first);
    let texts: Vec<&str> = texts.filter(|text| !text.contains("take ")).collect();
    let named = texts
        .iter()
        .flat_map(|text| numbers(text, "set the stick-out to "));
    let named: Vec<f64> = named.map(|number| told.in_mm(number)).collect();
    let near = |a: f64, b: f64| (a - b).abs() <= told.printed();
    if named.iter().any(|a| named.iter().any(|b| !near(*a, *b))) {
        return Some("two stick-outs are named");
    }
    let moves: Vec<&str> = told.failing().map(ways).map(|ways| ways[0]).collect();
    let says = |words: &str| moves.iter().any(|text| text.starts_with(words));
    let (pushed, pulled) = (says("push the tool"), says("pull the tool out"));
    if pushed && pulled {
        return Some("push it in, and pull it out");
    }
    let (set, now) = (set.or(named.first().copied())?, told.now(judge)?);
    let inwards = set < now + told.printed();
    let outwards = set > now - told.printed();
    if pushed && !inwards || pulled && !outwards {
        return Some("moved elsewhere than it is set");
    }
    None
}

/// Either the tool is set anew or it gets another part: no block each.
fn one_cure(told: &Told<'_>) -> Option<&'static str> {
    let of_shape = |found: &&Finding| {
        let topics = ["grip/", "reach/", "suits/"];
        topics.iter().any(|topic| found.rule.starts_with(topic))
            && found.level == Some(Level::Error)
    };
    let mut others = told
        .failing()
        .filter(of_shape)
        .filter(|found| found.stick_out.is_none());
    let part = |found: &Finding| PARTS.iter().any(|words| first(found).starts_with(words));
    if told.set().is_some() && others.any(part) {
        return Some("set it anew in one block, another part in the next");
    }
    let here = told
        .failing()
        .filter_map(|found| found.advice.split_once(". Here: "));
    let mut here = here.map(|(_, here)| here.split(". ").next().unwrap_or_default());
    let one = here.next();
    if here.any(|other| Some(other) != one) {
        return Some("another part in every block");
    }
    None
}

/// Nobody is told to tighten a nut on a tool whose grip is wrong or not known.
fn no_torque_first(told: &Told<'_>) -> Option<&'static str> {
    let grip = [
        "grip/short-grip",
        "grip/below-holder-minimum",
        "grip/screw-misses-flat",
    ];
    let open = told
        .findings
        .iter()
        .any(|found| grip.contains(&found.rule.as_str()));
    let words = |found: &&Finding| {
        let text = found.advice.to_lowercase();
        text.starts_with("tighten")
            || text.contains(" tighten the nut")
            || text.contains("tighten to")
    };
    (open && told.failing().any(|found| words(&found)))
        .then_some("tighten, while the grip is wrong or not known")
}

/// A length that cannot be stops all advice on its tool.
fn nothing_on_nonsense(told: &Told<'_>) -> Option<&'static str> {
    let stops = told
        .failing()
        .any(|found| found.rule == "record/stick-out-beyond-tool");
    let says = |found: &Finding| found.stick_out.is_some() || !found.otherwise.is_empty();
    (stops && told.failing().any(says)).then_some("advice on a tool that sticks out beyond itself")
}

fn rulings<'r>(judge: &'r Judge<'_>, told: &Told<'_>, at: Option<f64>) -> Vec<(&'r str, Ruling)> {
    let overrides = Overrides {
        numbers: at.into_iter().map(|at| (Field::StickOut, at)).collect(),
        ..Overrides::default()
    };
    let all = judge.verdicts(told.library, told.assembly, &overrides);
    let named = all.into_iter();
    named
        .map(|ruling| (judge.book.rules[ruling.rule].id.as_str(), ruling))
        .collect()
}

/// Where the tool is to be set, what was to be cured is, and no new error appears.
fn followed(told: &Told<'_>, judge: &Judge<'_>) -> Option<&'static str> {
    let set = told.set()?;
    let (before, after) = (rulings(judge, told, None), rulings(judge, told, Some(set)));
    let fails = |ruling: &Ruling| ruling.is_error();
    let cured = told.failing().filter(|found| found.stick_out.is_some());
    let cured: Vec<&str> = cured.map(|found| found.rule.as_str()).collect();
    let mut still = after.iter().filter(|(_, ruling)| fails(ruling));
    if still.any(|(id, _)| cured.contains(id)) {
        return Some("what was to be cured still fails");
    }
    let was = |id: &str| {
        before
            .iter()
            .any(|(other, ruling)| *other == id && fails(ruling))
    };
    let mut new = after.iter().filter(|(_, ruling)| fails(ruling));
    new.any(|(id, _)| !was(id))
        .then_some("a new error where it is to be set")
}

/// All that one library's tools are told.
fn look(number: u64, units: Units, setup: &Setup) -> (usize, Wrong) {
    let judge_of = Judge::new(&setup.book, false);
    let seed = number * 2 + u64::from(units == Units::Inch);
    let rows = rows(EACH, 1000 + seed);
    let library = read(&flat(&rows, units), units);
    let mut report: Report = judge(&library, setup, &options());
    let with_remedies = number.is_multiple_of(WITH_REMEDIES);
    let _: Advice = advise(&library, setup, &options(), with_remedies, &mut report);
    let mut wrong = Wrong::new();
    let mut told_something = 0;
    for (at, assembly) in library.assemblies.iter().enumerate() {
        let own = report.findings.iter();
        let told = Told {
            library: &library,
            assembly,
            findings: own
                .filter(|found| found.assembly_index == Some(at))
                .collect(),
            units,
        };
        told_something += usize::from(told.set().is_some());
        let all = [
            one_place(&told, &judge_of),
            one_cure(&told),
            no_torque_first(&told),
            nothing_on_nonsense(&told),
            followed(&told, &judge_of),
        ];
        for what in all.into_iter().flatten() {
            let says = || {
                let failing = told.failing();
                let lines = failing.map(|found| format!("  {}: {}\n", found.rule, found.advice));
                let row = flat(std::slice::from_ref(&rows[at]), units);
                format!("{row}{}", lines.collect::<String>())
            };
            wrong.entry(what).or_insert_with(|| (0, says())).0 += 1;
        }
    }
    (told_something, wrong)
}

fn check(units: Units) {
    let setup = built_in();
    let each = (0..LIBRARIES).into_par_iter();
    let each = each.map(|number| look(number, units, &setup));
    let (told, wrong) = each.reduce(
        || (0, Wrong::new()),
        |(told, mut all), (more, wrong)| {
            for (what, (count, first)) in wrong {
                all.entry(what).or_insert((0, first)).0 += count;
            }
            (told + more, all)
        },
    );
    assert!(told > 300, "{told} stick-outs are recommended");
    let sum: usize = wrong.values().map(|(count, _)| count).sum();
    let words: Vec<String> = wrong
        .iter()
        .map(|(what, (count, first))| format!("{count:5} {what}\n{first}"))
        .collect();
    assert!(wrong.is_empty(), "{sum} contradictions\n{}", words.join(""));
}

#[test]
fn all_advice_can_be_followed_at_once_in_mm() {
    check(Units::Metric);
}

#[test]
fn all_advice_can_be_followed_at_once_in_inch() {
    check(Units::Inch);
}
