//! One library judged in one call, for other programs: what the command line does, without it.

use std::path::Path;

use crate::advice::advise;
use crate::judge::{Options, Report, Setup, SetupError, judge};
use crate::library::{Input, Loaded, ReadError, load};

/// Why a library could not be judged, or not all of it.
#[derive(Clone, Debug, PartialEq)]
pub enum CheckError {
    /// Its rules or its shop files cannot be used.
    Setup(SetupError),
    /// Inputs that cannot be read.
    Unreadable(Vec<ReadError>),
}

/// Reads a library with the shop files beside and above it, judges it by the built-in rules and works out
/// the stick-outs that correct what fails.
///
/// The report is in memory whole. Who has to judge large libraries makes [sheets](crate::sheet)
/// instead, one after another.
///
/// # Errors
/// If the library, its shop files or the rules that these name cannot be read.
///
/// # Examples
/// ```
/// use std::path::Path;
///
/// use shankwise::judge::{Options, Verdict};
/// use shankwise::rulebook::Date;
///
/// let options = Options::on(Date { year: 2027, month: 1, day: 31 });
/// let report = shankwise::check(Path::new("fixtures/demo"), &options).expect("it can be read");
/// assert_eq!(report.summary.verdict, Verdict::Fails);
/// let worst = report.findings.first().expect("something is found");
/// assert_eq!(worst.level_name(), "error");
/// ```
pub fn check(path: &Path, options: &Options) -> Result<Report, CheckError> {
    let setup = Setup::load(Some(path), None, &[], true)
        .and_then(|setup| setup.check(&options.selection).map(|()| setup))
        .map_err(CheckError::Setup)?;
    let Loaded { library, errors } = load(Input::Path(path), &setup.read_settings());
    let Some(library) = library.filter(|_| errors.is_empty()) else {
        return Err(CheckError::Unreadable(errors));
    };
    let mut report = judge(&library, &setup, options);
    // What it advises stands in the findings.
    let _ = advise(&library, &setup, options, false, &mut report);
    Ok(report)
}
