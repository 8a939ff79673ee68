//! Numbers as a drawing writes them.

/// A number with at most two decimals, no trailing zeros, never "-0".
///
/// What is not finite is written as 0: SVG has no word for it, and a drawing never computes.
#[must_use]
pub fn number(value: f64) -> String {
    written(value, str::to_owned)
}

/// The same, at the end of a text.
pub(super) fn write_number(text: &mut String, value: f64) {
    written(value, |digits| text.push_str(digits));
}

/// Hands on a number as it is written. Whole hundredths, digit by digit from behind: most of a drawing is numbers.
pub(super) fn written<T>(value: f64, to: impl FnOnce(&str) -> T) -> T {
    // Truncating a half more rounds as `round` does, without the call.
    let hundredths = (value.abs() * 100.0 + 0.5) as u64;
    if !value.is_finite() || hundredths == 0 {
        return to("0");
    }
    let mut signs = [0_u8; 24];
    let mut from = signs.len();
    let mut put = |sign: u8| {
        from -= 1;
        signs[from] = sign;
    };
    let digit = |of: u64| b'0' + (of % 10) as u8;
    let (mut whole, cents) = (hundredths / 100, hundredths % 100);
    if cents > 0 {
        if cents % 10 > 0 {
            put(digit(cents));
        }
        put(digit(cents / 10));
        put(b'.');
    }
    loop {
        put(digit(whole));
        whole /= 10;
        if whole == 0 {
            break;
        }
    }
    if value < 0.0 {
        put(b'-');
    }
    to(str::from_utf8(&signs[from..]).unwrap_or_default())
}
