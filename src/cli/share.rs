//! A share of tools as it is asked for: `90%`, `0.9` or `9/10`.

/// Reads a share, 0 to 1.
pub(super) fn share(text: &str) -> Result<f64, String> {
    let expected = "expected a share of the tools, such as 90%, 0.9 or 9/10";
    let read = |text: &str| text.trim().parse::<f64>().ok();
    let found = if let Some(percent) = text.trim().strip_suffix('%') {
        read(percent).map(|percent| percent / 100.0)
    } else if let Some((part, whole)) = text.split_once('/') {
        read(part)
            .zip(read(whole))
            .map(|(part, whole)| part / whole)
    } else {
        read(text)
    };
    match found {
        None => Err(expected.to_owned()),
        Some(share) if (0.0..=1.0).contains(&share) => Ok(share),
        Some(share) if share > 1.0 && share <= 100.0 && !text.contains(['%', '/']) => Err(format!(
            "{text} is more than all of them; for {text} % write {text}%"
        )),
        Some(_) => Err(format!("it is not between 0 and 1; {expected}")),
    }
}
