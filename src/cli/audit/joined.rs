//! The libraries of an audit, joined in their order: compared with an earlier one, and written.

use std::collections::HashSet;
use std::io::{self, Read, Write};

use crate::audit::{
    Baseline, Change, Counts, Earlier, Ended, Frame, Matcher, Noted, Pairing, Rest, Status,
};
use crate::sheet::fault_kind;
use crate::write::audit::{LOST, NO_TOOL, NOT_FOUND, Outputs};

use super::left::Left;
use super::present::{Present, Tools};

/// What fails, when all is said.
#[derive(Clone, Copy, Debug, Default)]
#[expect(clippy::struct_excessive_bools, reason = "each is asked alone")]
pub(super) struct Failing {
    /// Whether any library fails, whatever it was before.
    pub any: bool,
    /// Whether anything that fails is new, worse, or accepted no more.
    pub news: bool,
    /// Whether the grip was judged on too few tools in any library.
    pub too_few: bool,
    /// Whether an input could not be read, or the program failed on it.
    pub unreadable: bool,
}

impl Failing {
    /// Takes what is said of a library as a whole.
    pub(super) const fn library(&mut self, ended: &Ended) {
        let Counts { fails, too_few, .. } = ended.counts;
        self.any |= fails;
        self.too_few |= too_few;
        self.unreadable |= ended.status.is_partial();
    }
}

/// Which levels fail, and whether what is incomplete does.
#[derive(Clone, Debug)]
pub(super) struct FailOn {
    pub level: String,
    pub incomplete: bool,
}

/// An earlier audit with what today's libraries were in it.
pub(super) struct Compared<'b> {
    pub earlier: &'b Earlier,
    pub baseline: &'b Baseline,
    pub pairing: &'b Pairing,
}

/// Joins libraries while they arrive.
pub(super) struct Joined<'b, W: Write> {
    outputs: Outputs<W>,
    compared: Option<Compared<'b>>,
    left: Left,
    present: Present,
    /// Rules that are always there, switched on or off.
    known: HashSet<String>,
    fail_on: FailOn,
    failing: Failing,
}

