//! Names of files as addresses: relative to where the program ran, unless the user typed an
//! absolute path.

use std::borrow::Cow;
use std::fmt::Write as _;
use std::path::Path;

use serde::Serialize;

/// What relative addresses are relative to: whoever reads the log knows where that lies.
const BASE: &str = "SRCROOT";

/// Where a file is.
#[derive(Serialize)]
#[serde(rename_all = "camelCase")]
pub(super) struct Artifact {
    uri: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    uri_base_id: Option<&'static str>,
}

impl Artifact {
    /// Of a file as it is shown.
    pub(super) fn of(file: &str) -> Artifact {
        let slashed = slashed(file);
        if Path::new(file).is_absolute() {
            // A drive comes before the first slash.
            let root = if slashed.starts_with('/') { "" } else { "/" };
            return Artifact {
                uri: format!("file://{root}{}", encoded(&slashed)),
                uri_base_id: None,
            };
        }
        let plain = slashed.trim_start_matches("./").trim_start_matches('/');
        Artifact {
            uri: encoded(if plain.is_empty() { "." } else { plain }),
            uri_base_id: Some(BASE),
        }
    }
}

fn slashed(file: &str) -> Cow<'_, str> {
    if cfg!(windows) {
        Cow::Owned(file.replace('\\', "/"))
    } else {
        Cow::Borrowed(file)
    }
}

/// All but slashes and what RFC 3986 never reserves is written as bytes in percent.
fn encoded(path: &str) -> String {
    let mut uri = String::with_capacity(path.len());
    for byte in path.bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~/".contains(&byte) {
            uri.push(char::from(byte));
        } else {
            // Writing to a String cannot fail.
            let _ = write!(uri, "%{byte:02X}");
        }
    }
    uri
}
