//! `shankwise audit`: every library below folders, judged unattended and compared with an earlier
//! audit; what it writes, and the exit status.

mod joined;
mod library;
mod part;
mod plan;

use std::collections::HashSet;
use std::io::{self, BufReader, IsTerminal as _, Read, Write};
use std::sync::atomic::{AtomicUsize, Ordering};
use std::time::Instant;

use rayon::{ThreadPool, ThreadPoolBuilder};

use crate::audit::{
    Baseline, Earlier, Ended, Frame, Known, LOG, NoAudit, Pairing, Piece, TABLE, in_order,
};
use crate::text::{Position, Unreadable, visible};
use crate::write::audit::{Head, Outputs, Places, Since, failed};
use crate::write::{Look, Trouble};

use super::args::AuditArgs;
use super::output::{self, Files, Folder, complain};
use super::refusal::{Refusal, shown};
use super::{COULD_NOT, FAILS, NOTHING_FAILS, STACK};
use joined::{Compared, FailOn, Failing, Joined};
use part::Parts;
pub(super) use part::{Shard, shard};
use plan::Plan;

/// Files that an audit writes besides its log and its table.
const JSON: &str = "audit.json";
const COMMENT: &str = "audit.md";
const JUNIT: &str = "junit.xml";

/// Judges all libraries; the worst status counts.
pub(super) fn run(arguments: &AuditArgs) -> u8 {
    let look = output::look_of(arguments.colour.color, None);
    let begun = Instant::now();
    match audit(arguments, look) {
        Ok((status, told)) => {
            if !arguments.quiet && !told.is_empty() {
                let seconds = begun.elapsed().as_secs_f64();
                let _ = writeln!(io::stderr(), "{told}, in {seconds:.1} s");
            }
            status
        }
        Err(refusal) => {
            refusal.tell(look);
            COULD_NOT
        }
    }
}

/// Where the pieces of libraries come from: they are judged, or other machines have done so.
trait Source {
    /// Takes what comes of some libraries, in their order.
    fn each(
        &self,
        which: &[usize],
        take: &mut dyn FnMut(usize, &mut dyn Read) -> io::Result<()>,
    ) -> io::Result<()>;
}

/// The exit status, and what was done in a few words.
fn audit(arguments: &AuditArgs, look: Look) -> Result<(u8, String), Refusal> {
    let folder = folder(arguments)?;
    if arguments.merge {
        let parts = Parts::of(&arguments.paths)?;
        let head = parts.head.clone();
        return Join::of(arguments, look, head)?.written(&parts, folder.as_ref());
    }
    let pool = pool()?;
    let Some(plan) = pool.install(|| Plan::of(arguments, look)) else {
        return Ok((COULD_NOT, String::new()));
    };
    for fault in &plan.tree.unreadable {
        tell(fault, look);
    }
    let judging = Judging {
        plan: &plan,
        pool: &pool,
        tools: AtomicUsize::new(0),
    };
    let join = Join::of(arguments, look, plan.head.clone())?;
    match (arguments.shard, &folder) {
        (Some(shard), Some(folder)) => join.part(shard, &judging, folder),
        _ => join.written(&judging, folder.as_ref()),
    }
}

/// Judges libraries on all cores.
struct Judging<'r> {
    plan: &'r Plan<'r>,
    pool: &'r ThreadPool,
    tools: AtomicUsize,
}

impl Source for Judging<'_> {
    fn each(
        &self,
        which: &[usize],
        take: &mut dyn FnMut(usize, &mut dyn Read) -> io::Result<()>,
    ) -> io::Result<()> {
        let number = |at: usize| which.get(at).copied().unwrap_or(usize::MAX);
        let judge = |at: usize, to: &mut Piece| self.plan.judge(number(at), &self.tools, to);
        in_order(
            (which.len(), self.pool.current_num_threads()),
            |at, to| self.pool.install(|| judge(at, to)),
            |at, why, to| self.plan.failed(number(at), why, to),
            |at, piece| take(number(at), &mut BufReader::new(piece)),
        )
    }
}

