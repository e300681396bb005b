//! What `start` says of a document of assets.

use super::super::wrap::{name, wrapped_to};

/// What was written beside a document of assets.
#[derive(Debug)]
pub(crate) struct AssetsStarted {
    /// The folder as it was named.
    pub folder: String,
    /// The files in it.
    pub files: Vec<String>,
    /// Of how many tools the grip is judged, and of how many it is to be.
    pub judged: Option<(usize, usize)>,
}

fn tools(many: usize) -> String {
    match many {
        1 => "1 tool".to_owned(),
        many => format!("{many} tools"),
    }
}

/// What may be done with a document.
pub(crate) fn assets_described(file: &str, many: usize, width: usize) -> String {
    let shown = name(file);
    let lines = [
        format!(
            "{shown}: {} as assets, whose elements name their properties. Nothing is to be guessed: shankwise lint {shown}",
            tools(many)
        ),
        "Collets and holders are not among assets, but in tables beside them: `--into FOLDER` drafts those."
            .to_owned(),
    ];
    lines
        .iter()
        .map(|line| wrapped_to(width, line, 0, 2))
        .collect()
}

/// What was written, and what to do next.
pub(crate) fn assets_started(started: &AssetsStarted, width: usize) -> String {
    let folder = name(&started.folder);
    let mut text = String::new();
    let mut line = |said: &str, first, rest| text.push_str(&wrapped_to(width, said, first, rest));
    let files = started.files.join(", ");
    line(&format!("Written to {folder}: {files}."), 0, 2);
    if let Some((judged, of)) = started.judged {
        let said = format!("As it is, the grip is judged on {judged} of {of} tools.");
        line(&said, 0, 2);
    }
    line("Next:", 0, 2);
    let steps = [
        format!(
            "1. describe each collet in {folder}/collets.csv and each holder in {folder}/holders.csv, with its gauge length: the stick-out follows from that and the protruding length; `shankwise columns holder` has the words"
        ),
        format!("2. name the collet and the holder of every tool in {folder}/assemblies.csv"),
        format!(
            "3. shankwise lint {folder}; bring a newer document with: shankwise start --refresh FILE --into {folder}"
        ),
    ];
    for step in steps {
        line(&step, 2, 5);
    }
    text
}

/// What changed with a newer document.
pub(crate) fn assets_refreshed(
    folder: &str,
    (before, now): (usize, usize),
    width: usize,
) -> String {
    let folder = name(folder);
    let said = format!(
        "{folder}/assets.xml is the new document: {}, {before} before. All else in {folder} is as it was, and the copy before it is assets.xml.old.",
        tools(now)
    );
    let next = format!("Next: shankwise lint {folder}");
    wrapped_to(width, &said, 0, 2) + &wrapped_to(width, &next, 0, 2)
}
