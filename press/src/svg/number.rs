//! Numbers as a drawing writes them.

/// A number with at most two decimals, no trailing zeros, never "-0".
///
/// What is not finite is written as 0: SVG has no word for it, and a drawing never computes.
#[must_use]
pub fn number(value: f64) -> String {
    let mut written = String::with_capacity(8);
    write_number(&mut written, value);
    written
}

/// The same, at the end of a text. Whole hundredths are written digit by digit: most of a drawing is numbers.
pub(super) fn write_number(text: &mut String, value: f64) {
    // Truncating a half more rounds as `round` does, without the call.
    let hundredths = (value.abs() * 100.0 + 0.5) as u64;
    if !value.is_finite() || hundredths == 0 {
        text.push('0');
        return;
    }
    if value < 0.0 {
        text.push('-');
    }
    let (whole, cents) = (hundredths / 100, hundredths % 100);
    let mut digits = [0_u8; 20];
    let (mut from, mut rest) = (digits.len(), whole);
    loop {
        from -= 1;
        digits[from] = b'0' + (rest % 10) as u8;
        rest /= 10;
        if rest == 0 {
            break;
        }
    }
    text.push_str(str::from_utf8(&digits[from..]).unwrap_or_default());
    if cents > 0 {
        text.push('.');
        text.push(char::from(b'0' + (cents / 10) as u8));
        if cents % 10 > 0 {
            text.push(char::from(b'0' + (cents % 10) as u8));
        }
    }
}
