//! What is said of the run itself: how it ended, and what it could not read or write out.

use serde::Serialize;

use crate::text::{Unread, Unreadable};

use super::message::Message;
use super::place::Location;

/// What is told besides results.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Notice<'a> {
    descriptor: Id<'a>,
    level: &'static str,
    message: Message,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    locations: Vec<Location>,
    #[serde(skip_serializing_if = "Option::is_none")]
    associated_rule: Option<Id<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    properties: Option<Count<'a>>,
}

#[derive(Serialize)]
struct Id<'a> {
    id: &'a str,
    #[serde(skip_serializing_if = "Option::is_none")]
    index: Option<usize>,
}

/// How many results of a rule there are in a library, and how many of them are in the log.
#[derive(Clone, Copy, Serialize)]
pub(super) struct Count<'a> {
    pub library: &'a str,
    pub rule: &'a str,
    pub results: usize,
    pub written: usize,
}

/// The kinds of notices, by their numbers.
#[derive(Clone, Copy)]
enum NoticeKind {
    Unreadable,
    NotRead,
    LeftOut,
}

impl NoticeKind {
    const ALL: [NoticeKind; 3] = [
        NoticeKind::Unreadable,
        NoticeKind::NotRead,
        NoticeKind::LeftOut,
    ];

    const fn id(self) -> &'static str {
        match self {
            NoticeKind::Unreadable => "input/unreadable",
            NoticeKind::NotRead => "input/not-read",
            NoticeKind::LeftOut => "results/left-out",
        }
    }

    const fn words(self) -> &'static str {
        match self {
            NoticeKind::Unreadable => "an input or an option cannot be read",
            NoticeKind::NotRead => "a file that should be part of a library was not read",
            NoticeKind::LeftOut => "a rule has more results in a library than the log holds",
        }
    }
}

/// A kind of notice as the log describes it.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Described {
    id: &'static str,
    short_description: Message,
}

impl Described {
    pub(super) fn all() -> Vec<Described> {
        let all = NoticeKind::ALL.into_iter().map(|kind| Described {
            id: kind.id(),
            short_description: Message::of(kind.words()),
        });
        all.collect()
    }
}

impl<'a> Notice<'a> {
    fn of(
        kind: NoticeKind,
        level: &'static str,
        words: &str,
        locations: Vec<Location>,
    ) -> Notice<'a> {
        Notice {
            descriptor: Id {
                id: kind.id(),
                index: Some(kind as usize),
            },
            level,
            message: Message::of(words),
            locations,
            associated_rule: None,
            properties: None,
        }
    }

    pub(super) fn unreadable(fault: &Unreadable) -> Notice<'a> {
        let Some(file) = &fault.file else {
            return Notice::refused(&fault.message);
        };
        let words = format!("{file}: {}", fault.message);
        let place = Location::of_file(file, fault.position);
        Notice::of(NoticeKind::Unreadable, "error", &words, vec![place])
    }

    pub(super) fn not_read(input: &Unread) -> Notice<'a> {
        let words = format!("{}: {}", input.file, input.reason);
        let place = Location::of_file(&input.file, None);
        Notice::of(NoticeKind::NotRead, "warning", &words, vec![place])
    }

    /// What went wrong apart from any file.
    pub(super) fn refused(words: &str) -> Notice<'a> {
        Notice::of(NoticeKind::Unreadable, "error", words, Vec::new())
    }

    pub(super) fn left_out(count: Count<'a>, rule: Option<usize>) -> Notice<'a> {
        let Count {
            library,
            rule: id,
            results,
            written,
        } = count;
        let words =
            format!("{library}: {results} results of {id}, of which the first {written} are here");
        Notice {
            associated_rule: Some(Id { id, index: rule }),
            properties: Some(count),
            ..Notice::of(NoticeKind::LeftOut, "note", &words, Vec::new())
        }
    }
}