/// The folder that is written into; locked until the run ends.
fn folder(arguments: &AuditArgs) -> Result<Option<Folder>, Refusal> {
    let Some(out) = &arguments.out else {
        return Ok(None);
    };
    let library = out.join(crate::library::Kind::Assembly.table());
    if library.exists() {
        return Err(Refusal::new(
            format!(
                "cannot write into {}: it is a library",
                shown(&out.display().to_string())
            ),
            "name a folder of its own",
        ));
    }
    let folder = Folder::take(out);
    folder
        .map(Some)
        .map_err(|why| cannot_write(arguments, &why))
}

fn cannot_write(arguments: &AuditArgs, why: &io::Error) -> Refusal {
    let out = arguments.out.as_ref();
    let out = out.map_or_else(
        || "a temporary file".to_owned(),
        |out| out.display().to_string(),
    );
    let why = why.to_string();
    let (why, hint) = crate::write::parted(&why);
    Refusal::new(format!("cannot write {}: {why}", shown(&out)), hint)
}

/// The earlier audit; none the first time, where the folder that it is written into has none yet.
fn earlier(arguments: &AuditArgs) -> Result<Option<Earlier>, Refusal> {
    let Some(since) = &arguments.since else {
        return Ok(None);
    };
    let is_first = arguments.out.as_ref() == Some(since) && !since.join(LOG).exists();
    if is_first {
        return Ok(None);
    }
    Earlier::open(since)
        .map(Some)
        .map_err(|NoAudit { file, why }| {
            Refusal::new(
                format!(
                    "cannot compare with {}: {why}",
                    shown(&file.display().to_string())
                ),
                "name the folder of an earlier audit, or leave --since out",
            )
        })
}

fn unusable(arguments: &AuditArgs, why: &io::Error) -> Refusal {
    let since = arguments.since.as_ref();
    let since = since.map_or(String::new(), |since| since.display().to_string());
    Refusal::new(format!("cannot compare with {}: {why}", shown(&since)), "")
}

fn pool() -> Result<ThreadPool, Refusal> {
    let many = ThreadPoolBuilder::new().stack_size(STACK).build();
    let one = || {
        ThreadPoolBuilder::new()
            .num_threads(1)
            .use_current_thread()
            .build()
    };
    many.or_else(|_| one())
        .map_err(|why| Refusal::new(format!("no thread can be had: {why}"), ""))
}

/// Libraries are joined, compared and written.
struct Join<'a> {
    arguments: &'a AuditArgs,
    look: Look,
    head: Head,
    earlier: Option<(Earlier, Baseline)>,
}

