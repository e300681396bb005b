//! One run of an audit: libraries arrive in their order, are compared and written; its exit status.

use std::collections::HashSet;
use std::fs::File;
use std::io::{self, Read, Write as _};

use crate::audit::{Baseline, Earlier, Ended, Frame, Known, Pairing};
use crate::text::Unreadable;
use crate::write::audit::{Head, Outputs, Places, Since, Verdict, failed};
use crate::write::{Look, Trouble, parted};

use super::super::audit_args::AuditArgs;
use super::super::lint::meaning;
use super::super::output::{self, Folder, complain};
use super::super::refusal::{Refusal, shown};
use super::super::{COULD_NOT, FAILS, NOTHING_FAILS};
use super::how_far::Progress;
use super::joined::{Compared, FailOn, Failing, Joined};
use super::part::{self, Shard};
use super::targets::{To, commit, json_alone, places};
use super::{Source, cannot_write, earlier, unusable};

/// Libraries are joined, compared and written.
pub(super) struct Run<'a> {
    arguments: &'a AuditArgs,
    look: Look,
    head: Head,
    earlier: Option<(Earlier, Baseline)>,
}

impl<'a> Run<'a> {
    pub(super) fn of(
        arguments: &'a AuditArgs,
        look: Look,
        mut head: Head,
    ) -> Result<Run<'a>, Refusal> {
        let earlier = match earlier(arguments)? {
            Some(earlier) => {
                let baseline = earlier.baseline();
                Some((earlier, baseline.map_err(|why| unusable(arguments, &why))?))
            }
            None => None,
        };
        head.options.only_new = arguments.only_new;
        head.since = earlier.as_ref().map(|(_, baseline)| Since {
            id: baseline.id.clone(),
            day: baseline.day.clone(),
        });
        Ok(Run {
            arguments,
            look,
            head,
            earlier,
        })
    }

    /// Writes a part of the audit.
    pub(super) fn part(
        &self,
        shard: Shard,
        source: &dyn Source,
        folder: &Folder,
    ) -> Result<(u8, String), Refusal> {
        let own = shard.own(self.head.keys.len());
        let progress = Progress::of(self.arguments.quiet, own.len());
        let mut failing = Failing::default();
        let mut written = || {
            let mut to = folder.file(&shard.name())?;
            part::begin(shard, &self.head, &mut to)?;
            source.each(&own, &mut |_, mut from| {
                loop {
                    let frame = Frame::read(&mut from)?;
                    frame.write(&mut to)?;
                    if let Frame::End(ended) = frame {
                        failing.library(&ended);
                        progress.step(&ended, || self.tell_troubles(&ended));
                        return Ok(());
                    }
                }
            })?;
            to.commit()
        };
        written().map_err(|why| cannot_write(self.arguments, &why))?;
        let told = format!("{} of {} libraries", own.len(), self.head.keys.len());
        Ok((self.status(failing), told))
    }

    /// Which libraries of the earlier audit today's are.
    ///
    /// # Errors
    /// If what comes of a library cannot be kept for a moment.
    fn pairing(&self, baseline: &Baseline, source: &dyn Source) -> io::Result<Pairing> {
        let keys = self.head.keys.iter().map(String::as_str);
        let mut pairing = Pairing::by_key(keys, baseline);
        let open = pairing.open(baseline);
        if open.is_empty() {
            return Ok(pairing);
        }
        let mut known: Vec<(usize, Known)> = Vec::new();
        source.each(&open, &mut |at, from| {
            known.push((at, known_of(from)?));
            Ok(())
        })?;
        pairing.complete(&known, baseline);
        Ok(pairing)
    }

    /// Writes everything; the exit status, and what was done.
    pub(super) fn written(
        self,
        source: &dyn Source,
        folder: Option<&Folder>,
    ) -> Result<(u8, String), Refusal> {
        let earlier = self.earlier.as_ref();
        let pairing = earlier.map(|(_, baseline)| self.pairing(baseline, source));
        let pairing = pairing.transpose();
        let pairing = pairing.map_err(|why| cannot_write(self.arguments, &why))?;
        let compared = earlier.zip(pairing.as_ref());
        let compared = compared.map(|((earlier, baseline), pairing)| Compared {
            earlier,
            baseline,
            pairing,
        });
        let written = || {
            let places = places(folder, self.arguments.junit)?;
            let (status, comment, tools, places) = self.joined(source, places, compared)?;
            if let Some(folder) = folder {
                commit(folder, places, &comment)?;
            }
            Ok((status, comment, tools))
        };
        let written = written();
        let (status, comment, tools) = written.map_err(|why| cannot_write(self.arguments, &why))?;
        if !self.arguments.quiet && output::write(&comment, self.look) == COULD_NOT {
            return Ok((COULD_NOT, String::new()));
        }
        let told = format!("{} libraries, {tools} tools", self.head.keys.len());
        Ok((status, told))
    }

    /// Writes JSON alone, compared with nothing; the exit status.
    ///
    /// # Errors
    /// If it cannot be written.
    pub(super) fn json(&self, source: &dyn Source, file: File) -> io::Result<u8> {
        let (status, _, _, places) = self.joined(source, json_alone(file), None)?;
        let mut json = places.json;
        json.flush()?;
        Ok(status)
    }

    fn joined(
        &self,
        source: &dyn Source,
        places: Places<To>,
        compared: Option<Compared<'_>>,
    ) -> io::Result<(u8, String, usize, Places<To>)> {
        let outputs = Outputs::begin(self.head.clone(), places)?;
        let known: HashSet<String> = self.head.rules.iter().map(|(id, _)| id.clone()).collect();
        let options = &self.head.options;
        let fail_on = FailOn {
            level: options.fail_on.clone(),
            incomplete: options.strict,
        };
        let keys = &self.head.keys;
        let mut joined = Joined::of(outputs, compared, known, fail_on);
        let all: Vec<usize> = (0..keys.len()).collect();
        let progress = Progress::of(self.arguments.quiet, all.len());
        let mut tools = 0;
        source.each(&all, &mut |at, mut from| {
            let key = keys.get(at).map_or("", String::as_str);
            let ended = joined.take(at, key, &mut from)?;
            tools += ended.counts.assemblies();
            progress.step(&ended, || self.tell_troubles(&ended));
            Ok(())
        })?;
        drop(progress);
        let (outputs, failing) = joined.finish(keys)?;
        let status = self.status(failing);
        let (comment, places) = outputs.finish(
            (status, status != COULD_NOT, self.meaning(status)),
            self.verdict(failing),
        )?;
        Ok((status, comment, tools, places))
    }

    const fn fails(&self, failing: Failing) -> bool {
        if self.arguments.only_new {
            failing.news || (failing.too_few && self.head.options.min_coverage.is_some())
        } else {
            failing.any
        }
    }

    fn status(&self, failing: Failing) -> u8 {
        if failing.unreadable || !self.head.unreadable.is_empty() {
            COULD_NOT
        } else if self.fails(failing) {
            FAILS
        } else {
            NOTHING_FAILS
        }
    }

    fn verdict(&self, failing: Failing) -> Verdict {
        Verdict {
            fails: self.fails(failing),
            unread: self.status(failing) == COULD_NOT,
        }
    }

    /// What the exit status says.
    const fn meaning(&self, status: u8) -> &'static str {
        match (self.arguments.only_new, status) {
            (true, NOTHING_FAILS) => "nothing new found that fails",
            (true, FAILS) => "something that fails is new, worse or accepted no more",
            _ => meaning(status),
        }
    }

    fn tell_troubles(&self, ended: &Ended) {
        for fault in &ended.unreadable {
            tell(&fault.told(), self.look);
        }
        if let Some(why) = &ended.failed {
            Refusal::new(failed(&ended.input, why), "").tell(self.look);
        }
    }
}

/// What tells a library: its name, and the fingerprints of what was found in it.
fn known_of(mut from: &mut dyn Read) -> io::Result<Known> {
    let mut known = Known::default();
    loop {
        match Frame::read(&mut from)? {
            Frame::Point(_) | Frame::Sheet(_) => {}
            Frame::Finding(found) => {
                let fingerprint = u64::from_str_radix(&found.noted.fingerprint, 16);
                known.fingerprints.extend(fingerprint.ok());
            }
            Frame::End(ended) => {
                known.name = ended.name;
                return Ok(known);
            }
        }
    }
}

/// Tells what could not be read.
fn tell(fault: &Unreadable, look: Look) {
    let file = fault.file.as_deref().unwrap_or_default();
    let at = fault.position;
    let at = at.map_or(String::new(), |at| format!(":{}:{}", at.line, at.column));
    let (what, hint) = parted(&fault.message);
    let what = format!("{}{at}: {what}", shown(file));
    complain(&Trouble::Said { what: &what, hint }, look);
}
