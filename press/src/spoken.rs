//! Names and values of a build as a builder reads them.

use engine::answers::Answers;
use engine::row::Row;

/// A name of the build file as it is said, with blanks.
pub(crate) fn spoken(name: &str) -> String {
    name.replace('-', " ")
}

/// The text with its first letter large.
pub(crate) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A lift as it is said: "lift sills", but "third lift" when its name says already what it is.
pub(crate) fn lift(name: &str) -> String {
    let words = spoken(name);
    if name.split('-').any(|word| word == "lift") { words } else { format!("lift {words}") }
}

/// The value of a row, with a star when it was assumed.
pub(crate) fn marked(answers: &Answers, row: &Row) -> String {
    let star = if row.is_assumed() { " *" } else { "" };
    format!("{}{star}", row.shown(answers.system))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_lift_is_called_one_whatever_its_name() {
        let names = ["lift-2", "third-lift", "sills", "lifted-sill"].map(lift);
        assert_eq!(names, ["lift 2", "third lift", "lift sills", "lift lifted sill"]);
    }
}
