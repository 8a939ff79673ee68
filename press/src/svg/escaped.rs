//! Text as SVG may carry it.

use std::borrow::Cow;

/// The signs of ASCII that are written as they are.
const PLAIN: [bool; 256] = {
    let mut plain = [false; 256];
    let mut byte = b' ';
    while byte < 0x7F {
        plain[byte as usize] = !matches!(byte, b'&' | b'<' | b'>' | b'"');
        byte += 1;
    }
    plain
};

/// Text made safe for SVG: markup escaped, characters that XML forbids left out.
#[must_use]
pub fn escaped(text: &str) -> Cow<'_, str> {
    if text.bytes().all(|byte| PLAIN[usize::from(byte)]) {
        return text.into();
    }
    let mut safe = String::with_capacity(text.len());
    for sign in text.chars() {
        match sign {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\t' | '\n' | '\r' => safe.push(' '),
            '\u{FFFE}' | '\u{FFFF}' => {}
            _ if sign.is_control() => {}
            _ => safe.push(sign),
        }
    }
    safe.into()
}
