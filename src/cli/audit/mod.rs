//! `shankwise audit`: every library below folders, judged unattended and compared with an earlier
//! audit; what it writes, and the exit status.

mod how_far;
mod joined;
mod judging;
mod night;
mod part;
mod plan;
mod targets;

use std::fs::File;
use std::io::{self, BufReader, Read, Write as _};
use std::sync::atomic::AtomicUsize;
use std::time::Instant;

use rayon::{ThreadPool, ThreadPoolBuilder};

use crate::audit::{Earlier, LOG, NoAudit, Piece, in_order};
use crate::library::Kind;
use crate::write::parted;

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
fn audit(arguments: &AuditArgs, look: crate::write::Look) -> Result<(u8, String), Refusal> {
    let folder = folder(arguments)?;
    if arguments.merge {
        let parts = Parts::of(&arguments.paths)?;
        let head = parts.head.clone();
        return Run::of(arguments, look, head)?.written(&parts, folder.as_ref());
    }
    let pool = pool()?;
    let Some(plan) = pool.install(|| Plan::of(arguments, look)) else {
        return Ok((COULD_NOT, String::new()));
    };
    for one in &plan.tree.unreadable {
        let what = format!("{} {}", shown(&one.file), one.reason);
        Refusal::new(what, "").tell(look);
    }
    let judging = Judging {
        plan: &plan,
        pool: &pool,
        tools: AtomicUsize::new(0),
    };
    let run = Run::of(arguments, look, plan.head.clone())?;
    match (arguments.shard, &folder) {
        (Some(shard), Some(folder)) => run.part(shard, &judging, folder),
        _ => run.written(&judging, folder.as_ref()),
    }
}

/// Writes the JSON of an audit into a file; the exit status.
pub(super) fn json(arguments: &AuditArgs, file: &File) -> Result<u8, Refusal> {
    let look = output::look_of(arguments.colour.color, None);
    let pool = pool()?;
    let Some(plan) = pool.install(|| Plan::of(arguments, look)) else {
        return Ok(COULD_NOT);
    };
    let judging = Judging {
        plan: &plan,
        pool: &pool,
        tools: AtomicUsize::new(0),
    };
    let own = file.try_clone();
    let written = own.and_then(|file| {
        let run = Run::of(arguments, look, plan.head.clone());
        run.map_err(|refusal| io::Error::other(refusal.message()))?
            .json(&judging, file)
    });
    written.map_err(|why| cannot_write(arguments, &why))
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
    let library = out.join(Kind::Assembly.table());
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
