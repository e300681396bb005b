//! The findings as a build server shows them: a suite a library, a case a finding.

use std::io::{self, Write};

use quick_xml::Writer;
use quick_xml::events::{BytesDecl, BytesEnd, BytesStart, BytesText, Event};

use crate::audit::{Ended, Found, Noted, Status};
use crate::text::visible;

/// The report, while findings pass by.
pub(crate) struct Junit<W: Write> {
    to: Writer<W>,
    /// The least level that fails: 0 for notes.
    fail_on: usize,
    cases: Vec<Case>,
    counts: [usize; 3],
}

struct Case {
    noted: Noted,
    of: Of,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Of {
    Failure,
    Skipped,
}

/// The rank of a level; `None` if it is not judged.
fn rank(level: &str) -> Option<usize> {
    ["note", "warning", "error"]
        .iter()
        .position(|known| *known == level)
}

impl<W: Write> Junit<W> {
    /// Begins; `fail_on` is the name of the least level that fails.
    ///
    /// # Errors
    /// If it cannot be written, here and below.
    pub(crate) fn begin(to: W, fail_on: &str) -> io::Result<Junit<W>> {
        let mut to = Writer::new(to);
        to.write_event(Event::Decl(BytesDecl::new("1.0", Some("UTF-8"), None)))?;
        let mut root = BytesStart::new("testsuites");
        root.push_attribute(("name", "shankwise"));
        to.write_event(Event::Text(BytesText::new("\n")))?;
        to.write_event(Event::Start(root))?;
        Ok(Junit {
            to,
            fail_on: rank(fail_on).unwrap_or(2),
            cases: Vec::new(),
            counts: [0; 3],
        })
    }

    /// Takes a finding of the present library: one that JSON and SARIF have, too.
    pub(crate) fn finding(&mut self, found: &Found) {
        let noted = &found.noted;
        if noted.is_accepted() || found.sarif.is_empty() {
            return;
        }
        let of = match rank(&noted.level) {
            Some(level) if level >= self.fail_on => Of::Failure,
            None if found.open => Of::Skipped,
            Some(_) | None => return,
        };
        self.cases.push(Case {
            noted: noted.clone(),
            of,
        });
    }

    /// Ends the present library.
    pub(crate) fn library(&mut self, ended: &Ended) -> io::Result<()> {
        let cases = std::mem::take(&mut self.cases);
        let count = |of: Of| cases.iter().filter(|case| case.of == of).count();
        let errors = usize::from(ended.status.is_partial());
        let (failures, skipped) = (count(Of::Failure), count(Of::Skipped));
        let tests = cases.len() + 1;
        let mut suite = BytesStart::new("testsuite");
        suite.push_attribute(("name", safe(&ended.key).as_str()));
        let numbers = [
            ("tests", tests),
            ("failures", failures),
            ("errors", errors),
            ("skipped", skipped),
        ];
        for (name, number) in numbers {
            suite.push_attribute((name, number.to_string().as_str()));
        }
        self.line(Event::Start(suite))?;
        self.reading(ended)?;
        for case in &cases {
            self.case(case)?;
        }
        self.line(Event::End(BytesEnd::new("testsuite")))?;
        for (sum, own) in self.counts.iter_mut().zip([tests, failures, errors]) {
            *sum += own;
        }
        Ok(())
    }

    /// Every suite has a case that passes where the library could be read: one without any would
    /// count as not run.
    fn reading(&mut self, ended: &Ended) -> io::Result<()> {
        let mut case = BytesStart::new("testcase");
        case.push_attribute(("classname", safe(&ended.key).as_str()));
        case.push_attribute(("name", "the library is read"));
        if ended.status == Status::Read {
            return self.line(Event::Empty(case));
        }
        self.line(Event::Start(case))?;
        let why = ended.unreadable.iter().map(|fault| fault.told().message);
        let why = why.chain(ended.failed.clone()).next();
        let mut error = BytesStart::new("error");
        error.push_attribute(("type", ended.status.name()));
        error.push_attribute(("message", safe(&why.unwrap_or_default()).as_str()));
        self.line(Event::Empty(error))?;
        self.line(Event::End(BytesEnd::new("testcase")))
    }

    fn case(&mut self, case: &Case) -> io::Result<()> {
        let noted = &case.noted;
        let tool = match noted.tool_number.as_str() {
            "" => noted.assembly.clone(),
            number => format!("tool {number}"),
        };
        let name = [tool.as_str(), &noted.machine, &noted.operation, &noted.rule];
        let name: Vec<&str> = name.into_iter().filter(|part| !part.is_empty()).collect();
        let mut start = BytesStart::new("testcase");
        start.push_attribute(("classname", safe(&noted.library).as_str()));
        start.push_attribute(("name", safe(&name.join(", ")).as_str()));
        start.push_attribute(("file", safe(&noted.file).as_str()));
        start.push_attribute(("line", noted.line.to_string().as_str()));
        self.line(Event::Start(start))?;
        let of = match case.of {
            Of::Failure => "failure",
            Of::Skipped => "skipped",
        };
        let mut what = BytesStart::new(of);
        what.push_attribute(("message", safe(&noted.message).as_str()));
        if case.of == Of::Failure {
            what.push_attribute(("type", noted.rule.as_str()));
            self.to.write_event(Event::Start(what))?;
            let advice = format!("{}: {}", noted.spot(), noted.advice);
            self.to
                .write_event(Event::Text(BytesText::new(&safe(&advice))))?;
            self.to.write_event(Event::End(BytesEnd::new(of)))?;
        } else {
            self.line(Event::Empty(what))?;
        }
        self.line(Event::End(BytesEnd::new("testcase")))
    }

    fn line(&mut self, event: Event<'_>) -> io::Result<()> {
        self.to.write_event(Event::Text(BytesText::new("\n")))?;
        self.to.write_event(event)
    }

    /// Ends; the writer goes on with whatever comes next.
    pub(crate) fn finish(mut self) -> io::Result<W> {
        self.line(Event::End(BytesEnd::new("testsuites")))?;
        let mut to = self.to.into_inner();
        to.write_all(b"\n")?;
        Ok(to)
    }
}

/// A text that XML may hold: control characters are shown, not written.
fn safe(text: &str) -> String {
    let shown = visible(text);
    let fine = |c: char| !matches!(c, '\0'..='\u{8}' | '\u{b}' | '\u{c}' | '\u{e}'..='\u{1f}' | '\u{fffe}' | '\u{ffff}');
    shown.chars().filter(|c| fine(*c)).collect()
}
