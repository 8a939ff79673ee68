//! A length in the unit and the style of what stood there, rounded to a step that a tape has.

use crate::units::Length;

/// How finely a length is rounded.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// 10 mm, or 1/2 in: what is dragged.
    Drag,
    /// 5 mm, or 1/4 in: the middle of what is dragged by one side.
    Half,
    /// 1 mm, or 1/16 in.
    Fine,
}

/// The units that lengths are written in, and how.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Style {
    Millimetres,
    Centimetres,
    /// With so many decimals at least.
    Metres(usize),
    /// With a point rather than fractions.
    DecimalInches,
    Inches,
    Feet,
}

const INCH: f64 = 0.0254;

impl Step {
    /// One step in the style of what is written.
    #[must_use]
    pub fn length(self, written: &str) -> Length {
        let is_us = matches!(Style::of(written), Style::DecimalInches | Style::Inches | Style::Feet);
        match (is_us, self) {
            (false, Step::Drag) => Length::mm(10.0),
            (false, Step::Half) => Length::mm(5.0),
            (false, Step::Fine) => Length::mm(1.0),
            (true, Step::Drag) => Length::inches(0.5),
            (true, Step::Half) => Length::inches(0.25),
            (true, Step::Fine) => Length::inches(0.0625),
        }
    }
}

impl Style {
    fn of(written: &str) -> Style {
        let decimals =
            written.split_once('.').map_or(0, |(_, after)| after.bytes().take_while(u8::is_ascii_digit).count());
        let words: Vec<&str> =
            written.split(|sign: char| !sign.is_alphabetic()).filter(|word| !word.is_empty()).collect();
        let has = |all: &[&str]| words.iter().any(|word| all.contains(word));
        if has(&["ft", "foot", "feet", "yd", "yds", "yard", "yards"]) || written.contains(['\'', '′', '’']) {
            Style::Feet
        } else if has(&["in", "inch", "inches"]) || written.contains(['"', '″', '”']) {
            if decimals > 0 { Style::DecimalInches } else { Style::Inches }
        } else if has(&["m", "metre", "metres", "meter", "meters"]) {
            Style::Metres(decimals)
        } else if has(&["cm", "centimetre", "centimetres", "centimeter", "centimeters"]) {
            Style::Centimetres
        } else {
            Style::Millimetres
        }
    }
}

/// A length written as another one was: in millimetres, centimetres, metres, inches or feet and inches in fractions, with or
/// without a space before the unit, rounded to a step. Where nothing stood, in millimetres.
#[must_use]
pub fn like(length: Length, written: &str, step: Step) -> String {
    let style = Style::of(written);
    let one = step.length(written).in_m();
    let count = (length.in_m() / one).round();
    let (size, sign) = (count.abs() * one, if count < 0.0 { "-" } else { "" });
    let is_tight = written.contains(|sign: char| sign.is_ascii_digit()) && !written.trim().contains(' ');
    let gap = if is_tight { "" } else { " " };
    let has_marks = written.contains(['\'', '"']) && !written.contains(|sign: char| sign.is_alphabetic());
    let decimal = |value: f64, least: usize, most: usize| {
        let text = format!("{value:.most$}");
        let mut end = text.len();
        while text[..end].ends_with('0') && text[..end].split_once('.').is_some_and(|(_, part)| part.len() > least) {
            end -= 1;
        }
        text[..end].trim_end_matches('.').to_owned()
    };
    match style {
        Style::Millimetres => format!("{sign}{}{gap}mm", decimal(size * 1000.0, 0, 0)),
        Style::Centimetres => format!("{sign}{}{gap}cm", decimal(size * 100.0, 0, 1)),
        Style::Metres(least) => format!("{sign}{}{gap}m", decimal(size, least.min(3), 3)),
        Style::DecimalInches => {
            format!("{sign}{}{gap}{}", decimal(size / INCH, 0, 4), if has_marks { "\"" } else { "in" })
        }
        Style::Inches | Style::Feet => {
            let parts = (size / INCH * 16.0).round() as u64;
            let feet = if style == Style::Feet { parts / 192 } else { 0 };
            let inches = in_parts(parts - feet * 192);
            let words = |value: &str, mark: &str, word: &str| {
                if has_marks { format!("{value}{mark}") } else { format!("{value}{gap}{word}") }
            };
            match (feet, parts - feet * 192) {
                (0, 0) if style == Style::Feet => words("0", "'", "ft"),
                (0, _) => format!("{sign}{}", words(&inches, "\"", "in")),
                (feet, 0) => format!("{sign}{}", words(&feet.to_string(), "'", "ft")),
                (feet, _) if has_marks => format!("{sign}{feet}'-{inches}\""),
                (feet, _) => format!("{sign}{feet}{gap}ft {inches}{gap}in"),
            }
        }
    }
}

/// "17 5/8", from a count of sixteenths of an inch.
fn in_parts(sixteenths: u64) -> String {
    let (whole, mut above, mut below) = (sixteenths / 16, sixteenths % 16, 16);
    while above > 0 && above % 2 == 0 {
        above /= 2;
        below /= 2;
    }
    match (whole, above) {
        (_, 0) => format!("{whole}"),
        (0, _) => format!("{above}/{below}"),
        _ => format!("{whole} {above}/{below}"),
    }
}
