//! Cards for the bench, one a tool, behind a setup sheet with one line a tool: as one HTML file that
//! needs nothing else, or the sheet alone as text. No script, and nothing that is worked out here.

mod card;
mod in_words;
mod line;
mod sheet_text;
mod to_set;

use std::fmt::Write as _;
use std::io::{self, Seek as _, SeekFrom, Write};

use tempfile::SpooledTempFile;

use crate::sheet::{Card, Release, RunRecord};
use crate::units::print::DisplayUnits;

use super::NOTICE;
use super::html::{Frame, escaped, short};
use line::Line;

const STYLE: &str = include_str!("cards.css");

/// What is held in memory of the lines, or of the cards, before it goes to a temporary file, bytes.
const IN_MEMORY: usize = 16 << 20;

/// In which form.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum CardsForm {
    /// The page with sheet and cards.
    Html,
    /// The sheet for a terminal of so many columns.
    Text(usize),
}

/// What stands at the top, and on every card, of the library as a whole.
pub(crate) struct OfCards<'a> {
    /// Its name.
    pub library: &'a str,
    /// The path as it was given.
    pub path: &'a str,
    /// SHA-256 of its files.
    pub digest: &'a str,
    /// The day on which it is judged.
    pub day: &'a str,
    /// The units that its people read.
    pub units: DisplayUnits,
    /// Tool numbers that were asked for and that it lacks.
    pub lacking: &'a [String],
    /// What of it was not read.
    pub unread: &'a [String],
}

/// The card and the line of one tool: made on any thread.
pub(crate) struct OneCard {
    release: Release,
    line: String,
    card: String,
}

impl OneCard {
    /// Writes both.
    pub(crate) fn of(card: &Card, about: &OfCards<'_>, form: CardsForm) -> OneCard {
        let line = Line::of(card, about.units);
        match form {
            CardsForm::Text(width) => OneCard {
                release: card.released.release,
                line: sheet_text::line(&line, width),
                card: String::new(),
            },
            CardsForm::Html => OneCard {
                release: card.released.release,
                line: line.row(),
                card: card::article(card, about),
            },
        }
    }
}

/// How many cards have which stamp.
#[derive(Clone, Copy, Debug, Default)]
struct Counts {
    cards: usize,
    stop: usize,
    not_checked: usize,
    accepted: usize,
}

/// Sheet and cards while they are made: what stands behind the counts waits in temporary files, so
/// that memory does not grow with the library.
pub(crate) struct Cards {
    form: CardsForm,
    counts: Counts,
    lines: SpooledTempFile,
    pairs: SpooledTempFile,
}

impl Cards {
    /// None yet.
    pub(crate) fn begin(form: CardsForm) -> Cards {
        Cards {
            form,
            counts: Counts::default(),
            lines: SpooledTempFile::new(IN_MEMORY),
            pairs: SpooledTempFile::new(IN_MEMORY),
        }
    }

    /// Takes the next tool.
    pub(crate) fn take(&mut self, one: &OneCard) -> io::Result<()> {
        let counts = &mut self.counts;
        counts.cards += 1;
        match one.release {
            Release::DoNotBuild => counts.stop += 1,
            Release::NotReleased => counts.not_checked += 1,
            Release::Accepted => counts.accepted += 1,
            Release::Free => {}
        }
        self.lines.write_all(one.line.as_bytes())?;
        if self.form == CardsForm::Html {
            // Two cards stand side by side, and such a pair is never split.
            let (before, after) = match counts.cards % 2 {
                1 => ("<div class=\"pair\">", ""),
                _ => ("", "</div>\n"),
            };
            for part in [before, &one.card, after] {
                self.pairs.write_all(part.as_bytes())?;
            }
        }
        Ok(())
    }

    /// Whether a card says that its tool must not be built.
    pub(crate) const fn stops(&self) -> bool {
        self.counts.stop > 0
    }

