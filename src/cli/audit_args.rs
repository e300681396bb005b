//! What the command line takes of an audit, and of a page of one.

use std::path::PathBuf;

use clap::Args;

use super::args::{AskedArgs, ColourArgs, DayArgs, SetupArgs};

#[derive(Debug, Default, Args)]
#[expect(
    clippy::struct_excessive_bools,
    reason = "each is an option of its own"
)]
pub(super) struct AuditArgs {
    /// Folders in which libraries are looked for; with --merge, folders with the parts of an audit
    #[arg(value_name = "DIR", required = true)]
    pub paths: Vec<PathBuf>,
    /// Judge only every Nth library, from the Kth on, and write a part of the audit into --out:
    /// audit-K-of-N.part. All parts must see the same files
    #[arg(
        long,
        value_name = "K/N",
        value_parser = super::audit::shard,
        requires = "out",
        conflicts_with_all = ["since", "only_new", "junit"]
    )]
    pub shard: Option<super::audit::Shard>,
    /// Put the parts of an audit together, byte for byte what one run would have written
    #[arg(
        long,
        conflicts_with_all = ["shard", "only", "except", "no_strict", "min_coverage", "remedies", "as_of", "rules", "config"]
    )]
    pub merge: bool,
    /// The earlier audit to compare with: its folder, or its audit.sarif
    #[arg(long, value_name = "DIR|FILE")]
    pub since: Option<PathBuf>,
    /// Write audit.sarif, audit.json, audit.md and findings.csv into this folder, each whole or not
    /// at all; without it only the comment of audit.md is printed
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
    /// Write junit.xml too, for build servers
    #[arg(long, requires = "out")]
    pub junit: bool,
    #[command(flatten)]
    pub setup: SetupArgs,
    #[command(flatten)]
    pub day: DayArgs,
    #[command(flatten)]
    pub asked: AskedArgs,
    /// Lower findings that rest on assumptions, and do not fail when incomplete
    #[arg(long)]
    pub no_strict: bool,
    /// Share of the tools held by a shank on which the grip must be judged in each library, such as
    /// 90% or 0.9; without it one tool is enough
    #[arg(long, value_name = "SHARE", value_parser = super::share::share)]
    pub min_coverage: Option<f64>,
    /// Fail only for what is new, worse or accepted no more since the earlier audit
    #[arg(long)]
    pub only_new: bool,
    /// Look for remedies in the stock, and add them to audit.json
    #[arg(long)]
    pub remedies: bool,
    /// Print nothing but errors of the run; the exit status tells the rest
    #[arg(long, short)]
    pub quiet: bool,
    #[command(flatten)]
    pub colour: ColourArgs,
}

#[derive(Debug, Args)]
pub(super) struct ReportArgs {
    /// Libraries, folders in which libraries are looked for, or the audit.json of audits
    #[arg(value_name = "PATH", required = true)]
    pub paths: Vec<PathBuf>,
    /// Write the page to this file, whole or not at all
    #[arg(long, value_name = "FILE")]
    pub out: PathBuf,
    /// Do not lower findings of libraries that rest on assumptions
    #[arg(long)]
    pub strict: bool,
    #[command(flatten)]
    pub setup: SetupArgs,
    #[command(flatten)]
    pub day: DayArgs,
    #[command(flatten)]
    pub colour: ColourArgs,
}