impl<'a> Join<'a> {
    fn of(arguments: &'a AuditArgs, look: Look, mut head: Head) -> Result<Join<'a>, Refusal> {
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
        Ok(Join {
            arguments,
            look,
            head,
            earlier,
        })
    }

    /// Writes a part of the audit.
    fn part(
        &self,
        shard: Shard,
        judging: &Judging<'_>,
        folder: &Folder,
    ) -> Result<(u8, String), Refusal> {
        let own = shard.own(self.head.keys.len());
        let progress = Progress::of(self.arguments.quiet, own.len());
        let mut failing = Failing::default();
        let mut written = || {
            let mut to = folder.file(&shard.name())?;
            part::begin(shard, &self.head, &mut to)?;
            judging.each(&own, &mut |_, mut from| {
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
    fn pairing(&self, baseline: &Baseline, source: &dyn Source) -> Pairing {
        let keys = self.head.keys.iter().map(String::as_str);
        let mut pairing = Pairing::by_key(keys, baseline);
        let open = pairing.open(baseline);
        if open.is_empty() {
            return pairing;
        }
        let mut known: Vec<(usize, Known)> = Vec::new();
        // What cannot be read now cannot be read again: then it is told.
        let _ = source.each(&open, &mut |at, from| {
            known.push((at, known_of(from)?));
            Ok(())
        });
        pairing.complete(&known, baseline);
        pairing
    }

    /// Writes everything; the exit status, and what was done.
    fn written(
        self,
        source: &dyn Source,
        folder: Option<&Folder>,
    ) -> Result<(u8, String), Refusal> {
        let earlier = self.earlier.as_ref();
        let pairing = earlier.map(|(_, baseline)| self.pairing(baseline, source));
        let compared = earlier.zip(pairing.as_ref());
        let compared = compared.map(|((earlier, baseline), pairing)| Compared {
            earlier,
            baseline,
            pairing,
        });
        let joined = self.joined(source, folder, compared);
        let (status, comment, tools) = joined.map_err(|why| cannot_write(self.arguments, &why))?;
        if !self.arguments.quiet && output::write(&comment, self.look) == COULD_NOT {
            return Ok((COULD_NOT, String::new()));
        }
        let told = format!("{} libraries, {tools} tools", self.head.keys.len());
        Ok((status, told))
    }

    fn joined(
        &self,
        source: &dyn Source,
        folder: Option<&Folder>,
        compared: Option<Compared<'_>>,
    ) -> io::Result<(u8, String, usize)> {
        let places = places(folder, self.arguments.junit)?;
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
            (status, status != COULD_NOT, super::lint::meaning(status)),
            self.fails(failing),
        )?;
        if let Some(folder) = folder {
            commit(folder, places, &comment)?;
        }
        Ok((status, comment, tools))
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

    fn tell_troubles(&self, ended: &Ended) {
        for (file, at, message) in &ended.unreadable {
            let fault = Unreadable {
                file: file.clone(),
                position: at.map(|(line, column)| Position { line, column }),
                message: message.clone(),
            };
            tell(&fault, self.look);
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
            Frame::Sheet(_) => {}
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

/// Where an output goes: into a file, or nowhere if no folder was named.
enum To {
    File(Box<Files>),
    Nowhere,
}

impl Write for To {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        match self {
            To::File(file) => file.write(bytes),
            To::Nowhere => Ok(bytes.len()),
        }
    }

    fn flush(&mut self) -> io::Result<()> {
        match self {
            To::File(file) => file.flush(),
            To::Nowhere => Ok(()),
        }
    }
}

fn places(folder: Option<&Folder>, junit: bool) -> io::Result<Places<To>> {
    let to = |name: &str| match folder {
        Some(folder) => folder.file(name).map(|file| To::File(Box::new(file))),
        None => Ok(To::Nowhere),
    };
    Ok(Places {
        sarif: to(LOG)?,
        json: to(JSON)?,
        table: to(TABLE)?,
        junit: junit.then(|| to(JUNIT)).transpose()?,
    })
}

/// All outputs are whole and take their places, the log last: who finds it finds all.
fn commit(folder: &Folder, places: Places<To>, comment: &str) -> io::Result<()> {
    let mut text = folder.file(COMMENT)?;
    text.write_all(comment.as_bytes())?;
    let Places {
        sarif,
        json,
        table,
        junit,
    } = places;
    text.commit()?;
    for to in [Some(json), Some(table), junit, Some(sarif)] {
        if let Some(To::File(file)) = to {
            file.commit()?;
        }
    }
    Ok(())
}

/// Tells what could not be read.
fn tell(fault: &Unreadable, look: Look) {
    let file = fault.file.as_deref().unwrap_or_default();
    let at = fault.position;
    let at = at.map_or(String::new(), |at| format!(":{}:{}", at.line, at.column));
    let (what, hint) = crate::write::parted(&fault.message);
    let what = format!("{}{at}: {what}", shown(file));
    complain(&Trouble::Said { what: &what, hint }, look);
}

/// How far the audit has come: a bar on a terminal, else a line a library.
struct Progress {
    bar: Option<indicatif::ProgressBar>,
    lines: bool,
    many: usize,
    done: AtomicUsize,
}

impl Progress {
    fn of(quiet: bool, many: usize) -> Progress {
        let is_terminal = io::stderr().is_terminal();
        let length = u64::try_from(many).unwrap_or(u64::MAX);
        let bar = (is_terminal && !quiet).then(|| indicatif::ProgressBar::new(length));
        Progress {
            bar,
            lines: !is_terminal && !quiet,
            many,
            done: AtomicUsize::new(0),
        }
    }

    /// One more library is written; `also` is told above the bar.
    fn step(&self, ended: &Ended, also: impl FnOnce()) {
        let done = self.done.fetch_add(1, Ordering::Relaxed) + 1;
        match &self.bar {
            Some(bar) => {
                bar.suspend(also);
                bar.inc(1);
            }
            None => also(),
        }
        if self.lines {
            let [errors, warnings, ..] = ended.counts.levels;
            let _ = writeln!(
                io::stderr(),
                "{done} of {}: {}: {}, {} tools, {errors} errors, {warnings} warnings",
                self.many,
                visible(&ended.key),
                ended.status.name(),
                ended.counts.assemblies()
            );
        }
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
    }
}
