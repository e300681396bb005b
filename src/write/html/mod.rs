//! What all pages have in common: one file that needs nothing else, and lets in nothing but its own
//! style and script.

mod limits_scale;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use sha2::{Digest as _, Sha256};

use super::svg;
pub(super) use super::svg::escaped;
pub(super) use limits_scale::LimitsScale;

/// The colours of all pages, in light, in dark and on paper.
const COLOURS: &str = include_str!("colours.css");

/// A page around its body.
pub(super) struct Frame<'a> {
    /// Its title, which may come from a library.
    pub title: &'a str,
    /// Its own style, besides colours, drawings and scales.
    pub style: &'a str,
    /// Its script; empty where it needs none, and then none runs.
    pub script: &'a str,
}

impl Frame<'_> {
    /// All before the body's text.
    ///
    /// The policy is in the page: it is opened from a mail or a folder, where no server could send
    /// one.
    pub(super) fn head(&self) -> String {
        let style = format!(
            "{COLOURS}{}{}{}",
            self.style,
            svg::STYLE,
            limits_scale::STYLE
        );
        let hash = |text: &str| STANDARD.encode(Sha256::digest(text));
        let script = match self.script {
            "" => "'none'".to_owned(),
            own => format!("'sha256-{}'", hash(own)),
        };
        format!(
            "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\">\
             <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; \
             style-src 'sha256-{}'; script-src {script}; base-uri 'none'; form-action 'none'\">\
             <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\
             <meta name=\"color-scheme\" content=\"light dark\">\
             <title>{}</title><style>{style}</style></head><body><svg class=\"aside\" aria-hidden=\"true\" width=\"0\" height=\"0\">{}</svg>",
            hash(&style),
            escaped(self.title),
            svg::HATCHINGS
        )
    }

    /// All behind the body's text.
    pub(super) fn foot(&self) -> String {
        match self.script {
            "" => "</body></html>\n".to_owned(),
            own => format!("<script>{own}</script></body></html>\n"),
        }
    }
}

/// The beginning of a hash, as people compare it.
pub(super) fn short(hash: &str) -> &str {
    hash.get(..12).unwrap_or(hash)
}
