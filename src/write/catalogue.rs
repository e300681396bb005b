//! The catalogue of rules, for a terminal and as one Markdown page.

use std::fmt::Write as _;

use crate::rulebook::{Bound, Compares, CuredBy, Level, Limit, Rule, Rulebook};
use crate::text::visible;

use super::Look;
use super::wrap::{lines_visible, wrapped};

/// Each of these rules in one line, then the shared limits that they use.
#[must_use]
pub fn list(rules: &[&Rule], book: &Rulebook, look: Look) -> String {
    let mut text = String::new();
    for rule in rules {
        let (level, id) = (format!("{:<8}", level(rule)), format!("{:<32}", rule.id));
        let line = format!("{level} {id} {}", rule.title);
        let line = visible(&line);
        let (ink, end) = match (look, rule.off, rule.level) {
            (Look::Colour, false, Level::Error) => ("\u{1b}[31m", "\u{1b}[0m"),
            (Look::Colour, false, Level::Warning) => ("\u{1b}[33m", "\u{1b}[0m"),
            _ => ("", ""),
        };
        let (word, rest) = line.split_at(line.find(' ').unwrap_or(0));
        // Writing to a String cannot fail, here and below.
        let _ = writeln!(text, "{ink}{word}{end}{rest}");
    }
    let shared = shared_limits(rules, book);
    if !shared.is_empty() {
        text.push_str("\nLimits that facts or several rules use:\n");
    }
    for limit in shared {
        text.push_str(&lines_visible(&wrapped(&limit_words(limit), 2, 6)));
    }
    text.push_str("\n`shankwise rules RULE` explains one; `--as markdown` prints all as a page.\n");
    text
}

/// The limits of the book that rules share, of these rules: all, where these are all rules.
pub(super) fn shared_limits<'b>(rules: &[&'b Rule], book: &'b Rulebook) -> Vec<&'b Limit> {
    let all = rules.len() == book.rules.len();
    let used = |limit: &&Limit| all || rules.iter().any(|rule| names(rule, limit));
    book.limits.iter().filter(used).collect()
}

/// Whether a condition of the rule has the limit in it.
fn names(rule: &Rule, limit: &Limit) -> bool {
    let mut names = rule.expressions().flat_map(|checked| &checked.symbols);
    names.any(|(name, _)| *name == limit.name)
}

fn level(rule: &Rule) -> &'static str {
    if rule.off { "off" } else { rule.level.name() }
}

fn limit_words(limit: &Limit) -> String {
    let unit = match limit.unit.symbol() {
        "1" => String::new(),
        symbol if limit.written.ends_with(symbol) => String::new(),
        _ => format!(" {}", limit.unit.shown()),
    };
    let source = match limit.source.as_str() {
        "" => "no source".to_owned(),
        source => source.to_owned(),
    };
    let range = match limit.range.words(limit.unit).as_str() {
        "" => String::new(),
        range => format!("; may be set {range}"),
    };
    format!(
        "{} = {}{unit} ({}; {source}{range}): {}",
        limit.name,
        limit.written,
        limit.basis.name(),
        limit.reason
    )
}

/// One rule in full.
#[must_use]
pub fn explain(rule: &Rule, book: &Rulebook) -> String {
    let mut text = format!("{}: {}\n", rule.id, visible(&rule.title));
    let mut say = |label: &str, words: &str| {
        if !words.is_empty() {
            text.push_str(&wrapped(&format!("{label:<14} {words}"), 2, 17));
        }
    };
    say("level", level(rule));
    say("basis", rule.basis.name());
    say("if ignored", rule.consequence.name());
    say("applies when", when(rule));
    say("met when", expect(rule));
    say("bounds", &binds(rule));
    say("counts as", &stands_for(rule));
    say("corrected by", &corrected_by(rule));
    say("doubts", &rule.doubts.join(", "));
    for (name, words) in words(rule) {
        say(name, &words);
    }
    for case in &rule.milder {
        say(&format!("{} when", case.level.name()), &case.when.text);
        let message = case
            .message
            .as_ref()
            .map(crate::rulebook::Template::written);
        say("  then says", &message.unwrap_or_default());
    }
    for case in &rule.certain {
        say("not lowered when", &case.when.text);
        say("  although assumed", &case.despite.join(", "));
    }
    for limit in limits(rule, book) {
        say("limit", &limit_words(limit));
    }
    say("file", &rule.file);
    text
}

fn when(rule: &Rule) -> &str {
    match (&rule.when, &rule.expect) {
        (Some(when), _) => &when.text,
        (None, Some(_)) => "always",
        (None, None) if rule.is_of_record() => "found while the library is read",
        (None, None) => "found when the stick-out limits are worked out",
    }
}

/// Which ends of the stick-out window a rule binds, and under which name.
fn binds(rule: &Rule) -> String {
    let ends = rule.bounds.iter().map(|bound| match bound {
        Bound::StickOutMin => "minimum",
        Bound::StickOutMax => "maximum",
    });
    match ends.collect::<Vec<_>>().join(" and ") {
        ends if ends.is_empty() => ends,
        ends => format!("the {ends} stick-out, as `{}`", rule.binds),
    }
}