    /// Writes all of it.
    pub(crate) fn finish(
        mut self,
        about: &OfCards<'_>,
        run: &RunRecord,
        to: &mut impl Write,
    ) -> io::Result<()> {
        let counts = said(self.counts);
        if self.form != CardsForm::Html {
            let CardsForm::Text(width) = self.form else {
                return Ok(());
            };
            to.write_all(sheet_text::head(about, &counts, width).as_bytes())?;
            copy(&mut self.lines, to)?;
            return to.write_all(sheet_text::foot(about, width).as_bytes());
        }
        to.write_all(head(about, &counts).as_bytes())?;
        copy(&mut self.lines, to)?;
        to.write_all(behind_lines(about, run).as_bytes())?;
        copy(&mut self.pairs, to)?;
        let open = if self.counts.cards % 2 == 1 {
            "</div>"
        } else {
            ""
        };
        let foot = frame(&title(about)).foot();
        write!(to, "{open}</section></main>{foot}")
    }
}

fn copy(from: &mut SpooledTempFile, to: &mut impl Write) -> io::Result<()> {
    from.seek(SeekFrom::Start(0))?;
    io::copy(from, to).map(drop)
}

/// `45 tools: 17 STOP, 2 NOT CHECKED, 1 ACCEPTED`.
fn said(counts: Counts) -> String {
    let all = [
        (counts.stop, "STOP"),
        (counts.not_checked, "NOT CHECKED"),
        (counts.accepted, "ACCEPTED"),
    ];
    let rest = counts.cards - counts.stop - counts.not_checked - counts.accepted;
    let mut parts: Vec<String> = all
        .into_iter()
        .filter(|(count, _)| *count > 0)
        .map(|(count, word)| format!("{count} {word}"))
        .collect();
    parts.push(format!("{rest} without a stamp"));
    let tools = if counts.cards == 1 { "tool" } else { "tools" };
    format!("{} {tools}: {}", counts.cards, parts.join(", "))
}

fn title(about: &OfCards<'_>) -> String {
    format!("Setup sheet and cards: {}", about.library)
}

const fn frame(title: &str) -> Frame<'_> {
    Frame {
        title,
        style: STYLE,
        script: "",
    }
}

/// All before the lines of the setup sheet.
fn head(about: &OfCards<'_>, counts: &str) -> String {
    let mut page = frame(&title(about)).head();
    page += "<main>\n";
    // Writing to a String cannot fail, here and below.
    let _ = write!(
        page,
        "<section class=\"setup\" aria-labelledby=\"setup\"><h1 id=\"setup\">Setup sheet</h1>\
         <p><b>{}</b> · {} · judged on {}</p><p class=\"counts\">{}</p>",
        escaped(about.library),
        escaped(about.path),
        escaped(about.day),
        escaped(counts)
    );
    for (words, all) in trouble(about) {
        let _ = write!(page, "<p class=\"trouble\"><b>{words}:</b> ");
        page += &all
            .iter()
            .map(|one| escaped(one))
            .collect::<Vec<_>>()
            .join(", ");
        page += "</p>";
    }
    page += "<table><thead><tr><th scope=\"col\">tool</th><th scope=\"col\">what was found</th>\
             <th scope=\"col\">stick-out, recorded</th><th scope=\"col\">mark from the shank end</th>\
             <th scope=\"col\">nut torque</th><th scope=\"col\">machine, pot</th></tr></thead><tbody>\n";
    page
}

/// What is missing, each with its words.
fn trouble<'a>(about: &'a OfCards<'_>) -> Vec<(&'static str, &'a [String])> {
    let all = [
        ("Not in the library", about.lacking),
        ("Not read, so not judged", about.unread),
    ];
    all.into_iter().filter(|(_, all)| !all.is_empty()).collect()
}

/// All between the lines and the first card.
fn behind_lines(about: &OfCards<'_>, run: &RunRecord) -> String {
    format!(
        "</tbody></table><p class=\"soft\">Nothing found: by the rules that were asked, notes aside. \
         It does not mean that a tool is right.</p><p class=\"soft\">{}</p>\
         <p class=\"soft\">library SHA-256 <code>{}</code>; rules <code>{}</code>; shankwise {}. Cards print at \
         98 × 132 mm, four on A4 or Letter: at 100 %, not fitted to the page.</p></section>\n\
         <section class=\"cards\" aria-label=\"cards\">",
        escaped(NOTICE),
        escaped(about.digest),
        escaped(short(&run.rules_sha256)),
        env!("CARGO_PKG_VERSION")
    )
}