impl<'b, W: Write> Joined<'b, W> {
    pub(super) fn of(
        outputs: Outputs<W>,
        compared: Option<Compared<'b>>,
        known: HashSet<String>,
        fail_on: FailOn,
    ) -> Joined<'b, W> {
        Joined {
            outputs,
            compared,
            left: Left::default(),
            present: Present::default(),
            known,
            fail_on,
            failing: Failing::default(),
        }
    }

    /// Takes library number `at`, piece after piece; what is said of it as a whole.
    ///
    /// # Errors
    /// If it cannot be read or written.
    pub(super) fn take(&mut self, at: usize, key: &str, from: &mut impl Read) -> io::Result<Ended> {
        let mut matcher = self.compared.as_ref().map(|compared| {
            let was = compared.pairing.was.get(at).copied().flatten();
            compared.baseline.matcher(was)
        });
        let mut tools = Tools::default();
        self.outputs.library(key)?;
        loop {
            match Frame::read(from)? {
                Frame::Point(point) => {
                    if matcher.is_some() {
                        self.present.tool(&point, &mut tools);
                    }
                    self.outputs.point(&point);
                }
                Frame::Sheet(sheet) => self.outputs.sheet(&sheet)?,
                Frame::Finding(found) => {
                    let change = matcher
                        .as_mut()
                        .map_or_else(Change::default, |matcher| matcher.compare(&found.noted));
                    self.note(&found.noted, found.open, &change);
                    self.outputs.finding(&found, &change)?;
                }
                Frame::End(ended) => {
                    if self.end(&ended, matcher) {
                        self.keep(at, tools);
                    }
                    self.outputs.end(&ended)?;
                    return Ok(*ended);
                }
            }
        }
    }

    /// Takes down whether a finding that fails is news; without an earlier audit all are.
    fn note(&mut self, noted: &Noted, open: bool, change: &Change) {
        let rank = |level: &str| {
            let all = ["note", "warning", "error"];
            all.iter().position(|known| *known == level)
        };
        let own = rank(&noted.level);
        let fails = own.is_some() && own >= rank(&self.fail_on.level) && !noted.is_accepted();
        let waits = open && self.fail_on.incomplete;
        let is_news = self.compared.is_none() || change.is_news();
        self.failing.news |= (fails || waits) && is_news;
    }

    /// Keeps which tools a library has, under the key that it had.
    fn keep(&mut self, at: usize, tools: Tools) {
        let was = self.compared.as_ref().and_then(|compared| {
            let was = compared.pairing.was.get(at).copied().flatten()?;
            compared.baseline.libraries.get(was)
        });
        if let Some(was) = was {
            self.present.keep(&was.key, tools);
        }
    }

    /// Ends a library; whether any of its findings is gone.
    fn end(&mut self, ended: &Ended, matcher: Option<Matcher<'b>>) -> bool {
        self.failing.library(ended);
        let Some(matcher) = matcher else {
            return false;
        };
        let mut any = false;
        let own: HashSet<&String> = ended.rules.iter().map(|(id, _)| id).collect();
        for Rest { number, rule } in matcher.rest() {
            // A note of days is over when they are: what became of the entry is said by itself.
            if rule == fault_kind::ACCEPTED_ENDS_SOON {
                continue;
            }
            let inactive = ended.inactive.iter().any(|off| off == rule);
            let unknown = !self.known.contains(rule) && !own.iter().any(|id| *id == rule);
            let reason = match ended.status {
                Status::Unreadable => Some("its library could not be read"),
                Status::Failed => Some("the program failed on its library"),
                _ if inactive => Some("its rule is switched off or was not asked for"),
                _ if unknown => Some("there is no such rule any more"),
                Status::InPart => Some("its library could not be read wholly"),
                Status::Read => None,
            };
            let is_gone = reason.is_none();
            self.left.add(number, reason.unwrap_or(NOT_FOUND), is_gone);
            any |= is_gone;
        }
        any
    }

    /// Ends: what is left of the earlier audit is written, then everything that counts all.
    ///
    /// # Errors
    /// If it cannot be read or written.
    pub(super) fn finish(mut self, keys: &[String]) -> io::Result<(Outputs<W>, Failing)> {
        self.outputs.begin_earlier()?;
        let Some(compared) = self.compared.take() else {
            return Ok((self.outputs, self.failing));
        };
        let mut gone_libraries = Vec::new();
        for was in compared.pairing.gone(compared.baseline) {
            let Some(library) = compared.baseline.libraries.get(was) else {
                continue;
            };
            let lost = self.lost(&library.key);
            match &lost {
                None => gone_libraries.push(library.key.clone()),
                Some((why, is_trouble)) => {
                    self.failing.unreadable |= is_trouble;
                    if *is_trouble {
                        self.outputs.story().lost(&library.key, why);
                    }
                }
            }
            let reason = lost.as_ref().map_or("its library is gone", |(why, _)| why);
            let rest = compared.baseline.matcher(Some(was)).rest();
            for Rest { number, .. } in rest {
                self.left.add(number, reason, lost.is_none());
            }
        }
        self.write_left(compared.earlier)?;
        let (mut new, mut moved) = (Vec::new(), Vec::new());
        for (key, was) in keys.iter().zip(&compared.pairing.was) {
            let was = was.and_then(|was| compared.baseline.libraries.get(was));
            match was {
                None => new.push(key.clone()),
                Some(was) if was.key != *key => moved.push((was.key.clone(), key.clone())),
                Some(_) => {}
            }
        }
        self.outputs.story().moves(new, gone_libraries, moved);
        Ok((self.outputs, self.failing))
    }

    /// Why a library of the earlier audit is none today though it may be there, and whether that is
    /// trouble: ignoring it is not.
    fn lost(&self, key: &str) -> Option<(String, bool)> {
        let head = self.outputs.head();
        let within = |other: &str| {
            let rest = key.strip_prefix(other);
            rest.is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
        };
        if head.ignored.iter().any(|one| within(one)) {
            return Some(("its library is ignored".to_owned(), false));
        }
        let mut unreadable = head.unreadable.iter().filter(|one| within(&one.key));
        let passed = head.passed_over.iter().find(|one| one.key == key);
        let one = unreadable.next().or(passed)?;
        let why = format!("{LOST}: {}", one.reason);
        Some((why, true))
    }

    fn write_left(&mut self, earlier: &Earlier) -> io::Result<()> {
        let mut left = std::mem::take(&mut self.left).in_order().peekable();
        if left.peek().is_none() {
            return Ok(());
        }
        let mut at = 0;
        let (outputs, present) = (&mut self.outputs, &self.present);
        earlier.each(|noted| {
            if let Some((_, reason, is_gone)) = left.next_if(|(finding, ..)| *finding == at) {
                let went_with_tool = *reason == *NOT_FOUND && present.lacks(&noted);
                let reason = if went_with_tool { NO_TOOL } else { &*reason };
                outputs.earlier(&noted, is_gone, reason)?;
            }
            at += 1;
            Ok(())
        })
    }
}
