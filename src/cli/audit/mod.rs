//! `shankwise audit`: every library below folders, judged unattended and compared with an earlier
//! audit; what it writes, and the exit status.

mod how_far;
mod joined;
mod judging;
mod left;
mod night;
mod part;
mod plan;
mod present;
mod targets;

use std::fs::File;
use std::io::{self, BufReader, Read, Write as _};
use std::time::Instant;

use rayon::{ThreadPool, ThreadPoolBuilder};

use crate::audit::{Earlier, LOG, NoAudit, Piece, in_order};
use crate::library::Kind;
use crate::write::{Look, parted};

use super::audit_args::AuditArgs;
use super::output::{self, Folder};
use super::refusal::{Refusal, shown};
use super::{COULD_NOT, STACK};
use night::Run;
use part::Parts;
pub(super) use part::{Shard, shard};
pub(super) use plan::Columns;
use plan::Plan;

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
        return Run::of(arguments, look, head)?.written(&parts, folder.as_ref());
    }
    judging(arguments, look, |run, source| {
        match (arguments.shard, &folder) {
            (Some(shard), Some(folder)) => run.part(shard, source, folder),
            _ => run.written(source, folder.as_ref()),
        }
    })
    .unwrap_or_else(|| Ok((COULD_NOT, String::new())))
}

/// Writes the JSON of an audit into a file; the exit status.
pub(super) fn json(arguments: &AuditArgs, file: &File) -> Result<u8, Refusal> {
    let look = output::look_of(arguments.colour.color, None);
    let written = judging(arguments, look, |run, source| {
        let written = file.try_clone().and_then(|file| run.json(source, file));
        written.map_err(|why| cannot_write(arguments, &why))
    });
    written.unwrap_or(Ok(COULD_NOT))
}

/// Looks for libraries, tells what cannot be looked at, and has a run work on them; `None`, told
/// on standard error, if the rules cannot be used.
fn judging<T>(
    arguments: &AuditArgs,
    look: Look,
    work: impl FnOnce(Run<'_>, &dyn Source) -> Result<T, Refusal>,
) -> Option<Result<T, Refusal>> {
    let pool = match pool() {
        Ok(pool) => pool,
        Err(refusal) => return Some(Err(refusal)),
    };
    let plan = pool.install(|| Plan::of(arguments, look))?;
    for one in &plan.tree.unreadable {
        let what = format!("{} {}", shown(&one.file), one.reason);
        Refusal::new(what, "").tell(look);
    }
    let source = Judging {
        plan: &plan,
        pool: &pool,
    };
    let run = Run::of(arguments, look, plan.head.clone());
    Some(run.and_then(|run| work(run, &source)))
}

/// Judges libraries on all cores.
struct Judging<'r> {
    plan: &'r Plan<'r>,
    pool: &'r ThreadPool,
}

impl Source for Judging<'_> {
    fn each(
        &self,
        which: &[usize],
        take: &mut dyn FnMut(usize, &mut dyn Read) -> io::Result<()>,
    ) -> io::Result<()> {
        let number = |at: usize| which.get(at).copied().unwrap_or(usize::MAX);
        let judge = |at: usize, to: &mut Piece| self.plan.judge(number(at), to);
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
    if Kind::Assembly.lies_in(out) {
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
    let (why, hint) = parted(&why);
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
