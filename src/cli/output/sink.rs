//! An output that is written piece by piece: nothing of it is held in memory, and a file appears
//! under its name whole or not at all.

use std::fs::File;
use std::io::{self, BufWriter, ErrorKind, Stdout, Write};

use super::closed;
use super::replace::Pending;
use super::target::Target;
use super::{Destination, signals};

/// Where an output goes while it is written.
pub(in super::super) struct Sink<'a> {
    to: &'a Destination<'a>,
    open: Option<OpenSink>,
    /// Whether what is written goes nowhere: nobody wants it, or the reader has closed its end.
    closed: bool,
    failed: Option<String>,
}

enum OpenSink {
    Stdout(BufWriter<Stdout>),
    Through(BufWriter<File>),
    File(Box<Pending>),
}

impl<'a> Sink<'a> {
    pub(super) const fn of(to: &'a Destination<'a>) -> Sink<'a> {
        Sink {
            to,
            open: None,
            closed: to.is_silent,
            failed: None,
        }
    }

    /// Ends the output; `false`, told on standard error, if it could not be written. Where nothing
    /// was written no file appears: an empty report would look like a clean one, and the last good
    /// one stays.
    pub(in super::super) fn finish(mut self) -> bool {
        let open = self.open.take();
        if let (None, Some(open)) = (&self.failed, open) {
            let ended = match open {
                OpenSink::Stdout(mut out) => out.flush(),
                OpenSink::Through(mut out) => out.flush(),
                OpenSink::File(out) => out.commit(),
            };
            self.failed = quiet_when_closed(ended).err().map(|why| why.to_string());
        }
        let Some(why) = &self.failed else {
            return true;
        };
        self.to.complain(why);
        false
    }

    /// Gives the output up: what was written of it so far does not become a file.
    pub(in super::super) fn fail(&mut self, why: &io::Error) {
        self.failed.get_or_insert_with(|| why.to_string());
    }

    fn opened(&mut self) -> io::Result<&mut OpenSink> {
        if self.open.is_none() {
            signals::refuse_what_is_too_large();
            self.open = Some(match self.to.target()? {
                None | Some(Target::Stdout) => OpenSink::Stdout(BufWriter::new(closed::stdout()?)),
                Some(Target::File { path, old }) => {
                    OpenSink::File(Box::new(Pending::begin(path, old)?))
                }
                Some(Target::Through { path, node }) => {
                    OpenSink::Through(BufWriter::new(Target::through(&path, &node)?))
                }
            });
        }
        self.open.as_mut().ok_or_else(|| ErrorKind::Other.into())
    }

    fn put(&mut self, bytes: &[u8]) -> io::Result<()> {
        if let Some(why) = &self.failed {
            return Err(io::Error::other(why.clone()));
        }
        if self.closed || bytes.is_empty() {
            return Ok(());
        }
        let written = match self.opened()? {
            OpenSink::Stdout(out) => out.write_all(bytes),
            OpenSink::Through(out) => out.write_all(bytes),
            OpenSink::File(out) => return out.write_all(bytes),
        };
        self.closed = matches!(&written, Err(why) if why.kind() == ErrorKind::BrokenPipe);
        quiet_when_closed(written)
    }
}

impl Write for Sink<'_> {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        match self.put(bytes) {
            Ok(()) => Ok(bytes.len()),
            Err(why) => {
                self.fail(&why);
                Err(why)
            }
        }
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// A reader that has seen enough closes the pipe: no error.
fn quiet_when_closed(written: io::Result<()>) -> io::Result<()> {
    match written {
        Err(why) if why.kind() == ErrorKind::BrokenPipe => Ok(()),
        other => other,
    }
}
