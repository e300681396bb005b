//! What a document says beside its elements: comments and processing instructions.

use quick_xml::Reader;
use quick_xml::events::Event;

/// The comments of a document, each with the byte at which it begins, and how many processing
/// instructions it has. Of a document that is refused it may be fewer.
#[must_use]
pub fn asides(text: &str) -> (Vec<(u32, String)>, usize) {
    let mut reader = Reader::from_str(text);
    let (mut comments, mut instructions) = (Vec::new(), 0);
    loop {
        let at = u32::try_from(reader.buffer_position()).unwrap_or(u32::MAX);
        match reader.read_event() {
            Ok(Event::Comment(comment)) => {
                let said: &str = comment.as_ref();
                comments.push((at, said.to_owned()));
            }
            Ok(Event::PI(_)) => instructions += 1,
            Ok(Event::Eof) | Err(_) => return (comments, instructions),
            Ok(_) => {}
        }
    }
}
