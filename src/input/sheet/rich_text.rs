//! Texts of a workbook in Office Open XML, in whole or in pieces.

use super::xml::{Node, Xml};

/// The text of an element that may be in several pieces; how it is spoken is none of it.
pub(super) fn rich(xml: &mut Xml<'_>) -> Result<String, String> {
    let within = xml.depth().saturating_sub(1);
    let mut text = String::new();
    while xml.depth() > within {
        let name = match xml.next()? {
            Node::Open(tag) => tag.local_name().as_ref().to_owned(),
            Node::End => break,
            _ => continue,
        };
        match name.as_str() {
            "t" => xml.text(&mut text)?,
            "rPh" => xml.skip()?,
            _ => {}
        }
    }
    Ok(unescaped(&text))
}

/// A text in which a character that XML cannot hold is written by its number: `_x000D_`.
fn unescaped(text: &str) -> String {
    let mut rest = text;
    let mut plain = String::new();
    while let Some((before, behind)) = rest.split_once("_x") {
        plain.push_str(before);
        let code = behind.split_at_checked(5);
        let code = code.filter(|(code, _)| code.ends_with('_'));
        let character = code.and_then(|(code, _)| {
            let code = u32::from_str_radix(code.trim_end_matches('_'), 16).ok()?;
            char::from_u32(code)
        });
        match (character, code) {
            (Some(character), Some((_, behind))) => {
                // What no text holds is left out.
                if !character.is_control() || character.is_whitespace() {
                    plain.push(character);
                }
                rest = behind;
            }
            _ => {
                plain.push_str("_x");
                rest = behind;
            }
        }
    }
    plain.push_str(rest);
    plain
}

/// The text of the element that was opened last.
pub(super) fn whole(xml: &mut Xml<'_>) -> Result<String, String> {
    let mut text = String::new();
    xml.text(&mut text)?;
    Ok(if text.contains("_x") {
        unescaped(&text)
    } else {
        text
    })
}
