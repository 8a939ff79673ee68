//! The glossary: the words of the trade and our own names, from the page of words that the code keeps to.

use serde_json::{Value, json};

const WORDS: &str = include_str!("../../../docs/words.md");

pub(super) fn chapter() -> Value {
    json!({"trade": section("## Words of the trade"), "own": section("## Our own names")})
}

/// Word and meaning of each line of a table, in the order of the page.
fn section(heading: &str) -> Vec<[String; 2]> {
    let after = WORDS.split(heading).nth(1).unwrap_or_default();
    let lines = after.lines().take_while(|line| !line.starts_with("## "));
    let cells = lines.filter_map(|line| line.strip_prefix("| ")).skip(1);
    cells
        .filter_map(|line| {
            let mut cells = line.split(" | ");
            Some([plain(cells.next()?), plain(cells.next()?.trim_end_matches(" |"))])
        })
        .collect()
}

fn plain(text: &str) -> String {
    text.replace('`', "").trim().to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_of_the_page_has_its_meaning() {
        let (trade, own) = (section("## Words of the trade"), section("## Our own names"));
        assert!(trade.len() > 80 && own.len() > 30, "{} and {}", trade.len(), own.len());
        for [word, meaning] in trade.iter().chain(&own) {
            assert!(!word.is_empty() && meaning.len() > 8, "{word}: {meaning}");
        }
    }
}