/// What its answer means beyond the finding.
fn stands_for(rule: &Rule) -> String {
    let says = [
        (
            rule.stands_for.grip,
            "a tool that it judges has its grip judged",
        ),
        (
            rule.stands_for.reach,
            "a tool that it judges has its reach judged",
        ),
        (
            rule.stands_for.stop,
            "where it is not met, the lengths of the record are wrong: nothing that rests on them is judged or advised",
        ),
    ];
    let says = says.into_iter().filter(|(says, _)| *says);
    says.map(|(_, words)| words).collect::<Vec<_>>().join("; ")
}

fn corrected_by(rule: &Rule) -> String {
    corrections(rule).collect::<Vec<_>>().join(", ")
}

/// What may correct what it finds.
pub(super) fn corrections(rule: &Rule) -> impl Iterator<Item = &'static str> {
    rule.cured_by.iter().map(|by| match by {
        CuredBy::StickOut => "another stick-out",
        CuredBy::Stop => "the stop set elsewhere",
        CuredBy::Length => "a cutter of other lengths",
        CuredBy::Cutter => "another cutter",
        CuredBy::Bore => "another collet",
        CuredBy::Nut => "another nut",
        CuredBy::Holder => "another holder",
        CuredBy::Torque => "another torque",
        CuredBy::Cut => "another cut",
    })
}

/// What parts to buy must have.
pub(super) fn to_buy(rule: &Rule) -> impl Iterator<Item = String> {
    rule.demands.iter().map(|demand| {
        let compares = match demand.compares {
            Compares::AtLeast => ">=",
            Compares::AtMost => "<=",
            Compares::Equals => "==",
        };
        format!("{} {compares} {}", demand.name, demand.number.text)
    })
}

fn expect(rule: &Rule) -> &str {
    rule.expect.as_ref().map_or("", |expect| &expect.text)
}

fn words(rule: &Rule) -> Vec<(&'static str, String)> {
    let all = [
        ("says", &rule.message),
        ("why", &rule.why),
        ("advice", &rule.advice),
        ("if not moved", &rule.without_moving),
        ("besides", &rule.besides),
        ("caution", &rule.caution),
        ("not judged", &rule.unjudged),
    ];
    let written = all.into_iter().map(|(name, words)| (name, words.written()));
    let own = [
        ("to buy", to_buy(rule).collect::<Vec<_>>().join(", ")),
        ("if none left", rule.where_none.clone()),
    ];
    let written = written.chain(own);
    written.filter(|(_, words)| !words.is_empty()).collect()
}

/// The rule's own limits, and the shared ones that it names.
pub(super) fn limits<'b>(rule: &'b Rule, book: &'b Rulebook) -> Vec<&'b Limit> {
    let named = |limit: &&Limit| names(rule, limit);
    rule.limits
        .iter()
        .chain(book.limits.iter().filter(named))
        .collect()
}

/// These rules as one Markdown page.
#[must_use]
pub fn markdown(rules: &[&Rule], book: &Rulebook) -> String {
    let mut page = "# Rules\n\nEvery rule with the level of a finding, when it applies, when it is met, what it says, and the limits with what they rest on. Names in conditions are facts (`shankwise facts --list`) and properties (`shankwise columns`).\n".to_owned();
    let mut topic = "";
    for rule in rules {
        let own = rule.id.split('/').next().unwrap_or_default();
        if own != topic {
            topic = own;
            let _ = write!(page, "\n## {topic}\n");
        }
        page.push_str(&section(rule));
    }
    let shared = shared_limits(rules, book);
    if !shared.is_empty() {
        page.push_str("\n## Limits that facts or several rules use\n\n");
    }
    for limit in shared {
        let _ = writeln!(page, "* {}", limit_words(limit));
    }
    lines_visible(&page).into_owned()
}

fn section(rule: &Rule) -> String {
    let mut text = format!("\n### {}: {}\n\n", rule.id, rule.title);
    let _ = writeln!(
        text,
        "**{}**; basis: {}; if ignored: {}\n",
        level(rule),
        rule.basis.name(),
        rule.consequence.name()
    );
    match (&rule.when, &rule.expect) {
        (Some(when), _) => {
            let _ = writeln!(text, "* applies when `{}`", when.text);
        }
        _ => {
            let _ = writeln!(text, "* applies: {}", when(rule));
        }
    }
    if let Some(expect) = &rule.expect {
        let _ = writeln!(text, "* met when: `{}`", expect.text);
    }
    let lines = [
        ("bounds", binds(rule)),
        ("counts as", stands_for(rule)),
        ("corrected by", corrected_by(rule)),
    ];
    for (name, words) in lines.iter().filter(|(_, words)| !words.is_empty()) {
        let _ = writeln!(text, "* {name}: {words}");
    }
    for (name, words) in words(rule) {
        let _ = writeln!(text, "* {name}: {words}");
    }
    for case in &rule.milder {
        let says = case.message.as_ref().map_or_else(String::new, |message| {
            format!(", and says: {}", message.written())
        });
        let level = case.level.name();
        let _ = writeln!(text, "* {level} when `{}`{says}", case.when.text);
    }
    for case in &rule.certain {
        let despite = case.despite.join(", ");
        let _ = writeln!(
            text,
            "* not lowered when `{}`, although these are assumed: {despite}",
            case.when.text
        );
    }
    for limit in &rule.limits {
        let _ = writeln!(text, "* limit {}", limit_words(limit));
    }
    text
}
